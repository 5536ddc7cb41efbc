"""What a shop can change about a drawer, and how easily it does."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from drawerwright.equations.equation import Q
from drawerwright.fit.lever import Lever
from drawerwright.fit.width_levers import width_levers
from drawerwright.model.job import Readings

_THINNEST_SIDE = 9.0
_BEHIND_GROOVE = 3.0
_THINNEST_BOTTOM = 3.0

EASE = (
    "frame.left",
    "frame.right",
    "cabinet.inside_width",
    "contents",
    "slide",
    "pack_rear",
    "lost.left",
    "lost.right",
    "lost",
    "box_height",
    "size_from",
    "side",
    "subfront",
    "box.back",
    "box.bottom_thickness",
    "box.bottom",
    "box.front",
    "cut_out.width",
    "cut_out.depth",
    "mount",
    "front.style",
    "opening.depth",
    "opening.width",
    "opening.height",
)
"""Keys of changes, easiest for a shop first: the tool's own rule. Measuring again costs nothing, and wood is
easier to change than walls."""


def levers(situation: Mapping[str, str], width: Readings, as_side: Sequence[str]) -> Iterator[Lever]:
    """The levers of a drawer in this situation, whose opening's width reads as told.

    `as_side` names the thicknesses that go with the sides'.
    """
    yield from _opening_levers()
    labelled, rear_packed = situation["readings"] == "labelled", situation["rear"] == "packed"
    yield from width_levers(width, labelled=labelled, rear_packed=rear_packed)
    if situation["construction"] == "face-frame" and situation["cabinet"] == "told":
        yield from _sum_levers()
    if situation["box"] == "new":
        yield from _wood_levers(situation, as_side)
        if situation["shape"] != "plain":
            yield from _cut_out_levers()
    if situation["way"] == "told":
        yield from _fillers()
    if situation["load"] == "told":
        yield Lever(
            "contents",
            "kg",
            (-1,),
            1e4,
            ("contents_told",),
            {-1: "Put {by} less into the drawer."},
            lambda drawer: float(drawer["contents_told"][0, 0]),
        )


def _opening_levers() -> Iterator[Lever]:
    yield Lever(
        "opening.depth",
        "mm",
        (1, -1),
        1000.0,
        (
            "opening_depth",
            "deepest_depth",
        ),
        {
            1: "Make the opening {by} deeper.",
            -1: "Bring what stands behind {by} nearer (a block on the back).",
        },
        _room("opening_depth"),
    )
    yield Lever(
        "opening.height",
        "mm",
        (1,),
        300.0,
        (
            "opening_height",
            "tallest_height",
        ),
        {1: "Make the opening {by} higher."},
        _room("opening_height"),
    )


def _sum_levers() -> Iterator[Lever]:
    """Readings that have to close with the opening's width: where they do not, one of them is wrong."""
    for key, value, what in (
        ("frame.left", "overhang_left", "left overhang of the frame"),
        ("frame.right", "overhang_right", "right overhang of the frame"),
        ("cabinet.inside_width", "cabinet_inside_width", "cabinet's inside width"),
    ):
        closes = {
            sign: f"Measure the {what} again: if it reads {{by}} {more}, the sum closes."
            for sign, more in ((1, "more"), (-1, "less"))
        }
        yield Lever(key, "mm", (1, -1), 100.0, (value,), {}, _all_of(value), closes=closes)


def _wood_levers(situation: Mapping[str, str], as_side: Sequence[str]) -> Iterator[Lever]:
    yield Lever(
        "side",
        "mm",
        (-1, 1),
        25.0,
        ("side_thickness", *as_side),
        {-1: "Take box sides {by} thinner.", 1: "Take box sides {by} thicker."},
        _thinner,
    )
    if situation["front"] == "applied":
        yield Lever(
            "subfront",
            "mm",
            (-1, 1),
            12.0,
            ("subfront_thickness",),
            {-1: "Take a subfront at least {by} thinner.", 1: "Take a subfront at least {by} thicker."},
            _down_to("subfront_thickness", _THINNEST_SIDE),
        )
    if situation["height"] == "told":
        yield Lever(
            "box_height",
            "mm",
            (-1, 1),
            300.0,
            ("told_box_height",),
            {-1: "Make the box {by} lower.", 1: "Make the box {by} higher."},
            _room("told_box_height"),
        )
    yield Lever(
        "box.bottom_thickness",
        "mm",
        (-1,),
        15.0,
        ("bottom_thickness",),
        {-1: "Take a bottom {by} thinner."},
        _down_to("bottom_thickness", _THINNEST_BOTTOM),
    )
    yield Lever(
        "box.back",
        "mm",
        (1,),
        15.0,
        ("back_thickness",),
        {1: "Take a back {by} thicker."},
        _room("back_thickness"),
    )


def _fillers() -> Iterator[Lever]:
    for hand in ("left", "right"):
        yield Lever(
            f"lost.{hand}",
            "mm",
            (1,),
            200.0,
            (f"lost_{hand}",),
            {1: f"Pack the {hand} out by {{by}} more, clear of what is in the way."},
            _room("measured_width"),
        )


def _cut_out_levers() -> Iterator[Lever]:
    for size, says in (("width", "narrower"), ("depth", "shallower")):
        yield Lever(
            f"cut_out.{size}",
            "mm",
            (-1,),
            1000.0,
            (f"cut_out_{size}",),
            {-1: f"Make the cut-out {{by}} {says}."},
            _room(f"cut_out_{size}"),
        )


def _down_to(name: str, least: float) -> Callable[[Mapping[str, Q]], float]:
    """How far a thickness can come down to the least that is worth making."""
    return lambda drawer: float(drawer[name][0, 0]) - least


def _all_of(name: str) -> Callable[[Mapping[str, Q]], float]:
    """How far a reading that may be 0 can come down."""
    return lambda drawer: float(drawer[name][0, 0])


def _room(name: str) -> Callable[[Mapping[str, Q]], float]:
    """How far a size can come down and still be one."""
    return lambda drawer: float(drawer[name][0, 0]) - 1.0


def _thinner(drawer: Mapping[str, Q]) -> float:
    """How much thinner a side can be and still be a side, behind its groove too."""
    least = max(_THINNEST_SIDE, float(drawer["groove_depth"][0, 0]) + _BEHIND_GROOVE)
    return float(drawer["side_thickness"][0, 0]) - least
