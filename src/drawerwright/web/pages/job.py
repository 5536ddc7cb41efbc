"""A job's page: its schedule, which a form saves whole and a script cell by cell."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated, Any
from urllib.parse import quote, urlencode

from fastapi import APIRouter, Depends, Query, Request
from pydantic import BaseModel, ConfigDict, Field
from starlette.responses import JSONResponse, PlainTextResponse, RedirectResponse, Response

from drawerwright.catalogue.contents import contents_preset_ids
from drawerwright.errors import Fault
from drawerwright.store import Conflict, StoredJob
from drawerwright.units import format_mass
from drawerwright.web.device_name import name_told
from drawerwright.web.families import families_of
from drawerwright.web.faults import UNPROCESSABLE
from drawerwright.web.fitting import place_of
from drawerwright.web.pages.conflict import conflict_address
from drawerwright.web.pages.forms import Form, revision_told, store_of
from drawerwright.web.render import environment, page
from drawerwright.web.schedule.answers import job_totals, shared_faults, units_of
from drawerwright.web.schedule.columns import (
    FIRST_COLUMNS,
    chosen_columns,
    filed_text_of,
    schedule_columns,
    text_of,
)
from drawerwright.web.schedule.edits import read_edits
from drawerwright.web.schedule.form import (
    asked_edits,
    picked_rows,
    shared_fields,
    text_fields,
    typed_edits,
)
from drawerwright.web.schedule.paste import write_block
from drawerwright.web.schedule.rows import AT_A_TIME, blank_row, rows_of
from drawerwright.web.schedule.saving import Saved, Then, revisions_of
from drawerwright.web.standing_free import balances_of_values
from drawerwright.web.taken.section import slides_section

ROWS_BEYOND = 50
"""Rows that the last piece may be longer while it is written on. Own choice."""

BLANK_ROWS = 3
"""Rows to write new drawers into, under the last one."""

router = APIRouter(include_in_schema=False)


@dataclass(frozen=True, slots=True)
class View:
    """What of a schedule is on the screen: further columns by key, and the first row."""

    columns: tuple[str, ...] = ()
    start: int = 0

    def address(self, job_id: str, *, start: int | None = None) -> str:
        """The page that shows it."""
        first = self.start if start is None else start
        told = {"columns": ",".join(self.columns), "from": str(first) if first else ""}
        query = urlencode({key: value for key, value in told.items() if value}, safe=",.")
        return f"/jobs/{quote(job_id, safe='')}" + (f"?{query}" if query else "")


def view_asked(
    columns: Annotated[list[str] | None, Query()] = None,
    start: Annotated[int, Query(alias="from", ge=0, le=100_000)] = 0,
) -> View:
    """The view that a query asks for: `columns` one by one or with commas between them."""
    told = [key.strip() for one in columns or () for key in one.split(",")]
    known = tuple(dict.fromkeys(key for key in told if key in schedule_columns()))
    return View(known, start // AT_A_TIME * AT_A_TIME)


Viewed = Annotated[View, Depends(view_asked)]


@router.get("/jobs/{job_id}")
def show_job(request: Request, job_id: str, view: Viewed) -> Response:
    """The schedule."""
    return schedule_page(request, job_id, view)


@router.post("/jobs/{job_id}")
def save_job(request: Request, job_id: str, view: Viewed, form: Form) -> Response:
    """What was typed into the form, then what its button does."""
    fields = text_fields(form)
    told = dict(fields)
    based_on = revision_told(told)
    do = told.get("do", "save")
    revisions = revisions_of(request)
    values = revisions.at(job_id, based_on)
    edits = typed_edits(fields, values)
    edits += asked_edits(do, fields, [column.key for column in chosen_columns(view.columns)])
    then: Then = "undo" if do == "undo" else "redo" if do == "redo" else None
    remarks: tuple[str, ...] = ()
    try:
        if edits or then:
            saved = revisions.save(job_id, edits, based_on=based_on, by=name_told(request), then=then)
            values = saved.values
            remarks = (*saved.remarks, *map(_not_saved, saved.refused))
    except Conflict as conflict:
        return RedirectResponse(conflict_address(job_id, conflict), 303)
    if do == "block":
        return block_text(values, picked_rows(fields) or None, view)
    if remarks:
        return schedule_page(request, job_id, view, remarks=remarks)
    return RedirectResponse(view.address(job_id), 303)


def _not_saved(unkept: tuple[int, Fault]) -> str:
    fault = unkept[1]
    return f"not saved: {fault.where} {fault.value} {fault.says}"


class Edits(BaseModel):
    """Edits of the revision `based_on`, in their order; `then` the newest change is taken back or done again.

    `whole`: all rows of the page are wanted back, not only those that changed. `to_end`: the page shows the
    job's last row.
    """

    model_config = ConfigDict(extra="forbid")

    based_on: Annotated[int, Field(ge=1)]
    edits: Annotated[list[Any], Field(max_length=10_000)]
    whole: bool = False
    to_end: bool = False
    then: Then = None


@router.post("/jobs/{job_id}/edits")
def save_edits(request: Request, job_id: str, view: Viewed, told: Edits) -> Response:
    """Edits of a script: rows that changed come back, or the whole table where rows came, went or moved.

    Edits that cannot be kept are told in `refused` by their place, the others are saved; 422 where none is.
    409 where somebody else changed the same, with the address of the page that shows both versions.
    """
    edits, unread = read_edits(told.edits)
    if unread and not edits:
        return JSONResponse(_refused(unread), UNPROCESSABLE)
    try:
        saved = revisions_of(request).save(
            job_id,
            edits,
            based_on=told.based_on,
            by=name_told(request),
            then=None if unread else told.then,
            in_steps=True,
        )
    except Conflict as conflict:
        errors = [fault.as_json() for fault in conflict.faults]
        return JSONResponse({"errors": errors, "settle": conflict_address(job_id, conflict)}, 409)
    structural = any(one.do not in ("set", "share") for one in edits)
    whole = (
        told.whole
        or told.then is not None
        or structural
        or saved.shared
        or saved.places is not None
        or len(saved.touched) > AT_A_TIME
    )
    answer = _answer(request, saved, view, whole=whole, to_end=told.to_end)
    return JSONResponse(answer | {"refused": _refused([*saved.refused, *unread])["refused"]})


def _refused(unkept: Sequence[tuple[int, Fault]]) -> dict[str, Any]:
    """Edits that were not kept, each with its place among those told."""
    return {
        "errors": [fault.as_json() for _, fault in unkept],
        "refused": [{"at": at, **fault.as_json()} for at, fault in unkept],
    }


def _answer(request: Request, saved: Saved, view: View, *, whole: bool, to_end: bool) -> dict[str, Any]:
    columns = chosen_columns(view.columns)
    store = store_of(request)
    families = families_of(store)
    count = len(saved.values["drawer"])
    piece = min(view.start + AT_A_TIME, count)
    # Rows written under the last one stay on the page; what a paste brings is shown piece by piece.
    grown = to_end and not (whole and count > view.start + AT_A_TIME + ROWS_BEYOND)
    shown = range(view.start, count if grown else piece)
    places = shown if whole else [at for at in saved.touched if at in shown]
    rows = rows_of(saved.job.id, saved.values, places, columns, families)
    drawn = {row.place: _row_text(row) for row in rows}
    blank = _row_text(blank_row(saved.values, count, columns))
    return {
        "revision": saved.job.revision,
        "count": count,
        "rows": drawn,
        "blank": blank,
        "to_end": shown.stop >= count,
        "pieces": _pieces_text(saved.job.id, view, count),
        "whole": whole,
        "places": saved.places,
        "remarks": list(saved.remarks),
        "can_undo": saved.job.can_undo,
        "can_redo": saved.job.can_redo,
        "shared": _shared_texts(saved.values) if saved.shared else None,
    }


def _pieces(count: int) -> list[tuple[int, int]]:
    """The pieces of a schedule of so many rows: first row from 0, last row from 1."""
    return [(first, min(first + AT_A_TIME, count)) for first in range(0, count, AT_A_TIME)]


def _pieces_text(job_id: str, view: View, count: int) -> str:
    template = environment().get_template("_pieces.html")
    return template.render(job_id=job_id, view=view, start=view.start, pieces=_pieces(count))


def _shared_texts(values: Mapping[str, Any]) -> dict[str, str]:
    """What the fields of the whole job hold, by their names."""
    defaults, known = values.get("defaults") or {}, schedule_columns()
    fields = {f"defaults.{key}": text_of(defaults, known[key].column) for key in shared_fields(values)}
    return {"title": str(values.get("title", "")), "units": str(values.get("units", "mm")), **fields}


def _row_text(row: Any) -> str:
    template = environment().get_template("_schedule_row.html")
    return template.render(row=row)


@router.get("/jobs/{job_id}/block")
def show_block(
    request: Request, job_id: str, view: Viewed, rows: Annotated[str | None, Query(max_length=30_000)] = None
) -> Response:
    """Rows as text with tabs, for a spreadsheet, under a heading of keys; `rows`: "0,1,4", all without."""
    values = revisions_of(request).values(store_of(request).job(job_id))
    wanted = None if rows is None else [int(one) for one in rows.split(",") if one.isdecimal()]
    return block_text(values, wanted, view)


def block_text(values: Mapping[str, Any], rows: Sequence[int] | None, view: View) -> Response:
    """Rows of a job as text with tabs."""
    columns = chosen_columns(view.columns)
    drawers = values["drawer"]
    places = [at for at in (range(len(drawers)) if rows is None else rows) if at < len(drawers)]
    cells = [[filed_text_of(drawers[at], column.column) for column in columns] for at in places]
    text = write_block([[column.key for column in columns], *cells])
    return PlainTextResponse(text, media_type="text/tab-separated-values; charset=utf-8")


@router.get("/jobs/{job_id}/totals")
def show_totals(request: Request, job_id: str) -> Response:
    """The totals alone, for a page that asks for them after an edit."""
    job = store_of(request).job(job_id)
    values = revisions_of(request).values(job)
    families = families_of(store_of(request))
    totals = job_totals(values, families)
    moving = format_mass(totals.moving, units_of(values))
    balances = balances_of_values(values, families)
    return page(
        request,
        "_totals.html",
        totals=totals,
        moving=moving,
        balances=balances,
        balance_job=job_id,
        fresh=True,
    )


def schedule_page(
    request: Request, job_id: str, view: View, *, remarks: tuple[str, ...] = (), status: int = 200
) -> Response:
    """The page of a schedule as it is stored now."""
    store = store_of(request)
    job: StoredJob = store.job(job_id)
    values = revisions_of(request).values(job)
    families = families_of(store)
    columns = chosen_columns(view.columns)
    count = len(values["drawer"])
    start = min(view.start, max(count - 1, 0) // AT_A_TIME * AT_A_TIME)
    end = min(start + AT_A_TIME, count)
    rows = rows_of(job_id, values, range(start, end), columns, families)
    blanks = [blank_row(values, count + at, columns) for at in range(BLANK_ROWS)] if end == count else []
    totals = job_totals(values, families) if count <= 2 * AT_A_TIME else None
    faults = shared_faults(values)
    defaults = values.get("defaults") or {}
    known = schedule_columns()
    shared = [(known[key], text_of(defaults, known[key].column)) for key in shared_fields(values)]
    return page(
        request,
        "job.html",
        status=status,
        job=job,
        values=values,
        view=View(view.columns, start),
        columns=columns,
        rows=rows,
        blanks=blanks,
        pieces=_pieces(count),
        job_id=job_id,
        start=start,
        shared=shared,
        shared_faults=faults,
        wrong_shared={place_of(fault)[2].removeprefix("defaults."): fault for fault in faults},
        totals=totals,
        balances=balances_of_values(values, families),
        balance_job=job_id,
        units=units_of(values),
        remarks=remarks,
        slides_since=slides_section(store, job, values, "schedule"),
        known=known,
        first_columns=FIRST_COLUMNS,
        moving="" if totals is None else format_mass(totals.moving, units_of(values)),
        lists=_lists([family.id for family in families]),
    )


def _lists(families: list[str]) -> dict[str, tuple[str, ...]]:
    """Words that a cell offers, by the key of its column."""
    told = {column.key: column.choices for column in schedule_columns().values() if column.choices}
    told["slide"] = ("auto", *families)
    told["contents"] = tuple(sorted(contents_preset_ids()))
    return told
