"""The cabinets of a job as a page shows them: elevation, a place to point at for each drawer, keys, sums."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from drawerwright.cli.wording import margin_alone
from drawerwright.drawing.clearing import clear_lettering
from drawerwright.drawing.drawn import extent
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.scene import Scene, scale_to_paper
from drawerwright.drawing.shown import Shown
from drawerwright.drawing.views.elevation import cabinet_elevation
from drawerwright.drawing.views.standing import standing
from drawerwright.errors import Fault
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import VERDICT_WORDS, FittedDrawer, State
from drawerwright.model.fitted_column import ColumnRemark, FittedColumn
from drawerwright.pack.column_sums import sums_of
from drawerwright.units import ShownUnits
from drawerwright.web.fitting import DrawerAnswer, answer_values, place_of
from drawerwright.web.schedule.answers import cabinet_of, shared_faults, units_of
from drawerwright.web.schedule.columns import ScheduleColumn, cabinet_keys, text_of, with_cell
from drawerwright.web.schedule.rows import Computed, computed, drawer_address

_SCALE: Final = 1 / 11
"""Paper mm for one mm of the cabinet, before the lettering is laid out; the page scales it to its room."""
_NARROWEST: Final = 90.0
"""Least width of paper that an elevation stands on [mm], lettered then as large as the page. Own choice."""
_TALL: Final = 0.75
"""Width of the paper for a height of 1, so that the tallest elevation stays in sight. Own choice."""


@dataclass(frozen=True, slots=True)
class Pointed:
    """A drawer in an elevation: where it is [mm on paper, y down], and its sheet."""

    drawer: str
    href: str
    x: float
    y: float
    width: float
    height: float
    says: str


@dataclass(frozen=True, slots=True)
class Elevation:
    """A cabinet's drawing at its paper scale."""

    scene: Scene
    room: Bounds
    pointed: tuple[Pointed, ...]

    @property
    def view_box(self) -> str:
        """The part of the paper that is shown, as SVG tells it."""
        room = self.room
        return f"{room.left:.2f} {-room.top:.2f} {room.width:.2f} {room.height:.2f}"


@dataclass(frozen=True, slots=True)
class KeyField:
    """One key of a cabinet: what was typed, and what is wrong with it."""

    column: ScheduleColumn
    text: str
    fault: Fault | None


@dataclass(frozen=True, slots=True)
class StandingDrawer:
    """One drawer of a cabinet, its sheet, and what came of it; its verdict None while it has no answer."""

    name: str
    href: str
    told: Computed


@dataclass(frozen=True, slots=True)
class Remark:
    """What is to be said of a column: state, margin with its unit where it is one, sentence."""

    state: State
    margin: str
    says: str


@dataclass(frozen=True, slots=True)
class CabinetView:
    """One cabinet. `described`: the job tells something of it. `standing`: its drawers, the highest first."""

    id: str
    described: bool
    fields: tuple[KeyField, ...]
    drawers: tuple[DrawerAnswer, ...]
    standing: tuple[StandingDrawer, ...]
    remarks: tuple[Remark, ...]
    elevation: Elevation | None
    column: FittedColumn | None
    sums: tuple[tuple[str, str], ...]
    faults: tuple[Fault, ...]


def cabinet_names(values: Mapping[str, Any]) -> list[str]:
    """Every cabinet that drawers stand in or that is described, in the job's order."""
    named = [cabinet_of(one) for one in values.get("drawer", ())]
    named += [str(one.get("id", "")).strip() for one in values.get("cabinet", ())]
    return [name for name in dict.fromkeys(named) if name]


def cabinet_views(
    job_id: str, values: Mapping[str, Any], names: Sequence[str], families: Sequence[SlideFamily]
) -> list[CabinetView]:
    """These cabinets of a job, answered."""
    wanted = set(names)
    drawers = [one for one in values.get("drawer", ()) if cabinet_of(one) in wanted]
    answer = answer_values({**values, "drawer": drawers}, families)
    standing_in: dict[str, list[DrawerAnswer]] = {}
    for told, drawer in zip(drawers, answer.drawers, strict=True):
        standing_in.setdefault(cabinet_of(told), []).append(drawer)
    described = {str(one.get("id", "")).strip(): one for one in values.get("cabinet", ())}
    columns = {column.cabinet: column for column in answer.columns}
    faults = shared_faults(values)
    views = [
        _view(job_id, name, described.get(name), standing_in.get(name, []), columns.get(name), faults, values)
        for name in names
    ]
    return _at_one_scale(views)


def _at_one_scale(views: Sequence[CabinetView]) -> list[CabinetView]:
    """The same with elevations on paper of one width, so that the page letters them all alike."""
    rooms = [view.elevation.room for view in views if view.elevation is not None]
    width = max((_NARROWEST, *(max(room.width, _TALL * room.height) for room in rooms)))
    return [view if view.elevation is None else _on_paper(view, view.elevation, width) for view in views]


