"""A straight beam over two supports, with overhangs: bending and deflection, arrays broadcast.

Places [mm] along the beam, loads [N] positive downwards, deflections positive upwards, moments [N mm]
positive where the beam sags. Deflections come as EI times y [N mm³], so that one stiffness, or none yet, may
be divided by. Shear deformation is left out (Euler-Bernoulli). Source: double integration with Macaulay's
brackets; checked against tabled cases and against frame analysis.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray

Q: TypeAlias = NDArray[np.float64]


class TwoLoads(NamedTuple):
    """A beam over the supports `rear` < `front` under loads at `first` < `second`, all arrays alike."""

    rear: Q
    front: Q
    first: Q
    second: Q
    first_load: Q
    second_load: Q


def support_forces(beam: TwoLoads) -> tuple[Q, Q]:
    """Forces [N] of the rear and the front support on the beam, up positive."""
    total = beam.first_load + beam.second_load
    moment = beam.first_load * (beam.first - beam.rear) + beam.second_load * (beam.second - beam.rear)
    front = moment / (beam.front - beam.rear)
    return total - front, front


def bending_at_loads(beam: TwoLoads, rear_force: Q, front_force: Q) -> tuple[Q, Q]:
    """EI y [N mm³] of the beam under its first and its second load, supports rigid and level."""
    span = beam.front - beam.rear
    lift = (
        beam.first_load * _cubed(beam.rear - beam.first) + beam.second_load * _cubed(beam.rear - beam.second)
    ) / 6
    at_front = (
        rear_force * span**3
        - beam.first_load * _cubed(beam.front - beam.first)
        - beam.second_load * _cubed(beam.front - beam.second)
    ) / 6
    slope = (-lift - at_front) / span
    first = (
        rear_force * _cubed(beam.first - beam.rear) + front_force * _cubed(beam.first - beam.front)
    ) / 6 + slope * (beam.first - beam.rear)
    second = (
        rear_force * _cubed(beam.second - beam.rear)
        + front_force * _cubed(beam.second - beam.front)
        - beam.first_load * (beam.second - beam.first) ** 3
    ) / 6 + slope * (beam.second - beam.rear)
    return first + lift, second + lift


def moments_of_two_loads(beam: TwoLoads, rear_force: Q, front_force: Q) -> tuple[Q, Q, Q, Q]:
    """Bending moments [N mm] at the rear support, the front support, the first and the second load."""

    def moment(place: Q) -> Q:
        return (
            rear_force * np.maximum(place - beam.rear, 0.0)
            + front_force * np.maximum(place - beam.front, 0.0)
            - beam.first_load * np.maximum(place - beam.first, 0.0)
            - beam.second_load * np.maximum(place - beam.second, 0.0)
        )

    return moment(beam.rear), moment(beam.front), moment(beam.first), moment(beam.second)


def spread_load_tip(load: Q, span: Q, ahead: Q, behind: Q) -> Q:
    """EI y [N mm³] of the front tip of a beam under `load` [N/mm] all along it.

    `span` between the supports, overhangs `ahead` of the front one and `behind` the rear one [mm]. With
    nothing behind it is the tabled case of a load over the whole of an overhanging beam.
    """
    turned = ahead * span * (ahead**2 / 6 + behind**2 / 12 - span**2 / 24)
    return -load * (ahead**4 / 8 + turned)


def spread_load_moments(load: Q, span: Q, ahead: Q, behind: Q) -> tuple[Q, Q, Q]:
    """Bending moments [N mm] of the same beam at its rear and front support, and the largest between."""
    rear, front = -load * behind**2 / 2, -load * ahead**2 / 2
    force = load * (span + ahead + behind) * (span + behind - ahead) / 2 / span
    # From the rear tip the shear is nil where the rear support's force is used up.
    place = np.clip(force / np.where(load == 0.0, 1.0, load) - behind, 0.0, span)
    between = force * place - load * (place + behind) ** 2 / 2
    return rear, front, between


def bent_line(
    places: Q,
    rear: float,
    front: float,
    *,
    loads: Sequence[tuple[float, float]] = (),
    spreads: Sequence[tuple[float, float, float]] = (),
    stiffness: float,
    at_rear: float = 0.0,
    at_front: float = 0.0,
) -> Q:
    """Deflection [mm] along a beam at `places` (k,); its supports stand at the heights `at_rear`, `at_front`.

    `loads`: place and force [N] of each; `spreads`: from, to, and load [N/mm]. `stiffness` is EI [N mm²].
    """
    span = front - rear
    forces = [(at, load) for at, load in loads] + [
        ((start + end) / 2, load * (end - start)) for start, end, load in spreads
    ]
    front_force = sum(force * (at - rear) for at, force in forces) / span
    rear_force = sum(force for _, force in forces) - front_force

    def bend(place: Q) -> Q:
        total = rear_force * _cubed(place - rear) + front_force * _cubed(place - front)
        for at, load in loads:
            total = total - load * _cubed(place - at)
        for start, end, load in spreads:
            fourth = np.maximum(place - start, 0.0) ** 4 - np.maximum(place - end, 0.0) ** 4
            total = total - load * fourth / 4
        return total / (6 * stiffness)

    low, high = bend(np.array([rear])), bend(np.array([front]))
    return bend(places) + on_a_line(
        places, np.array([rear]), np.array([front]), at_rear - low, at_front - high
    )


def on_a_line(place: Q, rear: Q, front: Q, at_rear: Q, at_front: Q) -> Q:
    """Height [mm] at a place of a rigid bar whose two supports stand at those heights."""
    return at_rear + (at_front - at_rear) * (place - rear) / (front - rear)


def _cubed(length: Q) -> Q:
    """Macaulay's bracket, cubed: nothing where the length is negative."""
    return np.maximum(length, 0.0) ** 3
