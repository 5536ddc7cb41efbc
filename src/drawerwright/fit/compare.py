"""Slides side by side: each drawer of a job on each of the slides named, and where they differ."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import fsum

from drawerwright.catalogue.materials import Materials
from drawerwright.errors import Fault, InputError, ReadingError
from drawerwright.fit.asked_for import check_slides_asked_for
from drawerwright.fit.job import Progress, fit_job
from drawerwright.fit.spacers import ROUND_OFF
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import Check, ChosenSlide, FittedDrawer, State
from drawerwright.model.job import Drawer, Job
from drawerwright.units import BareUnit, ShownUnits, parse_size

PLACE = "compare"
LEAST = 2


@dataclass(frozen=True, slots=True)
class Differing:
    """A check that comes out differently: its margins [unit] and states, slide by slide, None: not asked."""

    id: str
    unit: str
    margins: tuple[float | None, ...]
    states: tuple[State | None, ...]


@dataclass(frozen=True, slots=True)
class ComparedDrawer:
    """One drawer's answer on each slide compared, in their order.

    Where a slide does not fit, its answer's checks are those of the length that came nearest.
    """

    drawer: Drawer
    answers: tuple[FittedDrawer, ...]

    @property
    def differing(self) -> tuple[Differing, ...]:
        """The checks that do not come out alike, in the order in which they are told."""
        by_slide = [{check.id: check for check in answer.checks} for answer in self.answers]
        names = dict.fromkeys(check.id for answer in self.answers for check in answer.checks)
        found = (_differing(name, by_slide) for name in names)
        return tuple(one for one in found if one is not None)


@dataclass(frozen=True, slots=True)
class Comparison:
    """A job's drawers on each of the `slides`, named as asked: a family, or a family and a length."""

    title: str
    slides: tuple[str, ...]
    drawers: tuple[ComparedDrawer, ...]

    def fitting(self, place: int) -> int:
        """How many drawers fit on the slide at that place, each as many times as it is built."""
        return sum(
            one.drawer.quantity for one in self.drawers if one.answers[place].verdict != "does-not-fit"
        )

    def cost(self, place: int) -> float | None:
        """What the slides of the drawers that fit there cost; None where a price is not known."""
        prices = [
            (price_of(one.answers[place]), one.drawer.quantity)
            for one in self.drawers
            if one.answers[place].slide is not None
        ]
        known = [price * count for price, count in prices if price is not None]
        return fsum(known) if len(known) == len(prices) else None


def compare_slides(
    job: Job,
    families: Sequence[SlideFamily],
    wanted: Sequence[str],
    *,
    units: ShownUnits = "mm",
    materials: Materials | None = None,
    progress: Progress | None = None,
    where: str = PLACE,
) -> Comparison:
    """Fit every drawer on each of the slides `wanted`: ids of families, each alone or as family/nominal.

    What a drawer itself asks for counts for nothing here. `units`, `materials` and `progress` as for
    `fit_job`; `where` is the place that faults are told at. Raises InputError where fewer than two are
    named, one twice, or one that is not there.
    """
    slides = _read_slides(wanted, families, job, where)
    by_id = {family.id: family for family in families}
    total = len(slides) * len(job.drawers)
    columns: list[tuple[FittedDrawer, ...]] = []
    for place, slide in enumerate(slides):
        asking = job.model_copy(update={"drawers": tuple(_asking(one, slide) for one in job.drawers)})
        before = place * len(job.drawers)

        def tell(done: int, _: int, before: int = before) -> None:
            if progress is not None:
                progress(before + done, total)

        only = [by_id[slide.partition("/")[0]]]
        columns.append(fit_job(asking, only, units=units, materials=materials, progress=tell).drawers)
    drawers = tuple(
        ComparedDrawer(drawer, tuple(column[row] for column in columns))
        for row, drawer in enumerate(job.drawers)
    )
    return Comparison(job.title, slides, drawers)


def price_of(answer: FittedDrawer) -> float | None:
    """Price of the pair that a drawer gets; None without one, or where it is not known."""
    return None if answer.slide is None else answer.slide.length.price


def shown_slide(answer: FittedDrawer) -> ChosenSlide | None:
    """The slide that an answer speaks of: the one that fits, else the nearest."""
    return answer.slide or answer.nearest


def _asking(drawer: Drawer, slide: str) -> Drawer:
    return drawer.model_copy(update={"slide": slide})


def _read_slides(
    wanted: Sequence[str], families: Sequence[SlideFamily], job: Job, where: str
) -> tuple[str, ...]:
    slides: list[str] = []
    faults: list[Fault] = []
    for told in wanted:
        try:
            slide = _as_read(told, job.units)
        except ReadingError as error:
            faults.append(error.fault(where))
            continue
        if slide in slides:
            faults.append(Fault(where, f'"{told}"', "is named twice", "another slide"))
        slides.append(slide)
    try:
        check_slides_asked_for(
            [_asking(job.drawers[0], slide) for slide in slides], families, where=lambda _: where
        )
    except InputError as error:
        example = f'"{families[0].id}"' if families else '"house-16"'
        faults += [
            replace(fault, try_=example) if fault.try_.strip('"') == "auto" else fault
            for fault in error.faults
        ]
    if faults:
        raise InputError(dict.fromkeys(faults))
    if len(wanted) < LEAST:
        two = " ".join(dict.fromkeys([*wanted, *(one.id for one in families)][:LEAST]))
        says = "is compared with nothing: two slides or more are wanted"
        raise InputError([Fault(where, " ".join(wanted), says, two)])
    return tuple(slides)


def _as_read(told: str, unit: BareUnit) -> str:
    """A family, or a family and its length in mm, as a drawer holds it."""
    family, _, nominal = (part.strip() for part in told.partition("/"))
    if not family or family == "auto":
        raise ReadingError(f'"{told}"', "names no family of slides", '"house-16" or "house-16/500"')
    return f"{family}/{parse_size(nominal, unit)!r}".removesuffix(".0") if nominal else family


def _differing(name: str, by_slide: Sequence[Mapping[str, Check]]) -> Differing | None:
    checks = [checks.get(name) for checks in by_slide]
    margins = tuple(None if check is None else check.margin for check in checks)
    states = tuple(None if check is None else check.state for check in checks)
    known = [margin for margin in margins if margin is not None]
    alike = len(known) == len(margins) and max(known) - min(known) <= ROUND_OFF and len(set(states)) == 1
    if alike:
        return None
    unit = next(check.unit for check in checks if check is not None)
    return Differing(name, unit, margins, states)
