"""The slide families over HTTP: the shipped ones and the store's own."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from starlette.responses import Response

from drawerwright.model.family import SlideFamily
from drawerwright.web.api.answering import answer
from drawerwright.web.api.describing import described
from drawerwright.web.families import families_of, own_families

router = APIRouter(tags=["slides"])


@router.get("/slides", **described("slides", answer="Slides"))
async def slides(request: Request) -> Response:
    """Every slide family that answers here, in the order in which they are offered."""
    store = request.app.state.store
    families = [family_values(one) for one in families_of(store)]
    own = [family.id for family in own_families(store)]
    return answer({"schema": "drawerwright/slides/1", "families": families, "own": own})


def family_values(family: SlideFamily) -> dict[str, Any]:
    """A family with the keys of its file; lengths in mm, masses in kg."""
    return family.model_dump(mode="json", by_alias=True)
