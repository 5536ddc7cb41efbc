"""A sheet as an answer to a browser: the whole page, or the fragments that a script swaps into it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from fastapi import Request
from starlette.responses import JSONResponse, RedirectResponse, Response

from drawerwright.drawing.shown import Shown
from drawerwright.errors import Fault
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer
from drawerwright.model.job import Drawer
from drawerwright.pack.across import frame_proof_text, used_width_text
from drawerwright.pack.figures import length_text, thick_text
from drawerwright.units import BareUnit
from drawerwright.web.faults import UNPROCESSABLE, as_told
from drawerwright.web.reading_places import fault_in_words
from drawerwright.web.render import page
from drawerwright.web.sheet.asked import Asked, in_units
from drawerwright.web.sheet.drawn import SCALE
from drawerwright.web.sheet.fields import field_of, strip_of
from drawerwright.web.sheet.sheet import Sheet, arrangements_told

FRAGMENTS: Final = {"sheet": "_swap_sheet.html", "rest": "_swap_rest.html", "picture": "_swap_picture.html"}
"""What a script may ask for by `fragment`: the drawing, what follows it, or the drawn-out picture alone."""


@dataclass(frozen=True, slots=True)
class SheetPage:
    """What a page with a sheet shows.

    `sheet` is None where the fields do not read: then `faults` say why. `job` is a label, a name and an
    address (or none); `more` are the page's own values. `texts` of the fields, where the address has not all
    of them; `stored`: what is stored of them, None where nothing is.
    """

    asked: Asked
    bare: BareUnit
    sheet: Sheet | None
    faults: tuple[Fault, ...]
    twin: str
    heading: str
    job: tuple[str, str, str]
    drawer: str
    families: Sequence[SlideFamily]
    texts: Mapping[str, str] | None = None
    stored: Mapping[str, str] | None = None
    more: tuple[tuple[str, Any], ...] = ()


def answer_sheet(request: Request, template: str, told: SheetPage) -> Response:
    """The page, or the fragment that its address asks for; 422 where the fields do not read."""
    told = replace(told, faults=as_told(told.faults))
    other = in_units(told.asked, told.bare, request.query_params.get("to"))
    if other is not None:
        return RedirectResponse(other, 303)
    wanted = FRAGMENTS.get(request.query_params.get("fragment", ""))
    if wanted is not None and told.sheet is None:
        return JSONResponse(_faults(told.faults), UNPROCESSABLE)
    arrangements = arrangements_told(request.query_params.get("for"))
    if wanted == "_swap_sheet.html" and told.sheet is not None:
        told.sheet.for_script = True
    values = _values(told) if wanted else _values(told) | _fields(told)
    status = 200 if told.sheet is not None else UNPROCESSABLE
    return page(request, wanted or template, status=status, arrangements=tuple(arrangements), **values)


def _faults(faults: Sequence[Fault]) -> dict[str, Any]:
    """Faults as the API has them, each with the name of its field where it has one."""
    told = map(fault_in_words, faults)
    return {"errors": [{**fault.as_json(), "field": field_of(fault)} for fault in told]}


def _values(told: SheetPage) -> dict[str, Any]:
    asked, sheet = told.asked, told.sheet
    here = asked.address()
    more = "&" if "?" in here else "?"
    label, name, address = told.job
    return {
        "asked": asked,
        "path": asked.path,
        "sheet": sheet,
        "twin": told.twin,
        "title": _title(told),
        "job_label": label,
        "job_name": name,
        "job_address": address,
        "drawer_name": told.drawer,
        "scale": f"{SCALE:.5f}",
        "unit_addresses": {word: f"{here}{more}to={word}" for word in ("mm", "in")},
        "told_words": "" if sheet is None else _told_line(sheet.fitted, sheet.shown),
        **dict(told.more),
    }


def _fields(told: SheetPage) -> dict[str, Any]:
    """What the strip of fields shows; fragments leave it as it is."""
    texts = told.asked.texts if told.texts is None else told.texts
    return {
        "strip": strip_of(texts, told.faults, of_a_job=told.stored is not None),
        "stored": told.stored or {},
        "heading": told.heading,
        "families": told.families,
        "units_shown": {"length": told.bare, "mass": "lb" if told.bare == "in" else "kg"},
    }


def _title(told: SheetPage) -> str:
    name = "Quick answer" if told.asked.path == "/" else f"Drawer {told.drawer}"
    return name if told.sheet is None else f"{name}: {told.sheet.verdict_words}"


def _told_line(fitted: FittedDrawer, shown: Shown) -> str:
    """What was told besides the measures; before it the width that is left, after it what would prove it."""
    proof = frame_proof_text(fitted)
    words = [used_width_text(fitted, shown), told_words(fitted.drawer, shown), proof and f"frame {proof}"]
    return "; ".join(filter(None, words))


def told_words(drawer: Drawer, shown: Shown) -> str:
    """What is told of a drawer besides its measures, in one line."""
    words = [
        drawer.construction.replace("-", " "),
        f"subfront {thick_text(drawer.subfront_thickness, shown)}",
    ]
    front = drawer.front
    if drawer.frame_in_use is not None:
        frame = drawer.frame_in_use
        left, right = length_text(frame.left, shown), length_text(frame.right, shown)
        words[0] += f" standing in {left} left, {right} right"
    if front.style == "none":
        words.append("no front")
    else:
        words.append(f"{front.style} front {thick_text(front.thickness, shown)}")
    if front.style == "overlay":
        over = front.overlay
        edges = {"left": over.left, "right": over.right, "top": over.top, "bottom": over.bottom}
        each = [f"{side} {length_text(edge, shown)}" for side, edge in edges.items()]
        same = len(set(edges.values())) == 1
        words.append(f"overlay {length_text(over.left, shown) if same else ' '.join(each)}")
    return ", ".join(words)
