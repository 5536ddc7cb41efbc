"""A page that does nothing but swap one fixed drawing for itself: what an edit costs at the least.

The drawing is the file that the environment names.
"""

from __future__ import annotations

import os
from pathlib import Path

from fastapi import FastAPI
from starlette.responses import HTMLResponse, Response

PAGE = """<!doctype html><html lang="en"><meta charset="utf-8"><title>Bare</title>
<input id="f-depth" value="530"><div id="board"></div><script src="/bare.js"></script></html>"""
SCRIPT = """
const field = document.getElementById('f-depth'), board = document.getElementById('board');
field.addEventListener('input', async () => {
  const reply = await fetch('/drawing?depth=' + encodeURIComponent(field.value));
  board.innerHTML = await reply.text();
  document.dispatchEvent(new CustomEvent('sheet-drawn'));
});
"""

app = FastAPI()
_drawing = (
    Path(os.environ["BARE_DRAWING"]).read_text(encoding="utf-8") if "BARE_DRAWING" in os.environ else ""
)


@app.get("/")
def page() -> Response:
    """The page."""
    return HTMLResponse(PAGE)


@app.get("/bare.js")
def script() -> Response:
    """Its script."""
    return Response(SCRIPT, media_type="text/javascript")


@app.get("/drawing")
def drawing() -> Response:
    """The drawing, always the same."""
    return HTMLResponse(_drawing)
