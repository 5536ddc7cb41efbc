"""The papers of a job: what to build, how far it is, its files, and the drawings of one drawer."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, Any, Final
from urllib.parse import quote, urlencode

from fastapi import APIRouter, Depends, Query, Request
from starlette.responses import Response

from drawerwright.drawing.scene import Scene
from drawerwright.drawing.sheet import drawer_sheet, scale_words
from drawerwright.drawing.views.panels import panels
from drawerwright.errors import Fault, InputError
from drawerwright.fit.whole_job import Aim
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.figures import change_text
from drawerwright.pack.shown import Shown
from drawerwright.pack.write import SECTIONS, USUAL
from drawerwright.units import ShownUnits
from drawerwright.web.aims import AIMS, NO_AIM, AimAsked, fitted_for
from drawerwright.web.api.pack import options_in_query, packs_of
from drawerwright.web.families import families_of
from drawerwright.web.faults import UNPROCESSABLE
from drawerwright.web.fitting import DrawerAnswer, answer_values
from drawerwright.web.leaving_out import leave_out, to_leave_out
from drawerwright.web.packing import PackOptions, PackOrder
from drawerwright.web.packs_kept import Step
from drawerwright.web.pages.forms import store_of
from drawerwright.web.paper_words import WORDS, files_by_section, size_words
from drawerwright.web.papers_look import Ready, begin_and_look, ready_pack
from drawerwright.web.render import page
from drawerwright.web.taken.section import slides_section
from drawerwright.web.views_on_paper import on_paper

router = APIRouter(include_in_schema=False)

AIM_WORDS: Final[dict[str, str]] = {
    "": "each drawer for itself",
    "fewest-lengths": "fewest lengths in the job",
    "cheapest": "cheapest slides",
    "fewest-setups": "fewest settings of boring and saw",
}
"""How slides may be chosen for the papers."""
PAPER: Final = (277.0, 178.0)
"""Paper of one drawer's drawing on the screen [mm]: A4 lying across, less a margin."""
PANEL: Final = 130.0
"""Most that a panel may measure on the screen's paper [mm]. Own choice."""
ALONE: Final = (
    ("lists", "cut-list.xlsx", "Cut list, workbook"),
    ("lists", "cut-list.csv", "Cut list, plain rows"),
    ("lists", "hardware-list.xlsx", "Hardware list, workbook"),
    ("lists", "hardware-list.csv", "Hardware list, plain rows"),
    ("lists", "lists.pdf", "Both lists, printed"),
)
"""Single files that are made at once, without the whole pack: section, path, name."""


def asked_options(
    options: Annotated[PackOptions, Depends(options_in_query)],
    aim: Annotated[str | None, Query(description="How slides are chosen.")] = None,
) -> PackOptions:
    """The options of a pack as the page's form tells them. Raises InputError."""
    if set(options.only) == set(USUAL):  # all of these: the whole pack, with the job and its answer
        options = replace(options, only=())
    if not aim:
        return options
    known: dict[str, Aim] = {one: one for one in AIMS.values()}
    if aim not in known:
        says = "is not one of " + ", ".join(known)
        raise InputError([Fault("aim", aim[:80], says, next(iter(known)))])
    return replace(options, aim=AimAsked(known[aim]))


Asked = Annotated[PackOptions, Depends(asked_options)]


@router.get("/jobs/{job_id}/papers")
def papers(
    request: Request, job_id: str, options: Asked, build: bool = False, drawer: str | None = None
) -> Response:
    """What a job's pack is, and how it stands; `build` begins it; `drawer`: the drawings of one drawer."""
    store = store_of(request)
    job = store.job(job_id)
    order = PackOrder(
        job.id, job.revision, leave_out(job.values, options.without), families_of(store), options
    )
    units: ShownUnits = options.units or ("in" if job.values.get("units") == "in" else "mm")
    answers, faults, unread = _answered(order, units)
    state: Ready | Step | None = None
    if not faults:
        kept = packs_of(request)
        state = begin_and_look(kept, order) if build else ready_pack(kept, order)
    shown = Shown(units, 64 if options.fraction == 64 else 32)
    one = next((each.fitted for each in answers if each.name == drawer and each.fitted), None)
    return page(
        request,
        "papers.html",
        status=UNPROCESSABLE if faults and build else 200,
        job=job,
        title=job.title or f"Job {job.id}",
        options=options,
        units=units,
        words=[(WORDS[key], key in (options.only or USUAL)) for key in SECTIONS],
        aims=AIM_WORDS,
        answers=answers,
        faults=faults,
        unread=unread,
        slides_since=slides_section(store, job, job.values, "papers"),
        without_those=urlencode(
            [*_here(request, "without"), *(("without", one) for one in (*options.without, *unread))]
        ),
        exported=urlencode([("without", one) for one in (*options.without, *unread)]),
        not_papered=_not_papered(answers, shown),
        to_build=sum(each.fitted.drawer.quantity for each in answers if each.fitted and each.fitted.slide),
        ready=state if isinstance(state, Ready) else None,
        step=state if isinstance(state, Step) else None,
        size=size_words(state.size) if isinstance(state, Ready) else "",
        files=files_by_section(state.files) if isinstance(state, Ready) else {},
        addresses=_addresses(order, request),
        alone=[]
        if faults
        else [(name, _file_address(order, path, section)) for section, path, name in ALONE],
        drawer=drawer,
        drawings=[] if one is None else drawings_of(one, shown),
    )


