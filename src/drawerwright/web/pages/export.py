"""A job as a file, from its page: the file where all of it reads, else what is missing and what would do."""

from __future__ import annotations

from typing import Final
from urllib.parse import quote, urlencode

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from drawerwright.errors import Fault, InputError
from drawerwright.web.api.files import MEDIA, Ending
from drawerwright.web.families import families_of
from drawerwright.web.faults import as_told
from drawerwright.web.fitting import DrawerAnswer, Values, answer_values, read_values
from drawerwright.web.leaving_out import leave_out, to_leave_out
from drawerwright.web.pages.forms import store_of
from drawerwright.web.quick_job import LONGEST
from drawerwright.web.reading_places import fault_in_words
from drawerwright.web.render import page
from drawerwright.web.schedule.rows import drawer_address, fault_heading
from drawerwright.web.schedule.saving import revisions_of

router = APIRouter(include_in_schema=False)

MOST_LISTED: Final = 100
"""Most unfinished drawers that are listed one by one: nobody finishes more at a time. Own choice."""


@router.get("/jobs/{job_id}/file.{ending}")
def export(request: Request, job_id: str, ending: Ending) -> Response:
    """The file, from the API; while something does not read, the page that says what and offers the rest."""
    store = store_of(request)
    job = store.job(job_id)
    values = revisions_of(request).values(job)
    address = f"/api/v1/jobs/{quote(job_id, safe='')}/file."
    try:
        read_values(values)
    except InputError:
        found = answer_values(values, families_of(store))
    else:
        return RedirectResponse(f"{address}{ending}", 303)
    names = to_leave_out(found)
    unread = [one for one in found.drawers if one.name in names]
    without = urlencode([("without", name) for name in names])
    some = len(without) <= LONGEST and _reads(leave_out(values, names))
    return page(
        request,
        "export.html",
        job=job,
        job_id=job_id,
        endings=tuple(MEDIA),
        wanted=ending,
        unread=[(one.name, drawer_address(job_id, one.name), _told(one)) for one in unread[:MOST_LISTED]],
        count=len(unread),
        shared=as_told(found.faults),
        rest=len(found.drawers) - len(unread) if some else 0,
        address=address,
        without=without,
    )


def _told(answer: DrawerAnswer) -> list[tuple[str, Fault]]:
    """What is wrong with a drawer, each fault under the heading of what it belongs to."""
    return [(fault_heading(fault), fault_in_words(fault)) for fault in answer.faults]


def _reads(values: Values) -> bool:
    """Whether a job may go out as a file, with any drawer in it."""
    try:
        read_values(values)
    except InputError:
        return False
    return bool(values.get("drawer"))
