"""What a check advises makes its fault smaller, whichever way it is broken."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.conftest import plain_drawer, plain_family

from drawerwright.equations.equation import collect
from drawerwright.equations.trade import LAYERS
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import Check

ONE_LENGTH = [{"nominal": 500, "holes": [0, 32, 224, 416], "shelf_holes": [60, 400]}]
FRAMED = {"construction": "face-frame", "frame": {"left": 38, "right": 41, "thickness": 19}}
OLD_BOX = {"inside_width": 520, "outside_width": 552, "length": 500, "height": 140}
FRONTED = {"style": "overlay", "overlay": 16}
INSET = {"style": "inset"}
TWISTED = {"front_top": 454.42, "front_bottom": 454.97, "back_top": 451.42, "back_bottom": 453.94}
CUT_OUT = {"width": 460, "depth": 200}


def old_box(**keys: Any) -> dict[str, Any]:
    return {"existing_box": {**OLD_BOX, **keys}}


@dataclass(frozen=True)
class Advised:
    """A fault, a piece of its advice, and the same drawer with the advice taken."""

    check: str
    words: str
    broken: dict[str, Any] = field(default_factory=dict)
    family: dict[str, Any] = field(default_factory=dict)
    taken: dict[str, Any] = field(default_factory=dict)
    taken_family: dict[str, Any] = field(default_factory=dict)


ADVICE = [
    Advised(
        "mount",
        "tell them in the family",
        {},
        {"length": [{"nominal": 500, "holes": [0]}]},
        {},
        {"length": [{"nominal": 500, "holes": [0, 32]}]},
    ),
    Advised("side-thickness", "thinner sides", {"side": 19}, {}, {"side": 16}),
    Advised("side-thickness", "narrower box", {**old_box(outside_width=556)}, {}, {**old_box()}),
    Advised(
        "side-thickness", "family that has more room", {"side": 19}, {}, {}, {"inside_width_deduction": 49}
    ),
    Advised(
        "latch-side",
        "3 mm more of spacers",
        {"size_from": "outside", "side": 13},
        {"spacers": []},
        {},
        {"spacers": [3]},
    ),
    Advised(
        "latch-side",
        "cut to the inside width",
        {"size_from": "outside", "side": 13},
        {"spacers": []},
        {"size_from": "inside"},
    ),
    Advised(
        "latch-side",
        "Spacers thinner by 1.4 mm",
        {**old_box(inside_width=523.2)},
        {"spacers": [3]},
        {},
        {"spacers": [1.6]},
    ),
    Advised(
        "latch-side",
        "No spacer helps: pack each member out by 1.5 mm",
        {**old_box(inside_width=517)},
        {"spacers": [3]},
        {"lost": {"left": 1.5, "right": 1.5}},
    ),
    Advised(
        "latch-side",
        "cut the box to the inside width",
        {**old_box(inside_width=517)},
        {},
        {**old_box(inside_width=520)},
    ),
    Advised(
        "latch-along", "3.3 mm more of spacers", {"subfront": 12.7}, {"spacers": []}, {}, {"spacers": [3]}
    ),
    Advised("latch-along", "a subfront nearer 16 mm", {"subfront": 12.7}, {"spacers": []}, {"subfront": 15}),
    Advised(
        "latch-along",
        "Spacers thinner by 1.4 mm",
        {"subfront": 14.4},
        {"spacers": [3]},
        {},
        {"spacers": [1.6]},
    ),
    Advised(
        "latch-along",
        "No spacer helps: a subfront 3 mm thinner seats them",
        {"subfront": 19},
        {"spacers": [3]},
        {"subfront": 16},
    ),
    Advised("box-length", "a box cut or built up", {**old_box(length=495)}, {}, {**old_box(length=500)}),
    Advised("cabinet-depth", "more depth", {"opening": {"depth": 480}}, {}, {"opening": {"depth": 490}}),
    Advised(
        "opening-width",
        "Pack the members out by 1.5 mm in all",
        {**old_box(inside_width=517)},
        {},
        {"lost": {"left": 0.75, "right": 0.75}},
    ),
    Advised(
        "opening-width",
        "make the box wider",
        {**old_box(inside_width=517)},
        {},
        {**old_box(inside_width=518.5)},
    ),
    Advised(
        "opening-width",
        "Make the box narrower by 2 mm",
        {**old_box(inside_width=523)},
        {},
        {**old_box(inside_width=521)},
    ),
    Advised(
        "opening-width", "lay spacers of half of it", {**old_box(inside_width=523)}, {}, {}, {"spacers": [1]}
    ),
    Advised(
        "opening-width",
        "Pack the wider end by 2.5 mm",
        {"opening": {"width": [562, 566]}},
        {},
        {"opening": {"width": [562, 563.5]}},
    ),
    Advised(
        "opening-width",
        "by 2.05 mm in all at the wider one, by 1.02 mm in all at the other",
        {"opening": {"width": TWISTED}, "size_from": "outside", "box": {"bottom": "under"}},
        {},
        {"opening": {"width": {**TWISTED, "front_bottom": 452.92, "back_bottom": 452.92}}},
    ),
    Advised(
        "opening-width",
        "narrower by 0.5 mm and pack the wider end by 1.5 mm in all",
        {"opening": {"width": {"front": 562, "back": 566}}, **old_box(inside_width=521.5)},
        {},
        {"opening": {"width": {"front": 562, "back": 564.5}}, **old_box(inside_width=521)},
    ),
    Advised(
        "opening-width",
        "Make the box narrower",
        {"opening": {"width": [562, 562.2]}, **old_box(inside_width=523)},
        {},
        {**old_box(inside_width=521)},
    ),
    Advised("opening-width", "A wider opening", {"opening": {"width": 100}}, {}, {"opening": {"width": 130}}),
    Advised(
        "opening-width",
        "A wider opening",
        {"opening": {"width": [100, 100.2]}},
        {},
        {"opening": {"width": [130, 130.2]}},
    ),
    Advised("opening-height", "A lower box", {"box_height": 160}, {}, {"box_height": 150}),
    Advised("opening-height", "a higher opening", {"box_height": 160}, {}, {"opening": {"height": 175}}),
    Advised(
        "opening-taper",
        "Pack the rear of each member by 2 mm",
        {"opening": {"width": {"front": 562, "back": 566}}},
        {},
        {"pack_rear": True},
    ),
    Advised(
        "opening-taper",
        "plane the front",
        {"opening": {"width": {"front": 562, "back": 566}}},
        {},
        {"opening": {"width": {"front": 564, "back": 566}}},
    ),
    Advised(
        "opening-taper",
        "Pack the front of each member by 2 mm",
        {"opening": {"width": {"front": 566, "back": 562}}},
        {},
        {"opening": {"width": {"front": 562, "back": 562}}},
    ),
    Advised(
        "opening-taper",
        "pack the front of each member by 2 mm",
        {"pack_rear": True, "opening": {"width": {"front": 566, "back": 562}}},
        {},
        {"opening": {"width": {"front": 562, "back": 562}}},
    ),
    Advised(
        "opening-taper",
        "plane the front",
        {"pack_rear": True, "opening": {"width": {"front": 562, "back": 583}}},
        {},
        {"opening": {"width": {"front": 565, "back": 583}}},
    ),
    Advised("opening-square", "A lower box", {"opening": {"diagonals": [600, 570]}}, {}, {"box_height": 60}),
    Advised(
        "way-out",
        "Least fillers that clear",
        {"in_the_way": [{"what": "hinge", "side": "left", "stands_in": 12}]},
        {},
        {"lost": {"left": 7.0}},
    ),
    Advised(
        "way-out",
        "a front that covers less",
        {
            "front": {**FRONTED, "overlay": 30},
            "in_the_way": [{"what": "wall", "side": "left", "stands_in": 5}],
        },
        {},
        {"front": FRONTED},
    ),
    Advised("capacity", "Less in the drawer", {"contents": 60}, {}, {"contents": 50}),
    Advised("capacity", "a slide that carries more", {"contents": 60}, {}, {}, {"capacity": 70}),
    Advised("mount", "Rear brackets", {**FRAMED, "mount": "side"}, {}, {"mount": "rear-bracket"}),
    Advised("mount", "packing as thick", {**FRAMED, "mount": "side"}, {}, {"mount": "packed"}),
    Advised(
        "mount",
        "packing, a shelf",
        {**FRAMED, "mount": "rear-bracket"},
        {"rear_bracket": None},
        {"mount": "packed"},
    ),
    Advised("mount", "to the cabinet sides", {"mount": "rear-bracket"}, {}, {"mount": "side"}),
    Advised(
        "shelf-holes",
        "a length with holes for it",
        {"mount": "shelf"},
        {"length": [{"nominal": 500}]},
        {},
        {"length": ONE_LENGTH},
    ),
    Advised(
        "shelf-fixed",
        "Screw or lock the shelf",
        {"mount": "shelf"},
        {},
        {"cabinet": "C", "shelf_fixed": True},
    ),
    Advised(
        "rear-bracket",
        "A longer slide",
        {**FRAMED, "mount": "rear-bracket", "opening": {"depth": 590}},
        {},
        {},
        {"length": [{"nominal": 550}]},
    ),
    Advised(
        "rear-bracket",
        "a block of 3 mm",
        {**FRAMED, "mount": "rear-bracket", "opening": {"depth": 550}},
        {},
        {"opening": {"depth": 547}},
    ),
    Advised(
        "rear-bracket",
        "A shorter slide",
        {**FRAMED, "mount": "rear-bracket", "opening": {"depth": 510}},
        {"rear_bracket": {"centre": 14, "reach": [20, 45]}},
        {},
        {"length": [{"nominal": 490}]},
    ),
    Advised(
        "frame-grip",
        "a block behind the stile",
        {**FRAMED, "front": INSET},
        {},
        {"frame": {"left": 38, "right": 41, "thickness": 40}},
    ),
    Advised(
        "front-reach", "further out", {"front": FRONTED}, {"front_overlay": 10}, {}, {"front_overlay": 8}
    ),
    Advised("front-reach", "further in", {"front": INSET}, {"front_inset": 0}, {}, {"front_inset": 1}),
    Advised("front-reach", "further out", {"front": INSET}, {"front_inset": 9}, {}, {"front_inset": 8}),
    Advised(
        "front-reach",
        "take an applied front",
        {"front": FRONTED, "box": {"front": "integral"}},
        {},
        {"box": {"front": "applied"}},
    ),
    Advised(
        "front-gap",
        "A smaller gap",
        {"front": {"style": "inset", "gap": 90}},
        {},
        {"front": {"style": "inset", "gap": 80}},
    ),
    Advised(
        "hook-bore",
        "a thinner bottom",
        {"box": {"bottom_thickness": 12}},
        {},
        {"box": {"bottom_thickness": 10}},
    ),
    Advised("hook-bore", "a thicker back", {"box": {"back": 9}}, {}, {"box": {"back": 12}}),
    Advised("hook-bore", "a higher box", {"box_height": 26}, {}, {"box_height": 30}),
    Advised(
        "hook-bore",
        "leave the groove out",
        {"box": {"back": 12.7}},
        {},
        {"box": {"back": 12.7, "bottom": "groove-3"}},
    ),
    Advised(
        "box-bore", "Bore anew", {**old_box(bore_in=9, bore_up=11)}, {}, {**old_box(bore_in=7, bore_up=11)}
    ),
    Advised(
        "box-notch",
        "larger",
        {**old_box(notch_width=30, notch_height=13)},
        {},
        {**old_box(notch_width=34, notch_height=13)},
    ),
    Advised(
        "box-recess", "Too deep: strips", {**old_box(bottom_recess=16)}, {}, {**old_box(bottom_recess=14)}
    ),
    Advised(
        "box-recess",
        "refit the bottom higher",
        {**old_box(bottom_recess=10)},
        {},
        {**old_box(bottom_recess=12)},
    ),
    Advised("cut-out", "narrower", {"cut_out": CUT_OUT}, {}, {"cut_out": {"width": 440, "depth": 200}}),
    Advised(
        "cut-out",
        "shallower",
        {"cut_out": {"width": 300, "depth": 490}},
        {},
        {"cut_out": {"width": 300, "depth": 480}},
    ),
    Advised(
        "cut-out",
        "nearer the middle",
        {"cut_out": {"width": 300, "depth": 200, "from_left": 20}},
        {},
        {"cut_out": {"width": 300, "depth": 200, "from_left": 30}},
    ),
    Advised("notch", "A higher box", {"box_height": 30}, {}, {"box_height": 32}),
    Advised(
        "slide-height",
        "A higher box",
        {"box_height": 24},
        {"carriage": "side-mounted", "heights": {"screw_line": 20}},
        {"box_height": 26},
    ),
    Advised(
        "slide-height",
        "screw line is lower",
        {"box_height": 24},
        {"carriage": "side-mounted", "heights": {"screw_line": 20}},
        {},
        {"heights": {"screw_line": 18}},
    ),
    Advised(
        "bracket-screw", "Shorter screws", {"box": {"bracket_screw": 20}}, {}, {"box": {"bracket_screw": 18}}
    ),
    Advised(
        "front-screw",
        "Shorter screws",
        {"front": {**FRONTED, "screw": 40}},
        {},
        {"front": {**FRONTED, "screw": 35}},
    ),
    Advised("width-to-length", "A stabiliser", {"opening": {"width": 1400}}, {}, {"stabiliser": True}),
    Advised(
        "width-to-length",
        "a longer slide",
        {"opening": {"width": 2700, "depth": 700}, "stabiliser": True},
        {},
        {},
        {"length": [{"nominal": 550}]},
    ),
    Advised(
        "width-to-length",
        "Two drawers beside each other",
        {"opening": {"width": 2700}, "stabiliser": True},
        {},
        {"opening": {"width": 1340}},
    ),
]
TO_MEASURE_AGAIN = {"box-measured", "readings-agree", "frame-sum", "column", "opening-lean"}
"""Their advice is to measure again, or to work to a level line: it changes no size of the drawer's."""


