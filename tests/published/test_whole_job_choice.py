"""The whole job's choice against every way there is, and against an independent solver.

Source: exhaustive enumeration, and the constraint solver CP-SAT (ortools) as an oracle. Both are told only
how a drawer comes out on each slide, asked for by name; both state the aims in their own terms.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawerwright.catalogue.families import load_families
from drawerwright.fit import fit_job
from drawerwright.fit.whole_job import Aim, fit_whole_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer, FittedJob
from drawerwright.model.job import Job

AIMS: tuple[Aim, ...] = ("fewest-lengths", "cheapest", "fewest-setups")
FAMILIES = {family.id: family for family in load_families(None)}


@dataclass(frozen=True)
class Way:
    """One way to build a drawer, as it came out when that slide was asked for by name."""

    pair: tuple[str, float]
    length: float
    travel: float
    price: float
    settings: frozenset[tuple[Any, ...]]


def settings_cut_and_bored(fitted: FittedDrawer) -> Iterator[tuple[Any, ...]]:
    assert fitted.mounting is not None
    if fitted.mounting.holes_from_side_edge:
        yield ("holes", *(round(depth, 1) for depth in fitted.mounting.holes_from_side_edge))
    if fitted.mounting.shelf_holes:
        yield ("shelf", *(round(depth, 1) for depth in fitted.mounting.shelf_holes))
    for part in fitted.parts:
        if part.part == "bottom":
            yield ("bottom", round(part.length, 1))
            yield ("bottom", round(part.width, 1))
        elif part.part != "front":
            yield ("crosscut", round(part.length, 1))
            yield ("rip", round(part.width, 1))


def ways_of(
    job: Job, free: FittedJob, families: Sequence[SlideFamily], lose_at_most: float
) -> list[list[Way]]:
    """Every way to build each drawer that can be built, on the mount that it gets when chosen for alone."""
    wanted = []
    for one in free.drawers:
        if one.slide is not None:
            stopped = {(it.family, it.nominal) for it in one.rejected if it.mount == one.slide.mount}
            pairs = ((family.id, length.nominal) for family in families for length in family.lengths)
            wanted.append((one, [pair for pair in pairs if pair not in stopped]))
    asked = [
        one.drawer.model_copy(update={"id": f"{one.id} {number}", "slide": f"{family}/{nominal:g}"})
        for one, pairs in wanted
        for number, (family, nominal) in enumerate(pairs)
    ]
    one_by_one = map(way_of, fit_job(job.model_copy(update={"drawers": tuple(asked)}), families).drawers)
    found = []
    for one, pairs in wanted:
        alone, ways = way_of(one), [next(one_by_one) for _ in pairs]
        assert alone in ways
        near = [max(alone.length - way.length, alone.travel - way.travel) for way in ways]
        found.append([way for way, lost in zip(ways, near, strict=True) if lost <= lose_at_most + 1e-6])
    return found


def way_of(fitted: FittedDrawer) -> Way:
    assert fitted.slide is not None
    assert fitted.box is not None
    family, length = fitted.slide.family, fitted.slide.length
    assert length.price is not None
    return Way(
        (family.id, length.nominal),
        fitted.box.length,
        family.travel_of(length),
        length.price,
        frozenset(settings_cut_and_bored(fitted)),
    )


def counted(aim: Aim, picked: Sequence[Way], counts: Sequence[int]) -> float:
    """What an aim counts, stated anew."""
    if aim == "fewest-lengths":
        return len({way.pair for way in picked})
    if aim == "cheapest":
        return sum(way.price * count for way, count in zip(picked, counts, strict=True))
    return len({setting for way in picked for setting in way.settings})


def built_length(picked: Sequence[Way], counts: Sequence[int]) -> float:
    return math.fsum(way.length * count for way, count in zip(picked, counts, strict=True))


def random_job(draw: random.Random, drawers: int) -> Job:
    """Openings of an invented shop, some alike."""
    kinds = [
        {
            "opening": {
                "width": draw.choice([400, 450, 500, 562, 600.5, 764]),
                "height": draw.choice([130, 168, 240]),
                "depth": draw.choice([150, *[320, 420, 480, 530, 590] * 6]),
            },
            "side": draw.choice([12.7, 16, 16, 19]),
            "contents": draw.choice([5, 20, 40]),
            "mount": draw.choice(["auto", "auto", "shelf"]),
            "front": {"style": draw.choice(["overlay", "inset"]), "thickness": 19},
        }
        for _ in range(max(2, drawers * 2 // 3))
    ]
    return Job.model_validate(
        {
            "drawer": [
                {**draw.choice(kinds), "id": f"D{number}", "quantity": draw.choice([1, 1, 2, 5])}
                for number in range(drawers)
            ]
        }
    )


def some_families(draw: random.Random, count: int, lengths: int) -> list[SlideFamily]:
    """Some shipped families, each with some of its lengths."""
    found = []
    for family in draw.sample(list(FAMILIES.values()), count):
        kept = sorted(
            draw.sample(family.lengths, min(lengths, len(family.lengths))), key=lambda one: one.nominal
        )
        found.append(family.model_copy(update={"lengths": tuple(kept)}))
    return found


def quantities(fitted: FittedJob) -> list[int]:
    return [one.drawer.quantity for one in fitted.drawers if one.slide is not None]


def box_length(fitted: FittedJob) -> float:
    """Box length of all drawers that are built [mm]."""
    return math.fsum(one.box.length * one.drawer.quantity for one in fitted.drawers if one.box)


@settings(max_examples=40)
@given(st.integers(0, 10**6), st.sampled_from([math.inf, 0.0, 60.0, 150.0]))
def test_no_other_way_to_build_a_small_job_serves_an_aim_better(seed: int, lose_at_most: float) -> None:
    draw = random.Random(seed)
    job, families = random_job(draw, draw.randint(1, 4)), some_families(draw, 3, 2)
    free = fit_job(job, families)
    ways, counts = ways_of(job, free, families, lose_at_most), quantities(free)
    for aim in AIMS:
        fitted, choice = fit_whole_job(job, families, aim=aim, lose_at_most=lose_at_most)
        value, longest = min(
            (counted(aim, picked, counts), -built_length(picked, counts)) for picked in product(*ways)
        )
        assert choice.proven
        assert choice.value == value
        assert box_length(fitted) == pytest.approx(-longest)
        assert choice.lost == pytest.approx(box_length(free) + longest, abs=1e-6)


@pytest.mark.parametrize("seed", range(40))
def test_an_independent_solver_finds_no_better_choice(seed: int, oracle: Callable[[str], Any]) -> None:
    cp_model = oracle("ortools.sat.python.cp_model")
    draw = random.Random(seed)
    job, families = random_job(draw, draw.randint(8, 16)), some_families(draw, draw.randint(2, 5), 4)
    lose_at_most = draw.choice([math.inf, 50.0, 100.0])
    free = fit_job(job, families)
    ways, counts = ways_of(job, free, families, lose_at_most), quantities(free)
    for aim in AIMS:
        fitted, choice = fit_whole_job(job, families, aim=aim, lose_at_most=lose_at_most)
        value, length = solved(cp_model, aim, ways, counts)
        assert choice.proven
        assert choice.ties_proven
        assert choice.value == value
        assert box_length(fitted) == pytest.approx(length)


def solved(
    cp_model: Any, aim: Aim, ways: Sequence[Sequence[Way]], counts: Sequence[int]
) -> tuple[float, float]:
    """The least that the aim counts, and the most box length that can be had with it, by CP-SAT."""
    model = cp_model.CpModel()
    taken = [[model.NewBoolVar("") for _ in options] for options in ways]
    used: dict[Any, Any] = {}
    cost, length = [], []
    for options, picks, count in zip(ways, taken, counts, strict=True):
        model.AddExactlyOne(picks)
        for way, pick in zip(options, picks, strict=True):
            things = {"fewest-lengths": {way.pair}, "cheapest": set(), "fewest-setups": way.settings}[aim]
            for thing in things:
                model.AddImplication(pick, used.setdefault(thing, model.NewBoolVar("")))
            cost.append(round(way.price * count * 100) * pick if aim == "cheapest" else 0)
            length.append(round(way.length * count * 10) * pick)
    counted_here = sum(used.values()) + sum(cost)
    # Lengths in tenths stay far below the weight, so that they only decide among equals.
    model.Minimize(counted_here * 10**8 - sum(length))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.Solve(model) == cp_model.OPTIMAL
    value = solver.Value(counted_here) if ways else 0
    return value / 100 if aim == "cheapest" else value, (solver.Value(sum(length)) if ways else 0) / 10


def test_the_same_choice_comes_out_each_time() -> None:
    draw = random.Random(7)
    job, families = random_job(draw, 20), some_families(draw, 5, 4)
    for aim in AIMS:
        first, second = (fit_whole_job(job, families, aim=aim)[1] for _ in range(2))
        assert first == second
