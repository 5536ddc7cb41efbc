"""`POST /api/v1/carry`: load, sag and forces over the travel; of a stored job and one opening as well."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, Any, Final

from fastapi import APIRouter, Query, Request
from starlette.responses import Response

from drawerwright.catalogue.materials import Materials
from drawerwright.errors import InputError
from drawerwright.fit import fit_job
from drawerwright.fit.compare import compare_slides
from drawerwright.model.family import SlideFamily
from drawerwright.model.job import Job
from drawerwright.store import Store
from drawerwright.units import BareUnit, ShownUnits, parse_offset, parse_size
from drawerwright.web.aims import NO_AIM, fitted_for
from drawerwright.web.api.answering import answer, beside
from drawerwright.web.api.asking import JOB_KEYS, Reader
from drawerwright.web.api.bounds import check_drawn
from drawerwright.web.api.describing import described, in_query
from drawerwright.web.api.jobs import AtRevision, Kept, Shown
from drawerwright.web.api.quick import PARAMETERS as OPENING
from drawerwright.web.api.quick import by_key, quick_answer
from drawerwright.web.api.saving import revision_told
from drawerwright.web.carried.asked import FIELDS, CarryQuestion, read_question
from drawerwright.web.families import families_of
from drawerwright.web.fitting import read_values
from drawerwright.web.quick_job import read_question as read_opening

router = APIRouter(tags=["carry"])

POSITIONS: Final = 41
"""Extensions unless told: as the command has it. The study itself, whose numerics load slowly, is brought in
when it is first asked for."""

CARRY_KEYS: Final = (*JOB_KEYS, "drawer", "compare", "positions", *FIELDS)
ANSWER: Final = "CarriedOrCompared"
_TILT: Final = "How far the cabinet leans forward, degrees; negative, back."
_OFF_CENTRE: Final = "How far right of the middle the load's middle lies; negative, left."
_SAG_LIMIT: Final = "How far a front may sag; else as the slide family says."
_COMPARE: Final = "Slides side by side: families, each alone or as family/length; two at least."
QUICK: Final = (
    in_query("tilt", {"type": "string"}, _TILT, example="1"),
    in_query("off_centre", {"type": "string"}, _OFF_CENTRE, example="40"),
    in_query("sag_limit", {"type": "string"}, _SAG_LIMIT, example="4"),
    *OPENING,
)


@router.post("/carry", **described("carry", body="CarryRequest", answer=ANSWER))
async def carry(request: Request) -> Response:
    """Load, sag, forces, closing and tipping of each drawer: the document of `drawerwright carry --json`.

    With `compare` that of `drawerwright carry --compare --json`.
    """
    raw = await request.body()
    store: Store = request.app.state.store
    return await beside(raw, lambda body: answer(carry_answer(body, store)))


@router.get("/jobs/{job}/carry", **described("carry_job", answer=ANSWER, also=(404,)))
def carry_stored(
    store: Kept,
    job: str,
    drawer: Annotated[str | None, Query(description="Only this drawer.")] = None,
    tilt: Annotated[float, Query(description=_TILT)] = 0.0,
    positions: Annotated[
        int, Query(description="How many extensions, from closed to fully out.")
    ] = POSITIONS,
    off_centre: Annotated[str | None, Query(description=_OFF_CENTRE)] = None,
    sag_limit: Annotated[str | None, Query(description=_SAG_LIMIT)] = None,
    compare: Annotated[list[str] | None, Query(description=_COMPARE)] = None,
    revision: AtRevision = None,
    units: Shown = None,
) -> Response:
    """The same of a stored job, with the slides that its store offers."""
    stored = store.job(job, revision_told(revision))
    bare: BareUnit = "in" if stored.values.get("units") == "in" else "mm"
    asked = read_question({"off_centre": off_centre or "", "sag_limit": sag_limit or ""}, bare)
    families, shown = families_of(store), units or bare
    check_drawn(1 if drawer is not None else max(len(stored.values["drawer"]), 1), positions)
    options: dict[str, Any] = {
        **asked.options,
        "tilt_deg": tilt,
        "only": drawer,
        "positions": positions,
        "besides": asked.faults,
    }
    if compare:
        return answer(compared(read_values(stored.values), families, compare, shown, None, options))
    from drawerwright.carry import carry_document, carry_job

    fitted, _ = fitted_for(stored.values, families, NO_AIM, units)
    return answer(carry_document(carry_job(fitted, units=shown, where="", **options)))


@router.get("/quick/carry", **described("carry_quick", answer="Carried", parameters=QUICK))
def carry_quick(request: Request) -> Response:
    """What the drawer of one opening carries, asked in the address: twin of the quick answer's section."""
    from drawerwright.carry import carry_document, carry_job

    question = read_opening(request.query_params.multi_items(), besides=FIELDS)
    bare: BareUnit = "in" if question.units == "in" else "mm"
    asked: CarryQuestion = read_question(dict(request.query_params), bare)
    if asked.faults:
        raise InputError(map(by_key, [*question.faults, *asked.faults]))
    fitted = quick_answer(question, families_of(request.app.state.store))
    return answer(carry_document(carry_job(fitted, units=question.units, where="", **asked.options)))


def carry_answer(body: dict[str, Any], store: Store) -> dict[str, Any]:
    """The document of a study asked for by a request's body. Raises InputError with all its faults."""
    reader = Reader(body, CARRY_KEYS)
    drawer, wanted = reader.text("drawer"), reader.texts("compare")
    tilt, positions = reader.number("tilt", 0.0), reader.count("positions", POSITIONS)
    off_centre = reader.length("off_centre", parse_offset)
    sag_limit = reader.length("sag_limit", parse_size)
    asked = reader.asked(store)
    check_drawn(1 if drawer is not None else len(asked.job.drawers), positions)
    options: dict[str, Any] = {
        "only": drawer,
        "tilt_deg": tilt,
        "positions": positions,
        "off_centre": off_centre or 0.0,
        "sag_limit": sag_limit,
    }
    if body.get("compare") is not None:
        return compared(asked.job, asked.families, wanted, asked.units, asked.materials, options)
    from drawerwright.carry import carry_document, carry_job

    fitted = fit_job(asked.job, asked.families, units=asked.units, materials=asked.materials)
    return carry_document(
        carry_job(fitted, units=asked.units, materials=asked.materials, where="", **options)
    )


def compared(
    job: Job,
    families: Sequence[SlideFamily],
    wanted: Sequence[str],
    units: ShownUnits,
    materials: Materials | None,
    options: dict[str, Any],
) -> dict[str, Any]:
    """The document of slides side by side. Raises InputError where one of them is unknown, or alone."""
    from drawerwright.carry.comparing import carry_comparison, carry_comparison_document

    comparison = compare_slides(job, families, wanted, units=units, materials=materials, where="compare")
    return carry_comparison_document(
        carry_comparison(comparison, units=units, materials=materials, where="", **options)
    )
