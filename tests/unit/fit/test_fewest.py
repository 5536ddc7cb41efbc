"""Fewest things in all: against every combination of options, and the order among equal answers."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.fit.fewest import Chooser, Option, pick_fewest

NODES = 1000


def chooser(*options: tuple[set[int], float], count: int = 1) -> Chooser:
    return Chooser(tuple(Option(frozenset(things), loss) for things, loss in options), count)


@st.composite
def choosers(draw: st.DrawFn) -> list[Chooser]:
    """A few choosers whose things overlap; losses do not fall along their options."""
    found = []
    for _ in range(draw(st.integers(1, 5))):
        things = draw(st.lists(st.frozensets(st.integers(0, 6), max_size=3), min_size=1, max_size=4))
        losses = sorted(draw(st.sampled_from([0.0, 0.0, 12.7, 50.0])) for _ in things)
        found.append(Chooser(tuple(map(Option, things, losses)), draw(st.integers(1, 3))))
    return found


def rank(choosers: list[Chooser], picks: tuple[int, ...]) -> tuple[float, ...]:
    """What an answer is judged by: things, loss, places in the choosers' order."""
    taken = [one.options[pick] for one, pick in zip(choosers, picks, strict=True)]
    return (
        len(frozenset[int]().union(*(option.things for option in taken))),
        round(sum(option.loss * one.count for option, one in zip(taken, choosers, strict=True)), 6),
        sum(pick * one.count for pick, one in zip(picks, choosers, strict=True)),
    )


@given(choosers())
def test_no_combination_of_options_is_better(those: list[Chooser]) -> None:
    found = pick_fewest(those, nodes=NODES)
    best = min(rank(those, picks) for picks in product(*(range(len(one.options)) for one in those)))
    assert rank(those, found.picks) == best
    assert (found.value, found.bound) == (best[0], best[0])
    assert found.ties_proven


@given(choosers())
def test_the_order_of_the_choosers_changes_neither_count_nor_loss(those: list[Chooser]) -> None:
    found, other = pick_fewest(those, nodes=NODES), pick_fewest(those[::-1], nodes=NODES)
    assert rank(those, found.picks) == rank(those[::-1], other.picks)


def test_one_thing_for_all_is_fewer_than_each_its_own() -> None:
    those = [chooser(({1}, 0), ({9}, 50)), chooser(({2}, 0), ({9}, 50)), chooser(({3}, 0), ({9}, 50))]
    assert pick_fewest(those, nodes=NODES).picks == (1, 1, 1)


def test_what_one_cannot_do_without_costs_the_others_nothing() -> None:
    those = [chooser(({5}, 0)), chooser(({1}, 0), ({5}, 50))]
    found = pick_fewest(those, nodes=NODES)
    assert (found.picks, found.value) == ((0, 1), 1)


def test_among_as_few_the_least_loss_counts_every_time_it_is_built() -> None:
    """Two of three must share: the one built ten times keeps its length."""
    those = [
        chooser(({1}, 0), ({2}, 30), ({3}, 40), count=10),
        chooser(({2}, 0), ({1}, 100)),
        chooser(({3}, 0), ({1}, 100)),
    ]
    assert pick_fewest(those, nodes=NODES).picks == (0, 1, 1)


@pytest.mark.parametrize(("counts", "picks"), [((1, 3), (1, 0)), ((3, 1), (0, 1))])
def test_then_what_more_of_them_would_have_had_alone(counts: tuple[int, int], picks: tuple[int, int]) -> None:
    first, second = counts
    those = [chooser(({1}, 0), ({2}, 0), count=first), chooser(({2}, 0), ({1}, 0), count=second)]
    assert pick_fewest(those, nodes=NODES).picks == picks


def test_nobody_to_choose_needs_nothing() -> None:
    found = pick_fewest([], nodes=NODES)
    assert (found.picks, found.value, found.bound, found.ties_proven) == ((), 0, 0, True)


def test_a_chooser_without_an_option_is_refused() -> None:
    with pytest.raises(ValueError) as fault:
        pick_fewest([Chooser(())], nodes=NODES)
    assert "no option" in str(fault.value)
