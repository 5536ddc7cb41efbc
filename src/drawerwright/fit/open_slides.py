"""Every slide that a drawer could be built with, best first: what the whole job's choice chooses among."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from drawerwright.catalogue.materials import Materials
from drawerwright.equations.equation import Q
from drawerwright.fit.answer import Place
from drawerwright.fit.asked_for import slides_allowed
from drawerwright.fit.choose import choose
from drawerwright.fit.drawer_values import NO_ERRORS, DrawerValues, stack
from drawerwright.fit.job import drawer_groups
from drawerwright.fit.slide_rows import SlideRows, slide_rows
from drawerwright.fit.trial import Mask, Trial, run_trial
from drawerwright.model.family import SlideFamily, SlideLength
from drawerwright.model.job import Drawer, Job


@dataclass(frozen=True, slots=True)
class OpenSlide:
    """A slide that no check stops for a drawer; `order` is its place in the files, `box_length` in mm."""

    family: SlideFamily
    length: SlideLength
    order: int
    box_length: float
    place: Place


@dataclass(frozen=True, slots=True)
class OpenDrawer:
    """A drawer and its open slides on the first mount that has any, in the public contract's order.

    The first is what the drawer gets when it is chosen for alone; none where nothing fits.
    """

    drawer: Drawer
    slides: tuple[OpenSlide, ...]


class PlacedValues(Mapping[str, float]):
    """The values of a trial at one place, read when asked for: most are never wanted."""

    def __init__(self, place: Place) -> None:
        self._place = place

    def __getitem__(self, quantity: str) -> float:
        place, array = self._place, self._place.trial.values[quantity]
        rows, columns = array.shape
        return float(array[place.row if rows > 1 else 0, place.column if columns > 1 else 0])

    def __iter__(self) -> Iterator[str]:
        return iter(self._place.trial.values)

    def __len__(self) -> int:
        return len(self._place.trial.values)


def open_slides(
    job: Job, families: Sequence[SlideFamily], materials: Materials | None = None
) -> tuple[OpenDrawer, ...]:
    """The open slides of every drawer, in the job's order."""
    rows = slide_rows(families)
    found: dict[str, tuple[OpenSlide, ...]] = {}
    for situation, mounts, drawers in drawer_groups(job, materials):
        waiting: list[DrawerValues] = list(drawers)
        for mount in mounts:
            if not waiting:
                break
            columns: dict[str, Q] = {**NO_ERRORS, **stack(waiting)}
            trials = [run_trial(situation, mount, group, columns) for group in rows]
            for one, slides in zip(waiting, _in_order(trials, rows, waiting), strict=True):
                if slides:
                    found[one.drawer.id] = slides
            waiting = [one for one in waiting if one.drawer.id not in found]
    return tuple(OpenDrawer(drawer, found.get(drawer.id, ())) for drawer in job.drawers)


def _in_order(
    trials: Sequence[Trial], rows: Sequence[SlideRows], drawers: Sequence[DrawerValues]
) -> list[tuple[OpenSlide, ...]]:
    """What is open for each drawer: the choice, then the choice among the rest, until nothing is left."""
    left: list[Mask] = [slides_allowed(drawers, group) for group in rows]
    found: list[list[OpenSlide]] = [[] for _ in drawers]
    while True:
        choice = choose(trials, left)
        if (choice.trial < 0).all():
            return [tuple(slides) for slides in found]
        for row, (trial, column) in enumerate(
            zip(choice.trial.tolist(), choice.column.tolist(), strict=True)
        ):
            if trial >= 0:
                found[row].append(_open_slide(Place(trials[trial], row, column)))
                left[trial][row, column] = False


def _open_slide(place: Place) -> OpenSlide:
    rows = place.trial.rows
    family, length = rows.candidates[place.column]
    return OpenSlide(family, length, int(rows.orders[place.column]), PlacedValues(place)["box_length"], place)
