"""Stored jobs over HTTP: list, make, read, save, throw away, and their answers."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Depends, Query, Request
from starlette.responses import Response

from drawerwright.fit import fit_document
from drawerwright.fit.whole_job_document import with_whole_job
from drawerwright.model.fitted import FittedJob
from drawerwright.store import Store
from drawerwright.units import ShownUnits
from drawerwright.web.aims import AimAsked, aim_in_query, fitted_for
from drawerwright.web.api.answering import answer
from drawerwright.web.api.body import read_body
from drawerwright.web.api.describing import described
from drawerwright.web.api.saving import read_saving, revision_told
from drawerwright.web.api.stored import card_values, stored_values
from drawerwright.web.families import families_of
from drawerwright.web.fitting import answer_values

router = APIRouter(prefix="/jobs", tags=["jobs"])

Body = Annotated[dict[str, Any], Depends(read_body)]
AtRevision = Annotated[int | None, Query(description="A revision; the newest unless told.")]
Shown = Annotated[
    ShownUnits | None, Query(description="Units of the sentences; as the job has them unless told.")
]


def store_of(request: Request) -> Store:
    """The store that the server keeps."""
    store: Store = request.app.state.store
    return store


Kept = Annotated[Store, Depends(store_of)]


@router.get("", **described("jobs", answer="Jobs"))
def jobs(store: Kept, binned: bool = False) -> Response:
    """All jobs, the one saved last first; `binned`: those in the bin."""
    listed = [card_values(one) for one in store.jobs(binned=binned)]
    return answer({"schema": "drawerwright/jobs/1", "jobs": listed})


@router.post("", **described("create_job", body="NewJob", answer="StoredJob", status=201))
def create_job(store: Kept, body: Body) -> Response:
    """Make a job. Its values need not be whole: what does not read yet is told when it is asked for."""
    told = read_saving(body, "values", based=False)
    made = store.create_job(told.parts["values"], by=told.by, what=told.what)
    return answer(stored_values(made), 201)


@router.get("/{job}", **described("job", answer="StoredJob", also=(404,)))
def job(store: Kept, job: str, revision: AtRevision = None) -> Response:
    """A job's values, with the keys of a job file, and the revision that they are."""
    return answer(stored_values(store.job(job, revision_told(revision))))


@router.put("/{job}", **described("save_job", body="SavedJob", answer="StoredJob", also=(404, 409)))
def save_job(store: Kept, job: str, body: Body) -> Response:
    """Save a whole job, made of revision `based_on`; put together with what others saved meanwhile."""
    told = read_saving(body, "values")
    saved = store.save_job(job, told.parts["values"], based_on=told.based_on, by=told.by, what=told.what)
    return answer(stored_values(saved))


@router.delete("/{job}", **described("bin_job", answer="Done", also=(403, 404)))
def bin_job(
    store: Kept,
    job: str,
    sure: Annotated[
        str | None,
        Query(description="Of a job in the bin: its id or title again, to delete it for good."),
    ] = None,
) -> Response:
    """Put a job in the bin; one that lies there is deleted for good when `sure` says its id or title."""
    if sure is None:
        store.bin_job(job)
        return answer({"done": f"job {job} is in the bin"})
    store.delete_job(job, sure=sure)
    return answer({"done": f"job {job} is deleted for good"})


@router.post("/{job}/restore", **described("restore_job", answer="StoredJob", also=(403, 404)))
def restore_job(store: Kept, job: str) -> Response:
    """Take a job out of the bin."""
    store.restore_job(job)
    return answer(stored_values(store.job(job)))


@router.get("/{job}/fit", **described("fit_job", answer="Fit", also=(404,)))
def fit_job(
    store: Kept,
    job: str,
    aim: Annotated[AimAsked, Depends(aim_in_query)],
    revision: AtRevision = None,
    units: Shown = None,
) -> Response:
    """A stored job's answer: the document of `drawerwright fit --json`. Every drawer must read."""
    stored = store.job(job, revision_told(revision))
    fitted, choice = fitted_for(stored.values, families_of(store), aim, units)
    document = fit_document(fitted)
    return answer(document if choice is None else with_whole_job(document, choice))


@router.get("/{job}/answers", **described("answers", answer="Answers", also=(404,)))
def answers(store: Kept, job: str, revision: AtRevision = None, units: Shown = None) -> Response:
    """Drawer by drawer as far as a half-typed job reads: an answer, or the faults that stand in its way."""
    stored = store.job(job, revision_told(revision))
    found = answer_values(stored.values, families_of(store), units=units)
    drawers = []
    for one in found.drawers:
        fitted = None if one.fitted is None else fit_document(FittedJob("", (one.fitted,)))["drawers"][0]
        faults = [fault.as_json() for fault in one.faults]
        drawers.append({"id": one.name, "fit": fitted, "errors": faults, "waits": one.waits})
    return answer(
        {
            "schema": "drawerwright/answers/1",
            "job": stored.id,
            "revision": stored.revision,
            "drawers": drawers,
            "errors": [fault.as_json() for fault in found.faults],
        }
    )
