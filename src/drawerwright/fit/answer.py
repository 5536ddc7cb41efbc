"""From a trial and a choice to the fitted drawer that everything later reads."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from drawerwright.equations.equation import Q
from drawerwright.equations.trade import GIVEN
from drawerwright.fit.drawer_values import DrawerValues
from drawerwright.fit.front_fixing import front_fixing
from drawerwright.fit.parts import parts_of
from drawerwright.fit.spacers import ROUND_OFF, Stacked
from drawerwright.fit.trial import Trial, state_of
from drawerwright.fit.way_out import meeting_words, way_out_of
from drawerwright.fit.words import Told, Workings
from drawerwright.model.fitted import (
    BoxSizes,
    Change,
    Check,
    ChosenSlide,
    CutOutSizes,
    FittedDrawer,
    FrontSizes,
    Latch,
    Masses,
    Mounting,
    NearestSizes,
    ReadOpening,
    Rejected,
    Verdict,
    WayOut,
    Working,
)
from drawerwright.units import ShownUnits

LACKING_DIGITS = 6
"""Digits of a millimetre within which two slides lack the same. Own choice."""


@dataclass(frozen=True, slots=True)
class Place:
    """A drawer's row and a slide's column in a trial."""

    trial: Trial
    row: int
    column: int

    def values(self) -> dict[str, float]:
        """All values of the trial at this place."""
        found = {}
        for name, array in self.trial.values.items():
            if array.ndim == 2:
                rows, columns = array.shape
                found[name] = float(array[self.row if rows > 1 else 0, self.column if columns > 1 else 0])
        return found

    def stack(self, stacked: Stacked | None) -> tuple[float, ...]:
        """The spacers of one bracket face [mm]."""
        if stacked is None:
            return ()
        rows, columns = stacked.place.shape
        place = int(stacked.place[self.row if rows > 1 else 0, self.column if columns > 1 else 0])
        stacks = self.trial.rows.spacers.stacks
        return stacks[self.column if len(stacks) > 1 else 0][place]


def fitted_drawer(
    one: DrawerValues, place: Place, rejected: Sequence[Rejected], units: ShownUnits
) -> FittedDrawer:
    """The answer where a slide was found."""
    trial, values = place.trial, place.values()
    way_out = way_out_of(one.drawer, values)
    told = Told(trial.plan.answer, values, units, _words(one, way_out, units))
    checks = _checks(trial, told, values)
    front = _front(one, values)
    return FittedDrawer(
        drawer=one.drawer,
        cabinet=one.cabinet,
        opening=read_opening(one),
        verdict=_verdict(checks),
        slide=_slide(place),
        latch=Latch(values.get("latch_side_left", 0.0), values.get("latch_along_left", 0.0)),
        box=_box(values),
        mounting=mounting_of(place, values),
        front=front,
        parts=parts_of(one.drawer, values),
        mass=_masses(values),
        capacity=values["capacity"],
        checks=checks,
        changes=(),
        rejected=tuple(rejected),
        workings=Workings(told),
        fixing=front_fixing(one.drawer, trial.rows.candidates[place.column][0], front, values),
        cut_out=_cut_out(one, values),
        way_out=way_out,
    )


def drawer_that_fits_nothing(
    one: DrawerValues,
    nearest: Place | None,
    changes: Sequence[Change],
    rejected: Sequence[Rejected],
    units: ShownUnits,
) -> FittedDrawer:
    """The answer where every slide stops: checks of the slide that came nearest, and what would change it."""
    checks: tuple[Check, ...] = ()
    workings: Mapping[str, Working] = {}
    way_out = sizes = None
    if nearest is not None:
        values = nearest.values()
        way_out = way_out_of(one.drawer, values)
        told = Told(nearest.trial.plan.answer, values, units, _words(one, way_out, units))
        checks, workings = _checks(nearest.trial, told, told.values), Workings(told)
        sizes = NearestSizes(_box(values), mounting_of(nearest, values), _masses(values))
    return FittedDrawer(
        drawer=one.drawer,
        cabinet=one.cabinet,
        opening=read_opening(one),
        verdict="does-not-fit",
        slide=None,
        latch=None,
        box=None,
        mounting=None,
        front=None,
        parts=(),
        mass=None,
        capacity=None,
        checks=checks,
        changes=tuple(changes),
        rejected=tuple(rejected),
        workings=workings,
        nearest=_slide(nearest) if nearest is not None else None,
        nearest_sizes=sizes,
        way_out=way_out,
    )


def nearest_place(trials: Sequence[tuple[Trial, int, NDArray[np.bool_]]]) -> Place | None:
    """Of all that stops, the slide with the fewest stops, then the least lacking, then the longest box.

    `trials` each with the drawer's row and the mask of slides asked for.
    """
    best: tuple[tuple[int, float, float], Place] | None = None
    for trial, row, allowed in trials:
        table = np.minimum(_stopping_margins(trial, row) + ROUND_OFF, 0)
        stops, lacks = (table < 0).sum(axis=0), -table.sum(axis=0)
        for column in np.flatnonzero(allowed).tolist():
            # What is the same at every length differs in its last digits: it must not choose among them.
            lacking = round(float(lacks[column]), LACKING_DIGITS)
            rank = (int(stops[column]), lacking, -trial.rows.candidates[column][1].box)
            if best is None or rank < best[0]:
                best = (rank, Place(trial, row, column))
    return best[1] if best else None


def read_opening(one: DrawerValues) -> ReadOpening:
    """The opening as it was used."""
    values, lost = one.values, one.values["lost_left"] + one.values["lost_right"]
    return ReadOpening(
        width=values["measured_width"] - lost,
        widest=values["widest_width"] - lost,
        height=values["opening_height"],
        depth=values["opening_depth"],
        floor=values["opening_floor"],
        readings=one.drawer.opening.width.values,
    )


def rejected_of(trial: Trial, row: int, allowed: NDArray[np.bool_]) -> list[Rejected]:
    """What stopped each slide of a trial for one drawer, in the trial's order."""
    checks = [check for check in trial.plan.checks if not check.rule.only_watches]
    table = _stopping_margins(trial, row)
    found = []
    for column in np.flatnonzero((table < -ROUND_OFF).any(axis=0) & allowed).tolist():
        family, length = trial.rows.candidates[column]
        stops = tuple(
            (check.rule.id, margin, check.unit)
            for check, margin in zip(checks, table[:, column].tolist(), strict=True)
            if margin < -ROUND_OFF
        )
        because, margin, unit = stops[0]
        found.append(Rejected(family.id, length.nominal, trial.mount, because, margin, unit, stops))
    return found


