"""Slides chosen for the whole job: what each aim takes, what stays as it is, and what it is told to cost."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest

from drawerwright.errors import InputError
from drawerwright.fit import fit_document, fit_job
from drawerwright.fit.whole_job import Aim, fit_whole_job
from drawerwright.fit.whole_job_document import with_whole_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedJob
from drawerwright.model.job import Job

Family = Callable[..., SlideFamily]


def priced(*prices: float | None) -> list[dict[str, Any]]:
    """Lengths of 350, 400, 450 …, each with its price."""
    return [
        {"nominal": 350 + 50 * step, "holes": [0, 32, 128], "price": price}
        for step, price in enumerate(prices)
    ]


def job_of(*depths: float, **keys: Any) -> Job:
    """One drawer a depth [mm], 25 mm deeper than the longest slide that goes in."""
    return Job.model_validate(
        {
            "drawer": [
                {
                    "id": f"D{number}",
                    "opening": {"width": 562, "height": 168, "depth": depth},
                    "side": 16,
                    **keys,
                }
                for number, depth in enumerate(depths)
            ]
        }
    )


def taken(fitted: FittedJob) -> list[tuple[str, float] | None]:
    return [
        (one.slide.family.id, one.slide.length.nominal) if one.slide is not None else None
        for one in fitted.drawers
    ]


def test_fewest_lengths_takes_the_longest_that_goes_in_everywhere(family: Family) -> None:
    fitted, choice = fit_whole_job(job_of(530, 480, 430), [family()], aim="fewest-lengths")
    assert taken(fitted) == [("plain-16", 400)] * 3
    assert (choice.value, choice.bound, choice.proven) == (1, 1, True)
    assert choice.free.pairs == tuple((("plain-16", nominal), 1) for nominal in (400, 450, 500))
    assert (choice.lost, choice.most_lost) == (150, 100)


def test_no_drawer_loses_more_than_it_may(family: Family) -> None:
    fitted, choice = fit_whole_job(job_of(530, 480, 430), [family()], aim="fewest-lengths", lose_at_most=50)
    assert len(choice.chosen.pairs) == 2
    assert choice.most_lost == 50
    assert fitted.drawers[2].slide == fit_job(job_of(430), [family()]).drawers[0].slide


def test_travel_counts_as_a_loss_too(family: Family) -> None:
    """A three-quarter slide of the same box length pulls out 125 mm less far."""
    short = family(id="short", extension="three-quarter", length=priced(1, 1, 1, 1))
    full = family(length=priced(9, 9, 9, 9))
    job = job_of(530)
    assert taken(fit_whole_job(job, [full, short], aim="cheapest")[0]) == [("short", 500)]
    fitted, choice = fit_whole_job(job, [full, short], aim="cheapest", lose_at_most=100)
    assert taken(fitted) == [("plain-16", 500)]
    assert choice.moved == ()
    _, moved = fit_whole_job(job, [full, short], aim="cheapest", lose_at_most=125)
    assert moved.most_travel_lost == 125


def test_the_cheapest_counts_each_pair_and_keeps_the_longer_of_equal_price(family: Family) -> None:
    slides = [family(length=priced(10, 8, 8, 12))]
    fitted, choice = fit_whole_job(job_of(530, quantity=3), slides, aim="cheapest")
    assert taken(fitted) == [("plain-16", 450)]
    assert (choice.value, choice.free.cost) == (24, 36)
    assert choice.chosen.pairs == ((("plain-16", 450), 3),)
    assert choice.lost == 150


def test_a_missing_price_is_a_fault_that_names_the_slide(family: Family) -> None:
    slides = [family(length=priced(10, None, 8, None))]
    with pytest.raises(InputError) as fault:
        fit_whole_job(job_of(480, 480), slides, aim="cheapest")
    assert [one.where for one in fault.value.faults] == ["slide family plain-16 length 400"]
    assert "has no price" in str(fault.value)


def test_the_cost_of_the_other_aims_is_unknown_without_prices(family: Family) -> None:
    _, choice = fit_whole_job(job_of(530), [family()], aim="fewest-lengths")
    assert (choice.chosen.cost, choice.free.cost) == (None, None)


def test_fewest_setups_bores_and_cuts_alike(family: Family) -> None:
    """Two drawers of one opening but for the depth: with one length all is shared.

    Two patterns and lengths of sides and bottoms become one of each: 1 boring and 2 fence settings less.
    """
    fitted, choice = fit_whole_job(job_of(530, 480), [family()], aim="fewest-setups")
    assert taken(fitted) == [("plain-16", 450)] * 2
    assert (choice.free.boring_patterns, choice.chosen.boring_patterns) == (2, 1)
    assert choice.free.fence_settings - choice.chosen.fence_settings == 2
    assert choice.value == choice.chosen.boring_patterns + choice.chosen.fence_settings


def test_a_slide_asked_for_stays_and_draws_the_others_to_it(family: Family) -> None:
    job = job_of(530, 530)
    asked = job.drawers[0].model_copy(update={"slide": "plain-16/400"})
    fitted, _ = fit_whole_job(
        job.model_copy(update={"drawers": (asked, job.drawers[1])}), [family()], aim="fewest-lengths"
    )
    assert taken(fitted) == [("plain-16", 400)] * 2


@pytest.mark.parametrize("aim", ["fewest-lengths", "fewest-setups"])
def test_what_does_not_fit_stays_as_it_is(family: Family, aim: Aim) -> None:
    fitted, choice = fit_whole_job(job_of(150, 480), [family()], aim=aim)
    assert fitted.drawers[0].verdict == "does-not-fit"
    assert fit_document(fitted)["drawers"][0] == fit_document(fit_job(job_of(150), [family()]))["drawers"][0]
    assert taken(fitted) == [None, ("plain-16", 450)]
    assert choice.chosen == choice.free


@pytest.mark.parametrize("aim", ["fewest-lengths", "cheapest", "fewest-setups"])
def test_a_job_in_which_nothing_fits_needs_nothing(family: Family, aim: Aim) -> None:
    fitted, choice = fit_whole_job(job_of(150), [family()], aim=aim)
    assert taken(fitted) == [None]
    assert (choice.value, choice.bound, choice.proven, choice.chosen.pairs) == (0, 0, True, ())


def test_a_drawer_moved_to_another_slide_has_that_slides_whole_answer(family: Family) -> None:
    """Sizes, borings and checks are those of the drawer that asks for the slide by name."""
    fitted, _ = fit_whole_job(job_of(530, 430), [family()], aim="fewest-lengths")
    (named,) = fit_job(job_of(530, slide="plain-16/400"), [family()]).drawers
    moved = fitted.drawers[0]
    assert (moved.box, moved.mounting, moved.parts, moved.checks) == (
        named.box,
        named.mounting,
        named.parts,
        named.checks,
    )
    assert [item.nominal for item in moved.rejected] == [550]


def test_the_document_has_the_choice_ahead_of_the_drawers(family: Family) -> None:
    fitted, choice = fit_whole_job(job_of(530, 430), [family()], aim="fewest-lengths", lose_at_most=math.inf)
    document = with_whole_job(fit_document(fitted), choice)
    assert list(document) == ["schema", "title", "whole_job", "columns", "drawers"]
    told = document["whole_job"]
    assert (told["aim"], told["value"], told["bound"], told["proven"]) == ("fewest-lengths", 1, 1, True)
    assert (told["lengths"], told["free_choice"]["lengths"]) == (1, 2)
    assert told["box_length_lost"] == {"sum": 100, "most": 100}
    assert told["slides"] == [{"family": "plain-16", "nominal": 400, "pairs": 2}]
    assert told["moved"] == [
        {
            "drawer": "D0",
            "quantity": 1,
            "free": {"family": "plain-16", "nominal": 500},
            "taken": {"family": "plain-16", "nominal": 400},
            "lost": 100,
            "travel_lost": 100,
        }
    ]
