"""A dimension's working unfolded: what it is, in figures, each term by name, and on whose word."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from drawerwright.drawing.dimensioning import lay_out_dimension, lay_out_leader, lay_out_running
from drawerwright.drawing.fonts import text_width
from drawerwright.drawing.geometry import Bounds, joined
from drawerwright.drawing.pens import SHEET_UNIT
from drawerwright.drawing.primitives import Text
from drawerwright.drawing.scene import Dimension, Leader, RunningDimension, Scene
from drawerwright.drawing.shown import Shown
from drawerwright.equations.working import plain, words_of
from drawerwright.model.fitted import FittedDrawer, Working
from drawerwright.pack.main_workings import told_working
from drawerwright.units import KG_PER_POUND, MM_PER_INCH
from drawerwright.web.sheet.columns import lines_of

OTHER_NAMES: Final[Mapping[str, str]] = {
    "clearance_under": "lower_edge",
}
"""Quantities of a drawing that are worked out under another name."""
_PLAIN: Final = 3
"""Up to so many terms the figures alone say how they are put together."""
WIDTH: Final = 290 * SHEET_UNIT
_PAD: Final = 16 * SHEET_UNIT
_SIZE: Final = 16.4 * SHEET_UNIT
_LINE: Final = _SIZE * 1.3
_SUM: Final = 26 * SHEET_UNIT


@dataclass(frozen=True, slots=True)
class Term:
    """A named value of a working, with its unit."""

    value: str
    says: str


@dataclass(frozen=True, slots=True)
class Unfolded:
    """A working in words: `figures` end in the result; `source` says on whose word it stands."""

    quantity: str
    title: str
    formula: str
    figures: str
    terms: tuple[Term, ...]
    source: str


def unfold(quantity: str, fitted: FittedDrawer, shown: Shown) -> Unfolded | None:
    """The working of what a dimension shows; None where nothing is told of it."""
    if quantity == "clearance_over":
        return _over_the_box(fitted, shown)
    work = fitted.workings.get(OTHER_NAMES.get(quantity, quantity))
    if work is None:
        return None
    told = told_working(work.quantity, fitted.workings) or work
    terms = _terms(told, shown)
    if terms:
        result = told.figures.rpartition(" = ")[2]
        terms = (*terms, Term(result, _short(work.title)))
    title = words_of(quantity).capitalize()
    if not terms:
        terms = (Term(told.figures, _short(work.title)),)
    if quantity == "first_hole":
        terms = (*terms, *_further_holes(fitted, work.value, shown))
    formula = told.formula if len(told.terms) > _PLAIN else ""
    figures = told.figures if "=" in told.figures else ""
    return Unfolded(quantity, title, formula, figures, terms, told.source)


def _over_the_box(fitted: FittedDrawer, shown: Shown) -> Unfolded | None:
    """What is left over the box: at least the family's clearance, more where the box is lower."""
    box, slide = fitted.box, fitted.slide
    if box is None or slide is None:
        return None
    opening, under = fitted.opening, box.lower_edge - fitted.opening.floor
    left = opening.height - under - box.height
    values = [_bare(value, shown) for value in (opening.height, under, box.height, left)]
    unit = "in" if shown.in_inches else "mm"
    says = ("height of the opening", "under the box", "height of the box")
    least = f"at least {_figure(slide.family.clearance.over, 'mm', shown)} is wanted over the box"
    return Unfolded(
        "clearance_over",
        "Clear over the box",
        "",
        f"{values[0]} − {values[1]} − {values[2]} = {values[3]} {unit}",
        (
            *(Term(f"{value} {unit}", word) for value, word in zip(values, says, strict=False)),
            Term(f"{values[3]} {unit}", least),
        ),
        "geometry; the least is the slide family's data",
    )


def _further_holes(fitted: FittedDrawer, first: float, shown: Shown) -> tuple[Term, ...]:
    """Row holes after the first one, and the slots: each as far behind it as the slide family says."""
    if fitted.slide is None or fitted.mounting is None or not fitted.mounting.holes:
        return ()
    length = fitted.slide.length
    rows = (("row hole", length.holes, 1), ("slot", length.slots, 0))
    return tuple(
        _behind(first, place, f"{name} {number}", shown)
        for name, places, known in rows
        for number, place in enumerate(places, start=1)
        if number > known
    )


def _behind(start: float, place: float, name: str, shown: Shown) -> Term:
    """A place so far behind another, as a sum: "37 + 32 = 69 mm"."""
    total = _figure(start + place, "mm", shown)
    return Term(f"{_bare(start, shown)} + {_bare(place, shown)} = {total}", name)


def _bare(value: float, shown: Shown) -> str:
    return plain(value / float(MM_PER_INCH)) if shown.in_inches else plain(value)


def _terms(work: Working, shown: Shown) -> tuple[Term, ...]:
    return tuple(Term(_figure(value, unit, shown), _short(says)) for _, value, unit, says in work.terms)


def _short(title: str) -> str:
    """What a value is, without the reasons that follow it."""
    return re.split(r": |; | \(", title, maxsplit=1)[0]


def _figure(value: float, unit: str, shown: Shown) -> str:
    """A term's value as the figures have it: decimal inches add up, fractions do not."""
    if shown.in_inches and unit == "mm":
        return f"{plain(value / float(MM_PER_INCH))} in"
    if shown.in_inches and unit == "kg":
        return f"{plain(value / float(KG_PER_POUND), 1)} lb"
    return f"{plain(value, 2 if unit.startswith('kg') else 3)} {unit}".rstrip()


def height_of(unfolded: Unfolded, width: float = WIDTH) -> float:
    """How high a working of a width runs [mm on paper]."""
    inner = width - 2 * _PAD
    lines = lines_of("", unfolded.title, inner, _SIZE)
    sums = lines_of(unfolded.figures, "", inner, _SUM) if unfolded.figures else 0
    widest = max((text_width(term.value, _SIZE, "semibold") for term in unfolded.terms), default=0.0)
    room = max(inner - widest - 2.2, inner / 3)
    lines += sum(lines_of("", term.says, room, _SIZE) for term in unfolded.terms)
    lines += lines_of("", unfolded.formula, inner, _SIZE) if unfolded.formula else 0
    lines += lines_of("", f"Source: {unfolded.source}", inner, _SIZE)
    return lines * _LINE + sums * _SUM * 1.16 + len(unfolded.terms) * 0.2 + 5.6


def number_of(scene: Scene, quantity: str) -> Bounds | None:
    """Where the number of a dimension or note stands on paper [mm]: the first that shows the quantity."""
    for each in scene.primitives:
        if isinstance(each, Dimension | RunningDimension | Leader) and each.quantity == quantity:
            if isinstance(each, Dimension):
                items = lay_out_dimension(each)
            elif isinstance(each, Leader):
                items = lay_out_leader(each)
            else:
                items = lay_out_running(each)
            return joined(item.extent for item in items if isinstance(item, Text))
    return None
