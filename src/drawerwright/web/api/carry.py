"""`POST /api/v1/carry`: load, sag and forces over the travel; the same of a stored job."""

from __future__ import annotations

from typing import Annotated, Any, Final

from fastapi import APIRouter, Query, Request
from starlette.responses import Response

from drawerwright.fit import fit_job
from drawerwright.store import Store
from drawerwright.units import parse_offset, parse_size
from drawerwright.web.aims import NO_AIM, fitted_for
from drawerwright.web.api.answering import answer, worked
from drawerwright.web.api.asking import JOB_KEYS, Reader
from drawerwright.web.api.body import object_of
from drawerwright.web.api.describing import described
from drawerwright.web.api.jobs import AtRevision, Kept, Shown
from drawerwright.web.api.saving import revision_told
from drawerwright.web.families import families_of

router = APIRouter(tags=["carry"])

POSITIONS: Final = 41
"""Extensions unless told: as the command has it. The study itself, whose numerics load slowly, is brought in
when it is first asked for."""

CARRY_KEYS: Final = (*JOB_KEYS, "drawer", "tilt", "positions", "off_centre", "sag_limit")


@router.post("/carry", **described("carry", body="CarryRequest", answer="Carried"))
async def carry(request: Request) -> Response:
    """Load, sag, forces, closing and tipping of each drawer: the document of `drawerwright carry --json`."""
    raw = await request.body()
    store: Store = request.app.state.store
    return await worked(len(raw), lambda: answer(carry_answer(object_of(raw), store)))


@router.get("/jobs/{job}/carry", **described("carry_job", answer="Carried", also=(404,)))
def carry_stored(
    store: Kept,
    job: str,
    drawer: Annotated[str | None, Query(description="Only this drawer.")] = None,
    tilt: Annotated[float, Query(description="How far the cabinet leans forward, degrees.")] = 0.0,
    positions: Annotated[
        int, Query(description="How many extensions, from closed to fully out.")
    ] = POSITIONS,
    revision: AtRevision = None,
    units: Shown = None,
) -> Response:
    """The same of a stored job, with the slides that its store offers."""
    from drawerwright.carry import carry_document, carry_job

    stored = store.job(job, revision_told(revision))
    fitted, _ = fitted_for(stored.values, families_of(store), NO_AIM, units)
    shown = units or ("in" if stored.values.get("units") == "in" else "mm")
    carried = carry_job(fitted, only=drawer, tilt_deg=tilt, positions=positions, units=shown, where="")
    return answer(carry_document(carried))


def carry_answer(body: dict[str, Any], store: Store) -> dict[str, Any]:
    """The document of a study asked for by a request's body. Raises InputError with all its faults."""
    from drawerwright.carry import carry_document, carry_job

    reader = Reader(body, CARRY_KEYS)
    drawer = reader.text("drawer")
    tilt, positions = reader.number("tilt", 0.0), reader.count("positions", POSITIONS)
    off_centre = reader.length("off_centre", parse_offset)
    sag_limit = reader.length("sag_limit", parse_size)
    asked = reader.asked(store)
    fitted = fit_job(asked.job, asked.families, units=asked.units, materials=asked.materials)
    carried = carry_job(
        fitted,
        only=drawer,
        tilt_deg=tilt,
        positions=positions,
        off_centre=off_centre or 0.0,
        sag_limit=sag_limit,
        units=asked.units,
        materials=asked.materials,
        where="",
    )
    return carry_document(carried)
