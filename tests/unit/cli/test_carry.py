"""`drawerwright carry JOB`: words for people, JSON for programs, slides side by side, exit codes."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest

from drawerwright.carry import carry_document, carry_job
from drawerwright.catalogue.families import load_families
from drawerwright.files import read_job
from drawerwright.fit import fit_job

Command = Callable[..., Any]

LEAST = {"load", "capacity", "limited_by", "extension", "sag", "reactions", "closing", "tipping", "checks"}


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """One drawer that fits, one that is too heavy for any slide."""
    path = tmp_path / "job.toml"
    opening = "opening = { width = 562, height = 168, depth = 530 }\nside = 16\n"
    path.write_text(
        f'title = "Two drawers"\n[[drawer]]\nid = "A"\n{opening}contents = "20 kg"\n'
        f'[[drawer]]\nid = "B"\n{opening}contents = "900 kg"\n',
        encoding="utf-8",
    )
    return path


def test_a_drawer_is_told_in_words(command: Command, job: Path) -> None:
    ran = command("carry", job, "--drawer", "A")
    assert ran.code == 0, ran.err
    assert "A  on house-16/500, on the cabinet side" in ran.out
    assert "Capacity 45 kg, as the family is rated; 24.9 kg moving: 20.1 kg to spare." in ran.out
    assert "Front sags" in ran.out
    assert "members" in ran.out
    assert "B" not in ran.out.replace("B1", "")


def test_closing_by_itself_is_told_of_the_drawer_let_go_and_the_push_apart(
    command: Command, job: Path
) -> None:
    (told,) = json.loads(command("carry", job, "--drawer", "A", "--json").out)["drawers"]
    closing = told["closing"]
    words = " ".join(command("carry", job, "--drawer", "A").out.split())
    assert closing["time"] != closing["pushed"]["time"]
    assert f"Let go 50 mm from home, it closes by itself in {closing['time']:.1f} s." in words
    assert f"Pushed at 300 mm/s 50 mm from home, it closes in {closing['pushed']['time']:.1f} s" in words


def test_a_drawer_that_wants_a_push_does_not_close_by_itself(
    command: Command, job: Path, tmp_path: Path
) -> None:
    shipped = files("drawerwright.catalogue") / "data" / "families" / "house-16.toml"
    stiff = tmp_path / "stiff.toml"
    text = shipped.read_text(encoding="utf-8")
    stiff.write_text(text.replace("damping = 0.1, drag = 0.008", "damping = 0.056, drag = 0.1"), "utf-8")
    asked = [job, "--drawer", "A", "--slides", stiff]
    (told,) = json.loads(command("carry", *asked, "--json").out)["drawers"]
    assert told["closing"]["pushed"]["closes"]
    assert not told["closing"]["closes"]
    words = " ".join(command("carry", *asked).out.split())
    assert "it does not close by itself: it stays 50 mm open" in words
    assert "it closes by itself" not in words
    assert "Pushed at 300 mm/s 50 mm from home, it closes in" in words


def test_what_stops_is_told_with_a_cure(command: Command, job: Path) -> None:
    ran = command("carry", job)
    assert ran.code == 0
    assert "✗ load" in ran.out
    assert "Less in the drawer" in ran.out
    assert "2 drawers, 1 that fits nothing, 1 with a check that stops." in ran.out


def test_the_json_has_the_keys_of_the_contract(command: Command, job: Path) -> None:
    told = json.loads(command("carry", job, "--json").out)
    assert told["schema"] == "drawerwright/carry/1"
    for drawer in told["drawers"]:
        assert drawer.keys() >= LEAST
    assert set(told["drawers"][0]["reactions"]) == {"upper_rear", "upper_front", "lower_rear", "lower_front"}
    assert set(told["drawers"][0]["closing"]) >= {"closes", "time", "slam_speed", "stall_at"}
    assert told["drawers"][0].keys() == told["drawers"][1].keys()


def test_the_same_job_gives_the_same_bytes(command: Command, job: Path) -> None:
    assert command("carry", job, "--json").out == command("carry", job, "--json").out


def test_a_check_that_stops_ends_with_three_where_strict(command: Command, job: Path) -> None:
    assert command("carry", job, "--strict").code == 3
    assert command("carry", job, "--strict", "--drawer", "A").code == 0


def test_a_drawer_that_fits_nothing_ends_with_three_where_strict_and_is_told_why(
    command: Command, job: Path
) -> None:
    job.write_text(
        '[[drawer]]\nid = "S"\nopening = { width = 100, height = 60, depth = 100 }\nside = 16\n', "utf-8"
    )
    ran = command("carry", job, "--strict")
    words = " ".join(ran.out.split())
    assert ran.code == 3
    assert command("carry", job).code == 0
    assert "S fits nothing" in words
    assert "which does not fit. ✗" in words
    assert "1 drawer, 1 that fits nothing" in words
    assert "to spare" not in words.split("Nearest:")[1]


def test_slides_side_by_side_end_with_three_only_where_a_drawer_fits_on_none_of_them(
    command: Command, job: Path
) -> None:
    opening = "opening = { width = 562, height = 168, depth = 530 }"
    told = f'[[drawer]]\nid = "S"\n{opening}\nside = 16\n'
    asked = ["carry", job, "--strict", "--compare", "house-16/500"]
    job.write_text(told, "utf-8")
    assert command(*asked, "house-16/550").code == 0
    job.write_text(told.replace("depth = 530", "depth = 200"), "utf-8")
    assert command(*asked, "house-16/550").code == 3


def test_an_overloaded_drawer_is_told_what_it_does_on_the_nearest_slide(command: Command, job: Path) -> None:
    heavy = 'contents = "900 kg"\n'
    job.write_text(job.read_text("utf-8").replace(heavy, f'slide = "house-16/500"\n{heavy}'), "utf-8")
    words = " ".join(command("carry", job, "--drawer", "B").out.split())
    assert "B fits nothing" in words
    assert "On the nearest slide, which does not fit: Front sags" in words
    (told,) = json.loads(command("carry", job, "--drawer", "B", "--json").out)["drawers"]
    assert told["slide"] is None
    assert len(told["sag"]) == len(told["reactions"]["lower_front"]) == len(told["extension"]) == 41


def test_a_load_off_the_middle_is_told_in_words(command: Command, job: Path) -> None:
    told = json.loads(command("carry", job, "--drawer", "A", "--off-centre", "100", "--json").out)
    sides = told["drawers"][0]["sides"]
    words = " ".join(command("carry", job, "--drawer", "A", "--off-centre", "100").out.split())
    assert "With the load in the middle the front sags" in words
    assert f"the right slide carries {100 * sides['right']['share']:.0f} %" in words
    assert f"its right end hangs {sides['out_of_level']:.1f} mm deeper" in words
    assert "hangs" not in command("carry", job, "--drawer", "A").out


def test_inches_reach_every_length_speed_and_force(command: Command, job: Path) -> None:
    inch = command("carry", job, "--drawer", "A", "--units", "in", "--off-centre", "100", "--tilt", "3").out
    both = command("carry", job, "--drawer", "A", "--units", "both").out
    assert not re.search(r"\d mm|\d N\b|\d kg", inch)
    assert re.search(r"sags 0\.\d+ in", inch)
    assert re.search(r"Pushed at\s+11\.8\s+in/s", inch)
    assert re.search(r"300\s+mm/s\s+\(11\.8\s+in/s\)", both)
    assert re.search(r"sags [\d.]+ mm \(0\.\d+ in\)", both)


def test_the_balance_of_a_cabinet_is_told_at_its_first_drawer_alone(command: Command, job: Path) -> None:
    opening = "opening = {{ width = 562, height = 168, depth = 530, floor = {} }}\nside = 16\n"
    job.write_text(
        '[[cabinet]]\nid = "F"\ninside_width = 562\nfreestanding = true\nmass = "20 kg"\n'
        "size = { width = 600, height = 900, depth = 560 }\n"
        + "".join(
            f'[[drawer]]\nid = "{id_}"\ncabinet = "F"\n{opening.format(floor)}contents = "20 kg"\n'
            for id_, floor in (("T", 600), ("U", 300))
        ),
        encoding="utf-8",
    )
    words = " ".join(command("carry", job).out.split())
    assert words.count("Anchor it to the wall whatever this says.") == 1
    assert "tipping: cabinet F, as told at T." in words


def test_a_lone_name_that_is_no_family_is_told_so(command: Command, job: Path) -> None:
    ran = command("carry", job, "--compare", "nope", "--json")
    (fault,) = json.loads(ran.out)["errors"]
    assert ran.code == 2
    assert "is not among the slide families" in fault["says"]
    assert fault["try"] != '"auto"'


def test_positions_tilt_offset_and_limit_are_taken(command: Command, job: Path) -> None:
    words = ["--positions", "5", "--tilt", "2", "--off-centre=-1 in", "--sag-limit", "2", "--drawer", "A"]
    (drawer,) = json.loads(command("carry", job, "--json", *words).out)["drawers"]
    assert len(drawer["extension"]) == 5
    assert drawer["closing"]["tilt"] == 2.0
    assert drawer["sides"]["off_centre"] == -25.4
    assert {check["id"]: check["state"] for check in drawer["checks"]}["sag"] == "watch"


@pytest.mark.parametrize(
    ("words", "where"),
    [
        (["--drawer", "Z"], "--drawer"),
        (["--positions", "1"], "--positions"),
        (["--tilt", "45"], "--tilt"),
        (["--off-centre", "wide"], "--off-centre"),
        (["--sag-limit", "0"], "--sag-limit"),
        (["--compare", "house-16"], "--compare"),
        (["house-16"], "command line"),
    ],
)
def test_what_cannot_be_used_is_refused_at_its_option(
    command: Command, job: Path, words: list[str], where: str
) -> None:
    ran = command("carry", job, *words, "--json")
    assert ran.code == 2
    (fault,) = json.loads(ran.out)["errors"]
    assert where in fault["where"]
    assert fault["try"]


def test_options_that_cannot_be_used_are_told_together(command: Command, job: Path) -> None:
    words = ("--drawer", "Z", "--positions", "1", "--tilt", "99", "--off-centre", "wide", "--sag-limit", "0")
    ran = command("carry", job, *words, "--json")
    assert ran.code == 2
    told = [fault["where"].rpartition(" ")[2] for fault in json.loads(ran.out)["errors"]]
    assert told == ["--off-centre", "--sag-limit", "--drawer", "--positions", "--tilt"]


def test_slides_stand_side_by_side(command: Command, job: Path) -> None:
    ran = command("carry", job, "--compare", "house-16", "heavy-19", "side-mounted", "--drawer", "A")
    assert ran.code == 0, ran.err
    for told in ("house-16", "heavy-19", "To spare", "Sag at full out", "side-mounted does not tell"):
        assert told in ran.out
    assert "nan" not in ran.out


def test_slides_side_by_side_as_json_have_each_answer_and_the_figures(command: Command, job: Path) -> None:
    told = json.loads(command("carry", job, "--compare", "house-16", "heavy-19/500", "--json").out)
    assert told["schema"] == "drawerwright/carry-compare/1"
    assert told["slides"] == ["house-16", "heavy-19/500"]
    first = told["drawers"][0]
    assert [answer["asked"] for answer in first["answers"]] == told["slides"]
    figures = {each["figure"]: each for each in first["figures"]}
    assert figures["sag"]["values"] == [answer["sag"][-1] for answer in first["answers"]]
    assert figures["capacity"]["values"] == [45.0, 70.0]
    assert figures["capacity"]["differs"]


def test_two_slides_told_by_their_drawings_alone_are_compared(
    command: Command, job: Path, tmp_path: Path
) -> None:
    """Twice the height is several times the stiffness: the front sags less, by the members alone."""
    text = """
