"""Fewest things against covering problems whose answers are known.

Sources, all from memory. Points that meet every line of a projective space over two elements: as few as the
points of a hyperplane, 3 of 7 and 7 of 15; R. C. Bose, R. C. Burton, "A characterization of flat spaces in a
finite geometry", Journal of Combinatorial Theory 1 (1966). Of an affine space over three elements: all points
less those of its largest cap, 9 − 4 = 5 and 27 − 9 = 18; the same as the covers of Steiner triple systems in
D. R. Fulkerson, G. L. Nemhauser, L. E. Trotter, "Two computationally difficult set covering problems",
Mathematical Programming Study 2 (1974).
"""

from __future__ import annotations

from itertools import combinations, product

import pytest

from drawerwright.fit.fewest import Chooser, Option, pick_fewest


def lines(elements: int, digits: int) -> list[Chooser]:
    """Each line as one who chooses a point of it: three points whose digits sum to 0.

    Of the space that is affine over 3 elements, projective over 2 (there without the point that is all 0).
    """
    every = [point for point in product(range(elements), repeat=digits) if elements == 3 or any(point)]
    points = {point: number for number, point in enumerate(every)}
    return [
        Chooser(tuple(Option(frozenset({points[point]}), 0.0) for point in three))
        for three in combinations(points, 3)
        if all(sum(column) % elements == 0 for column in zip(*three, strict=True))
    ]


@pytest.mark.parametrize(
    ("elements", "digits", "count", "least"), [(2, 3, 7, 3), (2, 4, 35, 7), (3, 2, 12, 5)]
)
def test_the_points_that_meet_every_line_are_as_few_as_is_known(
    elements: int, digits: int, count: int, least: int
) -> None:
    those = lines(elements, digits)
    assert len(those) == count
    found = pick_fewest(those, nodes=1000)
    assert (found.value, found.bound) == (least, least)


def test_a_search_that_is_cut_off_states_a_gap_that_holds_the_known_answer() -> None:
    choosers = lines(3, 3)
    assert len(choosers) == 117
    found = pick_fewest(choosers, nodes=1)
    taken = {
        point
        for chooser, pick in zip(choosers, found.picks, strict=True)
        for point in chooser.options[pick].things
    }
    assert len(taken) == found.value
    assert found.bound < 18 <= found.value
    assert not found.ties_proven
    assert found == pick_fewest(choosers, nodes=1)
