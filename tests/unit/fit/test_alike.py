"""Drawers that are alike are computed once, and each gets the answer that it gets alone."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.conftest import plain_drawer, plain_family

from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_document, fit_job
from drawerwright.fit import job as fitting
from drawerwright.fit.slide_rows import SpacerChoices
from drawerwright.fit.spacers import choose_spacers

FAMILY = plain_family(spacers=[3])
TOO_UNEVEN = {"opening": {"width": [562, 566]}}


def told(*drawers: dict[str, Any]) -> list[dict[str, Any]]:
    job = job_from_mapping({"drawer": list(drawers)})
    return list(fit_document(fit_job(job, (FAMILY,)))["drawers"])


@pytest.mark.parametrize(
    "keys", [{}, TOO_UNEVEN, {"existing_box": {"inside_width": 520}}, {"mount": "shelf"}]
)
def test_each_of_several_alike_gets_the_answer_that_it_gets_alone(keys: dict[str, Any]) -> None:
    named = [
        plain_drawer(**keys) | {"id": "A"},
        plain_drawer(**keys) | {"id": "B", "note": "left", "quantity": 3},
        plain_drawer(**keys) | {"id": "C", "side": 15.5},
    ]
    assert told(*named) == [*told(named[0]), *told(named[1]), *told(named[2])]


def test_only_those_that_differ_are_computed(monkeypatch: pytest.MonkeyPatch) -> None:
    searched = []
    search = fitting.smallest_changes
    monkeypatch.setattr(
        fitting, "smallest_changes", lambda *args, **keys: searched.append(1) or search(*args, **keys)
    )
    told(*(plain_drawer(**TOO_UNEVEN) | {"id": f"D{at}", "side": 15 + at % 2} for at in range(10)))
    assert len(searched) == 2


def test_a_row_that_changes_the_front_changes_the_answer() -> None:
    """Inner edges of a column take half a gap: drawers alike in all but their row differ in their fronts."""
    front = {"style": "overlay", "overlay": 16, "gap": 3}
    rows = [
        plain_drawer(front=front, opening={"floor": 200 * row})
        | {"id": f"D{row}", "cabinet": "C", "row": row}
        for row in (1, 2, 3)
    ]
    heights = [one["front"]["height"] for one in told(*rows)]
    assert heights[0] != heights[1]


numbers = st.floats(-8, 8).map(lambda value: round(value, 2))


@given(
    st.lists(numbers, min_size=1, max_size=6),
    st.floats(-3, 3),
    st.floats(0, 3),
    st.lists(st.floats(0.5, 4), max_size=2),
)
def test_the_fewest_spacers_that_serve_are_chosen_and_else_the_nearest(
    off: list[float], low: float, wide: float, spacers: list[float]
) -> None:
    stacks = ((), *((one,) for one in spacers), *((one, other) for one in spacers for other in spacers))
    sums, counts = np.array([[sum(one) for one in stacks]]), np.array([[float(len(one)) for one in stacks]])
    found = choose_spacers(
        np.array([off]).T, np.array([[low]]), np.array([[low + wide]]), SpacerChoices((stacks,), sums, counts)
    )
    for at, one in enumerate(off):
        left = [one - sum(stack) for stack in stacks]
        serving = [n for n, rest in enumerate(left) if low - 1e-6 <= rest <= low + wide + 1e-6]
        place = int(found.place[at, 0])
        if serving:
            assert place in serving
            assert len(stacks[place]) == min(len(stacks[n]) for n in serving)
        else:
            assert abs(left[place]) == pytest.approx(min(map(abs, left)), abs=1e-4)
        assert found.thickness[at, 0] == sum(stacks[place])
