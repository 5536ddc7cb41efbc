"""Lining up at the bench: gaps typed where they are on the front, moves told in the order of work."""

from __future__ import annotations

import secrets
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any
from urllib.parse import quote

from fastapi import APIRouter, Request
from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from drawerwright.errors import Fault, InputError
from drawerwright.files.gaps import SETTING_COLUMNS
from drawerwright.model.fitted import FittedDrawer
from drawerwright.store import StoredGaps, StoredJob
from drawerwright.units import BareUnit
from drawerwright.web.bench.column import (
    ColumnTold,
    column_states,
    column_told,
    fronts_of,
    setting_faults,
    setting_fields,
)
from drawerwright.web.bench.gaps import (
    CORNERS,
    EDGES,
    gap_rows,
    gap_words,
    has_gaps,
    left_words,
    read_gap_form,
    sent_once,
)
from drawerwright.web.bench.rounds import (
    FOR_BOTH,
    FrontNow,
    ToldTwice,
    conflicts_of,
    fronts_now,
    round_of,
)
from drawerwright.web.bench.steps import lining_up_step
from drawerwright.web.device_name import name_told
from drawerwright.web.families import families_of
from drawerwright.web.faults import UNPROCESSABLE
from drawerwright.web.fitting import JobAnswer, answer_values
from drawerwright.web.pages.forms import Form, store_of
from drawerwright.web.render import page
from drawerwright.web.schedule.form import text_fields

router = APIRouter(include_in_schema=False)


@dataclass(frozen=True, slots=True)
class _Refused:
    """A form that was not kept: as typed, faults by field, others, and gaps that do not agree."""

    told: Mapping[str, str]
    at_fields: Mapping[str, Fault] = field(default_factory=dict)
    others: tuple[Fault, ...] = ()
    conflicts: tuple[ToldTwice, ...] = ()


def gaps_address(job_id: str, name: str) -> str:
    """The page on which a front's gaps are typed."""
    return f"/jobs/{quote(job_id, safe='')}/bench/{quote(name, safe='')}/gaps"


@router.get("/jobs/{job_id}/bench/{name:path}/gaps")
def gaps(request: Request, job_id: str, name: str) -> Response:
    """The front with a field at each gap; under it what to turn for what was measured last."""
    return _page(request, store_of(request).job(job_id), name, None)


@router.post("/jobs/{job_id}/bench/{name:path}/gaps")
def keep_gaps(request: Request, job_id: str, name: str, form: Form) -> Response:
    """Keep one measuring, or that the front was turned; the fields again where something does not read.

    `turned`: the number of the measuring whose moves were made. `for_both`: gaps shared with a neighbour hold
    in place of what was measured there.
    """
    job = store_of(request).job(job_id)
    told = dict(text_fields(form))
    answer, fitted = _front_of(request, job, name)
    now = fronts_now(store_of(request).gaps_now(job.id))
    if "turned" in told:
        return _keep_turned(request, job, name, fitted, now.get(name, FrontNow()), told)
    assert fitted.slide is not None
    try:
        readings, faults = read_gap_form(name, told, _unit(job))
    except InputError as error:
        return _page(request, job, name, _Refused(told, others=error.faults))
    faults = {**setting_faults(fitted.slide.family, told), **faults}
    if faults:
        return _page(request, job, name, _Refused(told, faults))
    kept: dict[str, Any] = {**readings, **_cleared(told, now.get(name, FrontNow()))}
    if told.get(FOR_BOTH):
        kept[FOR_BOTH] = True
    conflicts = _conflicts_with(request, job, answer, name, kept)
    if conflicts:
        return _page(request, job, name, _Refused(told, conflicts=conflicts))
    token = sent_once(told.get("token", ""), kept)
    store_of(request).add_gaps(job.id, name, kept, by=name_told(request), token=token)
    return RedirectResponse(f"{gaps_address(job.id, name)}#moves", 303)


