"""The bench: one drawer at a time, in large type, with ticks that are kept step by step."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Annotated, Final

from fastapi import APIRouter, Query, Request
from starlette.exceptions import HTTPException
from starlette.responses import FileResponse, RedirectResponse, Response

from drawerwright.drawing.scene import Scene
from drawerwright.drawing.views.front import front
from drawerwright.drawing.views.plan import plan
from drawerwright.drawing.views.side import side_section
from drawerwright.errors import Fault, InputError
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.drawer_page import slide_text
from drawerwright.pack.shown import Shown
from drawerwright.store import StoredJob
from drawerwright.units import ShownUnits
from drawerwright.web.bench.changed import standing_ticks
from drawerwright.web.bench.gaps import has_gaps
from drawerwright.web.bench.order import BenchPlan, bench_plan, place_of
from drawerwright.web.bench.steps import Drawn, bench_steps, tick_name
from drawerwright.web.device_name import name_told
from drawerwright.web.families import families_of
from drawerwright.web.fitting import answer_values
from drawerwright.web.pages.bench_gaps import gaps_address
from drawerwright.web.pages.forms import Form, store_of
from drawerwright.web.render import STATIC, page
from drawerwright.web.schedule.form import text_fields
from drawerwright.web.standing_free import balances_of_values
from drawerwright.web.taken.section import slides_section
from drawerwright.web.views_on_paper import on_paper

router = APIRouter(include_in_schema=False)

KEPT_AHEAD: Final = 60
"""How many drawers' pages a device keeps for when there is no connection. Own choice."""

Piece = Annotated[int, Query(ge=1, le=100_000)]


@router.get("/bench-worker.js")
def worker() -> Response:
    """The script that keeps pages of the bench on the device; it may see no page but this server's jobs."""
    headers = {"Cache-Control": "no-cache"}
    return FileResponse(STATIC / "bench_worker.js", media_type="text/javascript", headers=headers)


@router.get("/jobs/{job_id}/bench")
def bench(request: Request, job_id: str) -> Response:
    """The drawers of a job by cabinet: which are done, and where to go on."""
    job = store_of(request).job(job_id)
    found = _plan(request, job)
    return page(
        request,
        "bench.html",
        job=job,
        title=job.title or f"Job {job.id}",
        plan=found,
        slides_since=slides_section(store_of(request), job, job.values, "bench"),
        balances=balances_of_values(job.values, families_of(store_of(request))),
        balance_job=job.id,
        keep=[one.address(job.id) for one in found.drawers if not one.finished][:KEPT_AHEAD],
    )


@router.get("/jobs/{job_id}/bench/{name:path}")
def bench_drawer(request: Request, job_id: str, name: str, piece: Piece = 1) -> Response:
    """One drawer: its steps in the order of work, each with the figures it wants."""
    job = store_of(request).job(job_id)
    shown = Shown(_units(job))
    found = _plan(request, job)
    at = place_of(found, name, piece)
    if at is None:
        raise HTTPException(404, f"no drawer {name[:80]} is hung in this job")
    one = found.drawers[at]
    steps = bench_steps(one.fitted, shown)
    free = balances_of_values(job.values, families_of(store_of(request)))
    return page(
        request,
        "bench_drawer.html",
        job=job,
        plan=found,
        place=at,
        balances=[told for told in free if told.cabinet == one.cabinet],
        balance_job=job.id,
        drawer=one,
        slides_since=slides_section(store_of(request), job, job.values, "bench", drawer=one.name),
        steps=steps,
        slide=slide_text(one.fitted),
        before=found.drawers[at - 1] if at else None,
        after=found.drawers[at + 1] if at + 1 < len(found.drawers) else None,
        scenes={step.drawn: drawn(one.fitted, step.drawn, shown) for step in steps if step.drawn},
        tick_name=tick_name,
        gaps_address=gaps_address(job.id, one.name) if has_gaps(one.fitted) else "",
    )


@router.post("/jobs/{job_id}/bench/{name:path}")
def tick(request: Request, job_id: str, name: str, form: Form, piece: Piece = 1) -> Response:
    """Tick a step, or take its tick away: `tick` is the step and 1 or 0."""
    told = dict(text_fields(form)).get("tick", "")
    step, colon, done = told.rpartition(":")
    if not colon or done not in ("0", "1"):
        raise InputError([Fault("tick", told[:80], "is not a step and 1 or 0", "slots-first:1")])
    store = store_of(request)
    found = _plan(request, store.job(job_id))
    at = place_of(found, name, piece)
    if at is None:
        raise HTTPException(404, f"no drawer {name[:80]} is hung in this job")
    keys = found.drawers[at].keys
    if step not in keys:
        says = "is not a step of this drawer: " + ", ".join(keys)
        raise InputError([Fault("tick", step[:80], says, f"{keys[0]}:1")])
    store.set_tick(
        job_id, name, tick_name(step, piece), done == "1", at=datetime.now(UTC), by=name_told(request)
    )
    where = f"?piece={piece}" if piece > 1 else ""
    return RedirectResponse(f"{request.url.path}{where}#{step}", 303)


def drawn(fitted: FittedDrawer, which: Drawn, shown: Shown) -> Scene:
    """One view of a drawer at a scale at which its lettering is large, without the next longer slide."""
    views = {
        "side": lambda: side_section(fitted, shown, why_not_longer=False),
        "plan": lambda: plan(fitted, shown, why_not_longer=False),
        "front": lambda: front(fitted, shown),
    }
    return on_paper(views[which](), f"bench-{which}")


def _plan(request: Request, job: StoredJob) -> BenchPlan:
    store = store_of(request)
    families, units = families_of(store), _units(job)
    found = answer_values(job.values, families, units=units)
    stand = standing_ticks(store, job, found.drawers, families, units)
    return bench_plan(found.drawers, stand.ticks, stand.changed, stand.by_slide)


def _units(job: StoredJob) -> ShownUnits:
    return "in" if job.values.get("units") == "in" else "mm"
