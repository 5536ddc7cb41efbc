"""A job without some of its drawers, by their names: what reads can go on paper before the rest does."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from drawerwright.errors import Fault, InputError
from drawerwright.web.fitting import JobAnswer, Values, drawer_names


def leave_out(values: Values, names: Sequence[str]) -> dict[str, Any]:
    """The values without the drawers of these names, and without the cabinets that only they stand in.

    Raises InputError for a name that no drawer has.
    """
    if not names:
        return dict(values)
    told = values.get("drawer")
    drawers = list(told) if isinstance(told, Sequence) and not isinstance(told, str) else []
    named = list(zip(drawer_names(drawers), drawers, strict=True))
    missing = sorted(set(names) - {name for name, _ in named})
    if missing:
        says = "is not a drawer of this job, and cannot be left out"
        try_ = named[0][0] if named else "no drawer"
        raise InputError([Fault("without", name[:80], says, try_) for name in missing])
    rest = [one for name, one in named if name not in names]
    gone = _cabinets(one for name, one in named if name in names) - _cabinets(rest)
    cabinets = [
        one
        for one in values.get("cabinet") or ()
        if not (isinstance(one, Mapping) and str(one.get("id")) in gone)
    ]
    shared = {"cabinet": cabinets} if "cabinet" in values else {}
    return {**values, **shared, "drawer": rest}


def to_leave_out(found: JobAnswer) -> tuple[str, ...]:
    """The names without which a job reads: of drawers with faults, of all that share what has one."""
    own = [one.name for one in found.drawers if one.faults]
    waiting = [one.name for one in found.drawers if one.waits] if found.faults else []
    return tuple(dict.fromkeys([*own, *waiting]))


def _cabinets(drawers: Any) -> set[str]:
    return {str(one["cabinet"]) for one in drawers if isinstance(one, Mapping) and one.get("cabinet")}
