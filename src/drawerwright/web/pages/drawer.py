"""A drawer's sheet: its stored values drawn, changes drawn before they are saved, and saved by a form."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any
from urllib.parse import quote

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from drawerwright.errors import Fault, InputError
from drawerwright.store import Conflict, StoredJob
from drawerwright.store.faults import not_in_store
from drawerwright.units import BareUnit
from drawerwright.web.carried.asked import carry_pairs
from drawerwright.web.carried.page import answer_with_carry
from drawerwright.web.device_name import name_told
from drawerwright.web.families import families_of
from drawerwright.web.fitting import answer_values
from drawerwright.web.pages.conflict import conflict_address
from drawerwright.web.pages.forms import Form, revision_told, store_of
from drawerwright.web.schedule.form import text_fields
from drawerwright.web.schedule.saving import revisions_of
from drawerwright.web.sheet.asked import Asked, length_told
from drawerwright.web.sheet.elsewhere import Elsewhere, changed_elsewhere, put_together
from drawerwright.web.sheet.fields import NAMES, STILE_NAMES
from drawerwright.web.sheet.page import SheetPage
from drawerwright.web.sheet.sheet import Sheet
from drawerwright.web.sheet.stiles import frame_of_stiles
from drawerwright.web.sheet.stored import StoredDrawer, neighbours, stored_drawer
from drawerwright.web.standing_free import balances_of_drawers
from drawerwright.web.taken.section import slides_section

router = APIRouter(include_in_schema=False)


def drawer_address(job_id: str, drawer: str) -> str:
    """The address of a drawer's sheet."""
    return f"/jobs/{quote(job_id, safe='')}/drawers/{quote(drawer, safe='')}"


@router.get("/jobs/{job_id}/drawers/{drawer:path}")
def show_drawer(request: Request, job_id: str, drawer: str) -> Response:
    """The sheet as it is stored; fields told in the address are drawn as they would be saved."""
    job = store_of(request).job(job_id)
    values = revisions_of(request).values(job)
    query = request.query_params
    units = _units(query.get("units"))
    found = _found(values, drawer, units)
    told = {key: text for key, text in query.multi_items() if key in NAMES | STILE_NAMES}
    changed, wrong_stiles = _changed(found, told)
    path = drawer_address(job_id, drawer)
    last = job.revision
    elsewhere = _since(request, job, found, query.get("based_on", ""), changed)
    # Where nobody else changed what is changed here, the page goes on from the newest revision.
    revision = int(query["based_on"]) if any(one.mine for one in elsewhere) else last
    asked = Asked(
        path,
        changed,
        found.page_units,
        query.get("show", ""),
        length_told(query.get("out")),
        carry_pairs(query.multi_items()),
        keep_units=found.page_units != found.job_units,
        based_on=revision,
    )
    families = families_of(request.app.state.store)
    answer = answer_values(
        found.with_changes(changed) if changed else values, families, units=found.page_units, only=drawer
    )
    own = next((one for one in answer.drawers if one.name == drawer), None)
    faults = [*(own.faults if own is not None else ()), *answer.faults, *wrong_stiles]
    fitted = own.fitted if own is not None and not wrong_stiles else None
    texts = {
        **found.texts,
        **changed,
        **({key: told[key] for key in STILE_NAMES & set(told)} if wrong_stiles else {}),
    }
    before, after = neighbours(values, found.row)
    together = [one.fitted for one in answer.drawers if one.fitted is not None]
    page = SheetPage(
        asked=asked,
        bare=found.page_units,
        sheet=None if fitted is None else Sheet(fitted, asked, texts),
        faults=tuple(faults),
        twin=f"/api/v1/jobs/{quote(job_id, safe='')}/drawers/{quote(drawer, safe='')}",
        heading="Measured",
        job=("Job", str(values.get("title") or "untitled"), f"/jobs/{quote(job_id, safe='')}"),
        drawer=drawer,
        families=families,
        texts=texts,
        stored=found.texts,
        more=(
            ("job_id", job_id),
            ("revision", revision),
            ("changed", len(changed)),
            ("binned", job.binned_at is not None),
            ("slides_since", slides_section(store_of(request), job, values, "drawer", drawer=drawer)),
            ("saved", query.get("saved", "") == str(last)),
            ("elsewhere", elsewhere),
            ("newest", last),
            ("before", drawer_address(job_id, before) if before else ""),
            ("after", drawer_address(job_id, after) if after else ""),
            ("balances", balances_of_drawers(together, found.page_units)),
            ("balance_job", job_id),
        ),
    )
    return answer_with_carry(request, "drawer.html", page, together)


@router.post("/jobs/{job_id}/drawers/{drawer:path}")
def save_drawer(request: Request, job_id: str, drawer: str, form: Form) -> Response:
    """The fields saved, those that were changed on the revision that the page showed."""
    told: dict[str, Any] = dict(text_fields(form))
    based_on = revision_told(told)
    revisions = revisions_of(request)
    found = _found(revisions.at(job_id, based_on), drawer, _units(told.get("units")))
    names = NAMES | STILE_NAMES
    changed, wrong_stiles = _changed(found, {key: text for key, text in told.items() if key in names})
    if wrong_stiles:
        raise InputError(wrong_stiles)
    newest = store_of(request).job(job_id)
    now = stored_drawer(revisions.values(newest), drawer, found.page_units)
    edits, on_newest = put_together(found, now, changed)
    if on_newest:
        based_on = newest.revision
    path = drawer_address(job_id, drawer)
    back = "" if found.page_units == found.job_units else f"&units={found.page_units}"
    if not edits:
        return RedirectResponse(f"{path}?saved={based_on}{back}", 303)
    try:
        saved = revisions.save(job_id, edits, based_on=based_on, by=name_told(request))
    except Conflict as conflict:
        return RedirectResponse(conflict_address(job_id, conflict), 303)
    if saved.refused:
        raise InputError([fault for _, fault in saved.refused])
    return RedirectResponse(f"{path}?saved={saved.job.revision}{back}", 303)


def _changed(found: StoredDrawer, told: Mapping[str, str]) -> tuple[dict[str, str], list[Fault]]:
    """The fields that are not what is stored, a frame told by its stiles among them; what does not read."""
    stiles = {key: text for key, text in told.items() if key in STILE_NAMES}
    changed, faults = frame_of_stiles({**found.changed(told), **stiles}, found.page_units)
    return found.changed(changed), faults


def _since(
    request: Request, job: StoredJob, found: StoredDrawer, told: str, changed: Mapping[str, str]
) -> tuple[Elsewhere, ...]:
    """What was changed elsewhere since the revision that an address tells; nothing where it tells none."""
    if not (told.isdecimal() and len(told) < 10 and 0 < int(told) < job.revision):
        return ()
    base = stored_drawer(revisions_of(request).at(job.id, int(told)), found.name, found.page_units)
    return changed_elsewhere(base, found, changed)


def _units(text: object) -> BareUnit | None:
    return "in" if text == "in" else "mm" if text == "mm" else None


def _found(values: Any, drawer: str, units: BareUnit | None) -> StoredDrawer:
    """The drawer of a job. Raises NotInStore."""
    found = stored_drawer(values, drawer, units)
    if found is None:
        names = [str(one.get("id", "")) for one in values["drawer"]]
        raise not_in_store("drawer", drawer, names[0] if names else "")
    return found