def check_of(advised: Advised, *, taken: bool) -> Check:
    keys = {**advised.broken, **(advised.taken if taken else {})}
    keys["opening"] = {
        **advised.broken.get("opening", {}),
        **(advised.taken.get("opening", {}) if taken else {}),
    }
    shared = {"length": ONE_LENGTH, **advised.family, **(advised.taken_family if taken else {})}
    shelf = keys.pop("shelf_fixed", None)
    cabinets = [{"id": keys["cabinet"], "shelf_fixed": shelf}] if shelf is not None else []
    job = job_from_mapping({"cabinet": cabinets, "drawer": [plain_drawer(**keys)]})
    (fitted,) = fit_job(job, (plain_family(**shared),)).drawers
    (found,) = [check for check in fitted.checks if check.id == advised.check]
    return found


@pytest.mark.parametrize("advised", ADVICE, ids=lambda one: f"{one.check}: {one.words}")
def test_what_is_advised_makes_the_fault_smaller(advised: Advised) -> None:
    broken = check_of(advised, taken=False)
    assert broken.state != "ok"
    assert advised.words in broken.cure
    better = check_of(advised, taken=True)
    assert better.margin > broken.margin or (better.state == "ok" and better.margin == broken.margin)


@settings(max_examples=60)
@given(
    front=st.floats(560, 564).map(lambda value: round(value, 1)),
    taper=st.floats(-4, 4).map(lambda value: round(value, 1)),
    inside=st.floats(515, 526).map(lambda value: round(value, 1)),
)
def test_what_is_advised_for_the_width_is_enough_at_both_ends(
    front: float, taper: float, inside: float
) -> None:
    """Lengths of a tenth of a millimetre, as the sentences tell them."""
    width = {"front": front, "back": front + taper}
    broken = check_of(
        Advised("opening-width", "", {"opening": {"width": width}, **no_box_but(inside)}), taken=False
    )
    if broken.state == "ok":
        return
    wider, other = ("front", "back") if width["front"] >= width["back"] else ("back", "front")
    for words, change in (
        (r"narrower by ([\d.]+) mm", lambda by: {"box": -by}),
        (r"pack the wider end by ([\d.]+) mm|Pack the wider end by ([\d.]+) mm", lambda by: {wider: -by}),
        (r"pack the members by ([\d.]+) mm", lambda by: {wider: -by}),
        (r"by ([\d.]+) mm in all at the other", lambda by: {other: -by}),
    ):
        for found in re.finditer(words, broken.cure):
            by = float(next(filter(None, found.groups())))
            for place, step in change(by).items():
                if place == "box":
                    inside += step
                else:
                    width[place] += step
    better = check_of(
        Advised("opening-width", "", {"opening": {"width": width}, **no_box_but(inside)}), taken=False
    )
    assert better.margin > -1e-6, (broken.cure, width)


def no_box_but(inside: float) -> dict[str, Any]:
    return old_box(inside_width=round(inside, 6), outside_width=round(inside + 32, 6))


def test_every_check_that_advises_is_taken_at_its_word_here() -> None:
    rules = [item.check for layer in LAYERS for item in collect(layer) if item.check is not None]
    advising = {rule.id for rule in rules if rule.cure or rule.cures or rule.care_says}
    tried = {advised.check for advised in ADVICE}
    # Of readings that nobody labelled it only says to label them.
    assert advising - tried == TO_MEASURE_AGAIN


def test_a_spacer_is_not_advised_where_it_would_make_the_fault_larger() -> None:
    too_thick = Advised("latch-along", "", {"subfront": 19}, {"spacers": [3]})
    too_narrow = Advised("latch-side", "", old_box(inside_width=517), {"spacers": [3]})
    for advised in (too_thick, too_narrow):
        cure = check_of(advised, taken=False).cure
        assert "No spacer helps" in cure
        assert "more of spacers" not in cure
