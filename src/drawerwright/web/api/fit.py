"""`POST /api/v1/fit` and `/api/v1/compare`: the commands' answers to a job that comes with the request."""

from __future__ import annotations

from typing import Any, Final

from fastapi import APIRouter, Request
from starlette.responses import Response

from drawerwright.fit import fit_document, fit_job
from drawerwright.fit.compare import compare_slides
from drawerwright.fit.compare_document import compare_document
from drawerwright.fit.whole_job import fit_whole_job
from drawerwright.fit.whole_job_document import with_whole_job
from drawerwright.store import Store
from drawerwright.web.api.answering import answer, beside, here_or_beside
from drawerwright.web.api.asking import AIM_KEYS, JOB_KEYS, Reader
from drawerwright.web.api.bounds import MOST_COMPARED, check_entries
from drawerwright.web.api.describing import described

router = APIRouter(tags=["fit"])

FIT_KEYS: Final = (*JOB_KEYS, *AIM_KEYS)
COMPARE_KEYS: Final = (*JOB_KEYS, "compare")


@router.post("/fit", **described("fit", body="FitRequest", answer="Fit"))
async def fit(request: Request) -> Response:
    """Choose slides, size boxes and run every check: the document of `drawerwright fit --json`."""
    raw = await request.body()
    store: Store = request.app.state.store
    return await here_or_beside(raw, lambda body: answer(fit_answer(body, store)))


@router.post("/compare", **described("compare", body="CompareRequest", answer="Comparison"))
async def compare(request: Request) -> Response:
    """Fit each drawer on each of the slides named: the document of `drawerwright fit --compare --json`."""
    raw = await request.body()
    store: Store = request.app.state.store
    return await beside(raw, lambda body: answer(compare_answer(body, store)))


def fit_answer(body: dict[str, Any], store: Store) -> dict[str, Any]:
    """The document of a fit asked for by a request's body. Raises InputError with all its faults."""
    reader = Reader(body, FIT_KEYS)
    aim, most = reader.aim(), reader.lose_at_most()
    asked = reader.asked(store)
    if aim is None:
        fitted = fit_job(asked.job, asked.families, units=asked.units, materials=asked.materials)
        return fit_document(fitted)
    fitted, choice = fit_whole_job(
        asked.job,
        asked.families,
        aim=aim,
        lose_at_most=most,
        units=asked.units,
        materials=asked.materials,
    )
    return with_whole_job(fit_document(fitted), choice)


def compare_answer(body: dict[str, Any], store: Store) -> dict[str, Any]:
    """The document of slides side by side. Raises InputError with all faults of the request."""
    reader = Reader(body, COMPARE_KEYS)
    wanted = reader.texts("compare")
    reader.read(lambda: check_entries(wanted, "compare", MOST_COMPARED))
    asked = reader.asked(store)
    comparison = compare_slides(
        asked.job, asked.families, wanted, units=asked.units, materials=asked.materials, where="compare"
    )
    return compare_document(comparison)
