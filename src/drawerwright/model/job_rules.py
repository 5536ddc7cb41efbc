"""Rules that hold between the keys of a drawer, and between the drawers of a job."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from drawerwright.errors import Problem
from drawerwright.model.spelling import nearest

if TYPE_CHECKING:
    from drawerwright.model.job import Drawer

DRAWER_EXAMPLE = "a drawer with id, opening and side: [[drawer]] in TOML, a row in a table"
SAME_HEIGHT = 0.05
"""Within this [mm] an inset front is as high as its opening makes it: a length is told to 0.1 at most."""
FRAME_EXAMPLE = "frame = { left = 38, right = 38, thickness = 19 }"


def frame_missing() -> Problem:
    """A face-frame drawer without its frame."""
    return Problem(("frame",), "", "is missing: a face-frame drawer needs its frame", FRAME_EXAMPLE)


def drawer_problems(drawer: Drawer) -> list[Problem]:
    """What contradicts itself inside one drawer."""
    problems: list[Problem] = []
    if drawer.construction == "face-frame" and drawer.frame is None:
        problems.append(frame_missing())
    if drawer.frame is not None and drawer.frame.lap > drawer.frame.thickness:
        says = f"is more than the frame's thickness, {drawer.frame.thickness:g} mm"
        problems.append(Problem(("frame", "lap"), f"{drawer.frame.lap:g} mm", says, "lap = 0"))
    width = drawer.opening.width.smallest
    taken = drawer.lost.left + drawer.lost.right
    if taken >= width:
        says = f"takes all of the opening's width, {width:g} mm"
        problems.append(Problem(("lost",), f"{taken:g} mm", says, "lost = { left = 0, right = 0 }"))
    if drawer.cut_out is not None and drawer.cut_out.depth <= drawer.back_thickness:
        says = f"does not go through the back, {drawer.back_thickness:g} mm thick"
        problems.append(Problem(("cut_out", "depth"), f"{drawer.cut_out.depth:g} mm", says, "depth = 200"))
    told = "groove_depth" in drawer.box.model_fields_set  # thin sides alone are no fault of the file
    if told and drawer.box.bottom != "under" and drawer.box.groove_depth >= drawer.side:
        says = f"goes through a side of {drawer.side:g} mm"
        value = f"{drawer.box.groove_depth:g} mm"
        problems.append(Problem(("box", "groove_depth"), value, says, f"less than {drawer.side:g} mm"))
    return problems + _front_height_problems(drawer) + _existing_box_problems(drawer)


def _front_height_problems(drawer: Drawer) -> list[Problem]:
    front, readings = drawer.front, drawer.opening.height.values
    if front.height is None:
        return []
    told = f"{front.height:g} mm"
    if front.style == "none":
        says = 'is told for a front that is not made: front.style is "none"'
        return [Problem(("front", "height"), told, says, 'style = "overlay"')]
    if front.style == "inset" and readings:
        follows = min(readings) - 2 * front.gap
        if abs(follows - front.height) > SAME_HEIGHT:
            says = f"is not the opening's height less two gaps, {follows:g} mm: tell one of the two"
            return [Problem(("front", "height"), told, says, f"height = {follows:g}")]
    return []


def _existing_box_problems(drawer: Drawer) -> list[Problem]:
    box = drawer.existing_box
    if box is None:
        return []
    inside, outside = box.inside_width, box.outside_width
    if inside is not None and outside is not None and inside >= outside:
        says = f"is not less than the outside width, {outside:g} mm"
        try_ = f"{outside - 2 * drawer.side:g}"
        return [Problem(("existing_box", "inside_width"), f"{inside:g} mm", says, try_)]
    if inside is None and outside is not None and outside <= 2 * drawer.side:
        says = f"leaves nothing between two sides of {drawer.side:g} mm"
        return [Problem(("existing_box", "outside_width"), f"{outside:g} mm", says, "outside_width = 552")]
    return []


def job_problems(
    cabinets: Sequence[str | None], drawers: Sequence[tuple[str | None, str | None, int | None]]
) -> list[Problem]:
    """What contradicts itself between drawers, each (id, cabinet, row); None where it is not told.

    A cabinet that a drawer names has to be described as soon as the job describes any: a job may leave all
    of them out, and then the name only says which drawers stand in one column.
    """
    if not drawers:
        return [Problem(("drawer",), "", "is missing: a job has at least one drawer", DRAWER_EXAMPLE)]
    problems = _doubles("cabinet", cabinets) + _doubles("drawer", [drawer[0] for drawer in drawers])
    described = dict.fromkeys(cabinet for cabinet in cabinets if cabinet is not None)
    rows: dict[tuple[str, int], int] = {}
    for position, (_, cabinet, row) in enumerate(drawers):
        if cabinet is None:
            continue
        if described and cabinet not in described:
            says = "is not a cabinet of this job: " + ", ".join(described)
            close = f'"{nearest(cabinet, described)}"'
            problems.append(Problem(("drawer", position, "cabinet"), f'"{cabinet}"', says, close))
        if row is None:
            continue
        first = rows.setdefault((cabinet, row), position)
        if first != position:
            says = f"is taken in cabinet {cabinet} by drawer {drawers[first][0] or first + 1}"
            problems.append(Problem(("drawer", position, "row"), str(row), says, "a row of its own"))
    return problems


def _doubles(kind: str, ids: Sequence[str | None]) -> list[Problem]:
    problems: list[Problem] = []
    first: dict[str, int] = {}
    for position, name in enumerate(ids):
        if name is not None and first.setdefault(name, position) != position:
            says = f"is the id of {kind} {first[name] + 1} already: ids are unique in a job"
            problems.append(Problem((kind, position, "id"), f'"{name}"', says, f'"{name}-{position + 1}"'))
    return problems
