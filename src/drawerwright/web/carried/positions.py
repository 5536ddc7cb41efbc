"""What a slide does at every place it is drawn out to: exact at some, on straight lines between them.

Roller forces are straight lines over the travel, and the sag nearly; where rear rollers change rails its play
jumps, so both sides of such a place are told. A page's script reads the same table.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields
from typing import Final

import numpy as np

from drawerwright.carry.carried import Slide
from drawerwright.carry.rollers import GROUPS
from drawerwright.carry.sides import HANDS, side_data
from drawerwright.carry.slide_data import together
from drawerwright.carry.telescope import Drawn, draw_out
from drawerwright.carry.words import NEWTONS_A_POUND
from drawerwright.drawing.shown import Shown
from drawerwright.equations.mechanics.beams import Q
from drawerwright.units import MM_PER_INCH

PLACES: Final = 25
"""Places along the travel. Own choice."""
BESIDE: Final = 0.01
"""How far on either side of a jump of the play its places stand [mm]. Own choice."""


@dataclass(frozen=True, slots=True)
class Positions:
    """Values by name at the extensions `at` (k,) [mm], ascending: sags [mm], forces [N].

    `drawn`: the whole of it. Of what is not known there are no values.
    """

    at: Q
    told: Mapping[str, Q]
    drawn: Drawn

    def value(self, name: str, out: float) -> float | None:
        """A value where the drawer is drawn out so far [mm]; None where it is not known."""
        values = self.told.get(name)
        return None if values is None else float(np.interp(out, self.at, values))

    def document(self) -> dict[str, list[float]]:
        """Everything for a script: sags to 1/1000 mm, forces to 1/100 N."""
        rows = {name: _rounded(values, 3 if "sag" in name else 2) for name, values in self.told.items()}
        return {"at": _rounded(self.at, 3), **rows}


@dataclass(frozen=True, slots=True)
class Measure:
    """How a page tells a kind of value: divided by `per`, to so many decimals, with its unit."""

    per: float
    decimals: int
    unit: str

    def words(self, value: float) -> str:
        """A value in words; a negative nought is none."""
        told = round(value / self.per, self.decimals) + 0.0
        return f"{told:.{self.decimals}f} {self.unit}".replace("-", "\u2212")


def measures(shown: Shown) -> dict[str, Measure]:
    """How far out, sags and forces. A sag is in decimals of an inch: a fraction would hide it."""
    inches = shown.in_inches
    return {
        "out": Measure(float(MM_PER_INCH), 1, "in") if inches else Measure(1.0, 0, "mm"),
        "sag": Measure(float(MM_PER_INCH), 3, "in") if inches else Measure(1.0, 1, "mm"),
        "force": Measure(NEWTONS_A_POUND, 0, "lbf") if inches else Measure(1.0, 0, "N"),
    }


def positions_of(slide: Slide) -> Positions:
    """Every value of a slide over its travel, and those of both slides of an uneven load."""
    data = [slide.data]
    if slide.sides is not None:
        data += side_data(slide.data, slide.sides.shares)
    at = _places(slide)
    drawn = draw_out(together(data), np.tile(at, (len(data), 1)))
    rows = [Drawn(*(getattr(drawn, field.name)[row] for field in fields(Drawn))) for row in range(len(data))]
    told: dict[str, Q] = {}
    if slide.data.has_sag:
        told["sag"] = rows[0].sag
        told |= {f"sag_{hand}": row.sag for hand, row in zip(HANDS, rows[1:], strict=False)}
    if slide.data.has_forces:
        told |= {name: getattr(rows[0], name) for name in GROUPS}
    return Positions(at, told, rows[0])


@dataclass(frozen=True, slots=True)
class Told:
    """A value in the sentence of a place: `name` in the table, whose it is, and what it is now in words."""

    name: str
    whose: str
    words: str


@dataclass(frozen=True, slots=True)
class Rear:
    """A rear roller group in the sentence: carrying or lifting `now`, and from where on it lifts in words."""

    told: Told
    lifts: bool
    lifts_at: str


@dataclass(frozen=True, slots=True)
class PlaceWords:
    """The sentence of one place: how far out, the front's sag, both sides' sags, front and rear rollers."""

    out: str
    sag: Told | None
    rises: bool
    sides: tuple[Told, ...]
    fronts: tuple[Told, ...]
    rears: tuple[Rear, ...]


def words_at(slide: Slide, positions: Positions, out: float, shown: Shown) -> PlaceWords:
    """What the slide does where the drawer is drawn out so far [mm]."""
    how = measures(shown)

    def told(name: str, whose: str, kind: str) -> Iterator[Told]:
        value = positions.value(name, out)
        if value is not None:
            yield Told(name, whose, how[kind].words(abs(value)))

    lifts: dict[str, float | None] = {"lower_rear": None, "upper_rear": None}
    if slide.rollers is not None:
        lifts = {"lower_rear": slide.rollers.lifts_lower, "upper_rear": slide.rollers.lifts_upper}
    rears = []
    for name, at in lifts.items():
        for one in told(name, name.replace("_", " "), "force"):
            lifted = (positions.value(name, out) or 0.0) < 0.0
            rears.append(Rear(one, lifted, "" if at is None else how["out"].words(at)))
    sag = positions.value("sag", out)
    return PlaceWords(
        out=how["out"].words(out),
        sag=next(told("sag", "the front", "sag"), None),
        rises=sag is not None and how["sag"].words(sag).startswith("\u2212"),
        sides=tuple(one for hand in HANDS for one in told(f"sag_{hand}", hand, "sag")),
        fronts=tuple(one for name in ("lower_front", "upper_front") for one in told(name, name[:5], "force")),
        rears=tuple(rears),
    )


def _places(slide: Slide) -> Q:
    travel = slide.data.travel
    places = list(np.linspace(0.0, travel, PLACES))
    lifts = () if slide.rollers is None else (slide.rollers.lifts_lower, slide.rollers.lifts_upper)
    for at in lifts:
        if at is not None:
            places += [at - BESIDE, at + BESIDE]
    return np.unique(np.clip(np.array(places, dtype=np.float64), 0.0, travel))


def _rounded(values: Q | Sequence[float], decimals: int) -> list[float]:
    return [round(float(value), decimals) + 0.0 for value in values]
