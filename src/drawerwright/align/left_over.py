"""What no adjuster cures: shapes of front and opening, and what of the pose is left at the adjusters' ends.

Sizes are what is to be seen at the front [mm]: how far a gap or a corner is off from one end to the other.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from math import hypot
from statistics import median
from typing import Final

import numpy as np

from drawerwright.align.aligned import LeftOver
from drawerwright.align.front_geometry import Array
from drawerwright.align.pose import Found
from drawerwright.align.shape import Sized, StackShape
from drawerwright.align.stack import MeasuredFront, Stack
from drawerwright.align.words import small_length
from drawerwright.catalogue.gap_grades import GradeName, gap_grades
from drawerwright.model.gaps import AdjusterName
from drawerwright.units import ShownUnits

SLIGHT: Final = 0.3
"""What is smaller is not worth a word [mm]. Own choice, no source."""
SLIGHTLY_OUT: Final = 0.5
"""… nor what is smaller of a corner that stands out [mm]. Own choice, no source."""
STEPS_LEFT: Final = 0.75
"""Less than so many marks is left by whole steps, not by an adjuster's end."""
_BY_DEPTH: Final = [2, 4, 5]
"""z, yaw and pitch: coordinates that depth and tilt cure."""


@dataclass(frozen=True)
class LeftContext:
    """What the words of left-overs need: the grade that is worked to, and the units they are told in."""

    grade: GradeName
    units: ShownUnits = "mm"
    rubs: bool = False
    """Whether a gap of the front is left so narrow that nothing uneven may stay."""

    def mm(self, size: float) -> str:
        """A size in words, without its sign; fractions of an inch beside it where the job is told in them."""
        return small_length(abs(size), self.units, decimals=1)

    def graded(self, what: str, size: Sized, cure: str, *, unlike: float = 1.0) -> LeftOver:
        """A gap that is uneven, held against the grades.

        `unlike`: how far two gaps then differ from each other, as a multiple of the size: a front that is
        off to a side by 1 leaves one gap 2 wider than the other.
        """
        grades = {one.id: one.gap for one in gap_grades()}
        off = abs(size.value)
        allows = next((name for name, gap in grades.items() if off * unlike <= gap), "")
        leave = off * unlike <= grades[self.grade] and not self.rubs
        if leave:
            limit = self.mm(grades[self.grade])
            within = f"within the gap grade ({self.grade}, {limit})"
            cure = f"leave: gaps {self.mm(off * unlike)} unlike are {within}; else {cure}"
        return LeftOver(what, off, size.uncertainty, cure, allows, leave)

    def standing_out(self, what: str, size: Sized, cure: str) -> LeftOver:
        """A corner that stands out: no grade that could be read speaks of it."""
        return LeftOver(what, abs(size.value), size.uncertainty, cure, "", False)


def shapes_left(stack: Stack, shapes: StackShape, at: int, words: LeftContext) -> Iterator[LeftOver]:
    """Shapes at the front of that place; those of the whole stack are told of its highest front."""
    front, shape = stack.fronts[at], shapes.fronts[at]
    yield from _lean(front, shape.leans, _racked(stack, shapes), words)
    if shape.taper.is_plain(SLIGHT):
        end = "bottom" if shape.taper.value > 0 else "top"
        cure = f"plane {words.mm(shape.taper.value / 2)} off each side edge at its {end}"
        yield words.graded("opening out of parallel, or the front tapered", shape.taper, cure)
    if shape.wide.is_plain(SLIGHT) and not front.is_bare:
        cure = _if_meant(front, words) + _size_cure(shape.wide, "side", 2, words)
        yield words.graded("front wrong width", shape.wide, cure)
    if at == len(stack.fronts) - 1:
        what = "front wrong height" if len(stack.fronts) == 1 else "fronts wrong height, all together"
        if shapes.high.is_plain(SLIGHT) and not front.is_bare:
            cure = _if_meant(front, words) + _size_cure(shapes.high, "upper or lower", 1, words)
            yield words.graded(what, shapes.high, cure)
        if shapes.taper.is_plain(SLIGHT):
            end = "right" if shapes.taper.value > 0 else "left"
            cure = f"plane {words.mm(shapes.taper.value)} off an upper edge at its {end}"
            yield words.graded("opening out of parallel, top and bottom", shapes.taper, cure)
    if shape.twist.is_plain(SLIGHTLY_OUT):
        corner = "top left" if shape.twist.value > 0 else "top right"
        cure = (
            f"shim the front by {words.mm(shape.twist.value)} on its screws across from the {corner} corner"
        )
        yield words.standing_out("front twisted", shape.twist, cure)


