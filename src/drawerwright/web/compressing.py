"""Answers are sent compressed where they have a way to go: a page is a sixth as long for a tablet's radio.

To this machine itself they go as they are: compressing takes longer than sending them there.
"""

from __future__ import annotations

import gzip
from functools import lru_cache
from pathlib import Path
from typing import Final

from starlette.middleware.gzip import GZipMiddleware
from starlette.types import ASGIApp, Receive, Scope, Send

from drawerwright.web.settings import is_loopback

SHORTEST: Final = 1024
"""Bytes below which compressing gains nothing: they go in one packet anyway. Own choice."""
LEVEL: Final = 4
"""Of answers: beyond it a page shrinks by a few per cent more and takes twice the time. Own choice."""


class ForOtherMachines:
    """The layer that compresses answers to other machines."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app
        self.compressed = GZipMiddleware(app, minimum_size=SHORTEST, compresslevel=LEVEL)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let the answer through, compressed or as it is."""
        client = scope.get("client")
        here = client is not None and is_loopback(client[0])
        await (self.app if here else self.compressed)(scope, receive, send)


@lru_cache(maxsize=64)
def compressed_file(path: Path, changed: float) -> bytes:
    """A file's content compressed as far as it goes, kept until the file is `changed` again."""
    return gzip.compress(path.read_bytes(), compresslevel=9, mtime=0)
