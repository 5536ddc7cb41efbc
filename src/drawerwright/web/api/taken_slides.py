"""Slides of a stored job that were taken with other families, over HTTP: which, keeping, taking, holding."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from starlette.responses import Response

from drawerwright.errors import Fault, InputError
from drawerwright.model.fitted import FittedDrawer
from drawerwright.units import show_value
from drawerwright.web.api.answering import answer
from drawerwright.web.api.describing import described
from drawerwright.web.api.jobs import Body, Kept
from drawerwright.web.api.saving import read_saving
from drawerwright.web.schedule.saving import revisions_of
from drawerwright.web.taken.changes import SlideChange, changed_since
from drawerwright.web.taken.keeping import Written, hold_slides, keep_slides, take_slides

router = APIRouter(prefix="/jobs/{job}/slides", tags=["jobs"])


@router.get("", **described("slides_since", answer="SlidesSince", also=(404,)))
def slides_since(store: Kept, job: str) -> Response:
    """Which drawers take other slides, or are cut otherwise, since the slides of the job were taken."""
    kept = store.job(job)
    found = changed_since(store, kept, kept.values)
    return answer(
        {
            "schema": "drawerwright/slides-since/1",
            "revision": kept.revision,
            "seen": None if found is None else found.seen,
            "drawers": [] if found is None else [_change(one) for one in found.changes],
            "gone": [] if found is None else list(found.gone),
        }
    )


@router.post("/keep", **described("keep_slides", body="Said", answer="SlidesWritten", also=(404, 409)))
def keep(request: Request, job: str, body: Body) -> Response:
    """Write the slides as they were taken into the drawers that get others now, as one revision."""
    told = read_saving(body, based=False)
    return _written(keep_slides(revisions_of(request), job, by=told.by))


@router.post("/hold", **described("hold_slides", body="Said", answer="SlidesWritten", also=(404, 409)))
def hold(request: Request, job: str, body: Body) -> Response:
    """Write the slides that are chosen now into every drawer that leaves them open, as one revision."""
    told = read_saving(body, based=False)
    return _written(hold_slides(revisions_of(request), job, by=told.by))


@router.post("/take", **described("take_slides", body="SlidesSeen", answer="SlidesWritten", also=(404,)))
def take(store: Kept, job: str, body: Body) -> Response:
    """Take the slides as they are chosen now: those of the families that were `seen`."""
    told = read_saving(body, "seen", based=False)
    seen = told.parts["seen"]
    if not isinstance(seen, str):
        raise InputError([Fault("seen", show_value(seen), "is not text", "what …/slides told")])
    return _written(Written(take_slides(store, job, seen, by=told.by), ()))


def _written(told: Written) -> Response:
    return answer(
        {
            "schema": "drawerwright/slides-written/1",
            "revision": told.revision,
            "written": list(told.written),
            "not_kept": list(told.not_kept),
        }
    )


def _change(one: SlideChange) -> dict[str, Any]:
    figures = [{"figure": each.label, "before": each.before, "now": each.now} for each in one.figures]
    return {
        "drawer": one.drawer,
        "before": _slide(one.before),
        "now": _slide(one.now),
        "figures": figures,
    }


def _slide(fitted: FittedDrawer | None) -> dict[str, Any] | None:
    """Slide and box, with the keys that they have in the answer of a job; None where there is none."""
    if fitted is None or fitted.slide is None or fitted.box is None:
        return None
    slide, box = fitted.slide, fitted.box
    return {
        "family": slide.family.id,
        "nominal": slide.length.nominal,
        "mount": slide.mount,
        "box": {"outside_width": box.outside_width, "height": box.height, "length": box.length},
    }
