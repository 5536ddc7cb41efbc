"""A stored job's history over HTTP: its saves, undo, redo, what differs."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query
from starlette.responses import Response

from drawerwright.web.api.answering import answer
from drawerwright.web.api.describing import described
from drawerwright.web.api.jobs import Body, Kept
from drawerwright.web.api.saving import read_saving, revision_told
from drawerwright.web.api.stored import revision_values, stored_values

router = APIRouter(prefix="/jobs/{job}", tags=["history"])

From = Annotated[int, Query(alias="from", description="The earlier revision.")]
To = Annotated[int, Query(description="The later revision.")]


@router.get("/revisions", **described("revisions", answer="Revisions", also=(404,)))
def revisions(store: Kept, job: str) -> Response:
    """All saves of a job, the newest first, with those that were kept on the side in a conflict."""
    listed = [revision_values(one) for one in store.revisions(job)]
    return answer({"schema": "drawerwright/revisions/1", "revisions": listed})


@router.post("/undo", **described("undo", body="TakenBack", answer="StoredJob", also=(404, 409)))
def undo(store: Kept, job: str, body: Body) -> Response:
    """Take back the change that made revision `based_on`, as a new revision; later saves stay."""
    told = read_saving(body)
    return answer(stored_values(store.undo(job, based_on=told.based_on, by=told.by)))


@router.post("/redo", **described("redo", body="TakenBack", answer="StoredJob", also=(404, 409)))
def redo(store: Kept, job: str, body: Body) -> Response:
    """Bring back what the last undo took back."""
    told = read_saving(body)
    return answer(stored_values(store.redo(job, based_on=told.based_on, by=told.by)))


@router.get("/difference", **described("difference", answer="Difference", also=(404,)))
def difference(store: Kept, job: str, earlier: From, to: To) -> Response:
    """What differs between two revisions: drawers added, removed, changed key by key, moved."""
    told = store.compare(job, revision_told(earlier, "from"), revision_told(to, "to"))
    return answer({"schema": "drawerwright/difference/1", **told.as_json()})
