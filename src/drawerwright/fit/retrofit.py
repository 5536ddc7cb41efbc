"""An existing box on every family of slides: which take it as it is, which after what work.

A slide that the fit stops for anything but the box's height is left out: nothing that a shop does to the box
alone would cure it. What the box does not tell must be measured before the slide is bought.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import hypot

from drawerwright.equations.equation import Q
from drawerwright.equations.existing_box import PLAY
from drawerwright.fit.answer import Place
from drawerwright.fit.drawer_values import NO_ERRORS, DrawerValues, stack
from drawerwright.fit.situation import mounts_to_try
from drawerwright.fit.slide_rows import SlideRows
from drawerwright.fit.spacers import ROUND_OFF
from drawerwright.fit.trial import run_trial
from drawerwright.fit.words import Told
from drawerwright.model.fitted import Mount
from drawerwright.model.job import ExistingBox
from drawerwright.model.retrofit import Retrofit, Work
from drawerwright.units import ShownUnits, format_length, is_just_inches

_CURED_BY_SAWING = frozenset({"opening-height"})
_SMALL = 10.0


def retrofits(one: DrawerValues, rows: Sequence[SlideRows], units: ShownUnits = "mm") -> tuple[Retrofit, ...]:
    """Of each family the length that takes the box with the least work, as it is first; none where none does.

    On the first mount of the drawer's that serves the family. `units` of the sentences.
    """
    box = one.drawer.existing_box
    if box is None:
        return ()
    found: dict[str, tuple[tuple[float, ...], Retrofit]] = {}
    columns: dict[str, Q] = {**NO_ERRORS, **stack([one])}
    for mount in mounts_to_try(one.drawer):
        here: dict[str, tuple[tuple[float, ...], Retrofit]] = {}
        for group in rows:
            for rank, retrofit in _takers(one, box, mount, group, columns, units):
                best = here.get(retrofit.family)
                if retrofit.family not in found and (best is None or rank < best[0]):
                    here[retrofit.family] = (rank, retrofit)
        found.update(here)
    return tuple(retrofit for _, retrofit in sorted(found.values(), key=lambda item: item[0]))


def _takers(
    one: DrawerValues,
    box: ExistingBox,
    mount: Mount,
    rows: SlideRows,
    columns: Mapping[str, Q],
    units: ShownUnits,
) -> Iterator[tuple[tuple[float, ...], Retrofit]]:
    trial = run_trial(one.situation, mount, rows, columns)
    stopping = {check.quantity: check.rule.id for check in trial.plan.checks if not check.rule.only_watches}
    for column, (family, length) in enumerate(rows.candidates):
        place = Place(trial, 0, column)
        values = place.values()
        stops = {check for name, check in stopping.items() if values[name] < -ROUND_OFF}
        if stops - _CURED_BY_SAWING:
            continue
        told = Told(trial.plan.answer, values, units)
        work = (
            *_spacers(place, units),
            *_rear_work(values, told, units),
            *_recess_work(values, units),
            *_height_work(values, units),
        )
        if any(piece.kind == "height" for piece in work) and not _stays_a_box(values):
            continue
        rank = (len(work), -values["box_length"], float(rows.orders[column]))
        measure = tuple(_to_measure(box, values, told)) if rows.carriage == "concealed" else ()
        yield rank, Retrofit(family.id, length.nominal, mount, work, measure)


def _spacers(place: Place, units: ShownUnits) -> Iterator[Work]:
    side, subfront = place.stack(place.trial.side), place.stack(place.trial.along)
    if side:
        says = f"Lay {_stack_words(side, units)} between each locking bracket and the side."
        yield Work("side-spacer", sum(side), says)
    if subfront:
        says = f"Lay {_stack_words(subfront, units)} between each locking bracket and the subfront."
        yield Work("subfront-spacer", sum(subfront), says)


def _stack_words(spacers: Sequence[float], units: ShownUnits) -> str:
    return " and ".join(f"a spacer of {_shown(one, units)}" for one in spacers)


def _rear_work(values: Mapping[str, float], told: Told, units: ShownUnits) -> Iterator[Work]:
    if values.get("box_bore_margin", 0.0) < -ROUND_OFF:
        place = f"{told.shown('bore_from_inside')} from each side's inside face and {told.shown('bore_up')}"
        says = f"Bore the hook holes anew, {place} above the bottom's underside"
        off = values["bore_off"]
        # New and old bore run into each other where their centres are nearer than a diameter.
        apart = hypot(
            values["existing_bore_in"] - values["bore_from_inside"],
            values["existing_bore_up"] - values["bore_up"],
        )
        if apart < values["bore"]:
            says += "; plug the old ones first, for the two run into each other"
        yield Work("hook-bore", off, f"{says}.")
    if values.get("box_notch_margin", 0.0) < -ROUND_OFF:
        wider = values["notch_from_inside"] - values["existing_notch_width"]
        higher = values["notch_height"] - values["existing_notch_height"]
        size = " and ".join(
            f"{_shown(lack, units)} {word}"
            for lack, word in ((wider, "wider"), (higher, "higher"))
            if lack > ROUND_OFF
        )
        wants = f"{told.shown('notch_from_inside')} × {told.shown('notch_height')}"
        yield Work("notch", max(wider, higher), f"Saw the notches {size}, to {wants}.")


def _recess_work(values: Mapping[str, float], units: ShownUnits) -> Iterator[Work]:
    off = values.get("recess_off", 0.0)
    if off > PLAY + ROUND_OFF:
        strips = f"Glue strips of {_shown(off, units)} under the bottom, where the members run"
        yield Work("recess", off, f"{strips}: it stands too high in the box.")
    elif _rise(values):
        rise = _shown(_rise(values), units)
        left = f"left as it is, the box runs {rise} higher and its front is set so much lower on it"
        says = f"Refit the bottom {rise} higher; {left}."
        yield Work("recess", off, says)


def _rise(values: Mapping[str, float]) -> float:
    """How much higher a box runs whose bottom stands too low in it [mm]."""
    off = values.get("recess_off", 0.0)
    return -off if off < -PLAY - ROUND_OFF else 0.0


def _too_high(values: Mapping[str, float]) -> float:
    """What the box, where it runs, lacks under the opening's top edge [mm]; 0 or less: nothing."""
    return _rise(values) - values["height_margin"]


