"""The rollers: whether they stay on their rails, when the rear ones lift, what each carries."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from drawerwright.carry.slide_data import SlideData
from drawerwright.carry.telescope import Drawn
from drawerwright.carry.words import Words, check_of
from drawerwright.model.family import Roller
from drawerwright.model.fitted import Check

GROUPS: Final = ("upper_rear", "upper_front", "lower_rear", "lower_front")
SOURCE: Final = "statics; the rollers are the slide family's data"


@dataclass(frozen=True, slots=True)
class Rollers:
    """Largest force of any group [N], by its name and extension [mm]; a group's share a roller where counted.

    `lifts_lower`, `lifts_upper`: the extension beyond which a carriage's rear group is pressed upwards, None
    where it never is. `room`: how far the rail goes on beyond the last roller at full travel [mm].
    """

    largest: float
    group: str
    at: float
    each: float | None
    lifts_lower: float | None
    lifts_upper: float | None
    room: float
    room_at: str


def rollers_of(data: SlideData, drawn: Drawn, roller: Roller | None) -> Rollers | None:
    """What is to be said of the rollers; None where their places are not known."""
    if not data.has_forces:
        return None
    forces = {name: np.abs(getattr(drawn, name)) for name in GROUPS}
    group = max(forces, key=lambda name: float(forces[name].max()))
    place = int(np.argmax(forces[group]))
    largest = float(forces[group][place])
    room, room_at = _room(data)
    return Rollers(
        largest=largest,
        group=group,
        at=float(drawn.extension[place]),
        each=largest / roller.count if roller is not None and roller.count is not None else None,
        lifts_lower=_lifts((4.0 / 3.0) * (data.lower[1] - data.member / 2.0), data.travel),
        lifts_upper=_lifts(4.0 * (data.upper[1] - data.member / 2.0), data.travel),
        room=room,
        room_at=room_at,
    )


def rail_check(rollers: Rollers, data: SlideData, words: Words) -> Check:
    """Whether all rollers stay on both their rails: e/4 ≤ a and b ≤ L − e/4."""
    stays = rollers.room >= -1e-6
    kept = f"stay on their rails with {words.length(rollers.room)} to spare" if stays else "run off"
    says = f"Drawn out by {words.length(data.travel)}, the rollers {kept}"
    says += f" at the {rollers.room_at}." if stays else f" {_off(rollers, data, words)}."
    return check_of(
        "rollers-on-rail",
        rollers.room,
        "mm",
        says,
        working=(
            f"least of (a; L − b) − e/4 = {rollers.room + data.travel / 4:.2f} − {data.travel / 4:.2f} "
            f"= {rollers.room:.2f} mm"
        ),
        source="geometry: a carriage stands midway between its rails; the places are the slide family's data",
        cure="Measure the carriages' places and the travel again: forces and sag beyond are computed on air.",
    )


def force_check(rollers: Rollers, carries: float, words: Words) -> Check:
    """What a group may carry less what the most loaded one does."""
    spare = carries - rollers.largest
    return check_of(
        "roller-force",
        spare,
        "N",
        f"The {rollers.group.replace('_', ' ')} rollers carry {words.force(rollers.largest)} at "
        f"{words.length(rollers.at)} out; a group may carry {words.force(carries)}.",
        working=f"{carries:.1f} − {rollers.largest:.1f} = {spare:.1f} N",
        source=SOURCE,
        cure="Less in the drawer, or a slide with stronger rollers.",
    )


def _lifts(extension: float, travel: float) -> float | None:
    return max(extension, 0.0) if extension < travel else None


def _room(data: SlideData) -> tuple[float, Literal["rear", "front"] | str]:
    """Least rail left at full travel, and at which end of which carriage."""
    rooms = {
        f"{end} of the {name} carriage": room - data.travel / 4.0
        for name, (rear, front) in (("lower", data.lower), ("upper", data.upper))
        for end, room in (("rear", rear), ("front", data.member - front))
    }
    place = min(rooms, key=lambda one: rooms[one])
    return rooms[place], place


def _off(rollers: Rollers, data: SlideData, words: Words) -> str:
    gone = data.travel + 4.0 * rollers.room
    return f"at the {rollers.room_at} from {words.length(max(gone, 0.0))} out"
