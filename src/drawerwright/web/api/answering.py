"""How the API answers: a document as it stands, long work beside the loop that serves others."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Final, TypeVar

from starlette.concurrency import run_in_threadpool
from starlette.responses import JSONResponse

Done = TypeVar("Done")

SHORT_BODY: Final = 8_000
"""A question of fewer bytes is answered at once: a few drawers take less time than a thread's turn."""


def answer(document: Any, status: int = 200) -> JSONResponse:
    """A document of ours as JSON: it is plain already, so nothing is validated again."""
    return JSONResponse(document, status)


async def worked(size: int, work: Callable[[], Done]) -> Done:
    """Do some work on a question of `size` bytes: here when short, else in a thread."""
    if size <= SHORT_BODY:
        return work()
    return await run_in_threadpool(work)
