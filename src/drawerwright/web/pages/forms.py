"""What pages with forms share: the store behind them, a form's fields, the revision that it was made of."""

from __future__ import annotations

from typing import Annotated

from fastapi import Depends, Request
from starlette.datastructures import FormData

from drawerwright.errors import Fault, InputError
from drawerwright.store import Store
from drawerwright.web.forms_sent import read_form
from drawerwright.web.schedule.form import MOST_FIELDS


async def form_of(request: Request) -> FormData:
    """A form's fields, as many as a schedule has."""
    return await read_form(request, most_fields=MOST_FIELDS, most_files=4)


Form = Annotated[FormData, Depends(form_of)]


def store_of(request: Request) -> Store:
    """The store behind the application."""
    store: Store = request.app.state.store
    return store


def revision_told(told: dict[str, str]) -> int:
    """The revision that a form was made of. Raises InputError."""
    text = told.get("based_on", "")
    if not (text.isdecimal() and 0 < len(text) < 10):
        raise InputError([Fault("based_on", text[:20], "is not the number of a revision", "1")])
    return int(text)
