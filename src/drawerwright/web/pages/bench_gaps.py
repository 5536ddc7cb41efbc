"""Lining up at the bench: gaps typed where they are on the front, moves told in the order of work."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from typing import Any
from urllib.parse import quote

from fastapi import APIRouter, Request
from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from drawerwright.errors import Fault, InputError
from drawerwright.model.fitted import FittedDrawer
from drawerwright.store import StoredJob
from drawerwright.units import BareUnit
from drawerwright.web.bench.gaps import (
    CORNERS,
    EDGES,
    gap_rows,
    gap_words,
    has_gaps,
    last_readings,
    left_words,
    lined_up,
    read_gap_form,
    sent_once,
)
from drawerwright.web.bench.steps import lining_up_step
from drawerwright.web.device_name import name_told
from drawerwright.web.families import families_of
from drawerwright.web.faults import UNPROCESSABLE
from drawerwright.web.fitting import answer_values
from drawerwright.web.pages.forms import Form, store_of
from drawerwright.web.render import page
from drawerwright.web.schedule.form import text_fields

router = APIRouter(include_in_schema=False)


def gaps_address(job_id: str, name: str) -> str:
    """The page on which a front's gaps are typed."""
    return f"/jobs/{quote(job_id, safe='')}/bench/{quote(name, safe='')}/gaps"


@router.get("/jobs/{job_id}/bench/{name:path}/gaps")
def gaps(request: Request, job_id: str, name: str) -> Response:
    """The front with a field at each gap; under it what to turn for what was measured last."""
    job = store_of(request).job(job_id)
    return _page(request, job, name, {}, {})


@router.post("/jobs/{job_id}/bench/{name:path}/gaps")
def keep_gaps(request: Request, job_id: str, name: str, form: Form) -> Response:
    """Keep one measuring, and tell the moves; the fields again where something does not read."""
    store = store_of(request)
    job = store.job(job_id)
    _front_of(request, job, name)
    told = dict(text_fields(form))
    try:
        readings, faults = read_gap_form(name, told, _unit(job))
    except InputError as error:
        return _page(request, job, name, told, {}, error.faults)
    if faults:
        return _page(request, job, name, told, faults)
    token = sent_once(told.get("token", ""), readings)
    store.add_gaps(job.id, name, readings, by=name_told(request), token=token)
    return RedirectResponse(f"{gaps_address(job.id, name)}#moves", 303)


def _page(
    request: Request,
    job: StoredJob,
    name: str,
    told: Mapping[str, str],
    at_fields: Mapping[str, Fault],
    others: tuple[Fault, ...] = (),
) -> Response:
    store, units = store_of(request), _unit(job)
    kept = store.gaps_now(job.id)
    fitted = _front_of(request, job, name)
    readings = last_readings(kept)
    front, refused = None, others
    if name in readings and not at_fields and not others:
        try:
            front = lined_up(job.values, families_of(store), name, readings, units)
        except InputError as error:
            refused = error.faults
    last: dict[str, Any] = readings.get(name, {})
    return page(
        request,
        "bench_gaps.html",
        status=UNPROCESSABLE if at_fields or others else 200,
        job=job,
        drawer=name,
        fitted=fitted,
        unit=units,
        edges=EDGES,
        corners=CORNERS,
        words={key: gap_words(key) for key in (*EDGES, *CORNERS)},
        told=told or {key: str(value) for key, value in last.items()},
        at_fields=at_fields,
        refused=refused,
        front=front,
        rows=() if front is None else gap_rows(front, units),
        left_words=left_words,
        token=secrets.token_urlsafe(12),
        measured=sum(one.drawer == name for one in kept),
        back=f"/jobs/{quote(job.id, safe='')}/bench/{quote(name, safe='')}#{lining_up_step(fitted)}",
    )


def _front_of(request: Request, job: StoredJob, name: str) -> FittedDrawer:
    """The drawer whose front is lined up; 404 where there is none."""
    found = answer_values(job.values, families_of(store_of(request)), units=_unit(job), only=name)
    for one in found.drawers:
        if one.name == name and one.fitted is not None and has_gaps(one.fitted):
            return one.fitted
    raise HTTPException(404, f"no drawer {name[:80]} with a front is hung in this job")


def _unit(job: StoredJob) -> BareUnit:
    return "in" if job.values.get("units") == "in" else "mm"
