"""Values in the sentences of the study, in the units that people read; how a check is put together."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from drawerwright.model.fitted import Check, State
from drawerwright.units import HARDLY, KG_PER_POUND, MM_PER_INCH, ShownUnits, format_length, format_mass

SLACK = 1e-6
"""How far below nothing a margin may lie and still hold: rounding alone."""
SMALL = 10.0
"""Lengths below it [mm] are told in decimals of an inch: a fraction would hide them. Own choice."""
NEWTONS_A_POUND = 4.4482216152605
"""N in a pound-force, exact: 0.45359237 kg × 9.80665 m/s²."""
LONG: Final = 1e6
"""From here on a number is told by its first figures and a power of ten: nobody reads it out in full."""


@dataclass(frozen=True, slots=True)
class Words:
    """How numbers are written."""

    units: ShownUnits = "mm"

    def length(self, mm: float, decimals: int = 1) -> str:
        """A length [mm]; where inches are read, a small one in decimals of an inch."""
        if abs(mm) >= SMALL or self.units == "mm":
            return format_length(mm, self.units, decimals=decimals).replace("-", "−")
        return self._told(format_length(mm, decimals=decimals), f"{_inches(mm, decimals + 1)} in")

    def speed(self, mm_s: float) -> str:
        """A speed [mm/s]."""
        return self._told(f"{round(mm_s) + 0.0:.0f} mm/s", f"{_inches(mm_s, 1)} in/s")

    def mass(self, kg: float) -> str:
        """A mass [kg]."""
        return format_mass(kg, self.units, decimals=1).replace("-", "−")

    def mass_at_least(self, kg: float) -> str:
        """A mass [kg] that is left, never told as more than it is; below 0 what is lacking, never as less."""
        metric = f"{_tenth_down(kg)} kg"
        return self._told(metric, f"{_tenth_down(kg / float(KG_PER_POUND))} lb")

    def force(self, newtons: float, decimals: int = 0) -> str:
        """A force [N]; in pounds-force as well where inches are read."""
        pounds = _figure(newtons / NEWTONS_A_POUND, decimals)
        return self._told(f"{_figure(newtons, decimals)} N", f"{pounds} lbf")

    def as_published(self, metric: str, inch: str) -> str:
        """A figure that was published in both units, or in one and is exact in neither."""
        return self._told(metric, inch)

    def _told(self, metric: str, inch: str) -> str:
        told = {"mm": metric, "in": inch, "both": f"{metric} ({inch})"}[self.units]
        return told.replace("-", "−")


def _inches(mm: float, decimals: int) -> str:
    return _figure(mm / float(MM_PER_INCH), decimals)


def _figure(value: float, decimals: int) -> str:
    """Decimals without trailing zeros, never a negative nought."""
    told = f"{round(value, decimals) + 0.0:.{decimals}f}"
    return told.rstrip("0").rstrip(".") if decimals > 0 else told


def _tenth_down(value: float) -> str:
    if not abs(value) < LONG:
        return f"{value:.3g}"
    return _figure(math.floor(value * 10 + float(HARDLY)) / 10, 1)


def figure_down(value: float) -> str:
    """A number rounded down: to a tenth under 100, else to a whole one; a true minus sign."""
    if abs(value) >= LONG:
        third = 10.0 ** (math.floor(math.log10(abs(value))) - 2)
        return f"{math.floor(value / third) * third:.3g}".replace("-", "−")
    if abs(value) >= 100.0:
        return f"{math.floor(value + float(HARDLY)) + 0.0:.0f}".replace("-", "−")
    return f"{math.floor(value * 10 + float(HARDLY)) / 10 + 0.0:.1f}".replace("-", "−")


def state_of(margin: float, *, watch_below: float | None = None, only_watches: bool = False) -> State:
    """Below 0 it stops, or only watches where told so; below `watch_below` it watches."""
    if margin < -SLACK:
        return "watch" if only_watches else "stop"
    return "watch" if watch_below is not None and margin < watch_below else "ok"


def check_of(
    id_: str,
    margin: float,
    unit: str,
    says: str,
    *,
    working: str,
    source: str,
    cure: str,
    watch_below: float | None = None,
    only_watches: bool = False,
) -> Check:
    """A check; its cure is told where there is something to cure or to watch."""
    state = state_of(margin, watch_below=watch_below, only_watches=only_watches)
    if state == "ok":
        return Check(id_, state, margin, unit, says, working, source)
    return Check(id_, state, margin, unit, f"{says} {cure}", working, source, cure)
