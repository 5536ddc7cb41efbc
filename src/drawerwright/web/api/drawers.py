"""One drawer of a stored job over HTTP: read with its answer, save, remove, add, order."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any

from fastapi import APIRouter, Query
from starlette.responses import Response

from drawerwright.errors import Fault, InputError
from drawerwright.fit import fit_document
from drawerwright.model.fitted import FittedJob
from drawerwright.model.spelling import nearest
from drawerwright.store import NotInStore, Store, StoredJob
from drawerwright.store.parts import LONGEST_ID
from drawerwright.units import ShownUnits, show_value
from drawerwright.web.api.answering import answer
from drawerwright.web.api.describing import described
from drawerwright.web.api.jobs import AtRevision, Body, Kept, Shown
from drawerwright.web.api.saving import read_saving, revision_told
from drawerwright.web.api.stored import stored_values
from drawerwright.web.families import families_of
from drawerwright.web.fitting import answer_values, drawer_names

router = APIRouter(prefix="/jobs/{job}", tags=["jobs"])


@router.get("/drawers/{drawer:path}", **described("drawer", answer="StoredDrawer", also=(404,)))
def drawer(store: Kept, job: str, drawer: str, revision: AtRevision = None, units: Shown = None) -> Response:
    """A drawer's values and its answer; only its cabinet is computed."""
    return answer(drawer_values(store, store.job(job, revision_told(revision)), drawer, units))


@router.put(
    "/drawers/{drawer:path}",
    **described("save_drawer", body="SavedDrawer", answer="StoredDrawer", makes=True, also=(404, 409)),
)
def save_drawer(store: Kept, job: str, drawer: str, body: Body, units: Shown = None) -> Response:
    """Save all keys of a drawer, made of revision `based_on`. One that is not there is added at the end: 201.

    Without an `id` in `values` it keeps that of the address; with another it is renamed.
    """
    told = read_saving(body, "values")
    values = _named(_table(told.parts["values"], "values"), drawer)
    new = not store.has_drawer(job, drawer)
    saved = store.save_drawer(
        job, drawer, values, based_on=told.based_on, by=told.by, what=told.what, alone=True
    )
    return answer(drawer_values(store, saved, str(values["id"]), units), 201 if new else 200)


@router.delete(
    "/drawers/{drawer:path}", **described("remove_drawer", answer="StoredJob", also=(403, 404, 409))
)
def remove_drawer(
    store: Kept,
    job: str,
    drawer: str,
    based_on: Annotated[int, Query(description="The revision that was read.")],
    by: str = "",
) -> Response:
    """Remove a drawer from its job; undo brings it back."""
    saved = store.save_drawer(job, drawer, None, based_on=revision_told(based_on, "based_on"), by=by)
    return answer(stored_values(saved))


@router.post("/drawers", **described("add_drawers", body="AddedDrawers", answer="StoredJob", also=(404, 409)))
def add_drawers(store: Kept, job: str, body: Body) -> Response:
    """Add drawers behind the drawer `after`, or at the end."""
    told = read_saving(body, "drawers", may=("after",))
    after = told.parts.get("after")
    if after is not None and not isinstance(after, str):
        raise InputError([Fault("after", show_value(after), "is no drawer's id", '"B1-2"')])
    saved = store.add_drawers(
        job, _tables(told.parts["drawers"]), based_on=told.based_on, after=after, by=told.by, what=told.what
    )
    return answer(stored_values(saved))


@router.put("/order", **described("order_drawers", body="DrawerOrder", answer="StoredJob", also=(404, 409)))
def order_drawers(store: Kept, job: str, body: Body) -> Response:
    """Put the drawers in another order: all ids, each once."""
    told = read_saving(body, "order")
    order = told.parts["order"]
    if not isinstance(order, list) or not all(isinstance(one, str) for one in order):
        raise InputError([Fault("order", show_value(order), "is not a list of drawers' ids", '["A", "B"]')])
    saved = store.order_drawers(job, order, based_on=told.based_on, by=told.by, what=told.what)
    return answer(stored_values(saved))


def drawer_values(store: Store, stored: StoredJob, name: str, units: ShownUnits | None) -> dict[str, Any]:
    """A drawer of a stored job with its answer. Raises NotInStore."""
    found = answer_values(stored.values, families_of(store), units=units, only=name.strip())
    one = next(iter(one for one in found.drawers if one.name == name.strip()), None)
    values = next(
        (one for one in stored.values["drawer"] if str(one.get("id", "")).strip() == name.strip()), None
    )
    if one is None or values is None:
        close = nearest(name.strip()[:LONGEST_ID], drawer_names(stored.values["drawer"]))
        try_ = show_value(close) if close else f"POST /api/v1/jobs/{stored.id}/drawers"
        raise NotInStore([Fault(f"job {stored.id}", show_value(name), "is no drawer of this job", try_)])
    fitted = None if one.fitted is None else fit_document(FittedJob("", (one.fitted,)))["drawers"][0]
    return {
        "schema": "drawerwright/drawer/1",
        "job": stored.id,
        "revision": stored.revision,
        "how": stored.how,
        "id": one.name,
        "values": values,
        "fit": fitted,
        "errors": [fault.as_json() for fault in (*one.faults, *found.faults)],
        "waits": one.waits,
    }


def _named(values: Mapping[str, Any], name: str) -> dict[str, Any]:
    """A drawer's values with its id, which is `name` unless they tell one. Raises InputError."""
    told = values.get("id", name)
    usable = isinstance(told, (str, int)) and not isinstance(told, bool)
    if usable and 0 < len(str(told).strip()) <= LONGEST_ID:
        return {**values, "id": told}
    says = f"is no drawer's id: a text of 1 to {LONGEST_ID} characters"
    raise InputError([Fault("values id", show_value(told), says, show_value(name.strip() or "A"))])


def _table(told: Any, where: str) -> Mapping[str, Any]:
    if isinstance(told, dict):
        return told
    raise InputError([Fault(where, show_value(told), "is not an object of keys", '{"id": "A"}')])


def _tables(told: Any) -> list[Mapping[str, Any]]:
    if isinstance(told, list):
        return [_table(one, f"drawers[{at}]") for at, one in enumerate(told)]
    raise InputError([Fault("drawers", show_value(told), "is not a list of drawers", '[{"id": "A"}]')])
