"""A load that does not lie in the middle: what each slide of the pair gets of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final, Literal, TypeAlias

from drawerwright.carry.slide_data import SLIDES_A_DRAWER, SlideData
from drawerwright.carry.telescope import Drawn
from drawerwright.carry.words import Words, check_of
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import BoxSizes, Check

Hand: TypeAlias = Literal["left", "right"]
HANDS: Final[tuple[Hand, Hand]] = ("left", "right")


@dataclass(frozen=True, slots=True)
class Sides:
    """Both slides drawn out, each under its share [1] of what moves; (m,) arrays.

    `off_centre`: how far right of the middle the load's middle lies [mm]; `apart`: between the slides.
    """

    off_centre: float
    apart: float
    shares: dict[Hand, float]
    drawn: dict[Hand, Drawn]

    @property
    def most(self) -> Hand:
        """The side that carries more."""
        return max(HANDS, key=lambda hand: self.shares[hand])

    @property
    def out_of_level(self) -> float | None:
        """How much deeper the right end of the front hangs at full travel than the left [mm]."""
        deeper = float(self.drawn["right"].sag[-1] - self.drawn["left"].sag[-1])
        return deeper if deeper == deeper else None


def slides_apart(box: BoxSizes, family: SlideFamily) -> float:
    """Between the middles of both drawer members [mm], each in the middle of its notch."""
    return max(box.inside_width - family.rear.notch_width, 1.0)


def shares_of(off_centre: float, apart: float) -> dict[Hand, float]:
    """What each slide carries of the whole [1]; a negative share lifts."""
    right = 0.5 + off_centre / apart
    return {"left": 1.0 - right, "right": right}


def side_data(data: SlideData, shares: dict[Hand, float]) -> tuple[SlideData, SlideData]:
    """The left and the right slide under their shares of what moves."""
    whole = data.weight * SLIDES_A_DRAWER
    left, right = (replace(data, weight=whole * shares[hand]) for hand in HANDS)
    return left, right


def sides_words(sides: Sides, words: Words) -> str:
    """What an uneven load does: each slide's share, and how the front hangs at full travel."""
    heavy = sides.most
    light: Hand = "left" if heavy == "right" else "right"
    told = (
        f"The load's middle lies {words.length(abs(sides.off_centre))} to the {heavy}: the {heavy} slide "
        f"carries {_share(sides.shares[heavy])}, the {light} one {_share(sides.shares[light])}"
    )
    deeper = sides.out_of_level
    if deeper is None:
        return told
    sags = {hand: float(drawn.sag[-1]) for hand, drawn in sides.drawn.items()}
    return (
        f"{told}; at full out the front sags {words.length(sags['left'])} left and "
        f"{words.length(sags['right'])} right: its {'right' if deeper >= 0.0 else 'left'} end hangs "
        f"{words.length(abs(deeper))} deeper"
    )


def _share(share: float) -> str:
    return f"{100.0 * share:.0f} %".replace("-", "−")


def sides_check(sides: Sides, words: Words) -> Check:
    """How far the load's middle may still move before one slide lifts [mm]."""
    room = sides.apart / 2.0 - abs(sides.off_centre)
    most = sides.most
    return check_of(
        "load-sides",
        room,
        "mm",
        f"The load's middle lies {words.length(abs(sides.off_centre))} to the {most}: "
        f"the {most} slide carries {sides.shares[most]:.0%} of it.",
        working=f"half the slides' distance − offset = {sides.apart / 2:.1f} − {abs(sides.off_centre):.1f} "
        f"= {room:.1f} mm",
        source="statics; the slides' distance: middles of the notches",
        cure="Move the load to the middle: beyond a slide it lifts the other.",
    )
