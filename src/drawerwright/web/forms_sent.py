"""A form that was sent, read whole; one that is no form is told as every other input is."""

from __future__ import annotations

from fastapi import Request
from starlette.datastructures import FormData
from starlette.exceptions import HTTPException

from drawerwright.errors import Fault, InputError


async def read_form(request: Request, *, most_fields: int, most_files: int) -> FormData:
    """The fields and files of a form. A field may be as long as a body may be, which is watched elsewhere.

    Raises InputError where it cannot be read, or holds more than that.
    """
    longest: int = request.app.state.settings.body_cap
    try:
        return await request.form(max_fields=most_fields, max_files=most_files, max_part_size=longest)
    except HTTPException as error:
        found = str(error.detail).rstrip(".")
        says = f"cannot be read: {found[:1].lower()}{found[1:]}"
        raise InputError([Fault("the form", "", says, "a form as browsers send it")]) from None
