"""`fit` with an aim for the whole job: what it tells people and programs, and what it refuses."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from drawerwright.cli.whole_job_words import whole_job_words
from drawerwright.fit.whole_job import Moved, Tally, WholeJobChoice

AIMS = ("--fewest-lengths", "--cheapest", "--fewest-setups")


@pytest.fixture
def three_depths(tmp_path: Path) -> Path:
    """Three drawers of one width that get three lengths when each is chosen for alone."""
    drawers = "".join(
        f'[[drawer]]\nid = "D{depth}"\nside = 16\n'
        f"opening = {{ width = 562, height = 168, depth = {depth} }}\n"
        for depth in (480, 530, 580)
    )
    path = tmp_path / "three.toml"
    path.write_text(drawers, encoding="utf-8")
    return path


def test_json_gets_the_choice_and_keeps_the_rest(command, three_depths) -> None:
    plain = json.loads(command("fit", three_depths, "--json").out)
    ran = command("fit", three_depths, "--fewest-lengths", "--lose-at-most", "10 cm", "--json")
    told = json.loads(ran.out)
    assert (ran.code, ran.err) == (0, "")
    assert list(told) == ["schema", "title", "whole_job", "columns", "drawers"]
    assert "whole_job" not in plain
    assert (told["whole_job"]["lengths"], told["whole_job"]["free_choice"]["lengths"]) == (1, 3)
    assert told["whole_job"]["box_length_lost"] == {"sum": 150, "most": 100}
    assert {one["slide"]["nominal"] for one in told["drawers"]} == {450}
    assert told["drawers"][0]["box"] == plain["drawers"][0]["box"]


def test_people_read_what_it_costs_and_what_to_order(command, three_depths) -> None:
    out = " ".join(command("fit", three_depths, "--fewest-lengths", "--lose-at-most", "100").out.split())
    assert "Whole job, fewest lengths: 1 to order instead of 3; proven best." in out
    assert "2 boxes get shorter, by 100 mm at most and 150 mm together" in out
    assert "Pairs of slides to order: house-16/450 × 3." in out


@pytest.mark.parametrize("aim", AIMS)
def test_the_same_words_come_out_twice(command, three_depths, aim: str) -> None:
    assert command("fit", three_depths, aim).out == command("fit", three_depths, aim).out


def test_a_search_that_was_cut_off_says_the_least_that_could_be() -> None:
    tally = Tally(((("plain-16", 500.0), 4),), None, 2, 7)
    moved = (Moved("A", 2, ("plain-16", 550.0), ("plain-16", 500.0), 50.0, 0.0),)
    choice = WholeJobChoice("fewest-setups", 9, 8, False, False, tally, tally, moved)
    first, second, last = whole_job_words(choice, "in")
    assert "2 boring patterns and 7 fence settings" in first
    assert first.endswith("the search was cut off: 8 is the least that could be.")
    assert "2 boxes get shorter, by 1 31/32 in at most and 3 15/16 in together" in second
    assert last == "Pairs of slides to order: plain-16/500 × 4."


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--cheapest", "--fewest-setups"], "--cheapest --fewest-setups exclude each other"),
        (["--lose-at-most", "50"], "--lose-at-most goes with an aim"),
        (["--cheapest", "--lose-at-most", "some"], '--lose-at-most: "some" cannot be read as a length'),
        (["--cheapest", "--lose-at-most", "-5"], '--lose-at-most: "-5"'),
    ],
)
def test_options_that_cannot_be_used_are_named(command, three_depths, options: list[str], said: str) -> None:
    ran = command("fit", three_depths, *options)
    assert (ran.code, ran.out) == (2, "")
    assert said in ran.err


def test_a_bare_limit_is_in_the_units_of_the_job(command, three_depths) -> None:
    text = three_depths.read_text(encoding="utf-8")
    inches = three_depths.with_name("inches.toml")
    quoted = text.replace("562", '"562 mm"').replace("168", '"168 mm"').replace("side = 16", 'side = "16 mm"')
    for depth in (480, 530, 580):
        quoted = quoted.replace(f"depth = {depth}", f'depth = "{depth} mm"')
    inches.write_text(f'units = "in"\n{quoted}', encoding="utf-8")
    by_two = json.loads(command("fit", inches, "--fewest-lengths", "--lose-at-most", "2", "--json").out)
    same = json.loads(
        command("fit", three_depths, "--fewest-lengths", "--lose-at-most", "50.8", "--json").out
    )
    assert by_two["whole_job"] == same["whole_job"]
    assert by_two["whole_job"]["lengths"] == 2