def _racked(stack: Stack, shapes: StackShape) -> float | None:
    """How far openings lean [mm per mm of height, to the left]; None where that is not known apart.

    From the diagonals of an opening where they were measured; else what three fronts and more have in common.
    """
    for front in stack.fronts:
        diagonals = front.fitted.drawer.opening.diagonals
        if diagonals is not None:
            opening = front.fitted.opening
            rises_right, rises_left = diagonals
            lean = (rises_right**2 - rises_left**2) / (4.0 * opening.width)
            return -lean / opening.height
    leans = [
        each.leans.value / front.geometry.height
        for front, each in zip(stack.fronts, shapes.fronts, strict=True)
        if each.leans.uncertainty < SLIGHT
    ]
    return median(leans) if len(leans) > 2 else None


def _lean(front: MeasuredFront, leans: Sized, racked: float | None, words: LeftContext) -> Iterator[LeftOver]:
    height = front.geometry.height
    of_cabinet = Sized(0.0 if racked is None else racked * height, leans.uncertainty)
    of_front = Sized(leans.value - of_cabinet.value, leans.uncertainty)
    if racked is not None and of_cabinet.is_plain(SLIGHT):
        opening = front.fitted.opening
        longer = "rises to the right" if racked < 0 else "rises to the left"
        diagonal = hypot(opening.width, opening.height)
        apart = 2.0 * opening.width * abs(racked) * opening.height / diagonal
        cure = f"square the cabinet: the diagonal of this opening that {longer} is {words.mm(apart)} longer"
        yield words.graded("cabinet racked", of_cabinet, cure)
    if of_front.is_plain(SLIGHT):
        end = "right" if of_front.value > 0 else "left"
        square = f"re-square the front: its top edge stands {words.mm(of_front.value)} to the {end}"
        if racked is None:
            what = "front not square, or the cabinet racked"
            cure = (
                f"measure both diagonals of the front; if they differ, {square}; if not, square the cabinet"
            )
        else:
            what, cure = "front not square", square
        yield words.graded(what, of_front, cure)


def _if_meant(front: MeasuredFront, words: LeftContext) -> str:
    """What an overlay front's size hangs on: nobody told what stands beside it."""
    shape = front.fitted.front
    if shape is not None and shape.style == "inset":
        return ""
    return f"if these gaps are to be {words.mm(front.gap)}: "


def _size_cure(size: Sized, edges: str, share: int, words: LeftContext) -> str:
    if size.value < 0:
        each = "each " if share > 1 else "an "
        return f"plane {words.mm(size.value / share)} off {each}{edges} edge"
    return f"a front {words.mm(size.value)} larger"