def _stopping_margins(trial: Trial, row: int) -> Q:
    """(k, c): margins of the checks that can stop, for one drawer."""
    checks = [check for check in trial.plan.checks if not check.rule.only_watches]
    table = np.empty((len(checks), trial.shape[1]))
    for index, check in enumerate(checks):
        margins = trial.values[check.quantity]
        table[index] = margins[row if margins.shape[0] > 1 else 0]
    return table


def _words(one: DrawerValues, way_out: WayOut | None, units: ShownUnits) -> dict[str, str]:
    """What sentences say beside numbers."""
    box = one.drawer.existing_box
    lacking = box.unmeasured if box is not None else ()
    verb = "is" if len(lacking) == 1 else "are"
    told = f"{' and '.join(lacking)} {verb} not told and taken as cut for this opening"
    said = told if lacking else "all sizes are told"
    return {**meeting_words(way_out, units), "measured_sizes": said}


def _slide(place: Place) -> ChosenSlide:
    family, length = place.trial.rows.candidates[place.column]
    stacks = place.stack(place.trial.side), place.stack(place.trial.along)
    return ChosenSlide(family, length, place.trial.mount, *stacks)


def _checks(trial: Trial, told: Told, values: Mapping[str, float]) -> tuple[Check, ...]:
    found = []
    for check in trial.plan.checks:
        rule, margin = check.rule, values[check.quantity]
        state = state_of(rule, margin, values[rule.care] if rule.care else None)
        says = told.sentence(rule.says)
        only_care = state == "watch" and rule.care_says and margin >= -ROUND_OFF
        template = rule.care_says if only_care else rule.cure_for(values)
        cure = told.sentence(template) if state != "ok" else ""
        if cure:
            says = f"{says} {cure}"
        step = trial.plan.answer.step(check.quantity)
        source = step.equation.source if step is not None else GIVEN[check.quantity].origin
        working = told.working_line(check.quantity)
        found.append(Check(rule.id, state, margin, check.unit, says, working, source, cure))
    return tuple(found)


