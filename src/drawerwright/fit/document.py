"""The public JSON of a fitted job."""

from __future__ import annotations

from typing import Any

from drawerwright.fit.collector import collector_at_rest
from drawerwright.fit.column_document import columns_document
from drawerwright.fit.retrofit_document import retrofits_document
from drawerwright.model.fitted import FittedDrawer, FittedJob

SCHEMA = "drawerwright/fit/1"
_DECIMALS = 6


def fit_document(fitted: FittedJob) -> dict[str, Any]:
    """The document `drawerwright/fit/1`; lengths mm, masses kg, rounded to 1e-6."""
    with collector_at_rest():
        told = fit_document_by_drawer(fitted)
        return {**told, "drawers": list(told["drawers"])}


def fit_document_by_drawer(fitted: FittedJob) -> dict[str, Any]:
    """The same document, its `drawers` an iterator: for those who write one after the other and keep none."""
    return {
        "schema": SCHEMA,
        "title": fitted.title,
        "columns": columns_document(fitted.columns),
        "drawers": map(_drawer, fitted.drawers),
    }


def _drawer(one: FittedDrawer) -> dict[str, Any]:
    return {
        "id": one.id,
        "verdict": one.verdict,
        "slide": _slide(one),
        "nearest": _nearest(one),
        "latch": {"side": _n(one.latch.side), "along": _n(one.latch.along)} if one.latch else None,
        "box": _box(one),
        "mounting": _mounting(one),
        "front": _front(one),
        "parts": [
            {
                "part": part.part,
                "count": part.count,
                "length": _n(part.length),
                "width": _n(part.width),
                "thickness": _n(part.thickness),
                "grain": part.grain,
                "edged": list(part.edged),
                "edging": _n(part.edging),
            }
            for part in one.parts
        ],
        "fixing": _fixing(one),
        "cut_out": _cut_out(one),
        "way_out": _way_out(one),
        "mass": _mass(one),
        "capacity": _n(one.capacity) if one.capacity is not None else None,
        "checks": [
            {
                "id": check.id,
                "state": check.state,
                "margin": _n(check.margin),
                "unit": check.unit,
                "says": check.says,
                "working": check.working,
                "source": check.source,
            }
            for check in one.checks
        ],
        "changes": [
            {
                "change": change.change,
                "by": _n(change.by),
                "unit": change.unit,
                "says": change.says,
                **({"readings": change.readings} if change.readings else {}),
                **({"limit": _n(change.limit)} if change.limit is not None else {}),
                **({"to": change.to} if change.to else {}),
            }
            for change in one.changes
        ],
        "rejected": [
            {
                "family": item.family,
                "nominal": _n(item.nominal),
                "mount": item.mount,
                "because": item.because,
                "margin": _n(item.margin),
                "unit": item.unit,
                "stops": [
                    {"id": id_, "margin": _n(margin), "unit": unit} for id_, margin, unit in item.stops
                ],
            }
            for item in one.rejected
        ],
        "retrofit": None if one.drawer.existing_box is None else retrofits_document(one.retrofit),
        "quantity": one.drawer.quantity,
        "note": one.drawer.note,
    }


def _slide(one: FittedDrawer) -> dict[str, Any] | None:
    slide = one.slide
    if slide is None:
        return None
    return {
        "family": slide.family.id,
        "nominal": _n(slide.length.nominal),
        "mount": slide.mount,
        "spacers": {"side": _ns(slide.side_spacers), "subfront": _ns(slide.subfront_spacers)},
    }


def _nearest(one: FittedDrawer) -> dict[str, Any] | None:
    slide = one.nearest
    if slide is None:
        return None
    return {"family": slide.family.id, "nominal": _n(slide.length.nominal), "mount": slide.mount}


