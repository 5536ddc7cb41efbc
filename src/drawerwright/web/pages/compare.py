"""Slides side by side on the same opening: what each would make of the box, with drawings and margins."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any, Final
from urllib.parse import urlencode

from fastapi import APIRouter, Request
from starlette.responses import Response

from drawerwright.drawing.clearing import clear_lettering
from drawerwright.drawing.drawn import extent
from drawerwright.drawing.geometry import joined
from drawerwright.drawing.scene import Scene, scale_to_paper
from drawerwright.drawing.views.plan import plan
from drawerwright.drawing.views.side import side_section
from drawerwright.errors import Fault, InputError
from drawerwright.fit.compare import Comparison
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.shown import Shown
from drawerwright.web.families import families_of
from drawerwright.web.faults import UNPROCESSABLE
from drawerwright.web.quick_job import DRAWER
from drawerwright.web.render import page
from drawerwright.web.slide_comparison import (
    FAMILY,
    Row,
    changes_of,
    compare_asked,
    margin_rows,
    read_asked,
    rows_of,
)
from drawerwright.web.views_on_paper import times_smaller

router = APIRouter(include_in_schema=False)

PAPER: Final = 100.0
"""Most that the opening may measure on paper, across or back [mm]. Own choice."""
EDGE: Final = 1.0
"""White around a drawing [mm on paper]."""
FIELDS: Final = (
    ("width", "Opening width", "mm"),
    ("height", "Height", "mm"),
    ("depth", "Depth", "mm"),
    ("side", "Sides", "mm"),
    ("contents", "Contents", ""),
)
"""What the page asks for: key of the address, label, unit."""


@router.get("/slides/compare")
def compare(request: Request) -> Response:
    """The slides named in the address on the opening told there; the form again where it does not read."""
    pairs = request.query_params.multi_items()
    wanted, question = read_asked(pairs)
    families = families_of(request.app.state.store)
    shown = Shown(question.units)
    comparison: Comparison | None = None
    faults: tuple[Fault, ...] = ()
    try:
        comparison = compare_asked(wanted, question, families)
    except InputError as error:
        faults = error.faults
    answers = () if comparison is None else comparison.drawers[0].answers
    told = {key: "; ".join(request.query_params.getlist(key)) for key, _, _ in FIELDS}
    asked = {key for key, _, _ in FIELDS} | {FAMILY}
    at_fields = {_field_of(fault): fault for fault in faults}
    return page(
        request,
        "compare.html",
        status=UNPROCESSABLE if faults else 200,
        families=families,
        wanted={one.partition("/")[0]: one for one in wanted},
        fields=[(*one, told[one[0]], at_fields.get(one[0])) for one in FIELDS],
        faults=[fault for fault in faults if _field_of(fault) not in told],
        besides=[(key, text) for key, text in pairs if key not in asked],
        twin="/api/v1/compare?" + urlencode(pairs),
        comparison=comparison,
        answers=answers,
        rows=rows_of(answers, shown),
        margins=() if comparison is None else margin_rows(comparison, shown),
        carried=() if comparison is None else _carried(comparison, shown),
        changes=() if comparison is None else _changes(comparison, shown),
        drawings=drawings(answers, shown),
    )


def drawings(answers: Sequence[FittedDrawer], shown: Shown) -> list[tuple[Scene, Scene]]:
    """Plan and side section of each answer, all at the one scale at which the widest fills its paper."""
    if not answers:
        return []
    opening = answers[0].opening
    times = times_smaller(max(opening.width, opening.depth), PAPER)
    plans = _alike([plan(answer, shown) for answer in answers], "plan", times)
    return list(zip(plans, _alike([side_section(one, shown) for one in answers], "side", times), strict=True))


def _alike(scenes: Sequence[Scene], name: str, times: float) -> list[Scene]:
    """Views on paper of one size, each under a name of its own: no two drawings of the page share one."""
    scaled = [clear_lettering(scale_to_paper(scene, 1 / times)) for scene in scenes]
    paper = joined(extent(scene) for scene in scaled).grown(EDGE)
    return [replace(scene, name=f"{name}-{at}", page=paper) for at, scene in enumerate(scaled, 1)]


def _carried(comparison: Comparison, shown: Shown) -> Sequence[Row]:
    """What each slide carries; the numerics of that are brought in when it is first asked for."""
    from drawerwright.web.compare_carry import carry_rows

    return carry_rows(comparison, shown)


def _changes(comparison: Comparison, shown: Shown) -> list[dict[str, Any]]:
    """What would make each slide fit that does not, by what it is called."""
    found: list[dict[str, Any]] = [
        {"slide": slide, "changes": changes_of(answer, shown)}
        for slide, answer in zip(comparison.slides, comparison.drawers[0].answers, strict=True)
    ]
    return [one for one in found if one["changes"]]


def _field_of(fault: Fault) -> str:
    """The field of the page that a fault speaks of, else its place."""
    key = fault.where.removeprefix(f"job drawer {DRAWER} ").removeprefix("opening.")
    return key.partition(" ")[0] if fault.where.startswith(f"job drawer {DRAWER} ") else fault.where
