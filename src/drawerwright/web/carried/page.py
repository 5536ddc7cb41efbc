"""What a drawer carries on its sheet: with the page where the address asks for it, alone for a script.

The study and its numerics are brought in when they are first asked for.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final
from urllib.parse import quote, urlencode

from fastapi import Request
from starlette.responses import JSONResponse, Response

from drawerwright.model.fitted import FittedDrawer
from drawerwright.web.carried.asked import CARRY_KEYS, FIELDS, OPEN, carry_pairs, read_question
from drawerwright.web.faults import UNPROCESSABLE
from drawerwright.web.render import page
from drawerwright.web.sheet.asked import Asked
from drawerwright.web.sheet.fields import field_of
from drawerwright.web.sheet.page import SheetPage, answer_sheet
from drawerwright.web.sheet.sheet import Sheet

if TYPE_CHECKING:
    from drawerwright.web.carried.section import CarrySection

FRAGMENT: Final = "carry"
"""What a script asks for to get the section alone: in short, or the whole of it where it is open."""


@dataclass(frozen=True, slots=True)
class CarryView:
    """The section on a page: `section` is None until it is asked for; `open` where the whole of it is.

    `hidden`: keys of the address that a form of the section keeps.
    """

    section: CarrySection | None
    open: bool
    open_address: str
    fold_address: str
    hidden: list[tuple[str, str]]
    twin: str
    cabinets: str


def answer_with_carry(
    request: Request, template: str, told: SheetPage, together: Sequence[FittedDrawer]
) -> Response:
    """The sheet's page with what its drawer carries, or that alone where a script asks for it.

    `together`: the drawers of its cabinet.
    """
    alone = request.query_params.get("fragment") == FRAGMENT
    if alone and told.sheet is None:
        faults = [{**fault.as_json(), "field": field_of(fault)} for fault in told.faults]
        return JSONResponse({"errors": faults}, UNPROCESSABLE)
    view = None if told.sheet is None else _view(request, told, told.sheet, together, alone=alone)
    if not alone:
        return answer_sheet(request, template, replace(told, more=(*told.more, ("carry", view))))
    assert view is not None
    unread = view.section is not None and view.section.carried is None
    status = UNPROCESSABLE if unread else 200
    values: dict[str, Any] = {
        "carry": view,
        "asked": told.asked,
        "path": told.asked.path,
        "sheet": told.sheet,
    }
    return page(request, "_carry.html", status=status, **values)


def _view(
    request: Request, told: SheetPage, sheet: Sheet, together: Sequence[FittedDrawer], *, alone: bool
) -> CarryView:
    asked, carried = told.asked, dict(carry_pairs(request.query_params.multi_items()))
    opened = OPEN in carried
    section = None
    if opened or alone:
        from drawerwright.web.carried.section import CarrySection

        question = read_question(carried, told.bare)
        section = CarrySection(sheet.fitted, together, question, out=sheet.out, shown=sheet.shown)
    job = request.path_params.get("job_id", "")
    return CarryView(
        section,
        opened,
        f"{_address(asked, {**carried, OPEN: '1'})}#carry",
        _address(asked, {}),
        [(key, text) for key, text in asked.pairs() if key not in FIELDS],
        _twin(asked, job, sheet.fitted.id),
        f"/jobs/{quote(job, safe='')}/cabinets" if job else "",
    )


def _address(asked: Asked, carried: Mapping[str, str]) -> str:
    """The sheet's address with other keys of what it carries."""
    query = [(key, text) for key, text in asked.pairs() if key not in CARRY_KEYS]
    return f"{asked.path}?{urlencode([*query, *carried.items()])}" if query or carried else asked.path


def _twin(asked: Asked, job: str, drawer: str) -> str:
    """The same as JSON: of a stored drawer as it is stored, of a quick question as it is asked."""
    options = [(key, text) for key, text in asked.besides if key in FIELDS]
    if not job:
        besides = tuple((key, text) for key, text in asked.besides if key != OPEN)
        return Asked("/api/v1/quick/carry", asked.texts, asked.units, besides=besides).address()
    return f"/api/v1/jobs/{quote(job, safe='')}/carry?{urlencode([('drawer', drawer), *options])}"
