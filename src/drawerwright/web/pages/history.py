"""A job's history: its saves, one of them taken again, two of them compared."""

from __future__ import annotations

from typing import Annotated
from urllib.parse import quote

from fastapi import APIRouter, Query, Request
from starlette.responses import RedirectResponse, Response

from drawerwright.store import Conflict
from drawerwright.web.pages.conflict import conflict_address
from drawerwright.web.pages.forms import Form, revision_told, store_of
from drawerwright.web.render import page
from drawerwright.web.schedule.columns import shown_value
from drawerwright.web.schedule.form import text_fields
from drawerwright.web.schedule.saving import revisions_of

HOW_WORDS = {
    "saved": "",
    "merged": "put together with what others saved meanwhile",
    "undo": "taken back",
    "redo": "done again",
    "kept": "kept on the side: another version stood in its way",
}
AT_A_TIME = 200

router = APIRouter(include_in_schema=False)


@router.get("/jobs/{job_id}/history")
def show_history(
    request: Request, job_id: str, start: Annotated[int, Query(alias="from", ge=0, le=1_000_000)] = 0
) -> Response:
    """The saves of a job, the newest first."""
    store = store_of(request)
    saves = store.revisions(job_id)
    shown = saves[start : start + AT_A_TIME]
    later = start + AT_A_TIME if start + AT_A_TIME < len(saves) else None
    return page(
        request, "history.html", job=store.job(job_id), saves=shown, later=later, start=start, how=HOW_WORDS
    )


@router.post("/jobs/{job_id}/history")
def take_again(request: Request, job_id: str, form: Form) -> Response:
    """Save the values of an earlier revision as the newest one; what lies between stays in the history."""
    told = dict(text_fields(form))
    wanted = revision_told({"based_on": told.get("revision", "")})
    store = store_of(request)
    values = revisions_of(request).at(job_id, wanted)
    try:
        store.save_job(job_id, values, based_on=revision_told(told), what=f"as it was in revision {wanted}")
    except Conflict as conflict:
        return RedirectResponse(conflict_address(job_id, conflict), 303)
    return RedirectResponse(f"/jobs/{quote(job_id, safe='')}/history", 303)


@router.get("/jobs/{job_id}/compare")
def compare_revisions(
    request: Request,
    job_id: str,
    earlier: Annotated[int, Query(alias="from", ge=1, le=2**31 - 1)],
    to: Annotated[int, Query(ge=1, le=2**31 - 1)],
) -> Response:
    """What differs between two revisions, drawer by drawer."""
    store = store_of(request)
    return page(
        request,
        "compare_revisions.html",
        job=store.job(job_id),
        told=store.compare(job_id, earlier, to),
        text=shown_value,
    )