id = "{id}"
capacity = 45
inside_width_deduction = 42
carriages = {{ lower = [130, 370], upper = [130, 370] }}
carriages_for = 500
roller = {{ stiffness = 4000, play = 0 }}
length = [{{ nominal = 500, holes = [0, 416] }}]
"""
    profile = """
[[profile]]
member = "{member}"
points = [[20, {high}], [0, {high}], [0, 0], [20, 0]]
radii = 1.2
thickness = 1.2
steel = {{ yield = 280 }}
"""
    for id_, high in (("low", 10), ("high", 20)):
        sections = [profile.format(member=one, high=high) for one in ("cabinet", "intermediate", "drawer")]
        (tmp_path / f"{id_}.toml").write_text(text.format(id=id_) + "".join(sections), encoding="utf-8")
    paths = [word for id_ in ("low", "high") for word in ("--slides", str(tmp_path / f"{id_}.toml"))]
    told = json.loads(
        command("carry", job, *paths, "--compare", "low", "high", "--json", "--drawer", "A").out
    )
    (drawer,) = told["drawers"]
    low, high = (answer["sag_shares"] for answer in drawer["answers"])
    assert high["rollers"] == pytest.approx(low["rollers"])
    assert 3 < low["members"][-1] / high["members"][-1] < 6
    steel = {each["figure"]: each["values"] for each in drawer["figures"]}["steel"]
    assert steel[0] > 1.5 * steel[1]


def test_the_json_of_carry_is_the_document_of_the_study_on_a_shelf_too(
    command: Command, tmp_path: Path
) -> None:
    path = tmp_path / "shelf.toml"
    rest = 'opening = { width = 562, height = 168, depth = 530 }\nside = 16\ncontents = "20 kg"\n'
    path.write_text(
        f'[[drawer]]\nid = "A"\nmount = "shelf"\n{rest}[[drawer]]\nid = "B"\n{rest}', encoding="utf-8"
    )
    told = json.loads(command("carry", path, "--json").out)
    assert told == carry_document(carry_job(fit_job(read_job(path), load_families())))
    assert [one["shelf"] is not None for one in told["drawers"]] == [True, False]


BANK = "freestanding = true\nsize = { width = 600, height = 800, depth = 560 }\nmass = 35\n"


def test_fit_says_in_a_line_that_a_cabinet_stands_free_and_which_command_weighs_it(
    command: Command, job: Path, tmp_path: Path
) -> None:
    free = tmp_path / "free.toml"
    text = job.read_text(encoding="utf-8").replace('id = "A"', 'id = "A"\ncabinet = "C 1"\nrow = 1')
    free.write_text(f'{text}[[cabinet]]\nid = "C 1"\n{BANK}', encoding="utf-8")
    told = " ".join(command("fit", free).out.split())
    assert told.count("Cabinet C 1 stands free: drawerwright carry says whether it tips.") == 1
    assert "Anchor it to the wall whatever it says; local codes and the maker's own" in told
    assert "stands free" not in command("fit", job).out
    before, after = (json.loads(command("fit", one, "--json").out) for one in (job, free))
    assert before.keys() <= after.keys() | {"columns"}
    assert "tipping" in command("carry", free, "--drawer", "A").out


@pytest.mark.parametrize("contents", [20.05, 20.06, 40.12, 45.0])
def test_what_is_left_of_a_capacity_is_the_margin_of_the_load_wherever_it_is_told(
    command: Command, tmp_path: Path, contents: float
) -> None:
    path = tmp_path / "one.toml"
    opening = "opening = { width = 562, height = 168, depth = 530 }\nside = 16\n"
    path.write_text(f'[[drawer]]\nid = "A"\n{opening}slide = "house-16"\ncontents = {contents}\n', "utf-8")
    (drawer,) = json.loads(command("carry", path, "--json").out)["drawers"]
    load = next(one for one in drawer["checks"] if one["id"] == "load")
    down = math.floor(load["margin"] * 10 + 1e-4) / 10
    left = f"{abs(down):g} kg {'to spare' if down >= 0 else 'too much'}"
    assert left in load["says"]