def _keep_turned(
    request: Request,
    job: StoredJob,
    name: str,
    fitted: FittedDrawer,
    now: FrontNow,
    told: Mapping[str, str],
) -> Response:
    """Keep where the adjusters stand after the moves that a page told; once, however often it is pressed."""
    assert fitted.slide is not None
    stands = {column: told[column] for column in SETTING_COLUMNS if told.get(column)}
    if told["turned"] != str(now.number):
        says = "was measured again since that page was shown: look at what it tells now"
        raise InputError([Fault(f"front {name}", "", says, "the moves that are told now")])
    faults = setting_faults(fitted.slide.family, stands)
    if faults or not stands:
        raise InputError(
            list(faults.values()) or [Fault("turned", "", "tells no adjuster", "set_height_left")]
        )
    if not now.turned:
        values = {column: round(float(marks)) for column, marks in stands.items()}
        token = sent_once(f"turned {now.number}", {key: str(marks) for key, marks in values.items()})
        store_of(request).add_gaps(job.id, name, values, by=name_told(request), token=token)
    back = told.get("page", name)
    return RedirectResponse(f"{gaps_address(job.id, back)}#moves", 303)


def _cleared(told: Mapping[str, str], now: FrontNow) -> dict[str, str]:
    """Adjusters whose place was known, and is told to be not known any more."""
    return {column: "" for column in now.settings if column in told and not told[column].strip()}


def _conflicts_with(
    request: Request, job: StoredJob, answer: JobAnswer, name: str, kept: Mapping[str, Any]
) -> tuple[ToldTwice, ...]:
    """Shared gaps that would not agree, were this measuring kept."""
    before = store_of(request).gaps_now(job.id)
    number = max((one.id for one in before), default=0) + 1
    now = fronts_now([*before, StoredGaps(number, name, dict(kept), datetime.now(UTC), "")])
    fitted = fronts_of(answer, name)
    return tuple(
        one for one in conflicts_of(fitted, round_of(fitted, now).rows) if name in (one.lower, one.upper)
    )


def _page(request: Request, job: StoredJob, name: str, refused: _Refused | None) -> Response:
    store, units = store_of(request), _unit(job)
    answer, fitted = _front_of(request, job, name)
    assert fitted.slide is not None
    kept = store.gaps_now(job.id)
    now = fronts_now(kept)
    here = now.get(name, FrontNow())
    column: ColumnTold | None = None
    faults: Sequence[Fault] = () if refused is None else refused.others
    if refused is None and any(one.id in now for one in fronts_of(answer, name)):
        try:
            column = column_told(answer, name, now, units)
        except InputError as error:
            faults = error.faults
    shown = None if column is None else column.of(name)
    front = None if shown is None else shown.front
    conflicts = refused.conflicts if refused is not None else () if column is None else column.conflicts
    return page(
        request,
        "bench_gaps.html",
        status=UNPROCESSABLE if refused is not None else 200,
        job=job,
        drawer=name,
        fitted=fitted,
        unit=units,
        edges=EDGES,
        corners=CORNERS,
        words={key: gap_words(key) for key in (*EDGES, *CORNERS)},
        told=_fields(here) if refused is None else refused.told,
        known=bool(here.settings),
        settings=setting_fields(fitted.slide.family),
        at_fields={} if refused is None else refused.at_fields,
        refused=faults,
        unkept=refused is not None,
        conflicts=conflicts,
        column=column,
        states=column_states(fronts_of(answer, name), now),
        shown=shown,
        front=front,
        rows=() if front is None else gap_rows(front, units),
        left_words=left_words,
        addresses={one.id: gaps_address(job.id, one.id) for one in fronts_of(answer, name)},
        token=secrets.token_urlsafe(12),
        measured=sum(
            one.drawer == name and any(key in one.values for key in (*EDGES, *CORNERS)) for one in kept
        ),
        back=f"/jobs/{quote(job.id, safe='')}/bench/{quote(name, safe='')}#{lining_up_step(fitted)}",
    )


def _fields(here: FrontNow) -> dict[str, str]:
    """What stands in the fields: what was measured last, unless turned since; how the adjusters stand."""
    readings = {} if here.waits else {key: str(value) for key, value in here.readings.items()}
    return {**readings, **{key: f"{marks:g}" for key, marks in here.settings.items()}}


def _front_of(request: Request, job: StoredJob, name: str) -> tuple[JobAnswer, FittedDrawer]:
    """The drawer whose front is lined up, with its cabinet's; 404 where there is none."""
    found = answer_values(job.values, families_of(store_of(request)), units=_unit(job), only=name)
    for one in found.drawers:
        if one.name == name and one.fitted is not None and has_gaps(one.fitted):
            return found, one.fitted
    raise HTTPException(404, f"no drawer {name[:80]} with a front is hung in this job")


def _unit(job: StoredJob) -> BareUnit:
    return "in" if job.values.get("units") == "in" else "mm"
