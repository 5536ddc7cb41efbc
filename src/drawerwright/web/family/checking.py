"""A slide family looked at while it is being typed: its faults at their fields, its remarks beside them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from drawerwright.catalogue.families import read_family
from drawerwright.catalogue.family_check import check_family
from drawerwright.catalogue.family_remark import Remark
from drawerwright.errors import Fault, Problems
from drawerwright.model.family import SlideFamily
from drawerwright.model.faults import named_place
from drawerwright.web.family.fields import FamilyForm

TAKEN_BY_ADDRESSES = ("new", "compare", "check")
"""Ids that addresses of our own bear: /slides/new."""


@dataclass(frozen=True, slots=True)
class CheckedFamily:
    """A form's family, None while it does not read; its faults by field, those of no field, its remarks."""

    family: SlideFamily | None
    at_fields: dict[str, Fault]
    others: tuple[Fault, ...]
    remarks: tuple[Remark, ...]

    @property
    def faults(self) -> tuple[Fault, ...]:
        """All faults, those at fields first."""
        return (*self.at_fields.values(), *self.others)


def check_form(form: FamilyForm) -> CheckedFamily:
    """Read a form's family; every fault is told, remarks only of a family that reads."""
    faults: dict[str, Fault] = {}
    others: list[Fault] = []
    family: SlideFamily | None = None
    try:
        family = read_family(form.values)
    except Problems as error:
        for problem in error.problems:
            fault = Fault(named_place(problem.loc, form.values), problem.value, problem.says, problem.try_)
            name = form.field_of(problem)
            if name is None or name in faults:
                others.append(fault)
            else:
                faults[name] = fault
    if form.values.get("id") in TAKEN_BY_ADDRESSES:
        says = "is the address of a page of this program"
        faults.setdefault("id", Fault("id", f'"{form.values["id"]}"', says, '"plain-16"'))
        family = None
    remarks = () if family is None else tuple(check_family(family, family.units))
    return CheckedFamily(family, faults, tuple(dict.fromkeys(others)), remarks)


def faults_of_values(values: Mapping[str, Any]) -> tuple[Fault, ...]:
    """The faults of a family's values as they stand, wherever they come from."""
    try:
        read_family(values)
    except Problems as error:
        return tuple(
            Fault(named_place(one.loc, values), one.value, one.says, one.try_) for one in error.problems
        )
    return ()
