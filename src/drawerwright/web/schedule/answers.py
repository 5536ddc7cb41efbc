"""Answers for some rows of a job: their cabinets alone are looked at, however long the job is."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from drawerwright.errors import Fault, InputError
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import Check, FittedDrawer, Verdict
from drawerwright.units import ShownUnits
from drawerwright.web.fitting import DrawerAnswer, answer_values, place_of, read_values

_ORDER: Final = {"stop": 0, "watch": 1, "ok": 2}


def answers_of(
    values: Mapping[str, Any], rows: Iterable[int], families: Sequence[SlideFamily]
) -> dict[int, DrawerAnswer]:
    """The answers of the drawers in these rows (from 0), and of those that share their cabinets."""
    drawers = values.get("drawer", [])
    wanted = {row for row in rows if row < len(drawers)}
    shared = {cabinet_of(drawers[row]) for row in wanted} - {""}
    places = [at for at, one in enumerate(drawers) if at in wanted or cabinet_of(one) in shared]
    told = {**values, "drawer": [drawers[at] for at in places]}
    found = dict(zip(places, answer_values(told, families).drawers, strict=True))
    return _with_twice(found, drawers)


def cabinet_of(drawer: Mapping[str, Any]) -> str:
    """The cabinet that a drawer names; empty without one."""
    return str(drawer.get("cabinet") or "").strip()


def shared_faults(values: Mapping[str, Any]) -> tuple[Fault, ...]:
    """Faults of defaults and cabinets, which no single drawer has."""
    some: dict[str, Any] = {"id": "1", "opening": {"width": 500, "height": 150, "depth": 500}}
    if not (isinstance(values.get("defaults"), Mapping) and "side" in values["defaults"]):
        some["side"] = 16
    try:
        read_values({**values, "drawer": [some]})
    except InputError as error:
        return tuple(fault for fault in error.faults if place_of(fault)[0] != "drawer")
    return ()


def _with_twice(
    found: dict[int, DrawerAnswer], drawers: Sequence[Mapping[str, Any]]
) -> dict[int, DrawerAnswer]:
    """The fault of ids that stand twice in the job, also where only one of them was looked at."""
    names = [str(one.get("id") or "").strip() for one in drawers]
    counted = Counter(names)
    for at, answer in found.items():
        name = names[at]
        if not name or counted[name] == 1 or any(one.where.endswith(" id") for one in answer.faults):
            continue
        first = names.index(name)
        if first != at:
            says = f"is the id of row {first + 1} already: ids are unique in a job"
        else:
            says = f"is the id of row {names.index(name, at + 1) + 1}, too: ids are unique in a job"
        fault = Fault(f"job drawer {name} id", f'"{name}"', says, f'"{name}-{at + 1}"')
        found[at] = replace(answer, fitted=None, faults=(*answer.faults, fault))
    return found


def worst_check(fitted: FittedDrawer) -> Check | None:
    """The check to look at first: a stop before a watch before the rest, then the least margin in mm.

    That a mount is there, a column closes and a box is as tall as its opening lets it, is no news.
    """
    told = [one for one in fitted.checks if one.state != "ok" or not _is_no_news(one, fitted)]
    return min(told, key=lambda one: (_ORDER[one.state], one.unit != "mm", one.margin), default=None)


def _is_no_news(check: Check, fitted: FittedDrawer) -> bool:
    tallest = fitted.drawer.box_height is None and fitted.drawer.existing_box is None
    return check.id in ("mount", "column") or (check.id == "opening-height" and tallest)


@dataclass(frozen=True, slots=True)
class Totals:
    """A schedule counted: rows, drawers that are built, their verdicts, masses [kg], pairs of slides."""

    rows: int
    pieces: int
    verdicts: Mapping[Verdict, int]
    unanswered: int
    moving: float
    slides: tuple[tuple[str, float, int], ...]

    def as_json(self) -> dict[str, Any]:
        """The same with the keys `rows`, `pieces`, `verdicts`, `unanswered`, `moving`, `slides`."""
        slides = [
            {"family": family, "nominal": nominal, "pairs": pairs} for family, nominal, pairs in self.slides
        ]
        return {
            "rows": self.rows,
            "pieces": self.pieces,
            "verdicts": dict(self.verdicts),
            "unanswered": self.unanswered,
            "moving": self.moving,
            "slides": slides,
        }


def totals_of(answers: Iterable[DrawerAnswer]) -> Totals:
    """All rows of a job counted; drawers are counted as often as they are built."""
    verdicts: dict[Verdict, int] = {"fits": 0, "fits-with-care": 0, "does-not-fit": 0}
    slides: Counter[tuple[str, float]] = Counter()
    masses: list[float] = []
    rows = pieces = unanswered = 0
    for answer in answers:
        rows += 1
        fitted = answer.fitted
        if fitted is None:
            unanswered += 1
            continue
        quantity = fitted.drawer.quantity
        pieces += quantity
        verdicts[fitted.verdict] += quantity
        if fitted.slide is not None:
            slides[fitted.slide.family.id, fitted.slide.length.nominal] += quantity
        if fitted.mass is not None:
            masses.append(fitted.mass.moving * quantity)
    listed = tuple((family, nominal, pairs) for (family, nominal), pairs in sorted(slides.items()))
    return Totals(rows, pieces, verdicts, unanswered, math.fsum(masses), listed)


def job_totals(values: Mapping[str, Any], families: Sequence[SlideFamily]) -> Totals:
    """A whole job counted."""
    return totals_of(answer_values(values, families).drawers)


def units_of(values: Mapping[str, Any]) -> ShownUnits:
    """What people read in this job."""
    return "in" if values.get("units") == "in" else "mm"
