"""The study drawer by drawer: the same as of the whole job, refused before the first."""

from __future__ import annotations

import pytest

from drawerwright.carry import carry_document, carry_job
from drawerwright.carry.document import carry_document_by_drawer
from drawerwright.carry.study import carry_by_drawer
from drawerwright.carry.telescope import TOGETHER
from drawerwright.catalogue.families import load_families
from drawerwright.errors import InputError
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedJob


@pytest.fixture(scope="module")
def fitted() -> FittedJob:
    """Five drawers, one of which fits nothing."""
    drawers = [
        {"id": f"D{at}", "opening": {"width": 500 + 10 * at, "height": 168, "depth": depth}, "side": 16}
        for at, depth in enumerate((530, 480, 150, 430, 560))
    ]
    job = job_from_mapping({"title": "Invented", "defaults": {"contents": 20}, "drawer": drawers})
    return fit_job(job, load_families())


@pytest.mark.parametrize("positions", [3, TOGETHER // 2], ids=["in one group", "in groups of two"])
@pytest.mark.parametrize("off_centre", [0.0, 60.0])
def test_drawers_drawn_out_in_groups_come_to_what_each_comes_to_alone(
    fitted: FittedJob, positions: int, off_centre: float
) -> None:
    whole = carry_document(carry_job(fitted, positions=positions, off_centre=off_centre))["drawers"]
    alone = [
        carry_document(carry_job(FittedJob("", (one,)), positions=positions, off_centre=off_centre))
        for one in fitted.drawers
    ]
    assert [one["id"] for one in whole] == ["D0", "D1", "D2", "D3", "D4"]
    assert whole == [one["drawers"][0] for one in alone]


def test_the_study_drawer_by_drawer_tells_its_steps_and_its_document_ends_with_the_drawers(
    fitted: FittedJob,
) -> None:
    steps: list[tuple[int, int]] = []
    drawers = carry_by_drawer(fitted, positions=3, progress=lambda done, total: steps.append((done, total)))
    told = carry_document_by_drawer(fitted.title, drawers)
    assert list(told)[-1] == "drawers"
    assert steps == []
    assert {**told, "drawers": list(told["drawers"])} == carry_document(carry_job(fitted, positions=3))
    assert steps == [(done, 5) for done in range(1, 6)]


def test_what_cannot_be_studied_is_refused_before_the_first_drawer(fitted: FittedJob) -> None:
    with pytest.raises(InputError) as refused:
        carry_by_drawer(fitted, positions=1, sag_limit=-1.0)
    assert [one.where for one in refused.value.faults] == ["carry positions", "carry sag-limit"]
