"""Readings that are to be met, so that fronts stand on a line with their neighbours in other cabinets."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeAlias

import numpy as np

from drawerwright.align.front_geometry import Array
from drawerwright.align.stack import Stack
from drawerwright.errors import Fault, InputError
from drawerwright.model.gaps import GAP_NAMES, FrontGaps, GapName
from drawerwright.model.spelling import nearest

Line: TypeAlias = Mapping[tuple[str, GapName], float]
"""Wanted readings [mm] by drawer and name."""

EXAMPLE = "B1-2.top_left=2.5"


def check_line(line: Line, gaps: Mapping[str, FrontGaps], where: str) -> None:
    """Raises InputError for readings wanted of a front, or at a place, that was not measured."""
    faults = []
    for (drawer, name), value in line.items():
        told = f"{drawer}.{name}={value:g}"
        if drawer not in gaps:
            near = nearest(drawer, gaps)
            faults.append(Fault(where, told, f'"{drawer}" was not measured', f"{near}.{name}={value:g}"))
        elif name not in gaps[drawer].readings:
            says = f"{name} of {drawer} was not measured, so it cannot be brought on a line"
            faults.append(Fault(where, told, says, f"a reading of {name}"))
    if not line:
        says = 'is missing: the target "line" needs the readings to be met'
        faults.append(Fault(where, "", says, EXAMPLE))
    if faults:
        raise InputError(faults)


def line_of(stack: Stack, line: Line) -> Array | None:
    """Wanted readings of a stack (12 n,) [mm], nan where none is wanted; None where none is at all."""
    wanted = np.full(len(GAP_NAMES) * len(stack.fronts), np.nan)
    for at, front in enumerate(stack.fronts):
        for name in GAP_NAMES:
            if (front.id, name) in line:
                wanted[stack.row(at, name)] = line[front.id, name]
    return None if np.all(np.isnan(wanted)) else wanted
