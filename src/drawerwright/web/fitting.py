"""Stored values in, answers out: each cabinet for itself, so that an edit computes one column anew.

Values that do not read yet are no reason to show nothing: the drawers of every cabinet that reads are
answered, and those that do not have their faults beside them.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from typing import Any, Final

from drawerwright.catalogue.contents import contents_preset_ids
from drawerwright.errors import Fault, InputError
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer, FittedJob
from drawerwright.model.fitted_column import FittedColumn
from drawerwright.model.job import Job
from drawerwright.units import ShownUnits
from drawerwright.web.answers_kept import KeptAnswers

Values = Mapping[str, Any]
KEPT: Final = 6_000
"""How many drawers' answers a process keeps: about 30 kB each, and all of the largest job. Own choice."""


@dataclass(frozen=True, slots=True)
class DrawerAnswer:
    """One drawer of a job: its answer, or the faults that keep it from having one.

    `waits` where its own values read, but something it shares (cabinet, defaults, another drawer of its
    column) does not.
    """

    name: str
    fitted: FittedDrawer | None
    faults: tuple[Fault, ...] = ()
    waits: bool = False


@dataclass(frozen=True, slots=True)
class JobAnswer:
    """A job's drawers in its order, its columns, and the faults that belong to no drawer."""

    drawers: tuple[DrawerAnswer, ...]
    columns: tuple[FittedColumn, ...]
    faults: tuple[Fault, ...]

    @property
    def complete(self) -> bool:
        """Whether every drawer has its answer."""
        return not self.faults and all(one.fitted is not None for one in self.drawers)

    def fitted_job(self, title: str) -> FittedJob:
        """The answers alone, as the command line has them. Raises InputError while a value does not read."""
        faults = [*self.faults, *(fault for one in self.drawers for fault in one.faults)]
        if faults:
            raise InputError(dict.fromkeys(faults))
        return FittedJob(title, tuple(one.fitted for one in self.drawers if one.fitted), self.columns)


@dataclass(frozen=True, slots=True)
class _Group:
    positions: tuple[int, ...]
    values: dict[str, Any]
    key: bytes


_ITEM: Final = re.compile(r" item \d+\Z")
_kept = KeptAnswers(KEPT)


def read_values(values: Values) -> Job:
    """The job of a mapping with a job file's keys. Raises InputError with every fault."""
    return job_from_mapping(values, presets=contents_preset_ids())


def answer_values(
    values: Values,
    families: Sequence[SlideFamily],
    *,
    units: ShownUnits | None = None,
    only: str | None = None,
) -> JobAnswer:
    """Every drawer of a job answered as far as its values read.

    `units` of the sentences, the job's own without. `only`: the id of the drawer that is wanted; then only
    its cabinet is looked at, and the others are left out.
    """
    drawers = values.get("drawer")
    drawers = list(drawers) if isinstance(drawers, Sequence) and not isinstance(drawers, str) else []
    names = drawer_names(drawers)
    shown: ShownUnits = units or ("in" if values.get("units") == "in" else "mm")
    found: dict[int, DrawerAnswer] = {}
    columns: list[FittedColumn] = []
    shared: list[Fault] = []
    for group in _groups(values, drawers, names, only):
        answer = _answer(group, families, shown)
        if isinstance(answer, InputError):
            own, others = _by_drawer(answer.faults, [names[at] for at in group.positions])
            shared += others
            for at in group.positions:
                found[at] = DrawerAnswer(names[at], None, own.get(names[at], ()), names[at] not in own)
            continue
        columns += answer.columns
        for at, fitted in zip(group.positions, answer.drawers, strict=True):
            found[at] = DrawerAnswer(names[at], fitted)
    for at, fault in _twice(names):
        if at in found:
            found[at] = DrawerAnswer(names[at], None, (*found[at].faults, fault))
    in_order = tuple(found[at] for at in sorted(found))
    return JobAnswer(in_order, tuple(columns), tuple(dict.fromkeys(shared)))


