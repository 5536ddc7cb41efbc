"""One slide for every drawer, chosen for the whole job: what that brings, what it costs, and taking it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated
from urllib.parse import quote

from fastapi import APIRouter, Depends, Query, Request
from starlette.responses import RedirectResponse, Response

from drawerwright.cli.whole_job_words import whole_job_words
from drawerwright.errors import Fault, InputError
from drawerwright.fit.whole_job import WholeJobChoice
from drawerwright.store import Conflict
from drawerwright.units import format_length
from drawerwright.web.aims import AIMS, AimAsked, fitted_for
from drawerwright.web.device_name import name_told
from drawerwright.web.families import families_of
from drawerwright.web.fitting import Values
from drawerwright.web.pages.conflict import conflict_address
from drawerwright.web.pages.forms import Form, revision_told, store_of
from drawerwright.web.render import page
from drawerwright.web.schedule.answers import units_of
from drawerwright.web.schedule.edits import Edit, SetCell
from drawerwright.web.schedule.form import text_fields
from drawerwright.web.schedule.saving import revisions_of
from drawerwright.web.taken.keeping import slides_open
from drawerwright.web.taken.section import slides_section

AIM_WORDS = {
    "fewest_lengths": ("Fewest lengths", "as few lengths to order and to keep as can be"),
    "cheapest": ("Cheapest slides", "the least sum of the prices in the families"),
    "fewest_setups": ("Fewest setups", "as few boring patterns and fence settings as can be"),
}

router = APIRouter(include_in_schema=False)


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked for: a name of `AIMS` or nothing, and how much a drawer may give up, as it was typed."""

    aim: str
    lose: str

    @property
    def told(self) -> AimAsked:
        """The same for fitting."""
        return AimAsked(AIMS[self.aim], self.lose or None)


def asked_in(
    aim: Annotated[str, Query(max_length=30)] = "", lose_at_most: Annotated[str, Query(max_length=40)] = ""
) -> Asked:
    """What an address asks for."""
    return Asked(aim if aim in AIMS else "", lose_at_most.strip())


Choosing = Annotated[Asked, Depends(asked_in)]


@router.get("/jobs/{job_id}/choice")
def show_choice(request: Request, job_id: str, asked: Choosing) -> Response:
    """What the whole job's choice would be, beside each drawer's own."""
    store = store_of(request)
    job = store.job(job_id)
    values = revisions_of(request).values(job)
    choice: WholeJobChoice | None = None
    faults: tuple[Fault, ...] = ()
    if asked.aim:
        try:
            choice = _choice(request, values, asked)
        except InputError as error:
            faults = error.faults
    units = units_of(values)
    words = whole_job_words(choice, units) if choice else []
    return page(
        request,
        "choice.html",
        status=422 if faults else 200,
        job=job,
        asked=asked,
        aims=AIM_WORDS,
        choice=choice,
        words=words,
        lost={one.drawer: format_length(one.lost, units) for one in choice.moved} if choice else {},
        faults=faults,
        units=units,
        slides_since=slides_section(store, job, values, "choice"),
        left_open=slides_open(values),
    )


@router.post("/jobs/{job_id}/choice")
def take_choice(request: Request, job_id: str, asked: Choosing, form: Form) -> Response:
    """Write the slides of the choice into the drawers that would get others alone."""
    based_on = revision_told(dict(text_fields(form)))
    values = revisions_of(request).at(job_id, based_on)
    if asked.aim:
        choice = _choice(request, values, asked)
        edits = _edits(values, choice) if choice else []
        try:
            if edits:
                revisions_of(request).save(job_id, edits, based_on=based_on, by=name_told(request))
        except Conflict as conflict:
            return RedirectResponse(conflict_address(job_id, conflict), 303)
    return RedirectResponse(f"/jobs/{quote(job_id, safe='')}", 303)


def _choice(request: Request, values: Values, asked: Asked) -> WholeJobChoice | None:
    return fitted_for(values, families_of(store_of(request)), asked.told, units_of(values))[1]


def _edits(values: Values, choice: WholeJobChoice) -> list[Edit]:
    """A slide told for each drawer that is moved; its length in mm, also in a job of inches."""
    unit = " mm" if values.get("units") == "in" else ""
    told = {one.drawer: f"{one.taken[0]}/{one.taken[1]:g}{unit}" for one in choice.moved}
    names = [str(one.get("id", "")).strip() for one in values["drawer"]]
    return [SetCell(row=at, key="slide", text=told[name]) for at, name in enumerate(names) if name in told]
