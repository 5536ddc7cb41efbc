"""A face frame told by its stiles: how far it then stands in from each cabinet side."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from drawerwright.errors import Fault, ReadingError
from drawerwright.units import BareUnit, parse_length
from drawerwright.web.quick_job import DRAWER
from drawerwright.web.sheet.fields import STILE_NAMES
from drawerwright.web.sheet.units import exact_figure

_SIDE: Final = "stile.side"


def frame_of_stiles(told: Mapping[str, str], bare: BareUnit) -> tuple[dict[str, str], list[Fault]]:
    """The fields' texts with `frame.left` and `frame.right` in place of stiles, and what does not read.

    A stile that is flush with the outside of the cabinet stands in from the inside of the cabinet side by its
    width less the side's thickness. Geometry. Where anything is wrong the stiles stay as they were typed.
    """
    rest = {name: text for name, text in told.items() if name not in STILE_NAMES}
    stiles = {hand: told.get(f"stile.{hand}", "").strip() for hand in ("left", "right")}
    if not any(stiles.values()):
        return rest, []
    faults: list[Fault] = []
    side = _length(told, _SIDE, bare, faults)
    for hand, text in stiles.items():
        stile = _length(told, f"stile.{hand}", bare, faults) if text else None
        if text and rest.get(f"frame.{hand}", "").strip():
            says = "is told beside how far the frame stands in: one of the two"
            faults.append(_fault(f"stile.{hand}", text, says, "the other one left blank"))
        elif stile is not None and side is not None and stile < side:
            says = "is less than the cabinet side is thick"
            faults.append(_fault(f"stile.{hand}", text, says, "the width of the whole stile"))
        elif stile is not None and side is not None:
            rest[f"frame.{hand}"] = _written(stile - side, bare)
    return (dict(told), faults) if faults else (rest, [])


def _written(mm: float, bare: BareUnit) -> str:
    return exact_figure(mm, bare) or f"{exact_figure(round(mm, 4), 'mm')} mm"


def _length(told: Mapping[str, str], name: str, bare: BareUnit, faults: list[Fault]) -> float | None:
    text = told.get(name, "").strip()
    if not text:
        faults.append(_fault(name, "", "is missing: the stile less it is what the frame stands in", "3/4 in"))
        return None
    try:
        return parse_length(text, bare)
    except ReadingError as error:
        faults.append(error.fault(f"job drawer {DRAWER} {name}"))
        return None


def _fault(name: str, value: str, says: str, try_: str) -> Fault:
    return Fault(f"job drawer {DRAWER} {name}", value, says, try_)
