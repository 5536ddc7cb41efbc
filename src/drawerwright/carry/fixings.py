"""What pulls at the screws of front, locking brackets and cabinet members, and what draws them out."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from drawerwright.carry.slide_data import SlideData
from drawerwright.carry.stock import stock_of, withdrawal, withdrawal_source
from drawerwright.carry.telescope import Drawn
from drawerwright.carry.words import Words, check_of
from drawerwright.catalogue.materials import Materials
from drawerwright.catalogue.strength import Strength, cabinet_strength
from drawerwright.equations.mechanics.screws import SHANKS
from drawerwright.model.fitted import Check, ChosenSlide, FittedDrawer

PULL: Final = 222.41
"""Pull at a drawer's front [N]: 50 lbf, casework integrity test of the Architectural Woodwork Standards
(2009), appendix A, read."""
PULL_SOURCE: Final = "50 lbf at the front: Architectural Woodwork Standards (2009), appendix A, read"

_FRONT_GAUGE: Final = 8
_BRACKET_GAUGE: Final = 6
_MOUNT_GAUGE: Final = 8
_MOUNT_HOLD: Final = 14.5
"""A 16 mm screw through 1.5 mm of steel [mm]; common practice, no source."""
_BRACKET_SCREW: Final = 16.0
"""Length of a bracket's screws where it is not told [mm]; common practice, no source."""
_GAUGES: Final = "screw gauges: common practice, no source"


@dataclass(frozen=True, slots=True)
class Fixing:
    """Screws that are pulled: force on one of them and what draws it out [N], its hold [mm] in a stock."""

    id: Literal["screw-front", "screw-bracket", "screw-mount"]
    count: int
    diameter: float
    hold: float
    pull: float
    ultimate: float
    stock: Strength
    says: str
    source: str

    @property
    def ratio(self) -> float | None:
        """How many times the pull it takes to draw the screw out; None where nothing pulls."""
        return self.ultimate / self.pull if self.pull > 0.0 else None


def fixings_of(
    one: FittedDrawer, slide: ChosenSlide, data: SlideData, drawn: Drawn, materials: Materials | None
) -> tuple[Fixing, ...]:
    """The screws of a drawer that anything is known of."""
    found = (
        _front(one, materials),
        _bracket(one, slide, materials),
        _mount(slide, data, drawn),
    )
    return tuple(fixing for fixing in found if fixing is not None)


def fixing_check(fixing: Fixing, words: Words) -> Check:
    """What draws a screw out, less what pulls at it."""
    spare = fixing.ultimate - fixing.pull
    ratio = fixing.ratio
    times = f", {ratio:.1f} times that" if ratio is not None and spare >= 0.0 else ""
    return check_of(
        fixing.id,
        spare,
        "N",
        f"{fixing.says}: {words.force(fixing.pull)} on one screw, {words.length(fixing.hold)} deep in "
        f"{fixing.stock.title.lower()}; {words.force(fixing.ultimate)} draw it out{times}. "
        "No safety factor is inside.",
        working=f"{fixing.ultimate:.1f} − {fixing.pull:.1f} = {spare:.1f} N",
        source=fixing.source,
        cure="More screws, longer ones, or stock that holds them better.",
    )


def _front(one: FittedDrawer, materials: Materials | None) -> Fixing | None:
    fixing, box = one.fixing, one.box
    stock = stock_of(one.drawer, "front", materials)
    if fixing is None or box is None or stock is None or not fixing.holes:
        return None
    length = one.drawer.front.screw or fixing.longest_screw
    hold, diameter, count = length - box.subfront, SHANKS[_FRONT_GAUGE], len(fixing.holes)
    if hold <= 0.0:
        return None
    return Fixing(
        "screw-front", count, diameter, hold, PULL / count, withdrawal(stock, diameter, hold), stock,
        f"A hard pull at the front, shared by its {count} screws",
        f"{withdrawal_source(stock)}; {PULL_SOURCE}; {_GAUGES}",
    )  # fmt: skip


def _bracket(one: FittedDrawer, slide: ChosenSlide, materials: Materials | None) -> Fixing | None:
    count = len(slide.family.bracket_holes)
    stock = stock_of(one.drawer, "subfront", materials)
    if one.box is None or stock is None or not count or slide.family.carriage != "concealed":
        return None
    told = one.drawer.box.bracket_screw
    steep = math.sin(math.radians(slide.family.bracket_angle))
    hold = (told or _BRACKET_SCREW) if steep <= 0.0 else min(told or _BRACKET_SCREW, one.box.subfront / steep)
    diameter = SHANKS[_BRACKET_GAUGE]
    # The screws stand at an angle to the pull: along them it is the less, and the rest presses sideways.
    pull = PULL / 2 / count * steep
    return Fixing(
        "screw-bracket", count, diameter, hold, pull, withdrawal(stock, diameter, hold), stock,
        f"The same pull, shared by both locking brackets with {count} screws each",
        f"{withdrawal_source(stock)}; {PULL_SOURCE}; {_GAUGES}",
    )  # fmt: skip


def _mount(slide: ChosenSlide, data: SlideData, drawn: Drawn) -> Fixing | None:
    if not data.has_screws:
        return None
    stock, diameter = cabinet_strength(), SHANKS[_MOUNT_GAUGE]
    pull = max(float(-np.min(drawn.screw_rear)), 0.0)
    says = "The drawer out, the rearmost fixing of the cabinet member is pulled"
    if slide.mount != "shelf":
        # Beside the slide a screw is pulled by the force times how far inside of it the load hangs, over how
        # far the member's foot reaches below it: about the same lengths, so about the same force.
        says += " upwards, across its screw, and about as hard out of the board (judgement, no source)"
    return Fixing(
        "screw-mount", 1, diameter, _MOUNT_HOLD, pull, withdrawal(stock, diameter, _MOUNT_HOLD), stock,
        says, f"{withdrawal_source(stock)}; statics; screw and board: common practice, no source",
    )  # fmt: skip
