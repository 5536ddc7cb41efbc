"""`POST /api/v1/season`: gaps of solid fronts over a year; the same of a stored job."""

from __future__ import annotations

from typing import Annotated, Any, Final

from fastapi import APIRouter, Query, Request
from starlette.responses import Response

from drawerwright.align.season_document import season_document
from drawerwright.errors import Fault, InputError
from drawerwright.fit import fit_job
from drawerwright.store import Store
from drawerwright.units import BareUnit
from drawerwright.web.aims import NO_AIM, fitted_for
from drawerwright.web.api.answering import answer, beside
from drawerwright.web.api.asking import JOB_KEYS, Reader
from drawerwright.web.api.describing import described
from drawerwright.web.api.jobs import AtRevision, Kept
from drawerwright.web.api.saving import revision_told
from drawerwright.web.families import families_of
from drawerwright.web.season.asked import SEASON_KEYS, read_season

router = APIRouter(tags=["season"])

_KEYS: Final = (*JOB_KEYS, *SEASON_KEYS, "drawer")


def _query(says: str) -> Any:
    return Query(max_length=80, description=says)


@router.post("/season", **described("season", body="SeasonRequest", answer="Seasons"))
async def season(request: Request) -> Response:
    """The gap to set today at fronts of solid wood: the document of `drawerwright season --json`."""
    raw = await request.body()
    store: Store = request.app.state.store
    return await beside(raw, lambda body: answer(season_answer(body, store)))


@router.get("/jobs/{job}/season", **described("season_job", answer="Seasons", also=(404,)))
def season_stored(
    store: Kept,
    job: str,
    species: Annotated[str | None, _query("Species of the solid fronts. It must be told.")] = None,
    cut: Annotated[str | None, _query("How the boards are sawn.")] = None,
    across: Annotated[str | None, _query("Which size of a front is across the grain.")] = None,
    workshop: Annotated[str | None, _query("Air where the fronts were cut: 20C/45.")] = None,
    now: Annotated[str | None, _query("Air of the house now.")] = None,
    dry: Annotated[str | None, _query("Air of its driest month.")] = None,
    wet: Annotated[str | None, _query("Air of its dampest month.")] = None,
    limit: Annotated[str | None, _query("The smallest gap that is allowed.")] = None,
    fresh: Annotated[
        bool, Query(description="The fronts have just come from the workshop: they have its moisture still.")
    ] = False,
    drawer: Annotated[str | None, Query(description="Only this drawer.")] = None,
    revision: AtRevision = None,
) -> Response:
    """The same of a stored job. The twin of the page of its seasons."""
    stored = store.job(job, revision_told(revision))
    told = {
        "species": species,
        "cut": cut,
        "across": across,
        "workshop": workshop,
        "now": now,
        "dry": dry,
        "wet": wet,
        "limit": limit,
    }
    faults: list[Fault] = []
    unit: BareUnit = "in" if stored.values.get("units") == "in" else "mm"
    asked = read_season(told, unit, faults, settled=not fresh)
    if asked is None:
        raise InputError(faults)
    fitted, _ = fitted_for(stored.values, families_of(store), NO_AIM, None)
    return answer(season_document(asked.seasons(fitted, only=drawer)))


def season_answer(body: dict[str, Any], store: Store) -> dict[str, Any]:
    """The document of the seasons asked for by a request's body. Raises InputError with all its faults."""
    reader = Reader(body, _KEYS)
    drawer, fresh = reader.text("drawer"), reader.truth("fresh")
    wanted = read_season(body, reader.bare_unit(), reader.faults, settled=not fresh)
    asked = reader.asked(store)
    assert wanted is not None
    fitted = fit_job(asked.job, asked.families, units=asked.units, materials=asked.materials)
    return season_document(wanted.seasons(fitted, only=drawer))
