"""The form with which a device is told the name that goes with its saves."""

from __future__ import annotations

import re
from typing import Final

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from drawerwright.web.device_name import keep_name
from drawerwright.web.pages.forms import Form
from drawerwright.web.schedule.form import text_fields

router = APIRouter(include_in_schema=False)

_OWN_PAGE: Final = re.compile(r"/(?![/\\])[\x21-\x5b\x5d-\x7e]{0,300}")
"""An address of this server: no other one, and nothing that a browser could take for one."""


@router.post("/name")
def tell_name(request: Request, form: Form) -> Response:
    """Keep a name on this device, or forget it where it is empty; back to the page it was told on."""
    told = dict(text_fields(form))
    back = told.get("back", "")
    answer = RedirectResponse(back if _OWN_PAGE.fullmatch(back) else "/jobs", 303)
    keep_name(request, answer, told.get("name", ""))
    return answer
