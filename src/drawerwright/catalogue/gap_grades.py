"""Grades of work by how uneven a gap around a front may be left."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final, Literal, TypeAlias

from drawerwright.catalogue.shipped import shipped_values
from drawerwright.units import parse_size

_FILE: Final = "gap-grades.toml"
GradeName: TypeAlias = Literal["premium", "custom", "economy"]


@dataclass(frozen=True, slots=True)
class GapGrade:
    """One grade: its id, how far a gap may be off [mm], and who says so."""

    id: GradeName
    gap: float
    source: str


@cache
def gap_grades() -> tuple[GapGrade, ...]:
    """All grades, the strictest first."""
    values = shipped_values(_FILE)
    return tuple(GapGrade(one["id"], parse_size(one["gap"]), values["source"]) for one in values["grade"])


def usual_grade() -> GradeName:
    """The grade where none is told."""
    name: GradeName = shipped_values(_FILE)["usual"]
    return name
