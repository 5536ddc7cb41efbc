"""Two versions of one thing: shown side by side, key by key, and settled as the second person wants it.

Both versions are revisions of the store, so the page has an address, works without a script, and nothing is
lost when it is closed.
"""

from __future__ import annotations

from typing import Annotated, Any
from urllib.parse import quote

from fastapi import APIRouter, Query, Request
from starlette.responses import RedirectResponse, Response

from drawerwright.store import Conflict
from drawerwright.web.device_name import name_told
from drawerwright.web.pages.forms import Form, revision_told, store_of
from drawerwright.web.render import page
from drawerwright.web.schedule.form import text_fields
from drawerwright.web.schedule.key_words import saved_in_words
from drawerwright.web.schedule.saving import revisions_of
from drawerwright.web.schedule.settling import Clash, clashes_of, settled_values

router = APIRouter(include_in_schema=False)

Number = Annotated[int, Query(ge=1)]


def conflict_address(job_id: str, conflict: Conflict) -> str:
    """The page that shows both versions of a conflict."""
    told = f"mine={conflict.kept_revision}&theirs={conflict.theirs_revision}&base={conflict.base_revision}"
    return f"/jobs/{quote(job_id, safe='')}/conflict?{told}"


@router.get("/jobs/{job_id}/conflict")
def show_conflict(request: Request, job_id: str, mine: Number, theirs: Number, base: Number) -> Response:
    """Both versions of what was changed twice."""
    return _page(request, job_id, mine, theirs, base)


@router.post("/jobs/{job_id}/conflict")
def settle_conflict(
    request: Request, job_id: str, mine: Number, theirs: Number, base: Number, form: Form
) -> Response:
    """Save what was chosen, key by key, on top of their version."""
    told = dict(text_fields(form))
    clashes = _clashes(request, job_id, mine, theirs, base)
    revisions = revisions_of(request)
    ours, others = revisions.at(job_id, mine), revisions.at(job_id, theirs)
    values = settled_values(revisions.at(job_id, base), ours, others, clashes, told)
    what = f"settled between revisions {theirs} and {mine}"
    try:
        store_of(request).save_job(
            job_id, values, based_on=revision_told(told), by=name_told(request), what=what
        )
    except Conflict as again:
        return RedirectResponse(conflict_address(job_id, again), 303)
    return RedirectResponse(f"/jobs/{quote(job_id, safe='')}", 303)


def _clashes(request: Request, job_id: str, mine: int, theirs: int, base: int) -> list[Clash]:
    revisions = revisions_of(request)
    return clashes_of(*(revisions.at(job_id, number) for number in (base, mine, theirs)))


def _page(request: Request, job_id: str, mine: int, theirs: int, base: int) -> Response:
    store = store_of(request)
    saves = {one.number: one for one in store.revisions(job_id)}
    their_save = saves.get(theirs)
    told: dict[str, Any] = {"mine": mine, "theirs": theirs, "base": base}
    return page(
        request,
        "conflict.html",
        job=store.job(job_id),
        clashes=_clashes(request, job_id, mine, theirs, base),
        their_save=their_save,
        name=name_told(request),
        what=saved_in_words(their_save.what) if their_save else "",
        **told,
    )
