"""How the API answers: a document as it stands, long work beside the loop that serves others."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final, TypeVar

from starlette.concurrency import run_in_threadpool
from starlette.responses import JSONResponse

from drawerwright.web.api.body import object_of

Done = TypeVar("Done")

SHORT_BODY: Final = 8_000
"""A body of fewer bytes is read on the loop: that takes less time than a thread's turn. Own choice."""

FEW: Final = 3
"""As many drawers, or families told, are fitted on the loop: below a thread's turn. Own choice."""

_LONG_WORK: Final = ("fewest_lengths", "cheapest", "fewest_setups", "own_slides")
"""Keys that make a fit more than one pass over the drawers, or ask the store."""


def answer(document: Any, status: int = 200) -> JSONResponse:
    """A document of ours as JSON: it is plain already, so nothing is validated again."""
    return JSONResponse(document, status)


async def beside(raw: bytes, work: Callable[[dict[str, Any]], Done]) -> Done:
    """Do some work on the JSON object of a body, in a thread: a short one may ask for long work."""
    return await run_in_threadpool(lambda: work(object_of(raw)))


async def here_or_beside(raw: bytes, work: Callable[[dict[str, Any]], Done]) -> Done:
    """Fit what a body holds: here where it is little, else in a thread."""
    if len(raw) > SHORT_BODY:
        return await beside(raw, work)
    body = object_of(raw)
    if is_little(body):
        return work(body)
    return await run_in_threadpool(work, body)


def is_little(body: Mapping[str, Any]) -> bool:
    """Whether the fit that a body asks for takes less time than a thread's turn.

    What is counted are drawers: `defaults` make many of a few bytes.
    """
    job = body.get("job")
    if not isinstance(job, Mapping) or any(body.get(key) for key in _LONG_WORK):
        return False
    entries = (
        job.get("drawer"),
        job.get("cabinet", ()),
        body.get("slides") or (),
        body.get("materials") or (),
    )
    return all(isinstance(one, (list, tuple)) and len(one) <= FEW for one in entries)