def _height_work(values: Mapping[str, float], units: ShownUnits) -> Iterator[Work]:
    lack = _too_high(values)
    if lack > ROUND_OFF:
        if _rise(values):
            says = f"Running so much higher, the box wants {_shown(lack, units)} sawn off the top edges."
        else:
            says = f"Saw {_shown(lack, units)} off the top edges of the box."
        yield Work("height", -lack, says)


def _stays_a_box(values: Mapping[str, float]) -> bool:
    """Whether bottom, hook bores and as much again over them are left of a box that is sawn lower."""
    least = values["bottom_recess"] + max(
        values["bottom_thickness"], values["bore_up"] + values["bore"] / 2 + values["notch_height"]
    )
    return values["box_height"] - _too_high(values) >= least


def _to_measure(box: ExistingBox, values: Mapping[str, float], told: Told) -> Iterator[str]:
    inside = values["bracket_off_side"]
    if not box.is_wide_as_told:
        yield f"the box's inside width: {told.shown('inside_width')}"
    if box.length is None:
        yield f"the box's length: {told.shown('carried_length')}"
    if box.bore_in is None or box.bore_up is None:
        across = told.shown("bore_in", values["bore_in"] + inside)
        yield f"its hook bores: {across} from the inside faces, {told.shown('bore_up')} up from the bottom"
    if box.notch_width is None or box.notch_height is None:
        wide = told.shown("notch_width", values["notch_width"] + inside)
        yield f"its notches: at least {wide} wide and {told.shown('notch_height')} high"
    if box.bottom_recess is None:
        yield f"its bottom's underside: {told.shown('bottom_recess')} above the lower edges"


def _shown(mm: float, units: ShownUnits) -> str:
    # What is small stays in mm: a fraction of an inch would hide it.
    return format_length(mm, "mm" if abs(mm) < _SMALL and not is_just_inches(mm) else units, decimals=2)
