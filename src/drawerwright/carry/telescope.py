"""A slide of three members as it is drawn out: who carries what, and how far its front sags.

All members are as long as the cabinet member. Drawn out by e, the intermediate member stands e/2 out, the
lower carriage e/4 and the upper one e/2 + e/4. Half the moving weight lies evenly along the drawer member.
Each member is a beam on two supports, so forces follow from balance alone; deflections add up from the
cabinet to the front. Places from the rear end of the cabinet member; forces up positive on the member that is
carried; sag down positive. Source: statics and elastic beams; checked against frame analysis.

A roller group that carries is pressed down by its force over its stiffness and lies at the lower end of its
play; one that lifts is pressed the other way and stands at the upper end. Play counts from where an unloaded
closed drawer rests, on all four groups.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields
from typing import Final

import numpy as np

from drawerwright.equations.mechanics.beams import (
    Q,
    TwoLoads,
    bending_at_loads,
    moments_of_two_loads,
    on_a_line,
    spread_load_moments,
    spread_load_tip,
    support_forces,
)

BALANCE: Final = 1e-9
"""How far the forces of a carriage may be off the weight, as a share of it: rounding alone."""

TOGETHER: Final = 16_384
"""Slides times positions that are computed at once, so that the arrays stay in the processor's memory."""


@dataclass(frozen=True, slots=True)
class Slides:
    """n slides, one value a slide in each array (n,): places and lengths mm, forces N, EI N mm².

    `roller_give` and `mount_give` in mm/N. What is not known is NaN, and so is what follows from it.
    """

    member: Q
    travel: Q
    weight: Q
    lower_rear: Q
    lower_front: Q
    upper_rear: Q
    upper_front: Q
    screw_rear: Q
    screw_front: Q
    cabinet_bending: Q
    intermediate_bending: Q
    drawer_bending: Q
    roller_give: Q
    play: Q
    mount_give: Q

    def __len__(self) -> int:
        return len(self.member)

    def rows(self, low: int, high: int) -> Slides:
        """Some of the slides, each of their values in a row of its own, (n, 1)."""
        return Slides(*(getattr(self, field.name)[low:high, None] for field in fields(self)))


@dataclass(frozen=True, slots=True)
class Drawn:
    """n slides drawn out to m positions, arrays (n, m): forces N, moments N mm, shares of the sag mm.

    A member's moment is the largest of its length, without its sign. `sag` is the sum of its shares.
    """

    extension: Q
    upper_rear: Q
    upper_front: Q
    lower_rear: Q
    lower_front: Q
    screw_rear: Q
    screw_front: Q
    cabinet_moment: Q
    intermediate_moment: Q
    drawer_moment: Q
    cabinet_sag: Q
    intermediate_sag: Q
    drawer_sag: Q
    roller_sag: Q
    play_sag: Q
    mount_sag: Q

    @property
    def members_sag(self) -> Q:
        """Sag from the bending of all three members [mm]."""
        return self.cabinet_sag + self.intermediate_sag + self.drawer_sag

    @property
    def sag(self) -> Q:
        """How far the front end of the drawer member has come down [mm]."""
        return self.members_sag + self.roller_sag + self.play_sag + self.mount_sag


class OutOfBalanceError(ArithmeticError):
    """Forces of a carriage that do not add up to the weight: a fault of the program, never of the input."""


def positions_of(travel: Q, positions: int) -> Q:
    """Extensions (n, positions) [mm], evenly from closed to each slide's travel (n,)."""
    return travel[:, None] * np.linspace(0.0, 1.0, positions)


