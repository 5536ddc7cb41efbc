"""A job's history: its saves, one of them taken again, two of them compared."""

from __future__ import annotations

from typing import Annotated, Any
from urllib.parse import quote

from fastapi import APIRouter, Query, Request
from starlette.responses import RedirectResponse, Response

from drawerwright.store import Conflict, PartChange
from drawerwright.web.device_name import LONGEST, name_told
from drawerwright.web.pages.conflict import conflict_address
from drawerwright.web.pages.forms import Form, revision_told, store_of
from drawerwright.web.render import page
from drawerwright.web.schedule.form import text_fields
from drawerwright.web.schedule.key_words import (
    key_in_words,
    named_key,
    part_in_words,
    saved_in_words,
    value_in_words,
)
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
        request,
        "history.html",
        job=store.job(job_id),
        saves=shown,
        later=later,
        start=start,
        how=HOW_WORDS,
        in_words=saved_in_words,
        name=name_told(request),
        longest_name=LONGEST,
    )


@router.post("/jobs/{job_id}/history")
def take_again(request: Request, job_id: str, form: Form) -> Response:
    """Save the values of an earlier revision as the newest one; what lies between stays in the history."""
    told = dict(text_fields(form))
    wanted = revision_told({"based_on": told.get("revision", "")})
    store = store_of(request)
    values = revisions_of(request).at(job_id, wanted)
    try:
        what = f"as it was in revision {wanted}"
        store.save_job(job_id, values, based_on=revision_told(told), by=name_told(request), what=what)
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
    told = store.compare(job_id, earlier, to)
    return page(
        request,
        "compare_revisions.html",
        job=store.job(job_id),
        told=told,
        parts=[_part(part) for part in told.parts],
    )


def _part(part: PartChange) -> dict[str, Any]:
    """A part that differs in the words of the sheets: `name`, `change`, and `rows` of key, before, after."""
    rows = []
    for one in part.keys:
        named = named_key(part.kind, part.id, one.key)
        key = "" if part.kind == "" or not named[1] else key_in_words(*named)
        rows.append((key, value_in_words(*named, one.old), value_in_words(*named, one.new)))
    return {"name": part_in_words(part.kind, part.id), "change": part.change, "rows": rows}
