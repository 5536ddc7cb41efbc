"""Static files: own style sheets and modules, and the one lettering, from its font package."""

from __future__ import annotations

from pathlib import Path
from typing import Final, Literal

from fastapi import APIRouter
from starlette.datastructures import Headers
from starlette.responses import FileResponse, Response
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

from drawerwright.drawing.fonts import font_file
from drawerwright.web.compressing import compressed_file
from drawerwright.web.render import STATIC

KEPT: Final = "public, max-age=31536000, immutable"

COMPRESSED: Final = frozenset({".css", ".js", ".svg"})

router = APIRouter(include_in_schema=False)


@router.get("/lettering/{weight}.ttf")
def lettering(weight: Literal["regular", "medium", "semibold"]) -> Response:
    """One weight of the lettering: the same file that PDF sheets use."""
    return FileResponse(font_file(weight), media_type="font/ttf", headers={"Cache-Control": KEPT})


class KeptFiles(StaticFiles):
    """Files of the package; an address with a mark of the content may be kept for good."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        """The file, with how long it may be kept."""
        answer = await super().get_response(path, scope)
        if answer.status_code == 200 and isinstance(answer, FileResponse):
            answer = _as_taken(answer, Headers(scope=scope))
        kept = answer.status_code == 200 and b"v=" in scope.get("query_string", b"")
        answer.headers["Cache-Control"] = KEPT if kept else "no-cache"
        return answer


def _as_taken(answer: FileResponse, asked: Headers) -> Response:
    """A text file compressed, where that is taken."""
    path = Path(answer.path)
    if path.suffix not in COMPRESSED or "gzip" not in asked.get("accept-encoding", ""):
        return answer
    content = compressed_file(path, path.stat().st_mtime)
    kept = {name: value for name, value in answer.headers.items() if name in ("etag", "last-modified")}
    headers = {**kept, "Content-Encoding": "gzip", "Vary": "Accept-Encoding"}
    return Response(content, media_type=answer.media_type, headers=headers)


def static_files() -> KeptFiles:
    """The application that serves `static/`."""
    return KeptFiles(directory=STATIC)
