"""One slide for every drawer, chosen for the whole job: fewest lengths to order, cheapest, or fewest setups.

A drawer alone gets its longest box. A shop that orders for the whole job would rather buy two lengths than
seven, or set a fence once; here it says which, and is told what that costs against the free choice.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final, Literal, TypeAlias

from drawerwright.catalogue.materials import Materials
from drawerwright.errors import Fault, InputError
from drawerwright.fit.asked_for import check_slides_asked_for
from drawerwright.fit.fewest import Chooser, Option, pick_fewest
from drawerwright.fit.job import Progress, fit_job
from drawerwright.fit.open_slides import OpenDrawer, OpenSlide, open_slides
from drawerwright.fit.setups import BORINGS, Setting, settings_of
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedJob
from drawerwright.model.job import Drawer, Job
from drawerwright.units import ShownUnits

Aim: TypeAlias = Literal["fewest-lengths", "cheapest", "fewest-setups"]
Pair: TypeAlias = tuple[str, float]
"""A family's id and a nominal length [mm]: what is ordered."""

NODES: Final = 2000
"""Nodes searched in each step before the answer is given with its gap; jobs met so far needed under 100."""

_SAME_LENGTH = 1e-6


@dataclass(frozen=True, slots=True)
class Tally:
    """What a choice for the whole job comes to.

    Pairs of family and length to order, each with how many; their `cost`, None where a price is not known;
    patterns to bore and settings of the saw.
    """

    pairs: tuple[tuple[Pair, int], ...]
    cost: float | None
    boring_patterns: int
    fence_settings: int


@dataclass(frozen=True, slots=True)
class Moved:
    """A drawer that gets another slide than it would alone.

    `lost` of its box length and `travel_lost` of the way it pulls out [mm], not negative.
    """

    drawer: str
    count: int
    free: Pair
    taken: Pair
    lost: float
    travel_lost: float


@dataclass(frozen=True, slots=True)
class WholeJobChoice:
    """What the aim counts and the least it could be.

    `bound` equals `value` where that is `proven`. `ties_proven`: among answers with that value, none loses
    less box length, or as much and keeps nearer to what each drawer would get alone.
    """

    aim: Aim
    value: float
    bound: float
    proven: bool
    ties_proven: bool
    chosen: Tally
    free: Tally
    moved: tuple[Moved, ...]

    @property
    def lost(self) -> float:
        """Box length lost against the free choice, over all drawers that are built [mm]."""
        return math.fsum(one.lost * one.count for one in self.moved)

    @property
    def most_lost(self) -> float:
        """The most box length that one drawer loses [mm]."""
        return max((one.lost for one in self.moved), default=0.0)

    @property
    def most_travel_lost(self) -> float:
        """The most travel that one drawer loses [mm]."""
        return max((one.travel_lost for one in self.moved), default=0.0)


def fit_whole_job(
    job: Job,
    families: Sequence[SlideFamily],
    *,
    aim: Aim,
    lose_at_most: float = math.inf,
    units: ShownUnits = "mm",
    materials: Materials | None = None,
    progress: Progress | None = None,
    nodes: int = NODES,
) -> tuple[FittedJob, WholeJobChoice]:
    """Fit every drawer, its slide chosen for an aim of the whole job among all that do not stop.

    No drawer gives up more than `lose_at_most` [mm] of the box length, or of the travel, that it would have
    alone. Of equal
    answers, the one with the least box length lost in all, then the nearest to what each drawer would get
    alone. The search is cut off at `nodes` in each step. Drawers that do not fit stay as they are. `units`,
    `materials` and `progress` as for `fit_job`.

    Raises InputError where a drawer asks for a slide that is not there, or where the cheapest is wanted and a
    slide that could be taken has no price.
    """
    check_slides_asked_for(job.drawers, families)
    drawers = [_within(one, lose_at_most) for one in open_slides(job, families, materials) if one.slides]
    if aim == "cheapest":
        _check_prices(drawers)
    picks, bound, ties_proven = _PICK[aim](drawers, nodes)
    taken = [one.slides[pick] for one, pick in zip(drawers, picks, strict=True)]
    free = [one.slides[0] for one in drawers]
    built = [one.drawer for one in drawers]
    chosen = _tally(built, taken)
    value = _value(aim, chosen)
    choice = WholeJobChoice(
        aim=aim,
        value=value,
        bound=value if bound is None else float(bound),
        proven=bound is None or bound >= value,
        ties_proven=ties_proven,
        chosen=chosen,
        free=_tally(built, free),
        moved=_moved(built, free, taken),
    )
    pinned = {drawer.id: slide.order for drawer, slide in zip(built, taken, strict=True)}
    fitted = fit_job(job, families, units=units, materials=materials, progress=progress, pinned=pinned)
    return fitted, choice


