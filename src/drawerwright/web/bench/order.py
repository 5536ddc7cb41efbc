"""The drawers of a job in the order in which the bench hangs them: cabinet by cabinet, lowest first."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from urllib.parse import quote

from drawerwright.model.fitted import FittedDrawer
from drawerwright.store import Tick
from drawerwright.web.bench.steps import step_keys, steps_done
from drawerwright.web.fitting import DrawerAnswer


@dataclass(frozen=True, slots=True)
class BenchDrawer:
    """One drawer to hang: the `piece`th of `pieces` alike.

    `keys` of its steps in the order of work, `done` those that are ticked, `changed` those that were ticked
    before the drawer became another, `by_slide` those of them where the slide's data made it another.
    """

    name: str
    piece: int
    pieces: int
    cabinet: str
    fitted: FittedDrawer
    keys: tuple[str, ...]
    done: tuple[str, ...]
    changed: tuple[str, ...] = ()
    by_slide: tuple[str, ...] = ()

    @property
    def finished(self) -> bool:
        """Whether every step is ticked."""
        return len(self.done) == len(self.keys)

    def address(self, job_id: str) -> str:
        """The page of this drawer."""
        piece = f"?piece={self.piece}" if self.piece > 1 else ""
        return f"/jobs/{quote(job_id, safe='')}/bench/{quote(self.name, safe='')}{piece}"

    @property
    def words(self) -> str:
        """Its name, and which of several alike it is."""
        return self.name if self.pieces == 1 else f"{self.name}, {self.piece} of {self.pieces}"


@dataclass(frozen=True, slots=True)
class BenchPlan:
    """What the bench has to do: drawers in order, and those that cannot be hung yet, with the reason."""

    drawers: tuple[BenchDrawer, ...]
    waiting: tuple[tuple[str, str], ...]

    @property
    def finished(self) -> int:
        """How many drawers are done."""
        return sum(one.finished for one in self.drawers)

    @property
    def next(self) -> BenchDrawer | None:
        """The first that is not done."""
        return next((one for one in self.drawers if not one.finished), None)

    def by_cabinet(self) -> dict[str, list[BenchDrawer]]:
        """The drawers under their cabinets, in order; "" for those that stand in none."""
        found: dict[str, list[BenchDrawer]] = {}
        for one in self.drawers:
            found.setdefault(one.cabinet, []).append(one)
        return found


def bench_plan(
    answers: Sequence[DrawerAnswer],
    ticks: Sequence[Tick],
    outdated: Collection[tuple[str, str]] = (),
    by_slide: Collection[tuple[str, str]] = (),
) -> BenchPlan:
    """The plan of a job: drawers that fit in order, with the ticks that stand.

    `outdated`: (drawer, step) that were ticked before the drawer became another: they are open again;
    `by_slide`: those of them where the slide's data changed.
    """
    ticked: dict[str, set[str]] = {}
    changed: dict[str, set[str]] = {}
    slides: dict[str, set[str]] = {}
    for name, step in by_slide:
        slides.setdefault(name, set()).add(step)
    for tick in ticks:
        if tick.done:
            found = changed if (tick.drawer, tick.step) in outdated else ticked
            found.setdefault(tick.drawer, set()).add(tick.step)
    drawers: list[BenchDrawer] = []
    waiting: list[tuple[str, str]] = []
    for one in _in_order(answers):
        if one.fitted is None:
            waiting.append((one.name, "does not read yet"))
            continue
        keys = step_keys(one.fitted)
        if not keys:
            waiting.append((one.name, "does not fit"))
            continue
        pieces = one.fitted.drawer.quantity
        for piece in range(1, pieces + 1):
            done = steps_done(keys, piece, ticked.get(one.name, ()))
            again = steps_done(keys, piece, changed.get(one.name, ()))
            other = steps_done(keys, piece, slides.get(one.name, ()))
            cabinet = one.fitted.drawer.cabinet or ""
            drawers.append(
                BenchDrawer(one.name, piece, pieces, cabinet, one.fitted, keys, done, again, other)
            )
    return BenchPlan(tuple(drawers), tuple(waiting))


def place_of(plan: BenchPlan, name: str, piece: int) -> int | None:
    """Place of a drawer in the plan; None where it is not among those that are hung."""
    return next((at for at, one in enumerate(plan.drawers) if (one.name, one.piece) == (name, piece)), None)


def _in_order(answers: Sequence[DrawerAnswer]) -> list[DrawerAnswer]:
    """By cabinet in the order of the job, rows from the lowest; the rest as it stands."""
    cabinets: Mapping[str, int] = {
        name: at for at, name in reversed([(at, _cabinet(one)) for at, one in enumerate(answers)]) if name
    }

    def key(entry: tuple[int, DrawerAnswer]) -> tuple[Any, ...]:
        at, one = entry
        row = one.fitted.drawer.row if one.fitted is not None else None
        return cabinets.get(_cabinet(one), at), row is None, row or 0, at

    return [one for _, one in sorted(enumerate(answers), key=key)]


def _cabinet(one: DrawerAnswer) -> str:
    return (one.fitted.drawer.cabinet or "") if one.fitted is not None else ""
