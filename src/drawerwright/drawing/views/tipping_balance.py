"""The balance of a cabinet that stands free, from the side: weights, levers, pivot, block, child and pull.

Axes [mm]: x counts from the front feet into the cabinet, y up from the room's floor; the front is at the
left. Arrows of weights are as long as their share of the greatest one.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from drawerwright.carry.tipping import Tipping
from drawerwright.carry.tipping_cases import TippingCase, weights_of
from drawerwright.carry.tipping_facts import BLOCK, CHILD
from drawerwright.carry.tipping_sets import choices, hanging_lever
from drawerwright.carry.tipping_weights import Weight
from drawerwright.drawing.dimensioning import row_offset
from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.pens import CAPTION_SIZE, HATCH_SPACING_CLOSE, Tone
from drawerwright.drawing.primitives import Anchor, Circle, Text, line, rectangle
from drawerwright.drawing.scene import Dimension, Hatch, Leader, Primitive, Scene
from drawerwright.drawing.shown import Units, shown_in
from drawerwright.drawing.shown_units import in_units
from drawerwright.drawing.views.section import FALLING, RISING
from drawerwright.drawing.views.tipping_parts import (
    ARROW,
    FLOOR,
    PULL_NOTE,
    PULL_SOURCE,
    UPRIGHT,
    Balance,
    arrow_head,
    block_note,
    shapes,
)
from drawerwright.drawing.wording import shown
from drawerwright.equations.mechanics.gravity import STANDARD_GRAVITY
from drawerwright.units import format_mass

_BAR: Final = 34.0
_BARS_UNDER: Final = 350.0
_HEAD: Final = 18.0
_APART: Final = 95.0
"""How far notes stand apart at least [mm of the cabinet]. Own choice."""
_SLIGHT: Final = 0.5


@dataclass(frozen=True, slots=True)
class _Weighing:
    """One arrow: what weighs, its mass [kg], and where it acts [mm in the drawing]."""

    words: str
    mass: float
    at: Point
    child: bool = False

    @property
    def moment(self) -> float:
        """Restoring moment about the feet [N m]; negative turns the cabinet over."""
        return STANDARD_GRAVITY * self.mass * self.at[0] / 1000.0


def tipping_balance(
    tipping: Tipping,
    case: TippingCase | None = None,
    *,
    hanging: bool = True,
    units: Units = "mm",
    numbered: bool = False,
) -> Scene:
    """The balance of one case, the worst one unless told.

    `hanging`: with the child's test mass on the front where it is worst, and the drawers open that are then.
    `numbered`: where names find no room beside it, numbers stand in their place, by `balance_names`.
    """
    view = _view(tipping, case, hanging=hanging)
    pulls = _pulls(view)
    drawn = shapes(view, units, named=not numbered)
    greatest = max(each.mass for each in pulls)
    for each in pulls:
        drawn += _weight(each, greatest)
    drawn += _numbers(view, pulls) if numbered else _notes(view, pulls, units)
    drawn += _levers(pulls)
    drawn += _bars(view, pulls)
    name = tipping.cabinet.id
    scene = Scene("tipping", f"Balance of cabinet {name}", _alt(view, pulls, units), tuple(drawn))
    return in_units(scene, units)


def balance_names(
    tipping: Tipping, case: TippingCase | None = None, *, hanging: bool = True, units: Units = "mm"
) -> tuple[tuple[str, str], ...]:
    """What the numbers of a numbered balance stand for, in their order: name, and mass where it weighs."""
    view = _view(tipping, case, hanging=hanging)
    masses = [(one.words, format_mass(one.mass, shown_in(units).units)) for one in _pulls(view)]
    others = [(f"{PULL_NOTE} ({PULL_SOURCE})", "")]
    if view.case.stance == "block":
        others.append((block_note(units), ""))
    return (*masses, *others)


def _view(tipping: Tipping, case: TippingCase | None, *, hanging: bool) -> Balance:
    one = tipping.worst if case is None else case
    hangs = next((each for each in tipping.drawers if hanging and each.id == one.child_on), None)
    return Balance(tipping, one, one.child_open if hangs is not None else one.open, hangs)


def _numbers(view: Balance, pulls: Sequence[_Weighing]) -> list[Primitive]:
    """A number at every weight, at the pull and at the block, in the order of `balance_names`."""
    places = [one.at for one in pulls]
    at = view.place(view.tipping.cabinet.feet, view.tipping.pull_at)
    places.append((at[0] - ARROW * 0.8, at[1]))
    if view.case.stance == "block":
        places.append((view.rear, BLOCK))
    return [
        Text(place, str(number), CAPTION_SIZE, "start", "semibold", shift=(1.6, 0.9), backed=True)
        for number, place in enumerate(places, 1)
    ]


def _pulls(view: Balance) -> list[_Weighing]:
    """The cabinet, its open drawers, its shut ones and the child, each as one weight in one place."""
    sides = choices(view.tipping.drawers, view.case.load, view.lean)
    groups: dict[str, list[tuple[Weight, float]]] = {"cabinet": [], "open": [], "shut": []}
    for weight, out in weights_of(view.tipping.weight, sides, view.open, view.case.load):
        name = "cabinet" if not weight.drawer else "open" if weight.drawer in view.open else "shut"
        groups[name].append((weight, out))
    words = {
        "cabinet": "cabinet without drawers",
        "open": "open drawers" if len(view.open) > 1 else "open drawer",
        "shut": "shut drawers" if len(view.tipping.drawers) - len(view.open) > 1 else "shut drawer",
    }
    found = [_resultant(view, words[name], group) for name, group in groups.items()]
    pulls = [one for one in found if one is not None]
    if view.hangs_on is not None:
        drawer = view.hangs_on
        x = -1000.0 * hanging_lever(drawer, view.lean)
        y = view.place(drawer.front_at + drawer.reach, drawer.hang_height)[1]
        pulls.append(_Weighing("test mass of a child", CHILD, (x, y), child=True))
    return pulls


def _resultant(view: Balance, words: str, group: Sequence[tuple[Weight, float]]) -> _Weighing | None:
    mass = sum(weight.mass for weight, _ in group)
    if mass <= 0.0:
        return None
    places = [(weight.mass, view.place(weight.at + out, weight.height)) for weight, out in group]
    x = sum(one * at[0] for one, at in places) / mass
    y = sum(one * at[1] for one, at in places) / mass
    return _Weighing(words, mass, (x, y))


def _weight(one: _Weighing, greatest: float) -> list[Primitive]:
    """An arrow down from where it acts."""
    x, y = one.at
    tip = (x, y - max(ARROW * one.mass / greatest, _HEAD * 2))
    return [
        line((x, y), tip, "cut"),
        arrow_head(tip, (0.0, -1.0)),
        Circle((x, y), 9.0, "cut", fill="paper"),
    ]


def _notes(view: Balance, pulls: Sequence[_Weighing], units: Units) -> list[Primitive]:
    """What weighs how much, beside the picture on the side where it acts, one under the other."""
    drawn: list[Primitive] = []
    for ahead, x in ((True, -view.reach - 60.0), (False, view.rear + 50.0)):
        these = sorted((one for one in pulls if (one.at[0] < 0) == ahead), key=lambda one: -one.at[1])
        level = math.inf
        for one in these:
            level = min(one.at[1] + 40.0, level - _APART)
            mass = format_mass(one.mass, shown_in(units).units)
            shoulder = -2.5 if ahead else 2.5
            note = Leader(
                one.at, (0.0, 0.0), shoulder, one.words, mass, quantity="weight", dot=False, bend=(x, level)
            )
            drawn.append(note)
    return drawn


def _levers(pulls: Sequence[_Weighing]) -> list[Primitive]:
    """From the feet to each line of weight, the shortest nearest to the floor on either side."""
    drawn: list[Primitive] = []
    for ahead in (True, False):
        these = sorted((one for one in pulls if (one.at[0] < 0) == ahead), key=lambda one: abs(one.at[0]))
        for row, one in enumerate(these):
            x = one.at[0]
            if abs(x) < _SLIGHT:
                continue
            drawn.append(line((x, one.at[1] - _HEAD), (x, 0.0), "centre"))
            drawn.append(
                Dimension(
                    "tipping_lever",
                    abs(x),
                    (min(x, 0.0), 0.0),
                    (max(x, 0.0), 0.0),
                    "horizontal",
                    base=-FLOOR * 1.5,
                    offset=-row_offset(row),
                )
            )
    return drawn


def _bars(view: Balance, pulls: Sequence[_Weighing]) -> list[Primitive]:
    """What holds to the right and what turns over to the left of the feet, as bars of one measure."""
    hold = [one for one in pulls if one.moment > 0.0]
    turn = [one for one in pulls if one.moment <= 0.0]
    total = max(sum(one.moment for one in hold), -sum(one.moment for one in turn), 1e-9)
    per_moment = view.size.depth * 0.9 / total
    top = -_BARS_UNDER
    drawn: list[Primitive] = [line((0.0, top + _BAR * 0.6), (0.0, top - _BAR * 1.6), "centre")]
    for these, way, words, angle in ((hold, 1.0, "hold", RISING), (turn, -1.0, "turn it over", FALLING)):
        x = 0.0
        for one in these:
            wide = abs(one.moment) * per_moment
            bar = Bounds(min(x, x + way * wide), top - _BAR, max(x, x + way * wide), top)
            drawn.append(rectangle(bar, "edge", "metal" if one.child else "wood"))
            drawn.append(Hatch(bar.corners, UPRIGHT if one.child else angle, HATCH_SPACING_CLOSE))
            x += way * wide
        amount = f"{sum(abs(one.moment) for one in these):.0f} N m {words}"
        anchor: Anchor = "start" if way > 0 else "end"
        drawn.append(
            Text((0.0, top - _BAR), amount, CAPTION_SIZE, anchor, "semibold", shift=(way * 1.2, -4.2))
        )
    margin = sum(one.moment for one in pulls)
    verdict = f"stands, {margin:.0f} N m to spare" if margin >= 0 else f"tips: {-margin:.0f} N m are lacking"
    if view.hangs_on is not None:
        verdict = f"with the test mass it {verdict}"
    tone: Tone = "ink" if margin >= 0 else "accent"
    # Under the bars, so that a balance drawn small keeps clear of its levers' dimensions.
    under = (0.0, top - _BAR)
    drawn.append(Text(under, verdict, CAPTION_SIZE, "middle", "semibold", tone, shift=(0.0, -8.8)))
    return drawn


def _alt(view: Balance, pulls: Sequence[_Weighing], units: Units) -> str:
    margin = sum(one.moment for one in pulls)
    opened = f"drawers {', '.join(view.open)} open" if view.open else "no drawer open"
    stance = "on a block under its rear" if view.case.stance == "block" else "on a level floor"
    parts = "; ".join(
        f"{one.words} {format_mass(one.mass, shown_in(units).units)}, {shown(abs(one.at[0]), units)} "
        f"{'ahead of' if one.at[0] < 0 else 'behind'} its feet"
        for one in pulls
    )
    ends = f"stands with {margin:.0f} N m to spare" if margin >= 0 else f"tips, {-margin:.0f} N m lacking"
    return f"Balance of cabinet {view.tipping.cabinet.id} {stance}, {opened}: {parts}; it {ends}"