def _verdict(checks: Sequence[Check]) -> Verdict:
    return "fits-with-care" if any(check.state == "watch" for check in checks) else "fits"


def _box(values: Mapping[str, float]) -> BoxSizes:
    return BoxSizes(
        outside_width=values["outside_width"],
        inside_width=values["inside_width"],
        height=values["box_height"],
        length=values["box_length"],
        side=values["side_thickness"],
        subfront=values["box_front_thickness"],
        back=values["back_thickness"],
        bottom=values["bottom_thickness"],
        groove_depth=values["groove_depth"],
        bottom_recess=values["bottom_recess"],
        side_gap=values["side_gap"],
        lower_edge=values["lower_edge"],
        front_depth=values["front_depth"],
    )


def _cut_out(one: DrawerValues, values: Mapping[str, float]) -> CutOutSizes | None:
    if one.drawer.cut_out is None:
        return None
    return CutOutSizes(
        width=values["cut_out_width"],
        depth=values["cut_out_depth"],
        back_left=values["back_piece_left"],
        back_right=values["back_piece_right"],
        bottom_cut=values["bottom_cut"],
    )


def mounting_of(place: Place, values: Mapping[str, float]) -> Mounting:
    """Where the slide is fixed, from the values at its place."""
    trial = place.trial
    _, length = trial.rows.candidates[place.column]
    on_rows = trial.mount in ("side", "packed")
    first, edge = values["first_hole"], values["side_edge_depth"]
    holes = tuple(first + hole for hole in length.holes) if on_rows else ()
    slots = tuple(first + slot for slot in length.slots) if on_rows else ()
    shelf = trial.mount == "shelf"
    return Mounting(
        front_end=values["front_end"],
        member=values["member"],
        holes=holes,
        holes_from_side_edge=tuple(hole - edge for hole in holes),
        slots=slots,
        slots_from_side_edge=tuple(slot - edge for slot in slots),
        shelf_holes=tuple(values["front_end"] + hole for hole in length.shelf_holes) if shelf else (),
        screw_line=None if shelf else values["screw_line"],
        moved_up=values["moved_up"],
        rear_bracket_left=values.get("rear_bracket_left"),
        rear_bracket_right=values.get("rear_bracket_right"),
        rear_bracket_height=values.get("rear_bracket_height"),
        reach=values["reach"] if trial.mount == "rear-bracket" else None,
        packing_left=values["packing_left"],
        packing_right=values["packing_right"],
        rear_packing_left=values["rear_packing_left"],
        rear_packing_right=values["rear_packing_right"],
    )


def _front(one: DrawerValues, values: Mapping[str, float]) -> FrontSizes:
    style = one.drawer.front.style
    inside = -values["front_gap"] if style == "inset" else 0.0
    edges = {edge: values[f"overlay_{edge}"] if style == "overlay" else inside for edge in _EDGES}
    return FrontSizes(
        style,
        values["front_width"],
        values["front_height"],
        values["front_thickness"],
        edges["left"],
        edges["right"],
        edges["top"],
        edges["bottom"],
        values["stands_out"],
    )


_EDGES = ("left", "right", "top", "bottom")


def _masses(values: Mapping[str, float]) -> Masses:
    return Masses(
        values["box_mass"],
        values["front_mass"],
        values["hardware_mass"],
        values["contents"],
        values["moving_mass"],
    )