def _within(one: OpenDrawer, lose_at_most: float) -> OpenDrawer:
    free, most = one.slides[0], lose_at_most + _SAME_LENGTH
    near = (slide for slide in one.slides if max(_lost(free, slide), _travel_lost(free, slide)) <= most)
    return OpenDrawer(one.drawer, tuple(near))


def _pair(slide: OpenSlide) -> Pair:
    return slide.family.id, slide.length.nominal


Picked: TypeAlias = tuple[Sequence[int], int | None, bool]
"""A place among the slides of each drawer, the least that could be reached (None: it is), ties proven."""


def _fewest_lengths(drawers: Sequence[OpenDrawer], nodes: int) -> Picked:
    return _fewest(drawers, lambda _, slide: [_pair(slide)], nodes)


def _fewest_setups(drawers: Sequence[OpenDrawer], nodes: int) -> Picked:
    return _fewest(drawers, settings_of, nodes)


def _fewest(drawers: Sequence[OpenDrawer], needs: Callable[[Drawer, OpenSlide], Any], nodes: int) -> Picked:
    wanted = [[frozenset(needs(one.drawer, slide)) for slide in one.slides] for one in drawers]
    everything = sorted({thing for options in wanted for things in options for thing in things})
    numbers = {thing: number for number, thing in enumerate(everything)}
    choosers = [
        Chooser(
            tuple(
                Option(frozenset(numbers[thing] for thing in things), _lost(one.slides[0], slide))
                for slide, things in zip(one.slides, options, strict=True)
            ),
            one.drawer.quantity,
        )
        for one, options in zip(drawers, wanted, strict=True)
    ]
    found = pick_fewest(choosers, nodes=nodes)
    return found.picks, found.bound, found.ties_proven


def _cheapest(drawers: Sequence[OpenDrawer], nodes: int) -> Picked:
    """Prices only add up: the cheapest slide of each drawer makes the cheapest job; nothing is searched."""
    picks = [min(range(len(one.slides)), key=lambda pick: _price(one.slides[pick])) for one in drawers]
    return picks, None, True


_PICK: Final[Mapping[Aim, Callable[[Sequence[OpenDrawer], int], Picked]]] = {
    "fewest-lengths": _fewest_lengths,
    "cheapest": _cheapest,
    "fewest-setups": _fewest_setups,
}


def _price(slide: OpenSlide) -> float:
    return math.inf if slide.length.price is None else slide.length.price


def _check_prices(drawers: Sequence[OpenDrawer]) -> None:
    unpriced = dict.fromkeys(
        _pair(slide) for one in drawers for slide in one.slides if slide.length.price is None
    )
    if unpriced:
        says = "has no price, and a drawer of the job could take it: the cheapest is not known"
        raise InputError(
            Fault(f"slide family {family} length {nominal:g}", "", says, "price = 25")
            for family, nominal in unpriced
        )


def _lost(free: OpenSlide, taken: OpenSlide) -> float:
    return max(free.box_length - taken.box_length, 0.0)


def _travel_lost(free: OpenSlide, taken: OpenSlide) -> float:
    alone, now = (slide.family.travel_of(slide.length) for slide in (free, taken))
    return max(alone - now, 0.0)


def _moved(
    drawers: Sequence[Drawer], free: Sequence[OpenSlide], taken: Sequence[OpenSlide]
) -> tuple[Moved, ...]:
    return tuple(
        Moved(
            drawer.id,
            drawer.quantity,
            _pair(alone),
            _pair(slide),
            _lost(alone, slide),
            _travel_lost(alone, slide),
        )
        for drawer, alone, slide in zip(drawers, free, taken, strict=True)
        if slide is not alone
    )


def _tally(drawers: Sequence[Drawer], slides: Sequence[OpenSlide]) -> Tally:
    counts: Counter[Pair] = Counter()
    settings: set[Setting] = set()
    prices: list[float | None] = []
    for drawer, slide in zip(drawers, slides, strict=True):
        counts[_pair(slide)] += drawer.quantity
        settings |= settings_of(drawer, slide)
        prices.append(None if slide.length.price is None else slide.length.price * drawer.quantity)
    known = [price for price in prices if price is not None]
    bored = sum(what in BORINGS for what, _ in settings)
    cost = math.fsum(known) if len(known) == len(prices) else None
    return Tally(tuple(sorted(counts.items())), cost, bored, len(settings) - bored)


def _value(aim: Aim, tally: Tally) -> float:
    if aim == "fewest-lengths":
        return float(len(tally.pairs))
    if aim == "cheapest":
        assert tally.cost is not None
        return tally.cost
    return float(tally.boring_patterns + tally.fence_settings)
