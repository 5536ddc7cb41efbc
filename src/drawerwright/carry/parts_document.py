"""The parts of a carried drawer as JSON: mm, N, N/mm², kg, degrees, rounded to 1e-6."""

from __future__ import annotations

from typing import Any, Final

from drawerwright.carry.bottom import Bottom
from drawerwright.carry.fixings import Fixing
from drawerwright.carry.racking import Racking
from drawerwright.carry.rollers import Rollers
from drawerwright.carry.sections import MemberStress
from drawerwright.carry.slamming import Slam
from drawerwright.equations.mechanics.beams import Q
from drawerwright.model.fitted import Check

_DECIMALS: Final = 6


def number(value: float) -> float:
    """A number as it is written; never a negative zero."""
    return round(float(value), _DECIMALS) + 0.0


def maybe(value: float | None) -> float | None:
    """The same, where there may be none."""
    return None if value is None else number(value)


def numbers(values: Q) -> list[float]:
    """An array (m,) as it is written."""
    return [round(value, _DECIMALS) + 0.0 for value in values.tolist()]


def check_document(check: Check) -> dict[str, Any]:
    """A check with the keys of the public contract."""
    return {
        "id": check.id,
        "state": check.state,
        "margin": number(check.margin),
        "unit": check.unit,
        "says": check.says,
        "working": check.working,
        "source": check.source,
    }


def stress_document(one: MemberStress) -> dict[str, Any]:
    """The most that a member is stressed, and its section."""
    whole, section = one.section.whole, one.section
    return {
        "member": section.member,
        "moment": number(one.moment),
        "extension": number(one.at),
        "stress": number(one.stress),
        "yield": number(one.yields),
        "share": number(one.share),
        "cold_worked": section.cold_worked,
        "section": {
            "area": number(whole.area),
            "ix": number(whole.ix),
            "iy": number(whole.iy),
            "ixy": number(whole.ixy),
            "larger": number(whole.larger),
            "smaller": number(whole.smaller),
            "angle": number(whole.angle_deg),
            "torsion": number(whole.torsion),
            "modulus": maybe(section.modulus),
        },
    }


def rollers_document(one: Rollers) -> dict[str, Any]:
    """The most that a group carries, where rear groups lift, and the rail left."""
    return {
        "largest": number(one.largest),
        "group": one.group,
        "extension": number(one.at),
        "each": maybe(one.each),
        "lower_rear_lifts_at": maybe(one.lifts_lower),
        "upper_rear_lifts_at": maybe(one.lifts_upper),
        "rail_left": number(one.room),
        "rail_left_at": one.room_at,
    }


def racking_document(one: Racking) -> dict[str, Any]:
    """How askew play lets a drawer stand."""
    return {
        "yaw": number(one.yaw_deg),
        "roll": number(one.roll_deg),
        "sideways": number(one.sideways),
        "lifted": number(one.lifted),
        "side_gap": number(one.side_gap),
        "width_to_length": number(one.ratio),
        "allowed": number(one.allowed_ratio),
        "stabiliser": one.stabiliser,
        "stabiliser_due": one.stabiliser_due,
    }


def bottom_document(one: Bottom) -> dict[str, Any]:
    """The bottom between edges that may turn and edges that are clamped."""
    return {
        "short_side": number(one.short_side),
        "long_side": number(one.long_side),
        "thickness": number(one.thickness),
        "stock": one.stock.board,
        "modulus": number(one.stock.modulus),
        "rupture": maybe(one.stock.rupture),
        "pressure": number(one.pressure),
        "sag": {"supported": number(one.supported), "clamped": number(one.clamped)},
        "sag_at_member": number(one.at_member),
        "stress": {"supported": number(one.supported_stress), "clamped": number(one.clamped_stress)},
        "recess": number(one.recess),
        "source": one.stock.source,
    }


def fixing_document(one: Fixing) -> dict[str, Any]:
    """Screws, what pulls at one and what draws it out."""
    return {
        "id": one.id,
        "count": one.count,
        "diameter": number(one.diameter),
        "hold": number(one.hold),
        "stock": one.stock.board,
        "pull": number(one.pull),
        "ultimate": number(one.ultimate),
        "ratio": maybe(one.ratio),
        "source": one.source,
    }


def slam_document(one: Slam) -> dict[str, Any]:
    """The drawer pulled against its stop."""
    return {
        "speed": number(one.speed),
        "give": number(one.give),
        "deceleration": number(one.deceleration),
        "force": number(one.force),
        "upper_front": maybe(one.upper_front),
        "lower_front": maybe(one.lower_front),
        "source": one.source,
    }
