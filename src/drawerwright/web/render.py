"""Pages from templates: one environment, what every template may call, static files by content."""

from __future__ import annotations

import hashlib
from functools import cache
from pathlib import Path
from typing import Any, Final

from fastapi import Request
from jinja2 import Environment, FileSystemLoader, StrictUndefined, select_autoescape
from markupsafe import Markup
from starlette.responses import HTMLResponse, Response

from drawerwright import __version__
from drawerwright.drawing.scene import Scene
from drawerwright.drawing.svg import write_svg
from drawerwright.model.fitted import MOUNT_WORDS, VERDICT_WORDS

HERE: Final = Path(__file__).parent
STATIC: Final = HERE / "static"
STATE_WORDS: Final = {"ok": "fits", "watch": "with care", "stop": "stops"}


@cache
def environment() -> Environment:
    """The templates, escaping everything; an unknown name in a template is an error."""
    made = Environment(
        loader=FileSystemLoader(HERE / "templates"),
        autoescape=select_autoescape(default=True),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    made.globals.update(
        static_url=static_url,
        version=__version__,
        state_words=STATE_WORDS,
        verdict_words=VERDICT_WORDS,
        mount_words=MOUNT_WORDS,
    )
    made.filters["drawing"] = drawing
    return made


def drawing(scene: Scene) -> Markup:
    """A scene as inline SVG: its text went through an XML writer, so it is safe as it stands."""
    return Markup(write_svg(scene))


@cache
def static_url(name: str) -> str:
    """Address of a static file, with a mark of its content, so that browsers may keep it for good."""
    digest = hashlib.sha256((STATIC / name).read_bytes()).hexdigest()[:12]
    return f"/static/{name}?v={digest}"


def page(request: Request, template: str, *, status: int = 200, **values: Any) -> Response:
    """A page, or a fragment of one. `request` tells the template where it stands."""
    text = environment().get_template(template).render(request=request, **values)
    return HTMLResponse(text, status)
