"""The slide families over HTTP: the shipped ones to read, the store's own to keep, change and throw away."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Query
from starlette.responses import Response

from drawerwright.catalogue.families import families_from_mappings, family_named
from drawerwright.catalogue.family_check import check_family
from drawerwright.errors import Fault, InputError
from drawerwright.model.family import SlideFamily
from drawerwright.store import NotInStore
from drawerwright.units import show_value
from drawerwright.web.api.answering import answer
from drawerwright.web.api.body import check_keys
from drawerwright.web.api.describing import described
from drawerwright.web.api.jobs import AtRevision, Body, Kept, Shown
from drawerwright.web.api.revisions import From, To
from drawerwright.web.api.saving import read_saving, revision_told
from drawerwright.web.api.stored import revision_values, stored_values
from drawerwright.web.families import families_of, own_families

router = APIRouter(prefix="/slides", tags=["slides"])


@router.get("", **described("slides", answer="Slides"))
def slides(store: Kept) -> Response:
    """Every slide family, in the order in which they are offered; `own`: the ids of the store's own."""
    families = [family_values(one) for one in families_of(store)]
    own = [family.id for family in own_families(store)]
    return answer({"schema": "drawerwright/slides/1", "families": families, "own": own})


@router.post("/check", **described("check_slides", body="CheckedSlides", answer="SlidesCheck"))
def check_slides(body: Body, units: Shown = None) -> Response:
    """Whether families can be used, and what is odd in them: `drawerwright slides check --json`."""
    faults: list[Fault] = []
    check_keys(body, ("slides",), faults)
    if faults:
        raise InputError(faults)
    told = []
    for family in families_from_mappings(body.get("slides"), where="slides"):
        remarks = [one.as_json() for one in check_family(family, units or "mm")]
        told.append({"id": family.id, "remarks": remarks})
    return answer({"schema": "drawerwright/slides-check/1", "families": told})


@router.get("/{slide}", **described("slide", answer="Slide", also=(404,)))
def slide(store: Kept, slide: str, revision: AtRevision = None) -> Response:
    """One family: its values in mm and kg, and as kept in the store where it is the shop's own."""
    try:
        kept = store.family(slide, revision_told(revision))
    except NotInStore:
        if revision is not None:
            raise
        kept = None
    if kept is not None:
        family = families_from_mappings([dict(kept.values)])[0]
    else:
        try:
            family = family_named(families_of(store), slide)
        except InputError as error:
            raise NotInStore(error.faults) from None
    stored = None if kept is None else stored_values(kept)
    return answer({"schema": "drawerwright/slides-show/1", "family": family_values(family), "stored": stored})


@router.put(
    "/{slide}",
    **described("save_slide", body="SavedSlide", answer="StoredSlide", makes=True, also=(404, 409)),
)
def save_slide(store: Kept, slide: str, body: Body) -> Response:
    """Save a family of the shop's own, made of revision `based_on`; without one, or null, it is new: 201."""
    new = body.get("based_on") is None
    told = read_saving(
        {key: value for key, value in body.items() if key != "based_on" or not new}, "values", based=not new
    )
    values = told.parts["values"]
    named = values.get("id") if isinstance(values, dict) else None
    if named != slide:
        says = "is not the id in the address: a family keeps its id"
        raise InputError([Fault("values id", show_value(named), says, show_value(slide))])
    saved = store.save_family(values, based_on=None if new else told.based_on, by=told.by, what=told.what)
    return answer(stored_values(saved), 201 if new and saved.revision == 1 else 200)


@router.delete("/{slide}", **described("bin_slide", answer="Done", also=(403, 404)))
def bin_slide(
    store: Kept,
    slide: str,
    sure: Annotated[
        str | None,
        Query(description="Of a family in the bin: its id or title again, to delete it for good."),
    ] = None,
) -> Response:
    """Put a family of the shop's own in the bin; one that lies there is deleted when `sure` says its id."""
    if sure is None:
        store.bin_family(slide)
        return answer({"done": f"family {slide} is in the bin"})
    store.delete_family(slide, sure=sure)
    return answer({"done": f"family {slide} is deleted for good"})


@router.post("/{slide}/restore", **described("restore_slide", answer="StoredSlide", also=(403, 404)))
def restore_slide(store: Kept, slide: str) -> Response:
    """Take a family out of the bin."""
    store.restore_family(slide)
    return answer(stored_values(store.family(slide)))


@router.get("/{slide}/revisions", **described("slide_revisions", answer="Revisions", also=(404,)))
def slide_revisions(store: Kept, slide: str) -> Response:
    """All saves of a family, the newest first."""
    listed = [revision_values(one) for one in store.family_revisions(slide)]
    return answer({"schema": "drawerwright/revisions/1", "revisions": listed})


@router.post(
    "/{slide}/undo", **described("undo_slide", body="TakenBack", answer="StoredSlide", also=(404, 409))
)
def undo_slide(store: Kept, slide: str, body: Body) -> Response:
    """Take back the change that made revision `based_on`, as a new revision."""
    told = read_saving(body)
    return answer(stored_values(store.undo_family(slide, based_on=told.based_on, by=told.by)))


@router.post(
    "/{slide}/redo", **described("redo_slide", body="TakenBack", answer="StoredSlide", also=(404, 409))
)
def redo_slide(store: Kept, slide: str, body: Body) -> Response:
    """Bring back what the last undo took back."""
    told = read_saving(body)
    return answer(stored_values(store.redo_family(slide, based_on=told.based_on, by=told.by)))


@router.get("/{slide}/difference", **described("slide_difference", answer="Difference", also=(404,)))
def slide_difference(store: Kept, slide: str, earlier: From, to: To) -> Response:
    """What differs between two revisions of a family, key by key and length by length."""
    told = store.compare_family(slide, revision_told(earlier, "from"), revision_told(to, "to"))
    return answer({"schema": "drawerwright/difference/1", **told.as_json()})


def family_values(family: SlideFamily) -> dict[str, Any]:
    """A family with the keys of its file; lengths in mm, masses in kg."""
    return family.model_dump(mode="json", by_alias=True)
