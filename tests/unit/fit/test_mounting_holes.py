"""A member beside the box wants holes that meet the cabinet side; what the family does not tell is said."""

from __future__ import annotations

from typing import Any

import pytest
from tests.conftest import plain_drawer, plain_family

from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import Check, FittedDrawer

FRAMED = {"construction": "face-frame", "mount": "packed"}


def fitted_with(holes: list[float], slots: list[float] | None = None, **keys: Any) -> FittedDrawer:
    length = {"nominal": 500, "holes": holes, "slots": slots or [], "shelf_holes": [60, 400]}
    job = job_from_mapping({"drawer": [plain_drawer(**keys)]})
    (fitted,) = fit_job(job, (plain_family(length=[length]),)).drawers
    return fitted


def mount_of(fitted: FittedDrawer) -> Check:
    (found,) = [check for check in fitted.checks if check.id == "mount"]
    return found


@pytest.mark.parametrize(
    ("holes", "slots", "count"), [([], [], 0), ([0], [], 1), ([], [16], 1), ([0], [16], 2), ([0, 32], [], 2)]
)
def test_two_holes_or_slots_hold_a_member_and_fewer_are_to_watch(
    holes: list[float], slots: list[float], count: int
) -> None:
    fitted = fitted_with(holes, slots)
    mount = mount_of(fitted)
    assert fitted.slide is not None
    assert fitted.slide.mount == "side"
    assert mount.state == ("ok" if count >= 2 else "watch")
    assert (f"tells {count} row holes or slots" in mount.says) == (count < 2)
    assert fitted.verdict == ("fits" if count >= 2 else "fits-with-care")


def test_holes_before_the_front_edge_of_the_side_are_none() -> None:
    """The frame is 60 thick: the side begins 60 behind its face, the first two holes stand at 37 and 53."""
    frame = {"left": 38, "right": 41, "thickness": 60}
    mount = mount_of(fitted_with([0, 16], frame=frame, **FRAMED))
    assert mount.state == "watch"
    assert "tells 0 row holes" in mount.says
    assert mount_of(fitted_with([0, 16, 32, 64], frame=frame, **FRAMED)).state == "ok"


def test_a_member_on_a_shelf_wants_no_row_holes() -> None:
    assert "row holes" not in mount_of(fitted_with([], mount="shelf")).says


def test_a_member_without_holes_for_a_shelf_stops_there() -> None:
    job = job_from_mapping({"drawer": [plain_drawer(mount="shelf")]})
    (fitted,) = fit_job(job, (plain_family(length=[{"nominal": 500, "holes": [0, 32]}]),)).drawers
    assert fitted.verdict == "does-not-fit"
    assert fitted.rejected[0].because == "shelf-holes"
