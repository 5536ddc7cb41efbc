"""Slides side by side: `fit JOB --compare FAMILY FAMILY …`."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from drawerwright.errors import InputError
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_document, fit_job
from drawerwright.fit.compare import Comparison, compare_slides
from drawerwright.fit.compare_document import compare_document
from drawerwright.model.family import SlideFamily

Command = Callable[..., Any]
Family = Callable[..., SlideFamily]

OPENING = {"width": 562, "height": 168, "depth": 530}


def compared(families: list[SlideFamily], *wanted: str, **keys: Any) -> Comparison:
    drawer = {"id": "A", "opening": OPENING, "side": 16, "contents": 20, **keys}
    return compare_slides(job_from_mapping({"drawer": [drawer]}), families, wanted)


def test_each_answer_is_what_the_drawer_gets_when_it_asks_for_that_slide(family: Family) -> None:
    families = [family(), family(id="weak", capacity=10)]
    comparison = compared(families, "plain-16/400", "weak")
    for slide, answer in zip(comparison.slides, comparison.drawers[0].answers, strict=True):
        drawer = {"id": "A", "opening": OPENING, "side": 16, "contents": 20, "slide": slide}
        asked = fit_job(job_from_mapping({"drawer": [drawer]}), families)
        here = fit_document(asked)["drawers"][0]
        told = compare_document(comparison)["drawers"][0]["answers"][comparison.slides.index(slide)]
        assert told["verdict"] == here["verdict"] == answer.verdict
        assert told["capacity"] == here["capacity"]
        assert (told["box"] is None) == (here["box"] is None)


def test_only_checks_that_come_out_differently_are_told(family: Family) -> None:
    """Two families alike but for the least gap: 5 − 4.5 = 0.5 and 5 − 4 = 1."""
    (drawer,) = compared([family(), family(id="near", min_gap=4)], "plain-16", "near").drawers
    (only,) = drawer.differing
    assert (only.id, only.unit, only.margins, only.states) == ("side-thickness", "mm", (0.5, 1), ("ok", "ok"))


def test_a_check_that_one_slide_does_not_have_differs(family: Family) -> None:
    beside = family(id="beside", carriage="side-mounted", inside_width_deduction=57.4, min_gap=12)
    (drawer,) = compared([family(), beside], "plain-16", "beside").drawers
    latch = {one.id: one for one in drawer.differing}["latch-side"]
    assert latch.margins[1] is None
    assert latch.states == ("ok", None)


def test_what_drawers_ask_for_themselves_counts_for_nothing(family: Family) -> None:
    (drawer,) = compared([family(), family(id="b")], "b", "plain-16/350", slide="plain-16/500").drawers
    assert [answer.slide.length.nominal for answer in drawer.answers if answer.slide] == [500, 350]


def test_prices_are_added_over_what_is_built_and_fits(family: Family) -> None:
    priced = {"length": [{"nominal": 500, "holes": [0, 32], "price": 12.5}]}
    families = [family(**priced), family(id="free"), family(id="weak", capacity=1, **priced)]
    comparison = compared(families, "plain-16", "free", "weak", quantity=4)
    assert [comparison.cost(place) for place in range(3)] == [50, None, 0]
    assert [comparison.fitting(place) for place in range(3)] == [4, 4, 0]


@pytest.mark.parametrize(
    ("wanted", "says"),
    [
        (("plain-16",), "is compared with nothing"),
        ((), "is compared with nothing"),
        (("plain-16", "plain-16"), "is named twice"),
        (("plain-16/500", "plain-16/500.0"), "is named twice"),
        (("plain-16", "plane-16"), "is not among the slide families"),
        (("plain-16", "plain-16/510"), "is not a length of plain-16"),
        (("plain-16", "plain-16/long"), "cannot be read as a length"),
        (("plain-16", "auto"), "names no family of slides"),
    ],
)
def test_slides_that_cannot_be_compared_are_refused(
    wanted: tuple[str, ...], says: str, family: Family
) -> None:
    with pytest.raises(InputError) as refused:
        compared([family()], *wanted)
    assert says in str(refused.value)


def test_faults_of_all_slides_are_told_together(family: Family) -> None:
    with pytest.raises(InputError) as refused:
        compared([family()], "plane", "auto", "plain-16", "plain-16")
    assert len(refused.value.faults) == 3


def test_a_length_is_read_in_the_units_of_the_job(family: Family) -> None:
    inch = family(id="inch", units="mm", length=[{"nominal": 508, "holes": [0, 32]}])
    drawer = {"id": "A", "opening": {"width": 22, "height": 7, "depth": 22}, "side": 0.625}
    job = job_from_mapping({"units": "in", "drawer": [drawer]})
    assert compare_slides(job, [inch, family()], ["inch/20", "plain-16"]).slides == ("inch/508", "plain-16")


def test_progress_runs_once_through_all_slides(family: Family) -> None:
    seen: list[tuple[int, int]] = []
    job = job_from_mapping({"drawer": [{"id": "A", "opening": OPENING, "side": 16}]})
    compare_slides(
        job,
        [family(), family(id="b")],
        ["b", "plain-16"],
        progress=lambda done, all_: seen.append((done, all_)),
    )
    assert seen == [(1, 2), (2, 2)]


def test_json_is_one_document(command: Command, mixed_job: Path) -> None:
    ran = command("fit", mixed_job, "--compare", "house-16", "heavy-19/500", "--json")
    told = json.loads(ran.out)
    assert (ran.code, ran.err) == (0, "")
    assert told["schema"] == "drawerwright/compare/1"
    assert [one["slide"] for one in told["slides"]] == ["house-16", "heavy-19/500"]
    assert [one["fitting"] for one in told["slides"]] == [2, 2]
    good, shallow = told["drawers"]
    assert [one["nominal"] for one in good["answers"]] == [500, 500]
    assert good["answers"][1]["spacers"] == {"side": [], "subfront": [3]}
    assert [one["box"] for one in shallow["answers"]] == [None, None]
    assert all("cabinet-depth" in one["stops"] for one in shallow["answers"])
    assert good["drawing"] is None


def test_slides_may_be_named_by_the_option_each(command: Command, mixed_job: Path) -> None:
    by_option = command("fit", mixed_job, "--compare", "house-16", "--compare", "short-16", "--json")
    after = command("fit", mixed_job, "--compare", "house-16", "short-16", "--json")
    assert by_option.out == after.out


def test_the_table_has_a_row_a_slide_and_what_differs(command: Command, mixed_job: Path) -> None:
    ran = command("fit", mixed_job, "--compare", "house-16", "heavy-19")
    assert ran.code == 0
    assert "house-16   ✓ fits" in ran.out
    assert "capacity: house-16 ✓" in ran.out
    assert "house-16: 2 drawers fit, the slides for" in ran.out


@pytest.mark.parametrize("units", ["mm", "in", "both"])
def test_it_is_told_in_every_unit(units: str, command: Command, mixed_job: Path) -> None:
    ran = command("fit", mixed_job, "--compare", "house-16", "short-16", "--units", units)
    assert ran.code == 0
    assert ("in" in ran.out.split()) == (units != "mm")


def test_drawings_are_written_a_drawer(command: Command, mixed_job: Path, tmp_path: Path) -> None:
    out = tmp_path / "drawings"
    ran = command("fit", mixed_job, "--compare", "house-16", "heavy-19", "--out", out, "--json")
    assert sorted(path.name for path in out.iterdir()) == ["good.svg", "shallow.svg"]
    assert [one["drawing"] for one in json.loads(ran.out)["drawers"]] == ["good.svg", "shallow.svg"]
    text = (out / "good.svg").read_text(encoding="utf-8")
    words = [element.text for element in ElementTree.fromstring(text).iter() if element.text]
    assert any(word.startswith("house-16: fits, 1 : ") for word in words)
    assert any(word.startswith("heavy-19: fits, 1 : ") for word in words)
    again = command("fit", mixed_job, "--compare", "house-16", "heavy-19", "--out", tmp_path / "more")
    assert again.code == 0
    assert (tmp_path / "more" / "good.svg").read_text(encoding="utf-8") == text


def test_a_drawing_that_is_there_is_left_as_it_is(command: Command, mixed_job: Path, tmp_path: Path) -> None:
    (tmp_path / "good.svg").write_text("mine", encoding="utf-8")
    ran = command("fit", mixed_job, "--compare", "house-16", "short-16", "--out", tmp_path)
    assert ran.code == 2
    assert "is there already" in ran.err
    assert (tmp_path / "good.svg").read_text(encoding="utf-8") == "mine"
    assert not (tmp_path / "shallow.svg").exists()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--compare", "house-16"), "is compared with nothing"),
        (("--compare", "house-16", "house-17"), "is not among the slide families"),
        (("--compare", "house-16", "short-16", "--explain"), "does not go with --compare"),
        (("--compare", "house-16", "short-16", "--cheapest"), "does not go with --compare"),
        (("--out", "somewhere"), "goes with --compare"),
        (("house-16",), "is more than this command takes"),
    ],
)
def test_what_does_not_go_together_is_refused(
    words: tuple[str, ...], says: str, command: Command, mixed_job: Path
) -> None:
    ran = command("fit", mixed_job, *words)
    assert (ran.code, ran.out) == (2, "")
    assert says in ran.err


def test_strict_minds_a_drawer_that_fits_on_none(command: Command, mixed_job: Path) -> None:
    assert command("fit", mixed_job, "--compare", "house-16", "short-16", "--strict").code == 3