def draw_out(slides: Slides, extension: Q) -> Drawn:
    """All slides at their extensions (n, m) [mm].

    Raises OutOfBalanceError where the forces of a carriage do not add up to the weight.
    """
    together = max(TOGETHER // extension.shape[1], 1)
    parts = [
        _draw_out(slides.rows(low, low + together), extension[low : low + together])
        for low in range(0, len(slides), together)
    ]
    if len(parts) == 1:
        return parts[0]
    return Drawn(*(np.concatenate([getattr(part, name) for part in parts]) for name in _names()))


def _names() -> Iterator[str]:
    return (field.name for field in fields(Drawn))


def _draw_out(slide: Slides, extension: Q) -> Drawn:
    weight, member = slide.weight, slide.member
    lower_rear, lower_front = slide.lower_rear + extension / 4, slide.lower_front + extension / 4
    upper_rear, upper_front = slide.upper_rear + extension * 0.75, slide.upper_front + extension * 0.75
    tip = extension + member
    span, ahead = slide.upper_front - slide.upper_rear, tip - upper_front
    behind = upper_rear - extension
    spread = weight / member

    up_front = weight * (member / 2 - slide.upper_rear + extension / 4) / span
    up_rear = weight - up_front
    between = TwoLoads(lower_rear, lower_front, upper_rear, upper_front, up_rear, up_front)
    low_rear, low_front = support_forces(between)
    fixed = TwoLoads(slide.screw_rear, slide.screw_front, lower_rear, lower_front, low_rear, low_front)
    # Of the whole, so that fixings can be told of where the carriages are not.
    screw_front = (
        weight * (member / 2 + extension - slide.screw_rear) / (slide.screw_front - slide.screw_rear)
    )
    screw_rear = weight - screw_front
    _in_balance(weight, member, extension, slide, low_front, support_forces(fixed))

    def at_tip(rear: Q, front: Q, at_rear: Q, at_front: Q) -> Q:
        return -on_a_line(tip, rear, front, at_rear, at_front)

    cabinet = bending_at_loads(fixed, screw_rear, screw_front)
    middle = bending_at_loads(between, low_rear, low_front)
    give, play = slide.roller_give, slide.play
    return Drawn(
        extension=extension,
        upper_rear=up_rear,
        upper_front=up_front,
        lower_rear=low_rear,
        lower_front=low_front,
        screw_rear=screw_rear,
        screw_front=screw_front,
        cabinet_moment=_largest(*moments_of_two_loads(fixed, screw_rear, screw_front)),
        intermediate_moment=_largest(*moments_of_two_loads(between, low_rear, low_front)),
        drawer_moment=_largest(*spread_load_moments(spread, span, ahead, behind)),
        cabinet_sag=at_tip(lower_rear, lower_front, *cabinet) / slide.cabinet_bending,
        intermediate_sag=at_tip(upper_rear, upper_front, *middle) / slide.intermediate_bending,
        drawer_sag=-spread_load_tip(spread, span, ahead, behind) / slide.drawer_bending,
        roller_sag=give
        * (
            at_tip(lower_rear, lower_front, -low_rear, -low_front)
            + at_tip(upper_rear, upper_front, -up_rear, -up_front)
        ),
        play_sag=at_tip(lower_rear, lower_front, play * (low_rear < 0.0), play * (low_front < 0.0))
        + at_tip(upper_rear, upper_front, play * (up_rear < 0.0), play * (up_front < 0.0)),
        mount_sag=slide.mount_give * at_tip(slide.screw_rear, slide.screw_front, -screw_rear, -screw_front),
    )


def _largest(*moments: Q) -> Q:
    largest = np.abs(moments[0])
    for moment in moments[1:]:
        largest = np.maximum(largest, np.abs(moment))
    return largest


def _in_balance(weight: Q, member: Q, extension: Q, slide: Slides, low_front: Q, screws: tuple[Q, Q]) -> None:
    """Hold the forces that were handed down from member to member against the balance of the whole.

    What is not known is NaN and compares as in balance.
    """
    arm = member / 2 + 0.75 * extension - slide.lower_rear
    off = np.abs(low_front * (slide.lower_front - slide.lower_rear) - weight * arm)
    arm_screws = member / 2 + extension - slide.screw_rear
    off_screws = np.abs(screws[1] * (slide.screw_front - slide.screw_rear) - weight * arm_screws)
    off_sum = np.abs(screws[0] + screws[1] - weight) * member
    least = BALANCE * (np.abs(weight) * (member + extension) + 1e-12)
    if any(bool(np.any(one > least)) for one in (off, off_screws, off_sum)):
        raise OutOfBalanceError("the forces of a slide do not add up to its load")
