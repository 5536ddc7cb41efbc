"""What stands under a sheet in tables: every check in full, parts to cut, borings, slides that were tried."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from drawerwright.drawing.shown import Shown
from drawerwright.model.check_names import check_name
from drawerwright.model.fitted import MOUNT_WORDS, FittedDrawer, Part, State
from drawerwright.model.rejections import rejected_alike
from drawerwright.pack.bores import bore_rows
from drawerwright.pack.check_margins import check_margin_text, check_working_text
from drawerwright.pack.figures import (
    box_text,
    hardware_text,
    margin_text,
    mass_text,
    mass_unit,
    part_text,
)
from drawerwright.pack.front_rows import front_rows
from drawerwright.pack.part_work import edges_text
from drawerwright.web.sheet.notes import SEVERITY

Rows = tuple[tuple[str, str], ...]
GRAIN: Final = {"none": "any", "length": "along", "width": "across"}
_BOTTOM: Final = {"groove-4": ", in grooves", "groove-3": ", in grooves", "under": ", under the box"}


@dataclass(frozen=True, slots=True)
class CheckRow:
    """A check in full."""

    id: str
    state: State
    name: str
    margin: str
    says: str
    working: str
    source: str


@dataclass(frozen=True, slots=True)
class PartRow:
    """A part to cut; `size` is length × width × thickness in the sheet's units."""

    name: str
    count: int
    size: str
    grain: str
    banding: str


@dataclass(frozen=True, slots=True)
class TriedRow:
    """A family and mount that was tried: which lengths one check stopped, and what they lack."""

    slide: str
    mount: str
    because: str
    lacks: str


@dataclass(frozen=True, slots=True)
class Load:
    """What moves against what the pair carries, as text and as shares of the longer of the two."""

    text: str
    moving: str
    spare: str
    contents_share: float
    moving_share: float
    capacity_share: float

    @property
    def hatching(self) -> str:
        """The contents' part of a bar 380 by 16 units, hatched: an SVG path."""
        wide, high, step = 380.0 * self.contents_share, 16.0, 8.6
        strokes = []
        for i in range(int((wide + high) / step) + 1):
            x = i * step  # where the stroke meets the foot of the bar, and beyond it the bar's end
            right = min(x, wide)
            left = max(x - high, 0.0)
            if right > left:
                strokes.append(f"M{left:.1f} {20 - (x - left):.1f}L{right:.1f} {20 - (x - right):.1f}")
        return "".join(strokes)


def check_rows(fitted: FittedDrawer, shown: Shown) -> tuple[CheckRow, ...]:
    """Every check, those to look at first."""
    rows = [
        CheckRow(
            check.id,
            check.state,
            check_name(check.id),
            check_margin_text(check.id, check.margin, check.unit, shown),
            check.says,
            check_working_text(check),
            check.source,
        )
        for check in fitted.checks
    ]
    return tuple(sorted(rows, key=lambda row: SEVERITY[row.state]))


def part_rows(fitted: FittedDrawer, shown: Shown) -> tuple[PartRow, ...]:
    """Parts to cut for one drawer."""
    return tuple(
        PartRow(
            part.part + (_BOTTOM[fitted.drawer.box.bottom] if part.part == "bottom" else ""),
            part.count,
            part_text(part, shown),
            GRAIN[part.grain],
            _banding(part, shown),
        )
        for part in fitted.parts
    )


def _banding(part: Part, shown: Shown) -> str:
    return f"{hardware_text(part.edging, shown)} on {edges_text(part)}" if part.edged else ""


def work_rows(fitted: FittedDrawer, shown: Shown) -> Rows:
    """What is bored, notched, mounted and set."""
    return (*bore_rows(fitted, shown), *front_rows(fitted, shown))


def tried_rows(fitted: FittedDrawer, shown: Shown) -> tuple[TriedRow, ...]:
    """Slides that were tried and stopped, lengths of one family together."""
    rows = []
    for group in rejected_alike(fitted.rejected):
        lengths = ", ".join(hardware_text(one.nominal, shown) for one in group.members)
        lacks = ", ".join(
            dict.fromkeys(
                check_margin_text(group.because, one.margin, one.unit, shown) for one in group.members
            )
        )
        first = group.members[0]
        rows.append(
            TriedRow(
                f"{first.family} / {lengths}", MOUNT_WORDS[first.mount], check_name(first.because), lacks
            )
        )
    return tuple(rows)


def load_of(fitted: FittedDrawer, shown: Shown) -> Load | None:
    """The load bar; None where nothing carries it."""
    mass, capacity = fitted.mass, fitted.capacity
    if mass is None or capacity is None or capacity <= 0 or fitted.slide is None:
        return None
    whole, unit = max(capacity, mass.moving), mass_unit(shown)
    of_contents = fitted.slide.family.capacity_of == "contents"
    counted = mass.contents if of_contents else mass.moving
    moving, contents, most = (mass_text(one, shown) for one in (mass.moving, mass.contents, capacity))
    spare = margin_text(max(capacity - counted, 0.0), "kg", shown).removesuffix(f" {unit}")
    text = f"of {most} {unit}, contents {contents}; {spare} to spare"
    if of_contents:
        text = f"moving; contents {contents} of {most} {unit}, {spare} to spare"
    return Load(text, moving, spare, mass.contents / whole, mass.moving / whole, capacity / whole)


def box_words(fitted: FittedDrawer, shown: Shown) -> str:
    """Outside width × height × length of the box."""
    if fitted.box is None:
        return ""
    return box_text(fitted.box, shown) + (" in" if shown.in_inches else "")
