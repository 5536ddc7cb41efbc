"""The cabinets of a job: elevations that lead to the drawers, sums of their columns, what they share."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Final
from urllib.parse import quote

from fastapi import APIRouter, Query, Request
from starlette.responses import RedirectResponse, Response

from drawerwright.store import Conflict
from drawerwright.units import ShownUnits
from drawerwright.web.device_name import name_told
from drawerwright.web.families import families_of
from drawerwright.web.pages.conflict import conflict_address
from drawerwright.web.pages.forms import Form, revision_told, store_of
from drawerwright.web.render import page
from drawerwright.web.schedule.answers import units_of
from drawerwright.web.schedule.cabinets import CabinetView, cabinet_names, cabinet_views, with_cabinet
from drawerwright.web.schedule.form import text_fields
from drawerwright.web.schedule.saving import revisions_of

if TYPE_CHECKING:
    from drawerwright.web.balance import Balance

AT_A_TIME: Final = 24
"""Cabinets of one page: each brings its drawing. Own choice."""

router = APIRouter(include_in_schema=False)


@router.get("/jobs/{job_id}/cabinets")
def show_cabinets(
    request: Request, job_id: str, start: Annotated[int, Query(alias="from", ge=0, le=100_000)] = 0
) -> Response:
    """The cabinets of a job, some at a time."""
    store = store_of(request)
    job = store.job(job_id)
    values = revisions_of(request).values(job)
    names = cabinet_names(values)
    first = start // AT_A_TIME * AT_A_TIME
    views = cabinet_views(job_id, values, names[first : first + AT_A_TIME], families_of(store))
    drawn = {
        view.id: replace(view.elevation.scene, page=view.elevation.room) for view in views if view.elevation
    }
    alone = sum(not one.get("cabinet") for one in values["drawer"])
    return page(
        request,
        "cabinets.html",
        job=job,
        views=views,
        drawn=drawn,
        balances={view.id: _balance(view, units_of(values)) for view in views},
        alone=alone,
        first=first,
        pieces=[(at, names[at : at + AT_A_TIME]) for at in range(0, len(names), AT_A_TIME)],
        units=units_of(values),
    )


def _balance(view: CabinetView, units: ShownUnits) -> Balance | None:
    """The balance of a cabinet that stands free; its numerics are brought in where there is one."""
    fitted = [one.fitted for one in view.drawers if one.fitted is not None]
    if len(fitted) < len(view.drawers) or not any(one.cabinet and one.cabinet.freestanding for one in fitted):
        return None
    from drawerwright.web.balance import balance_of

    return balance_of(fitted, units)


@router.post("/jobs/{job_id}/cabinets")
def save_cabinet(request: Request, job_id: str, form: Form) -> Response:
    """Save what was typed of one cabinet."""
    told = dict(text_fields(form))
    based_on, cabinet = revision_told(told), told.get("cabinet", "").strip()
    values = revisions_of(request).at(job_id, based_on)
    texts = {
        name.removeprefix("key."): text for name, text in told.items() if name.startswith("key.") and cabinet
    }
    try:
        store_of(request).save_job(
            job_id, with_cabinet(values, cabinet, texts), based_on=based_on, by=name_told(request)
        )
    except Conflict as conflict:
        return RedirectResponse(conflict_address(job_id, conflict), 303)
    names = cabinet_names(values)
    first = names.index(cabinet) // AT_A_TIME * AT_A_TIME if cabinet in names else 0
    query = f"?from={first}" if first else ""
    return RedirectResponse(f"/jobs/{quote(job_id, safe='')}/cabinets{query}#{quote(cabinet, safe='')}", 303)
