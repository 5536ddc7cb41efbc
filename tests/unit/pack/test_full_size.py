"""Templates at full size: which a drawer wants, and which drawers share one paper."""

from __future__ import annotations

from typing import Any

from drawerwright.catalogue import families_from_mappings
from drawerwright.drawing.primitives import Text
from drawerwright.drawing.tiles import page_count
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.pack.distinct import distinct_drawers
from drawerwright.pack.full_size import Template, full_size_templates, template_pages
from drawerwright.pack.papers import papers
from drawerwright.pack.shown import Shown

FAMILY = {
    "id": "plain-16",
    "invented": True,
    "capacity": "45 kg",
    "inside_width_deduction": 42,
    "length": [{"nominal": 500, "holes": [0, 32, 224], "slots": [16]}],
}
BESIDE = {
    **FAMILY,
    "id": "beside",
    "carriage": "side-mounted",
    "inside_width_deduction": 57.4,
    "design_side": 16,
}
OPENING = {"width": 562, "height": 168, "depth": 530}
FRONT = {"style": "overlay"}


def templates(*drawers: dict[str, Any], family: dict[str, Any] = FAMILY) -> dict[str, list[Template]]:
    told = [{"opening": OPENING, "side": 16, **drawer} for drawer in drawers]
    fitted = fit_job(job_from_mapping({"drawer": told}), families_from_mappings([family]))
    assert all(drawer.slide is not None for drawer in fitted.drawers)
    found: dict[str, list[Template]] = {}
    for one in full_size_templates(distinct_drawers(fitted), Shown()):
        found.setdefault(one.name, []).append(one)
    return found


def test_a_drawer_with_a_front_wants_six_templates() -> None:
    found = templates({"id": "A", "front": FRONT})
    assert list(found) == [
        "Row holes, left", "Row holes, right", "Box back", "Locking bracket, left", "Locking bracket, right",
        "Front fixing",
    ]  # fmt: skip


def test_a_drawer_without_a_front_wants_none_for_fixing_it() -> None:
    assert "Front fixing" not in templates({"id": "A"})


def test_drawers_of_other_widths_share_what_is_bored_alike_and_the_paper_names_them() -> None:
    found = templates({"id": "A"}, {"id": "B", "opening": {**OPENING, "width": 700}})
    assert [one.ids for one in found["Row holes, left"]] == [("A", "B")]
    assert [one.ids for one in found["Locking bracket, left"]] == [("A", "B")]
    assert "A, B" in found["Row holes, left"][0].scene.title


def test_a_spacer_makes_another_bracket_template() -> None:
    found = templates({"id": "A"}, {"id": "B", "subfront": 12.7})
    assert [one.ids for one in found["Row holes, left"]] == [("A", "B")]
    assert [one.ids for one in found["Locking bracket, left"]] == [("A",), ("B",)]


def test_left_and_right_papers_are_never_the_same() -> None:
    found = templates({"id": "A"})
    (left,), (right,) = found["Row holes, left"], found["Row holes, right"]
    assert left.scene.primitives != right.scene.primitives


def test_slides_beside_the_box_want_no_bores_in_it() -> None:
    assert set(templates({"id": "A"}, family=BESIDE)) == {"Row holes, left", "Row holes, right"}


def test_paper_lies_the_way_that_takes_fewer_pages() -> None:
    found = templates({"id": "A", "front": FRONT, "opening": {**OPENING, "height": 320}})
    (holes,), (front,) = found["Row holes, left"], found["Front fixing"]
    pages, across = template_pages(holes.scene, papers()["a4"])
    assert (len(pages), across) == (1, True)
    pages, across = template_pages(front.scene, papers()["a4"])
    long, short = papers()["a4"].width - 16.0, papers()["a4"].height - 16.0
    assert len(pages) == min(page_count(front.scene, long, short), page_count(front.scene, short, long))
    assert across == (page_count(front.scene, long, short) <= page_count(front.scene, short, long))


def test_templates_are_lettered_to_the_finest_fraction_that_is_asked_for() -> None:
    """First row hole 37 mm behind the front edge: 1.4567 in, 46.61 thirty-seconds, 93.23 sixty-fourths."""
    told = {"id": "A", "opening": OPENING, "side": 16, "front": FRONT}
    fitted = fit_job(job_from_mapping({"drawer": [told]}), families_from_mappings([FAMILY]))
    for parts, says in ((32, "37 mm (1-15/32″)"), (64, "37 mm (1-29/64″)")):
        found = full_size_templates(distinct_drawers(fitted), Shown("in", parts))  # type: ignore[arg-type]
        row = next(one.scene for one in found if one.name == "Row holes, left")
        assert says in [each.text for each in row.primitives if isinstance(each, Text)]
