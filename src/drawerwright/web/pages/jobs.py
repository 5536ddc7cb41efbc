"""The list of jobs: begin one, bring in a file, start from the demo, throw away and take out again."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from importlib.resources import files
from typing import Annotated, Any
from urllib.parse import quote

from fastapi import APIRouter, Depends, Request
from starlette.responses import RedirectResponse, Response

from drawerwright.errors import Fault, InputError
from drawerwright.store import NotInStore
from drawerwright.web.api.files import imported, uploaded
from drawerwright.web.device_name import LONGEST, name_told
from drawerwright.web.families import families_of
from drawerwright.web.faults import as_told
from drawerwright.web.pages.forms import Form, store_of
from drawerwright.web.render import page
from drawerwright.web.schedule.answers import job_totals
from drawerwright.web.schedule.form import text_fields
from drawerwright.web.schedule.saving import revisions_of

router = APIRouter(include_in_schema=False)


@router.get("/jobs")
def list_jobs(request: Request) -> Response:
    """All jobs, what one may be begun with, and the bin."""
    return jobs_page(request)


@router.post("/jobs")
def begin_job(request: Request, form: Form) -> Response:
    """A new job, empty but for its title."""
    told = dict(text_fields(form))
    units = "in" if told.get("units") == "in" else "mm"
    values = {"title": told.get("title", "").strip(), "units": units, "drawer": []}
    job = store_of(request).create_job(values, by=name_told(request))
    return _to(job.id)


@router.post("/jobs/demo")
def begin_demo(request: Request) -> Response:
    """The demo job, an invented fit-out, as a job of its own."""
    text = files("drawerwright.cli").joinpath("demo.toml").read_text(encoding="utf-8")
    values, what = tomllib.loads(text), "begun with the demo"
    return _to(store_of(request).create_job(values, by=name_told(request), what=what).id)


async def upload_of(request: Request) -> tuple[str, bytes] | InputError:
    """Ending and content of the file that a form brings, or what is wrong with it."""
    try:
        return await uploaded(request, None)
    except InputError as error:
        return error


@router.post("/jobs/import")
def import_job(
    request: Request, upload: Annotated[tuple[str, bytes] | InputError, Depends(upload_of)]
) -> Response:
    """A job from a file; where it cannot be used, every fault with its place, and nothing is stored."""
    if isinstance(upload, InputError):
        return jobs_page(request, faults=upload.faults, status=422)
    try:
        made = imported(store_of(request), *upload, by=name_told(request))
    except InputError as error:
        return jobs_page(request, faults=error.faults, status=422)
    return jobs_page(request, made=made) if made["remarks"] else _to(made["id"])


@router.get("/jobs/{job_id}/counts")
def count_job(request: Request, job_id: str) -> Response:
    """How many drawers of a job fit, fit with care and do not."""
    job = store_of(request).job(job_id)
    totals = job_totals(revisions_of(request).values(job), families_of(store_of(request)))
    return page(request, "_counts.html", totals=totals)


@router.post("/jobs/{job_id}/bin")
def bin_job(request: Request, job_id: str) -> Response:
    """Put a job in the bin."""
    store_of(request).bin_job(job_id)
    return RedirectResponse("/jobs#bin", 303)


@router.post("/jobs/{job_id}/restore")
def restore_job(request: Request, job_id: str) -> Response:
    """Take a job out of the bin."""
    store_of(request).restore_job(job_id)
    return RedirectResponse("/jobs", 303)


@router.post("/jobs/{job_id}/delete")
def delete_job(request: Request, job_id: str, form: Form) -> Response:
    """Delete a job in the bin for good, when its title was typed."""
    told = dict(text_fields(form))
    try:
        store_of(request).delete_job(job_id, sure=told.get("sure", "").strip())
    except NotInStore:
        raise
    except InputError as error:
        return jobs_page(request, faults=error.faults, status=422, sure_of=job_id)
    return RedirectResponse("/jobs", 303)


def jobs_page(
    request: Request,
    *,
    faults: Sequence[Fault] = (),
    made: dict[str, Any] | None = None,
    sure_of: str = "",
    status: int = 200,
) -> Response:
    """The page of all jobs."""
    store = store_of(request)
    values: dict[str, Any] = {"jobs": store.jobs(), "binned": store.jobs(binned=True)}
    values |= {"name": name_told(request), "longest_name": LONGEST}
    told = as_told(faults)
    return page(request, "jobs.html", status=status, faults=told, made=made, sure_of=sure_of, **values)


def _to(job_id: str) -> Response:
    return RedirectResponse(f"/jobs/{quote(job_id, safe='')}", 303)
