"""A slide drawn out: shares of the sag, play, fixings that give, rollers that lift."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.carry.slide_data import SlideData, together
from drawerwright.carry.telescope import Drawn, OutOfBalanceError, Slides, draw_out, positions_of

EXAMPLE = SlideData(
    member=500.0,
    travel=500.0,
    weight=200.0,
    lower=(130.0, 370.0),
    upper=(130.0, 370.0),
    screws=(60.0, 460.0),
    bending=(1.2e9, 1.0e9, 1.6e9),
    roller_give=1 / 4000.0,
    play=0.0,
    mount_give=0.0,
    missing=(),
)


def drawn(*data: SlideData, positions: int = 41) -> list[Drawn]:
    """Each slide over its travel."""
    slides = together(data)
    out = draw_out(slides, positions_of(slides.travel, positions))
    return [Drawn(*(getattr(out, name)[row] for name in Drawn.__slots__)) for row in range(len(data))]


def test_the_shares_add_up_to_the_sag() -> None:
    (one,) = drawn(replace(EXAMPLE, play=0.1, mount_give=1e-3))
    shares = (
        one.cabinet_sag, one.intermediate_sag, one.drawer_sag, one.roller_sag, one.play_sag, one.mount_sag
    )  # fmt: skip
    assert one.sag == pytest.approx(sum(shares))
    assert (shares[0] > 0).any()
    assert (shares[5] != 0).any()


def test_every_carriage_and_the_fixings_carry_the_load_at_every_position() -> None:
    (one,) = drawn(EXAMPLE)
    for rear, front in (
        (one.upper_rear, one.upper_front),
        (one.lower_rear, one.lower_front),
        (one.screw_rear, one.screw_front),
    ):
        assert rear + front == pytest.approx(200.0)


def test_rear_rollers_lift_from_where_the_load_passes_the_front_ones() -> None:
    """Lower carriage: (4/3)(370 − 250) = 160 mm; upper: 4 (370 − 250) = 480 mm."""
    (one,) = drawn(EXAMPLE, positions=501)
    assert one.extension[np.argmax(one.lower_rear < 0)] == pytest.approx(161.0)
    assert one.extension[np.argmax(one.upper_rear < 0)] == pytest.approx(481.0)


def test_play_lets_the_front_down_when_rear_rollers_lift() -> None:
    """Beyond 160 mm the lower rear group stands 0.1 high; the tip, A ahead of the front, sinks 0.1 A/s."""
    (one,) = drawn(replace(EXAMPLE, play=0.1), positions=501)
    assert one.play_sag[160] == 0.0
    ahead = 500.0 + 161.0 - (370.0 + 161.0 / 4)
    assert one.play_sag[161] == pytest.approx(0.1 * ahead / 240.0)
    assert (one.play_sag[161:] > 0).all()


def test_without_play_nothing_comes_of_it() -> None:
    assert (drawn(EXAMPLE)[0].play_sag == 0.0).all()


def test_fixings_that_give_turn_the_slide_about_them() -> None:
    (one,) = drawn(replace(EXAMPLE, mount_give=1e-3))
    rear, front = 1e-3 * -one.screw_rear, 1e-3 * -one.screw_front
    tip = rear + (front - rear) * (one.extension + 500.0 - 60.0) / 400.0
    assert one.mount_sag == pytest.approx(-tip)


@given(factor=st.floats(0.1, 50.0))
def test_without_play_everything_grows_with_the_load(factor: float) -> None:
    light, heavy = drawn(EXAMPLE, replace(EXAMPLE, weight=200.0 * factor))
    assert heavy.sag == pytest.approx(factor * light.sag)
    assert heavy.lower_front == pytest.approx(factor * light.lower_front)
    assert heavy.drawer_moment == pytest.approx(factor * light.drawer_moment)


@given(factor=st.floats(0.3, 3.0))
def test_a_slide_of_another_size_is_like_it(factor: float) -> None:
    """All lengths times f: forces stay, bending grows with the cube of f, roller sag stays."""

    def pair(one: tuple[float, float]) -> tuple[float, float]:
        return one[0] * factor, one[1] * factor

    large = replace(
        EXAMPLE,
        member=500.0 * factor,
        travel=500.0 * factor,
        lower=pair(EXAMPLE.lower),
        upper=pair(EXAMPLE.upper),
        screws=pair(EXAMPLE.screws),
    )
    one, other = drawn(EXAMPLE, large)
    assert other.lower_front == pytest.approx(one.lower_front)
    assert other.members_sag == pytest.approx(factor**3 * one.members_sag, abs=1e-12)
    assert other.roller_sag == pytest.approx(one.roller_sag)


def test_slides_together_come_out_as_each_alone() -> None:
    others = [replace(EXAMPLE, weight=weight, travel=300.0 + weight) for weight in (50.0, 100.0, 150.0)]
    for alone, beside in zip([drawn(one)[0] for one in others], drawn(*others), strict=True):
        assert np.array_equal(alone.sag, beside.sag)
        assert np.array_equal(alone.intermediate_moment, beside.intermediate_moment)


def test_many_slides_are_drawn_out_in_pieces_and_come_out_in_order() -> None:
    many = [replace(EXAMPLE, weight=float(weight)) for weight in range(1, 201)]
    found = drawn(*many, positions=201)
    assert [one.upper_rear[0] + one.upper_front[0] for one in found] == pytest.approx(list(range(1, 201)))


def test_what_is_not_known_stays_unknown_and_spoils_nothing_else() -> None:
    (one,) = drawn(replace(EXAMPLE, bending=(float("nan"), 1e9, 1e9)))
    assert np.isnan(one.sag).all()
    assert np.isfinite(one.intermediate_sag).all()
    assert np.isfinite(one.lower_front).all()


def test_forces_that_do_not_add_up_are_a_fault_of_the_program(monkeypatch: pytest.MonkeyPatch) -> None:
    import drawerwright.carry.telescope as telescope

    right = telescope.support_forces
    monkeypatch.setattr(telescope, "support_forces", lambda beam: (right(beam)[0], right(beam)[1] * 1.001))
    slides = together([EXAMPLE])
    with pytest.raises(OutOfBalanceError):
        draw_out(slides, positions_of(slides.travel, 3))


def test_slides_know_how_many_they_are() -> None:
    assert isinstance(together([EXAMPLE] * 3), Slides)
    assert len(together([EXAMPLE] * 3)) == 3
