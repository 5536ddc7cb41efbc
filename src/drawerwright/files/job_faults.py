"""The faults of a job's file: each once, with its place, in the order of the file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from drawerwright.errors import Fault, Problem
from drawerwright.files.defaults import comes_from_defaults
from drawerwright.files.job_source import JobSource
from drawerwright.model.faults import Loc, named_place


@dataclass(frozen=True)
class JobFaults:
    """Turns what is wrong with a job into faults of the file that it was read from."""

    source: JobSource
    defaults: Mapping[str, Any]
    drawers: Sequence[Any]

    def listed(self, misnamed: Sequence[Problem], problems: Sequence[Problem]) -> list[Fault]:
        """All faults; a fault of a default once, not for every drawer.

        What comes only of a value that was lost, because its cell does not read or it names no material
        (`misnamed`), is left out.
        """
        placed = {(one.fault.where, one.fault.says): (one.order, one.fault) for one in self.source.refused}
        lost = {one.loc for one in self.source.refused if one.loc is not None}
        for problem in misnamed:
            loc, order, fault = self._located(problem)
            placed.setdefault((fault.where, fault.says), (order, fault))
            lost.add(loc)
        for problem in problems:
            loc, order, fault = self._located(problem)
            if not any(loc[:end] in lost for end in range(1, len(loc) + 1)) and not _around(loc, lost):
                placed.setdefault((fault.where, fault.says), (order, fault))
        return [fault for _, fault in sorted(placed.values(), key=lambda one: one[0])]

    def _located(self, problem: Problem) -> tuple[Loc, int, Fault]:
        loc, order, place = self.where(problem.loc)
        return loc, order, Fault(place, problem.value, problem.says, problem.try_)

    def where(self, loc: Loc) -> tuple[Loc, int, str]:
        """Where a key was written, maybe as a default; a number to sort by, and the place in words."""
        if loc[:1] == ("drawer",) and len(loc) > 2 and isinstance(loc[1], int):
            drawer = self.drawers[loc[1]]
            if comes_from_defaults(loc[2:], self.defaults, drawer):
                loc = ("defaults", *loc[2:])
        order, place = self.source.place(loc)
        return loc, order, f"{place} {named_place(loc, self.source.values)}".rstrip()


def _around(loc: Loc, lost: set[Loc]) -> bool:
    """Whether a place holds one that was lost, and nothing more than a table is missing there."""
    return len(loc) > 2 and any(one[: len(loc)] == loc for one in lost)
