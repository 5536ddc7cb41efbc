"""What one drawer takes: slides, locking brackets, spacers, rear brackets, packing, screws, handle."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from drawerwright.model.fitted import ChosenSlide, FittedDrawer, Mounting
from drawerwright.pack.figures import millimetres
from drawerwright.pack.packing import packing_screws_text

Supply: TypeAlias = Literal["order", "with the brackets", "cut in the shop"]

SCREW_ASSUMPTION: Final = (
    "Screws: one in each round hole and each slot of the member that the family lists, both sides, and one in"
    " each pilot hole of a bracket; on rear brackets one at the front end of each member (common practice,"
    " no source). Those of rear brackets and packing: see their notes. Those of stabilisers, of blocks behind"
    " stiles and of members beside the box into its sides are not counted: no family lists their holes."
    " Dowels, screws of the box's corners and those of its bottom are not counted: the shop sets them."
)
REAR_BRACKET_SCREWS: Final = 2
"""Screws of one rear bracket where its family does not tell. Common practice, no source."""
PACKING_SCREW_PITCH: Final = 200.0
"""Greatest distance between the screws of a strip of packing [mm]. Common practice, no source."""
PACKING_SCREW_END: Final = 50.0
"""From the ends of such a strip to its first and last screw [mm]. Common practice, no source."""


KINDS: Final = (
    "slide",
    "stabiliser",
    "locking bracket",
    "spacer",
    "rear bracket",
    "packing",
    "screw, member to cabinet",
    "screw, member to shelf",
    "screw, member's front end",
    "screw, rear bracket",
    "screw, packing",
    "screw, locking bracket",
    "screw, front to subfront",
    "handle",
    "knob",
)
"""Names of all kinds, in the order in which a list has them."""


@dataclass(frozen=True, slots=True)
class Item:
    """One kind of hardware: `size` [mm], a slide's nominal length, a thickness or a spacing.

    `hand` is L, R or empty. `price` of one unit in the user's money and `carton` (units in a carton) are None
    where nobody told them.
    """

    name: str
    family: str
    size: float | None
    hand: str
    unit: str
    supply: Supply = "order"
    note: str = ""
    price: float | None = None
    carton: int | None = None

    @property
    def is_screw(self) -> bool:
        """Whether spares are wanted: screws get lost and strip."""
        return self.name.startswith("screw")


def items_of(fitted: FittedDrawer) -> Iterator[tuple[Item, int]]:
    """What one drawer takes, with how many; nothing where it does not fit."""
    slide, mounting = fitted.slide, fitted.mounting
    if slide is None or mounting is None:
        return
    family = slide.family
    yield (
        Item(
            "slide", family.id, slide.length.nominal, "", "pair",
            note=family.title, price=slide.length.price, carton=family.carton,
        ),
        1,
    )  # fmt: skip
    if fitted.drawer.stabiliser:
        yield Item("stabiliser", family.id, None, "", "piece", note="joins the two slides of a pair"), 1
    if family.carriage == "concealed":
        yield from _bracket_items(slide)
    yield from _rear_items(fitted, slide, mounting)
    yield from _packing_items(fitted, mounting)
    row_holes = len(mounting.holes) + len(mounting.slots)
    if row_holes:
        note = f"into the {'packing' if slide.mount == 'packed' else 'cabinet side'}"
        if longer := packing_screws_text(mounting.packing_left, mounting.packing_right):
            note = f"through packing: {longer}"
        yield (
            Item("screw, member to cabinet", family.id, None, "", "piece", note=note),
            2 * row_holes,
        )
    if mounting.shelf_holes:
        screws = 2 * len(mounting.shelf_holes)
        yield Item("screw, member to shelf", family.id, None, "", "piece", note="into the shelf"), screws
    yield from _front_items(fitted)


def _bracket_items(slide: ChosenSlide) -> Iterator[tuple[Item, int]]:
    """Locking brackets, left and right, with the spacers that come in their bag, and their screws."""
    family = slide.family.id
    for hand in ("L", "R"):
        yield Item("locking bracket", family, None, hand, "piece"), 1
    for spacers, where in ((slide.side_spacers, "box side"), (slide.subfront_spacers, "subfront")):
        for thickness in spacers:
            note = f"in the bracket bag, needs no order; between bracket and {where}, left and right"
            yield Item("spacer", family, thickness, "", "piece", "with the brackets", note), 2
    pilot_holes = len(slide.family.bracket_holes)
    if pilot_holes:
        yield Item("screw, locking bracket", family, None, "", "piece", note="both brackets"), 2 * pilot_holes


def _rear_items(fitted: FittedDrawer, slide: ChosenSlide, mounting: Mounting) -> Iterator[tuple[Item, int]]:
    """Rear brackets with their screws, and the front screws of the members that hang on them."""
    family, brackets = slide.family.id, 0
    for hand, centre in (("L", mounting.rear_bracket_left), ("R", mounting.rear_bracket_right)):
        if centre is not None:
            brackets += 1
            yield Item("rear bracket", family, None, hand, "piece", note="on the cabinet back"), 1
    if not brackets:
        return
    told = slide.family.rear_bracket.screws if slide.family.rear_bracket is not None else None
    each = REAR_BRACKET_SCREWS if told is None else told
    whence = "common practice, no source" if told is None else "as the slide family tells"
    note = f"{each} a bracket, {whence}"
    yield Item("screw, rear bracket", family, None, "", "piece", note=note), each * brackets
    wood = "cabinet side" if fitted.drawer.frame_in_use is None else "face frame"
    note = f"one at the front end of each member, into the {wood}"
    yield Item("screw, member's front end", family, None, "", "piece", note=note), brackets


def _packing_items(fitted: FittedDrawer, mounting: Mounting) -> Iterator[tuple[Item, int]]:
    """Strips of packing by their thickness, and their screws by their lengths on the cut list."""
    for hand, thickness in (("L", mounting.packing_left), ("R", mounting.packing_right)):
        if thickness > 0:
            long = f"{millimetres(mounting.member)} mm long, behind the member; see the cut list"
            yield Item("packing", "", thickness, hand, "strip", "cut in the shop", long), 1
    for hand, thickness in (("L", mounting.rear_packing_left), ("R", mounting.rear_packing_right)):
        if thickness > 0:
            note = "under the member's rear end alone; see the cut list"
            yield Item("packing", "", thickness, hand, "strip", "cut in the shop", note), 1
    strips = [part for part in fitted.parts if part.part.startswith(("packing ", "rear packing "))]
    for thickness in dict.fromkeys(strip.thickness for strip in strips):
        alike = [strip for strip in strips if strip.thickness == thickness]
        screws = sum(strip.count * packing_screws(strip.length) for strip in alike)
        note = (
            f"through packing of {millimetres(thickness)} mm: {millimetres(PACKING_SCREW_END)} mm from its"
            f" ends, at most {millimetres(PACKING_SCREW_PITCH)} mm apart (common practice, no source)"
        )
        yield Item("screw, packing", "", None, "", "piece", note=note), screws


def packing_screws(length: float) -> int:
    """Screws of a strip of packing `length` mm long, into the cabinet side; one where it is short."""
    between = length - 2 * PACKING_SCREW_END
    return 1 if between <= 0 else math.ceil(between / PACKING_SCREW_PITCH - 1e-9) + 1


def _front_items(fitted: FittedDrawer) -> Iterator[tuple[Item, int]]:
    """Screws of the front, and its handle or knob."""
    fixing, handle = fitted.fixing, fitted.drawer.front.handle
    if fixing is not None and fixing.holes:
        told = fitted.drawer.front.screw
        most = f"no longer than {millimetres(fixing.longest_screw)} mm"
        yield Item("screw, front to subfront", "", told, "", "piece", note=most), len(fixing.holes)
    if fixing is not None and handle is not None and fixing.handle:
        if handle.spacing > 0:
            yield Item("handle", "", handle.spacing, "", "piece", note="size: between its borings"), 1
        else:
            yield Item("knob", "", None, "", "piece"), 1
