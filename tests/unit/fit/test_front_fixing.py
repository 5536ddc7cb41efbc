"""How low and deep an applied front is set, and what the adjusters then have."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer

Fit = Callable[..., FittedDrawer]
Family = Callable[..., SlideFamily]


@pytest.mark.parametrize(
    ("gap", "low"),
    [(4.0, 1.5), (3.0, 1.5), (2.0, 1.0), (1.5, 0.75), (1.0, 0.5), (0.8, 0.3), (0.5, 0.0), (0.1, 0.0)],
)
def test_an_inset_front_is_never_set_lower_than_half_its_gap_leaves(
    fit_one: Fit, gap: float, low: float
) -> None:
    """Half of the gap and 0.5 at least stay open under it: it has to close while it is lined up."""
    fitted = fit_one(front={"style": "inset", "gap": gap})
    fixing = fitted.fixing
    assert fixing is not None
    assert fixing.low_by == pytest.approx(low)
    assert fixing.room_up == pytest.approx(3 - low)
    assert fixing.room_down == pytest.approx(low)
    # The pilots on the front's back follow: above its lower edge, which is a gap above the opening's.
    assert fitted.box is not None
    up = fitted.box.lower_edge - fitted.opening.floor - gap + low
    assert [y for _, y in fixing.holes_in_front] == pytest.approx([y + up for _, y in fixing.holes])
    says = next(check.says for check in fitted.checks if check.id == "front-gap")
    assert f"Set {low:g} mm low it clears the opening" in says
    assert f"lower it {low:g} mm" in says


def test_a_front_over_another_is_set_low_by_what_their_gap_leaves(family: Family) -> None:
    """Height 0 to 8 would be 4 low; the gap of 3 leaves 1.5, and nothing stands under the lowest."""
    job = job_from_mapping(
        {
            "cabinet": [{"id": "B"}],
            "defaults": {"side": 16, "cabinet": "B", "front": {"style": "overlay", "gap": 3}},
            "drawer": [
                {"id": "1", "row": 1, "opening": {"width": 562, "height": 168, "depth": 530, "floor": 0}},
                {"id": "2", "row": 2, "opening": {"width": 562, "height": 168, "depth": 530, "floor": 187}},
            ],
        }
    )
    adjust = {"side": [-1.5, 1.5], "height": [0.0, 8.0], "depth": [0.0, 4.0]}
    lowest, upper = fit_job(job, (family(adjust=adjust),)).drawers
    assert lowest.fixing is not None
    assert upper.fixing is not None
    assert (lowest.fixing.low_by, upper.fixing.low_by) == (4.0, 1.5)


def test_the_depth_of_a_front_is_where_the_members_stand_and_never_beyond_the_cabinet(
    fit_one: Fit, family: Family
) -> None:
    """An inset front 2 back of flush comes out by them; an overlay one goes in as far as the cabinet."""
    back = fit_one([family(front_inset=5)], front={"style": "inset"})
    assert back.fixing is not None
    assert back.mounting is not None
    assert (back.fixing.deep_by, back.fixing.room_out, back.fixing.room_in) == (2, 2, 2)
    assert back.mounting.front_end == 19 + 5
    both_ways = {"side": [0, 0], "height": [-1.5, 1.5], "depth": [-1.5, 1.5]}
    over = fit_one([family(adjust=both_ways)], front={"style": "overlay"})
    assert over.fixing is not None
    assert (over.fixing.low_by, over.fixing.deep_by) == (0, 0)
    assert (over.fixing.room_out, over.fixing.room_in) == (1.5, 1)