def _box(one: FittedDrawer) -> dict[str, Any] | None:
    box = one.box
    if box is None:
        return None
    return {
        "outside_width": _n(box.outside_width),
        "inside_width": _n(box.inside_width),
        "height": _n(box.height),
        "length": _n(box.length),
        "side": _n(box.side),
        "side_gap": _n(box.side_gap),
        "lower_edge": _n(box.lower_edge),
        "front_depth": _n(box.front_depth),
    }


def _mounting(one: FittedDrawer) -> dict[str, Any] | None:
    mounting = one.mounting
    if mounting is None:
        return None
    return {
        "front_end": _n(mounting.front_end),
        "member": _n(mounting.member),
        "holes": _ns(mounting.holes),
        "holes_from_side_edge": _ns(mounting.holes_from_side_edge),
        "slots": _ns(mounting.slots),
        "slots_from_side_edge": _ns(mounting.slots_from_side_edge),
        "shelf_holes": _ns(mounting.shelf_holes),
        "screw_line": _maybe(mounting.screw_line),
        "moved_up": _n(mounting.moved_up),
        "rear_bracket": {
            "left": _maybe(mounting.rear_bracket_left),
            "right": _maybe(mounting.rear_bracket_right),
            "height": _maybe(mounting.rear_bracket_height),
            "reach": _maybe(mounting.reach),
        },
        "packing": {"left": _n(mounting.packing_left), "right": _n(mounting.packing_right)},
        "rear_packing": {"left": _n(mounting.rear_packing_left), "right": _n(mounting.rear_packing_right)},
        "stabiliser": one.drawer.stabiliser,
    }


def _front(one: FittedDrawer) -> dict[str, Any] | None:
    front = one.front
    if front is None:
        return None
    return {"width": _n(front.width), "height": _n(front.height), "stands_out": _n(front.stands_out)}


def _fixing(one: FittedDrawer) -> dict[str, Any] | None:
    fixing = one.fixing
    if fixing is None:
        return None
    return {
        "holes": [_ns(hole) for hole in fixing.holes],
        "holes_in_front": [_ns(hole) for hole in fixing.holes_in_front],
        "handle": [_ns(hole) for hole in fixing.handle],
        "longest_screw": _n(fixing.longest_screw),
        "low_by": _n(fixing.low_by),
        "deep_by": _n(fixing.deep_by),
        "room": {
            "up": _n(fixing.room_up),
            "down": _n(fixing.room_down),
            "out": _n(fixing.room_out),
            "in": _n(fixing.room_in),
        },
    }


def _cut_out(one: FittedDrawer) -> dict[str, Any] | None:
    cut_out = one.cut_out
    if cut_out is None:
        return None
    return {
        "width": _n(cut_out.width),
        "depth": _n(cut_out.depth),
        "back_left": _n(cut_out.back_left),
        "back_right": _n(cut_out.back_right),
        "bottom_cut": _n(cut_out.bottom_cut),
    }


def _way_out(one: FittedDrawer) -> dict[str, Any] | None:
    way = one.way_out
    if way is None:
        return None
    return {
        "meets": [
            {
                "what": met.what,
                "side": met.side,
                "body": met.body,
                "after": _maybe(met.after),
                "lacks": _n(met.lacks),
            }
            for met in way.meetings
        ],
        "filler": {"left": _n(way.filler_left), "right": _n(way.filler_right)},
    }


def _mass(one: FittedDrawer) -> dict[str, Any] | None:
    mass = one.mass
    if mass is None:
        return None
    return {
        "box": _n(mass.box),
        "front": _n(mass.front),
        "hardware": _n(mass.hardware),
        "contents": _n(mass.contents),
        "moving": _n(mass.moving),
    }


def _n(value: float) -> float:
    # Adding 0.0 turns a negative zero into a plain one.
    return round(value, _DECIMALS) + 0.0


def _ns(values: tuple[float, ...]) -> list[float]:
    return [_n(value) for value in values]


def _maybe(value: float | None) -> float | None:
    return None if value is None else _n(value)
