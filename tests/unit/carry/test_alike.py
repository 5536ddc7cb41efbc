"""Drawers that are alike but for their names: carried once, and each told as if it were alone."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from drawerwright.carry import CarriedJob, carry_document, carry_drawer, carry_job
from drawerwright.carry.alike import alike_key
from drawerwright.fit import fit_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedJob
from drawerwright.model.job import Job

from tests.conftest import plain_drawer  # isort: skip

MECHANICS: dict[str, Any] = {
    "carriages": {"lower": [130, 370], "upper": [130, 370]},
    "carriages_for": 500,
    "stiffness": {"cabinet": 1.2e9, "intermediate": 1.0e9, "drawer": 1.6e9},
    "roller": {"stiffness": 4000, "play": 0.1},
    "soft_close": {"capture": 50, "pull_in": 8, "spring": 0.2, "damping": 0.1, "drag": 0.008},
}


@pytest.fixture
def fitted(family: Callable[..., SlideFamily]) -> FittedJob:
    """Two that are alike, a heavier one, one that fits nothing, and the first again further on."""
    cabinets = [{"id": name, "inside_width": 562} for name in ("B1", "B2")]
    drawers = [
        plain_drawer(contents=20) | {"id": "one", "note": "left of the sink", "cabinet": "B1", "row": 1},
        plain_drawer(contents=20) | {"id": "two", "quantity": 3, "cabinet": "B2", "row": 1},
        plain_drawer(contents=30) | {"id": "heavy"},
        plain_drawer(contents=60) | {"id": "overloaded"},
        plain_drawer(contents=60) | {"id": "overloaded too"},
        plain_drawer(contents=20) | {"id": "lone"},
    ]
    return fit_job(Job.model_validate({"cabinet": cabinets, "drawer": drawers}), [family(**MECHANICS)])


def test_drawers_that_are_alike_share_what_their_slides_do(fitted: FittedJob) -> None:
    one, two, heavy, overloaded, again, lone = carry_job(fitted).drawers
    assert one.slide is two.slide is not None
    assert heavy.slide is not one.slide
    assert lone.slide is not one.slide
    assert overloaded.slide is again.slide is None
    assert overloaded.nearest is again.nearest is not None


@pytest.mark.parametrize("asked", [{}, {"off_centre": 40.0, "tilt_deg": 1.0, "positions": 7}])
@pytest.mark.parametrize("together", [1, 2, 16_384])
def test_each_is_told_as_if_it_were_alone(
    fitted: FittedJob, asked: dict[str, Any], together: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """However few slides are drawn out and kept at once."""
    alone = [carry_document(CarriedJob("", (carry_drawer(one, **asked),))) for one in fitted.drawers]
    at_once = together * asked.get("positions", 41)
    monkeypatch.setattr("drawerwright.carry.study.TOGETHER", at_once)
    monkeypatch.setattr("drawerwright.carry.document.TOGETHER", at_once)
    told = carry_document(carry_job(fitted, **asked))["drawers"]
    assert told == [one["drawers"][0] for one in alone]


@pytest.mark.parametrize(
    "other",
    [
        {"contents": 21},
        {"side": 16.1},
        {"stabiliser": True},
        {"opening": {"width": 562.5}},
        {"subfront": 16.5},
        {"materials": {"bottom": "9 birch ply"}},
    ],
)
def test_whatever_else_differs_sets_them_apart(
    other: dict[str, Any], family: Callable[..., SlideFamily]
) -> None:
    drawers = [plain_drawer(contents=20), plain_drawer(**{"contents": 20, **other}) | {"id": "B"}]
    one, two = fit_job(Job.model_validate({"drawer": drawers}), [family(**MECHANICS)]).drawers
    assert alike_key(one) != alike_key(two)
