"""A family's revisions: look at them, compare two, take back, bring back, throw away and restore."""

from __future__ import annotations

from typing import Annotated, Any, Final

from fastapi import APIRouter, Query, Request
from starlette.responses import RedirectResponse, Response

from drawerwright.catalogue.family_words import family_words
from drawerwright.store import Difference, PartChange
from drawerwright.units import show_value
from drawerwright.web.device_name import name_told
from drawerwright.web.families import shipped_families
from drawerwright.web.family.fields import text_of
from drawerwright.web.family.uses import uses_of
from drawerwright.web.pages.forms import Form, revision_told, store_of
from drawerwright.web.render import page
from drawerwright.web.schedule.form import text_fields

router = APIRouter(include_in_schema=False)

NOT_THERE: Final = "left out"


@router.get("/slides/{name}/history")
def history(
    request: Request,
    name: str,
    earlier: Annotated[int | None, Query(alias="from", ge=1)] = None,
    later: Annotated[int | None, Query(alias="to", ge=1)] = None,
) -> Response:
    """All saves of a family, the newest first; two of them compared where the address names them."""
    store = store_of(request)
    kept = store.family(name)
    revisions = store.family_revisions(name)
    if earlier is None or later is None:
        before = [one.number for one in revisions if one.how != "kept" and one.number < kept.revision]
        later, earlier = kept.revision, next(iter(before), kept.revision)
    return page(
        request,
        "family_history.html",
        kept=kept,
        revisions=revisions,
        earlier=earlier,
        later=later,
        changes=changes_of(store.compare_family(name, earlier, later)),
    )


@router.post("/slides/{name}/undo")
def undo(request: Request, name: str, form: Form) -> Response:
    """Take back the last change, as a new revision."""
    store_of(request).undo_family(
        name, based_on=revision_told(dict(text_fields(form))), by=name_told(request)
    )
    return RedirectResponse(f"/slides/{name}/history", 303)


@router.post("/slides/{name}/redo")
def redo(request: Request, name: str, form: Form) -> Response:
    """Bring back what was taken back last."""
    store_of(request).redo_family(
        name, based_on=revision_told(dict(text_fields(form))), by=name_told(request)
    )
    return RedirectResponse(f"/slides/{name}/history", 303)


@router.post("/slides/{name}/history/{number}")
def take_again(request: Request, name: str, number: int, form: Form) -> Response:
    """Save the values of an earlier revision, or of one kept on the side, as the newest."""
    store = store_of(request)
    based_on = revision_told(dict(text_fields(form)))
    values, what = store.family(name, number).values, f"as in revision {number}"
    store.save_family(values, based_on=based_on, by=name_told(request), what=what)
    return RedirectResponse(f"/slides/{name}/history", 303)


@router.get("/slides/{name}/bin")
def ask(request: Request, name: str) -> Response:
    """What becomes of the jobs that use a family of the shop's own when it goes into the bin."""
    store = store_of(request)
    return page(
        request,
        "family_bin.html",
        kept=store.family(name),
        uses=uses_of(store, name),
        shipped=any(one.id == name for one in shipped_families()),
    )


@router.post("/slides/{name}/bin")
def throw_away(request: Request, name: str) -> Response:
    """Put a family of the shop's own in the bin; jobs then get the shipped one of its id, if there is one."""
    store_of(request).bin_family(name)
    return RedirectResponse("/slides", 303)


@router.post("/slides/{name}/restore")
def restore(request: Request, name: str) -> Response:
    """Take a family out of the bin."""
    store_of(request).restore_family(name)
    return RedirectResponse(f"/slides/{name}", 303)


def changes_of(difference: Difference) -> list[dict[str, str]]:
    """Each key that differs, in the words of the form: which length, what it is, before, after."""
    return [
        {
            "part": part.name if part.kind else "",
            "key": _label(key),
            "old": _shown(key, one.old),
            "new": _shown(key, one.new),
        }
        for part in difference.parts
        for one in part.keys
        for key in [_key(part, one.key)]
    ]


def _key(part: PartChange, inside: str) -> str:
    """The dotted key as the file has it."""
    return ".".join(step for step in (part.kind or part.id, inside) if step)


def _label(key: str) -> str:
    words = family_words().get(key)
    return key if words is None else words.label


def _shown(key: str, value: Any) -> str:
    if value is None:
        return NOT_THERE
    words = family_words().get(key)
    text = None if words is None else text_of(value, words)
    return show_value(value) if text is None else text
