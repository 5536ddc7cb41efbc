"""One mount tried: every drawer of a situation against every slide of a carriage, with all margins."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from drawerwright.equations.equation import CheckRule, Q
from drawerwright.equations.sheet import Plan
from drawerwright.equations.trade import CHECK_ORDER, ERRORS, GIVEN, SHEET
from drawerwright.fit.slide_rows import SlideRows
from drawerwright.fit.spacers import ROUND_OFF, Stacked, choose_spacers
from drawerwright.model.fitted import Mount, State

Mask: TypeAlias = NDArray[np.bool_]

_FIELDS = re.compile(r"\{(\w+)")
"""Quantities that a check's sentences speak of."""
_BEHIND_SPACERS = ("narrowest_at_slide", "widest_at_slide", "measured_width")
_OFF_SEAT = ("bracket_off_side", "bracket_off_along")
_ANSWERS = (
    "side_gap",
    "front_depth",
    "side_edge_depth",
    "first_hole",
    "screw_line",
    "front_width",
    "front_height",
    "stands_out",
    "packing_left",
    "packing_right",
    "rear_packing_left",
    "rear_packing_right",
    "reach",
    "moving_mass",
    "side_length",
    "cross_length",
    "subfront_height",
    "back_height",
    "bottom_length",
    "bottom_width",
    "capacity",
    "lower_edge",
)
_SHAPED = (
    "back_piece_left",
    "back_piece_right",
    "bottom_cut",
    "inner_height",
    "inner_side_length",
    "inner_back_length",
)
_FIXING = ("longest_front_screw", "front_low", "lifts_after", "lowers_after")
_BRACKETS = ("rear_bracket_left", "rear_bracket_right", "rear_bracket_height")


@dataclass(frozen=True, slots=True)
class CheckPlan:
    """A check of a plan: its quantity, its rule, and on whose word it stands."""

    quantity: str
    unit: str
    rule: CheckRule


@dataclass(frozen=True, slots=True)
class TrialPlan:
    """What is computed for one situation: brackets without spacers, margins, and the sizes of the answer."""

    off_seat: Plan | None
    margins: Plan
    answer: Plan
    checks: tuple[CheckPlan, ...]
    stopping: tuple[str, ...]
    hangs_on: Mapping[str, frozenset[str]]


@dataclass(frozen=True, slots=True)
class Trial:
    """Margins and sizes of drawers (d) against slides (c); every value broadcasts to (d, c)."""

    mount: Mount
    rows: SlideRows
    plan: TrialPlan
    values: dict[str, Q]
    side: Stacked | None
    along: Stacked | None
    shape: tuple[int, int]

    @property
    def stopped(self) -> Mask:
        """(d, c): where a check stops."""
        stopped = np.zeros(self.shape, dtype=bool)
        for check in self.plan.checks:
            if not check.rule.only_watches:
                np.logical_or(stopped, self.values[check.quantity] < -ROUND_OFF, out=stopped)
        return stopped


def state_of(rule: CheckRule, margin: float, care: float | None) -> State:
    """The one place where a margin becomes a state."""
    if margin < -ROUND_OFF and not rule.only_watches:
        return "stop"
    watched = margin < -ROUND_OFF
    watched = watched or (rule.watch_below is not None and margin < rule.watch_below - ROUND_OFF)
    return "watch" if watched or (care is not None and care < -ROUND_OFF) else "ok"


def trial_plan(situation: Mapping[str, str], mount: Mount, carriage: str) -> TrialPlan:
    """Plans for a situation with its mount and carriage; kept once made."""
    return _trial_plan((*sorted(situation.items()), ("mount", mount), ("carriage", carriage)))


@lru_cache(maxsize=1024)
def _trial_plan(items: tuple[tuple[str, str], ...]) -> TrialPlan:
    situation = dict(items)
    found = []
    for quantity in SHEET.checks(situation):
        item = SHEET.applicable(quantity, situation)
        assert item is not None
        assert item.check is not None
        found.append(CheckPlan(quantity, item.unit, item.check))
    checks = tuple(sorted(found, key=lambda check: CHECK_ORDER.index(check.rule.id)))
    names = (*GIVEN, *ERRORS)
    concealed = situation["carriage"] == "concealed"
    care = tuple(check.rule.care for check in checks if check.rule.care)
    brackets = _BRACKETS if situation["mount"] == "rear-bracket" else ()
    fixed = situation["style"] != "none" and situation["front"] == "applied"
    fixing = _FIXING if fixed else ()
    shaped = () if situation["shape"] == "plain" else _SHAPED
    spoken = tuple(
        name
        for check in checks
        for name in _FIELDS.findall(" ".join(check.rule.sentences))
        if name in SHEET.variants and SHEET.applicable(name, situation) is not None
    )
    wanted = (*(check.quantity for check in checks), "box_length", "capacity")
    off_seat = SHEET.plan(situation, _OFF_SEAT, names) if concealed else None
    margins = SHEET.plan(situation, wanted, names)
    stopping = tuple(check.quantity for check in checks if not check.rule.only_watches)
    return TrialPlan(
        off_seat,
        margins,
        SHEET.plan(situation, (*wanted, *care, *spoken, *_ANSWERS, *brackets, *fixing, *shaped), names),
        checks,
        stopping,
        _hangs_on(stopping, margins, off_seat),
    )


def _hangs_on(stopping: Sequence[str], margins: Plan, off_seat: Plan | None) -> dict[str, frozenset[str]]:
    """For every check that can stop the given quantities behind it, those that choose its spacers too."""
    roots = margins.roots()
    behind = frozenset().union(*off_seat.roots().values(), _BEHIND_SPACERS) if off_seat else frozenset()
    spacers = frozenset({"side_spacers", "subfront_spacers"})
    return {name: roots[name] | behind if roots[name] & spacers else roots[name] for name in stopping}


def run_trial(
    situation: Mapping[str, str],
    mount: Mount,
    rows: SlideRows,
    drawers: Mapping[str, Q],
    *,
    answer: bool = True,
) -> Trial:
    """Try drawers (d, 1) on slides (1, c); `answer` computes the sizes too, not the margins alone."""
    plan = trial_plan(situation, mount, rows.carriage)
    values: dict[str, Q] = {**drawers, **rows.values}
    side = along = None
    if plan.off_seat is not None:
        off = plan.off_seat.run(values)
        reach = values["latch_tolerance_along"]
        side = choose_spacers(off["bracket_off_side"], *side_limits(values), rows.spacers)
        along = choose_spacers(off["bracket_off_along"], -reach, reach, rows.spacers)
        values["side_spacers"], values["subfront_spacers"] = side.thickness, along.thickness
    values = (plan.answer if answer else plan.margins).run(values)
    shape = (len(drawers["measured_width"]), len(rows.candidates))
    return Trial(mount, rows, plan, values, side, along, shape)


def side_limits(values: Mapping[str, Q]) -> tuple[Q, Q]:
    """How far a bracket may be off its seat sideways: it latches, and the pair runs at every reading.

    The pair gives way by twice the offset, inboard positive.
    """
    tolerance = values["latch_tolerance_side"]
    narrow = values["narrowest_at_slide"] - values["measured_width"]
    wide = values["widest_at_slide"] - values["measured_width"]
    high = np.minimum(tolerance, (narrow - values["band_low"]) / 2)
    return np.maximum(-tolerance, (wide - values["band_high"]) / 2), high