def poses_left(
    stack: Stack,
    found: Found,
    turned: Array,
    short: Array,
    at: int,
    words: LeftContext,
    *,
    leans: bool = False,
    ended: bool = True,
    decides: Collection[AdjusterName] = (),
) -> Iterator[LeftOver]:
    """What is left of the pose of the front at that place after its adjusters are turned by (6,) [mm].

    `short` (6,) is by how much their ends keep them from what would be best. What no adjuster moves is left
    whole. Where front or cabinet `leans`, a roll would only share that out, so none is told of.
    `ended`: whether both height adjusters are at their ends against a roll. `decides`: adjusters that end
    here only because they are taken as delivered: what they leave may be no fault at all.
    """
    front = stack.fronts[at]
    geometry = front.geometry
    part = slice(6 * at, 6 * at + 6)
    told = found.is_told(at)
    # Depth and tilt are found with what the side and height moves bring, not with what these lack.
    left = geometry.pose_changes[:, :3] @ short[:3]
    left[_BY_DEPTH] = (geometry.pose_changes[:, 3:] @ short[3:])[_BY_DEPTH]
    whole = (found.state * found.scale)[part] + geometry.pose_changes @ turned
    fixed = front.adjusters.low == front.adjusters.high
    if front.adjusters.none_because:
        left = whole
    else:
        if fixed[5]:
            left[5] = whole[5]
        if fixed[3:5].all():
            left[[2, 4]] = whole[[2, 4]]
    spread = (found.spread * found.scale)[part]
    # What is seen of each coordinate: lengths as they are, angles from one end of the front to the other.
    seen = np.array([1.0, 1.0, 1.0, geometry.width, geometry.width, geometry.height])
    step = front.adjusters.step
    least = np.array(
        [
            step[0],
            step[1] / 2,
            step[3] / 2,
            geometry.width * step[1] / geometry.base,
            geometry.width * step[3] / geometry.base,
            0.0,
        ]
    )
    x, y, z, roll, yaw, pitch = (
        Sized(value if is_told and abs(value) >= STEPS_LEFT * slight else 0.0, within)
        for value, within, slight, is_told in zip(
            (left * seen).tolist(), (spread * seen).tolist(), least.tolist(), told.tolist(), strict=True
        )
    )
    if x.is_plain(SLIGHT):
        way = "left" if x.value > 0 else "right"
        cure = _if_delivered("side", decides) + f"fix the front again {words.mm(x.value)} further {way}"
        yield words.graded("front off to the side", x, cure, unlike=2.0)
    if y.is_plain(SLIGHT):
        way, word = ("lower", "high") if y.value > 0 else ("higher", "low")
        cure = _if_delivered("height", decides) + f"fix the front again {words.mm(y.value)} {way}"
        yield words.graded(f"front {word}", y, cure, unlike=2.0)
    if roll.is_plain(SLIGHT) and not leans:
        hand = "left" if roll.value > 0 else "right"
        by = abs(roll.value) * geometry.base / geometry.width
        if ended or front.adjusters.none_because:
            up = f"re-bore or shift the {hand} slide {words.mm(by)} up, front and rear"
            cure = _if_delivered("height", decides) + up
            yield words.graded("slides not level with each other", roll, cure)
        else:
            cure = f"fix the front again sideways first, then raise the {hand} bracket by {words.mm(by)}"
            yield words.graded(
                "front not level: levelled, it would stand further off to the side", roll, cure
            )
    if z.is_plain(SLIGHTLY_OUT):
        way, word = ("in", "out") if z.value > 0 else ("out", "in")
        cure = _if_delivered("depth", decides) + f"move both slides {words.mm(z.value)} {way}"
        yield words.standing_out(f"front stands {word}", z, cure)
    if yaw.is_plain(SLIGHTLY_OUT):
        hand, way = ("right", "out") if yaw.value > 0 else ("left", "out")
        by = abs(yaw.value) * geometry.base / geometry.width
        moved = f"move the {hand} slide {words.mm(by)} {way}, or the other as far in"
        cure = _if_delivered("depth", decides) + moved
        yield words.standing_out("one slide stands further in", yaw, cure)
    if pitch.is_plain(SLIGHTLY_OUT):
        way, word = ("down", "out") if pitch.value > 0 else ("up", "in")
        by = abs(pitch.value) * geometry.length / geometry.height
        cure = _if_delivered("tilt", decides) + f"move the rear ends of both slides {words.mm(by)} {way}"
        yield words.standing_out(f"top leans {word}", pitch, cure)


def _if_delivered(adjuster: AdjusterName, decides: Collection[AdjusterName]) -> str:
    """Before a cure that is only wanted where the adjusters stand as they are taken to."""
    return f"only if the {adjuster} adjusters stand at 0, as delivered: " if adjuster in decides else ""