def _on_paper(view: CabinetView, elevation: Elevation, width: float) -> CabinetView:
    room = replace(elevation.room, right=elevation.room.left + width)
    return replace(view, elevation=replace(elevation, room=room))


def with_cabinet(values: Mapping[str, Any], cabinet: str, texts: Mapping[str, str]) -> dict[str, Any]:
    """Values with keys of a cabinet typed anew; one is described as soon as something is told of it."""
    told = list(values.get("cabinet", ()))
    at = next((at for at, one in enumerate(told) if str(one.get("id", "")).strip() == cabinet), len(told))
    entry: dict[str, Any] = dict(told[at]) if at < len(told) else {"id": cabinet}
    before = entry
    for key, text in texts.items():
        column = cabinet_keys().get(key)
        if column is not None and key != "id" and text_of(entry, column.column) != text.strip():
            entry = with_cell(entry, column.column, text)
    if entry is before:
        return dict(values)
    return {**values, "cabinet": [*told[:at], entry, *told[at + 1 :]]}


def _view(
    job_id: str,
    name: str,
    entry: Mapping[str, Any] | None,
    drawers: Sequence[DrawerAnswer],
    column: FittedColumn | None,
    faults: Sequence[Fault],
    values: Mapping[str, Any],
) -> CabinetView:
    own = [fault for fault in faults if place_of(fault)[:2] == ("cabinet", name)]
    by_key = {place_of(fault)[2]: fault for fault in own}
    fields = tuple(
        KeyField(known, text_of(entry or {}, known.column), by_key.pop(key, None))
        for key, known in cabinet_keys().items()
        if key != "id"
    )
    fitted = [one.fitted for one in drawers if one.fitted is not None]
    units = units_of(values)
    elevation = _elevation(job_id, fitted, units) if fitted and len(fitted) == len(drawers) else None
    sums = () if column is None else tuple(sums_of(column, Shown(units)))
    return CabinetView(
        name,
        entry is not None,
        fields,
        tuple(drawers),
        _standing(job_id, drawers, units),
        () if column is None else tuple(_remark(one, units) for one in column.remarks),
        elevation,
        column,
        sums,
        tuple(by_key.values()),
    )


def _standing(job_id: str, drawers: Sequence[DrawerAnswer], units: ShownUnits) -> tuple[StandingDrawer, ...]:
    """The drawers from the top down; those without an answer, of which no height is known, last."""
    heights = [one.fitted.opening.floor if one.fitted is not None else -math.inf for one in drawers]
    order = sorted(range(len(drawers)), key=lambda at: -heights[at])
    told = [Computed() if one.fitted is None else computed(one.fitted, units) for one in drawers]
    names = [one.name for one in drawers]
    return tuple(StandingDrawer(names[at], drawer_address(job_id, names[at]), told[at]) for at in order)


def _remark(remark: ColumnRemark, units: ShownUnits) -> Remark:
    """A remark; what stops nothing and is below 0, such as boxes moved to their rows, is no margin."""
    told = remark.margin >= 0 or remark.state != "ok"
    text = margin_alone(remark.id, remark.margin, "mm", units) if told else ""
    return Remark(remark.state, text, remark.says)


def _elevation(job_id: str, fitted: Sequence[FittedDrawer], units: ShownUnits) -> Elevation:
    scene = clear_lettering(scale_to_paper(cabinet_elevation(fitted, units=units), _SCALE))
    room = extent(scene).grown(1.0)
    pointed = tuple(_pointed(job_id, one, units) for one in fitted)
    return Elevation(scene, room, pointed)


def _pointed(job_id: str, fitted: FittedDrawer, units: ShownUnits) -> Pointed:
    """Where a drawer's opening and front are, the middle of the cabinet's inside at x = 0."""
    stand = standing(fitted)
    left, right = stand.clear_left, stand.clear_right
    low, high = 0.0, fitted.opening.height
    if stand.has_front:
        left, right = min(left, stand.front_edges[0]), max(right, stand.front_edges[1])
        low, high = min(low, stand.front_heights[0]), max(high, stand.front_heights[1])
    middle = (stand.inner_left + stand.inner_right) / 2
    return Pointed(
        fitted.id,
        drawer_address(job_id, fitted.id),
        _rounded((left - middle) * _SCALE),
        _rounded(-(high + fitted.opening.floor) * _SCALE),
        _rounded((right - left) * _SCALE),
        _rounded((high - low) * _SCALE),
        f"{fitted.id} {_verdict_words(fitted, units)}: its sheet",
    )


def _verdict_words(fitted: FittedDrawer, units: ShownUnits) -> str:
    """Verdict and margin: "fits, 0.4 mm taper"."""
    told = computed(fitted, units)
    margin = " ".join(filter(None, (told.margin, told.check)))
    return ", ".join(filter(None, (VERDICT_WORDS[fitted.verdict], margin)))


def _rounded(value: float) -> float:
    return round(value, 2)
