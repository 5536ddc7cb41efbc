"""What is done with slides that are not what they were: kept as they were, taken as they are, held."""

from __future__ import annotations

from urllib.parse import quote

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from drawerwright.errors import Fault, InputError
from drawerwright.store import Conflict
from drawerwright.web.device_name import name_told
from drawerwright.web.pages.conflict import conflict_address
from drawerwright.web.pages.forms import Form, store_of
from drawerwright.web.schedule.form import text_fields
from drawerwright.web.schedule.rows import drawer_address
from drawerwright.web.schedule.saving import revisions_of
from drawerwright.web.taken.keeping import hold_slides, keep_slides, take_slides

router = APIRouter(include_in_schema=False)

PAGES = {"schedule": "", "papers": "/papers", "bench": "/bench", "choice": "/choice"}
"""Pages that a button leads back to, and the ends of their addresses."""


@router.post("/jobs/{job_id}/slides")
def settle_slides(request: Request, job_id: str, form: Form) -> Response:
    """Keep the slides as they were, take the new choice, or hold those chosen now; then the page again."""
    told = dict(text_fields(form))
    do, by = told.get("do", ""), name_told(request)
    try:
        if do == "keep":
            keep_slides(revisions_of(request), job_id, by=by)
        elif do == "hold":
            hold_slides(revisions_of(request), job_id, by=by)
        elif do == "take":
            take_slides(store_of(request), job_id, told.get("seen", ""), by=by)
        else:
            raise InputError([Fault("do", do[:40], "is not keep, take or hold", "keep")])
    except Conflict as conflict:
        return RedirectResponse(conflict_address(job_id, conflict), 303)
    return RedirectResponse(_back(job_id, told), 303)


def _back(job_id: str, told: dict[str, str]) -> str:
    if told.get("back") == "drawer" and told.get("drawer"):
        return drawer_address(job_id, told["drawer"])
    address = f"/jobs/{quote(job_id, safe='')}{PAGES.get(told.get('back', ''), '')}"
    if told.get("back") == "bench" and told.get("drawer"):
        return f"{address}/{quote(told['drawer'], safe='')}"
    return address