def _groups(values: Values, drawers: Sequence[Any], names: Sequence[str], only: str | None) -> list[_Group]:
    """Drawers that share a cabinet, or one alone, with all that is told of them."""
    together: dict[object, list[int]] = {}
    for at, drawer in enumerate(drawers):
        cabinet = drawer.get("cabinet") if isinstance(drawer, Mapping) else None
        together.setdefault(("in", str(cabinet)) if cabinet else at, []).append(at)
    defaults = values.get("defaults") or {}
    cabinets = [one for one in values.get("cabinet") or () if isinstance(one, Mapping)]
    groups = []
    for shared, positions in together.items():
        if only is not None and only not in (names[at] for at in positions):
            continue
        wanted = {shared[1]} if isinstance(shared, tuple) else set()
        if isinstance(defaults, Mapping) and defaults.get("cabinet"):
            wanted.add(str(defaults["cabinet"]))
        told = {
            **{key: value for key, value in values.items() if key not in ("cabinet", "drawer")},
            "cabinet": [one for one in cabinets if str(one.get("id")) in wanted],
            "drawer": [drawers[at] for at in positions],
        }
        told = {**told, "title": ""}
        key = sha256(json.dumps(told, sort_keys=True, default=str).encode()).digest()
        groups.append(_Group(tuple(positions), told, key))
    return groups


def _answer(group: _Group, families: Sequence[SlideFamily], units: ShownUnits) -> FittedJob | InputError:
    key = (group.key, _kept.number_of(tuple(families)), units)
    answer = _kept.get(key)
    if answer is None:
        try:
            answer = fit_job(read_values(group.values), families, units=units)
        except InputError as error:
            answer = error
        _kept.put(key, answer, len(group.positions))
    return answer


def place_of(fault: Fault) -> tuple[str, str, str]:
    """What a fault belongs to: "drawer", "cabinet" or "", its name, and the key in it.

    A key of one value among several has its place behind it: "opening.width item 2".
    """
    words = fault.where.removeprefix("job").strip()
    for kind in ("drawer", "cabinet"):
        if words.startswith(f"{kind} "):
            told = words.removeprefix(f"{kind} ")
            item = _ITEM.search(told)
            name, _, key = told[: item.start() if item else len(told)].rpartition(" ")
            return (kind, name, key + (item[0] if item else "")) if name else (kind, key, "")
    return "", "", words


def _by_drawer(
    faults: Sequence[Fault], names: Sequence[str]
) -> tuple[dict[str, tuple[Fault, ...]], list[Fault]]:
    own: dict[str, tuple[Fault, ...]] = {}
    others = []
    for fault in faults:
        kind, name, _ = place_of(fault)
        if kind == "drawer" and name.isdecimal() and name not in names:  # told by its place in the group
            name = names[int(name) - 1] if 0 < int(name) <= len(names) else name
        if kind == "drawer" and name in names:
            own[name] = (*own.get(name, ()), fault)
        else:
            others.append(fault)
    return own, others


def _twice(names: Sequence[str]) -> list[tuple[int, Fault]]:
    """Ids that stand more than once in the job, wherever they are."""
    first: dict[str, int] = {}
    faults = []
    for at, name in enumerate(names):
        if name in first:
            says = f"is the id of drawer {first[name] + 1} already: ids are unique in a job"
            faults.append((at, Fault(f"job drawer {name} id", f'"{name}"', says, f'"{name}-{at + 1}"')))
        else:
            first[name] = at
    return faults


def drawer_names(drawers: Sequence[Any]) -> list[str]:
    """The drawers' ids as people read them; where one has none, its place."""
    return [_name(one, at) for at, one in enumerate(drawers)]


def _name(drawer: Any, at: int) -> str:
    """A drawer's id as people read it, or its place where it has none."""
    name = drawer.get("id") if isinstance(drawer, Mapping) else None
    return str(name).strip() if name not in (None, "") else f"{at + 1}"
