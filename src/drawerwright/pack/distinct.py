"""Drawers that are built alike, gathered: each is drawn, bored and printed once."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass, replace

from drawerwright.model.fitted import FittedDrawer, FittedJob


@dataclass(frozen=True, slots=True)
class AlikeDrawers:
    """Drawers of a job whose every size, bore and check is the same, in the job's order."""

    drawers: tuple[FittedDrawer, ...]

    @property
    def first(self) -> FittedDrawer:
        """The one that stands for all."""
        return self.drawers[0]

    @property
    def ids(self) -> tuple[str, ...]:
        """Their ids."""
        return tuple(drawer.id for drawer in self.drawers)

    @property
    def count(self) -> int:
        """How many are built: the sum of their quantities."""
        return sum(drawer.drawer.quantity for drawer in self.drawers)


def _likeness(fitted: FittedDrawer) -> Hashable:
    """What two drawers share that are surely built differently if it differs: a quick first sieve."""
    return (
        fitted.verdict,
        fitted.opening,
        fitted.box,
        fitted.mounting,
        fitted.front,
        fitted.parts,
        fitted.mass,
    )


def _nameless(fitted: FittedDrawer) -> FittedDrawer:
    """The drawer without what tells it from its like: id, place in the job, quantity and note.

    The workings follow from all the rest, and are left out too.
    """
    cabinet = fitted.cabinet
    return replace(
        fitted,
        drawer=fitted.drawer.model_copy(
            update={"id": "", "cabinet": None, "row": None, "quantity": 1, "note": ""}
        ),
        cabinet=None if cabinet is None else cabinet.model_copy(update={"id": ""}),
        workings={},
    )


def gather_alike(drawers: Sequence[FittedDrawer]) -> tuple[AlikeDrawers, ...]:
    """The distinct drawers in the order in which each kind first comes, with all that are like it."""
    sieved: dict[Hashable, list[tuple[FittedDrawer, list[FittedDrawer]]]] = {}
    groups: list[list[FittedDrawer]] = []
    for fitted in drawers:
        kin = sieved.setdefault(_likeness(fitted), [])
        nameless = _nameless(fitted)
        for pattern, members in kin:
            if pattern == nameless:
                members.append(fitted)
                break
        else:
            members = [fitted]
            kin.append((nameless, members))
            groups.append(members)
    return tuple(AlikeDrawers(tuple(members)) for members in groups)


def distinct_drawers(fitted: FittedJob) -> tuple[AlikeDrawers, ...]:
    """The distinct drawers of a job."""
    return gather_alike(fitted.drawers)