def drawings_of(fitted: FittedDrawer, shown: Shown) -> list[tuple[str, Scene]]:
    """The sheet's drawing of a drawer and those of its panels, each under a name of its own."""
    sheet = drawer_sheet(fitted, *PAPER, may_turn=True, units=shown)
    drawn = [(f"Plan, front and side, {scale_words(sheet.scale)}", replace(sheet, name="drawing"))]
    for number, (name, scene) in enumerate(panels(fitted, shown), 1):
        scaled = on_paper(scene, f"panel-{number}", PANEL)
        drawn.append((f"{name.capitalize()}, {scale_words(scaled.scale)}", scaled))
    return drawn


def _answered(
    order: PackOrder, units: ShownUnits
) -> tuple[tuple[DrawerAnswer, ...], tuple[Fault, ...], tuple[str, ...]]:
    """Each drawer's answer as the papers will have it, and all faults that keep them from being made.

    Then the names of the drawers without which they can be made; none where nothing is left then.
    """
    found = answer_values(order.values, order.families, units=units)
    faults = [*found.faults, *(fault for one in found.drawers for fault in one.faults)]
    if not found.drawers:
        faults.append(
            Fault("drawers", "", "are none: there is nothing to put on paper", "a drawer in the schedule")
        )
    if faults or order.options.aim == NO_AIM:
        unread = to_leave_out(found)
        unread = unread if len(unread) < len(found.drawers) else ()
        return found.drawers, tuple(dict.fromkeys(faults)), unread
    try:
        fitted, _ = fitted_for(order.values, order.families, order.options.aim, units)
    except InputError as error:
        return found.drawers, error.faults, ()
    return tuple(DrawerAnswer(one.id, one) for one in fitted.drawers), (), ()


def _not_papered(answers: tuple[DrawerAnswer, ...], shown: Shown) -> list[dict[str, Any]]:
    """Drawers of which no parts are cut: they do not fit; with the smallest change that would do."""
    missing = []
    for one in answers:
        if one.fitted is not None and one.fitted.slide is None:
            change = next(iter(one.fitted.changes), None)
            cure = "" if change is None else f"{change_text(change.by, change.unit, shown)}: {change.says}"
            missing.append({"name": one.name, "cure": cure})
    return missing


def _addresses(order: PackOrder, request: Request) -> dict[str, str]:
    """Where this page, its progress, the pack and its files are, for this order."""
    job, query = (
        quote(order.job, safe=""),
        urlencode([("revision", str(order.revision)), *order.options.query()]),
    )
    here = _here(request)
    return {
        "pack": order.address,
        "progress": f"/api/v1/jobs/{job}/pack/progress?{query}",
        "files": f"/api/v1/jobs/{job}/pack/files/",
        "query": query,
        "again": f"/jobs/{job}/papers?{urlencode([*here, ('build', '1')])}",
        "drawing": f"/jobs/{job}/papers?{urlencode([*here, ('drawer', '')])}",
    }


def _here(request: Request, *but: str) -> list[tuple[str, str]]:
    """What the address asks for, other than building, one drawer's drawings, and what is left aside."""
    aside = ("build", "drawer", *but)
    return [(key, text) for key, text in request.query_params.multi_items() if key not in aside]


def _file_address(order: PackOrder, path: str, section: str) -> str:
    told = [(key, text) for key, text in order.options.query() if key != "only"]
    query = urlencode([("revision", str(order.revision)), ("only", section), *told])
    return f"/api/v1/jobs/{quote(order.job, safe='')}/pack/files/{quote(path)}?{query}"
