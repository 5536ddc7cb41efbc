"""A stored job's pack over HTTP: the zip file, how far it is, what is in it, each file of it alone."""

from __future__ import annotations

import asyncio
import json
import mimetypes
import zipfile
from collections.abc import AsyncIterator, Iterator
from typing import IO, Annotated, Any, Final, Literal
from urllib.parse import quote

from fastapi import APIRouter, Depends, Query, Request
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.responses import Response, StreamingResponse

from drawerwright.pack.papers import PaperName
from drawerwright.pack.write import Section
from drawerwright.units import ShownUnits
from drawerwright.web.aims import AimAsked, aim_in_query
from drawerwright.web.api.answering import answer
from drawerwright.web.api.describing import EVENTS, JSON, described
from drawerwright.web.api.jobs import AtRevision, store_of
from drawerwright.web.api.saving import revision_told
from drawerwright.web.packing import PackOptions, PackOrder, order_pack
from drawerwright.web.packs_kept import PacksKept

router = APIRouter(prefix="/jobs/{job}/pack", tags=["pack"])

LOOKED_AT_EVERY: Final = 0.1
"""Seconds between two looks at a pack that is being built. Own choice."""
SILENT_AT_MOST: Final = 10.0
"""Seconds after which a stream of progress gives a sign of life. Own choice."""
_CHUNK: Final = 64 * 1024
_SHOWN_INLINE: Final = ("application/pdf", "image/svg+xml", "application/json", "text/csv", "text/plain")


def options_in_query(
    aim: Annotated[AimAsked, Depends(aim_in_query)],
    only: Annotated[
        list[Section] | None, Query(description="Only these sections; all but carry unless told.")
    ] = None,
    paper: Annotated[PaperName, Query(description="Size of the sheets that are printed.")] = "a4",
    units: Annotated[ShownUnits | None, Query(description="Units on papers; the job's unless told.")] = None,
    fraction: Annotated[Literal["32", "64"], Query(description="Finest parts of an inch on papers.")] = "32",
    without: Annotated[
        list[str] | None, Query(description="Drawers that are left out, such as those not measured yet.")
    ] = None,
) -> PackOptions:
    """Options of a pack; sections in one order, so that the same wish has the same name."""
    return PackOptions(
        tuple(sorted(set(only or ()))), paper, units, int(fraction), aim, tuple(sorted(set(without or ())))
    )


Options = Annotated[PackOptions, Depends(options_in_query)]


async def ordered(request: Request, job: str, options: Options, revision: AtRevision = None) -> PackOrder:
    """The pack that an address asks for. Raises NotInStore."""
    store = store_of(request)
    return await run_in_threadpool(lambda: order_pack(store, job, revision_told(revision), options))


Ordered = Annotated[PackOrder, Depends(ordered)]


@router.get(
    "", **described("pack", media=("application/zip",), also=(404,), means="The pack as one zip file.")
)
async def pack(request: Request, order: Ordered) -> Response:
    """A job's papers and files as one zip file; built when nobody did yet, which takes a while."""
    file = await built(packs_of(request), order)
    size = file.seek(0, 2)
    file.seek(0)
    named = quote(f"pack of job {order.job}, revision {order.revision}.zip", safe="")
    headers = {
        "Content-Length": str(size),
        "Content-Disposition": f"attachment; filename=\"pack.zip\"; filename*=UTF-8''{named}",
    }
    return StreamingResponse(_chunks(file), media_type="application/zip", headers=headers)


@router.get(
    "/progress",
    **described(
        "pack_progress",
        media=(EVENTS, JSON),
        also=(404,),
        means="Messages `{step, done, of}`, then `{ready}`: where the pack is fetched; or `{failed}`.",
    ),
)
async def pack_progress(request: Request, order: Ordered) -> Response:
    """Begin to build a pack, and tell how far it is: server-sent events, or one JSON object.

    Who takes `application/json` gets where it stands now, to ask again; so does whoever lost the stream.
    """
    kept = packs_of(request)
    if "application/json" in request.headers.get("accept", ""):
        state = await _state(kept, order)
        return answer(state)
    if not kept.is_ready(order.name):
        await _begin(kept, order)  # what does not read is told as a 422, before the stream begins
    headers = {"X-Accel-Buffering": "no"}
    return StreamingResponse(_told(kept, order), media_type=EVENTS, headers=headers)


@router.get("/files", **described("pack_files", answer="Pack", also=(404,)))
async def pack_files(request: Request, order: Ordered) -> Response:
    """What is in a pack: its manifest."""
    content = await _entry(await built(packs_of(request), order), "manifest.json")
    return answer(json.loads(content or b"{}"))


@router.get("/files/{path:path}", **described("pack_file", media=("*/*",), also=(404,)))
async def pack_file(request: Request, order: Ordered, path: str) -> Response:
    """One file of a pack, by its path in the manifest."""
    content = await _entry(await built(packs_of(request), order), path)
    if content is None:
        raise HTTPException(404, "no such file in this pack")
    media = mimetypes.guess_type(path)[0] or "application/octet-stream"
    how = "inline" if media in _SHOWN_INLINE else "attachment"
    name = quote(path.rpartition("/")[2], safe="")
    headers = {"Content-Disposition": f"{how}; filename*=UTF-8''{name}"}
    return Response(content, media_type=media, headers=headers)


def packs_of(request: Request) -> PacksKept:
    """The packs that this server keeps."""
    kept: PacksKept = request.app.state.packs
    return kept


async def built(kept: PacksKept, order: PackOrder) -> IO[bytes]:
    """A pack, opened; built first where nobody did. Raises InputError where the job does not read."""
    while (file := kept.open(order.name)) is None:
        under_way = await _begin(kept, order)
        if under_way is None:
            await asyncio.sleep(LOOKED_AT_EVERY)
        else:
            await asyncio.shield(under_way)
    return file


async def _begin(kept: PacksKept, order: PackOrder) -> asyncio.Future[None] | None:
    """Begin to build, unless it is ready or another process does."""
    name = order.name
    if (under_way := kept.begun(name)) is None:
        make = await run_in_threadpool(order.maker)
        under_way = kept.begin(name, make)
    return None if under_way is None else asyncio.wrap_future(under_way)


async def _state(kept: PacksKept, order: PackOrder) -> dict[str, Any]:
    """Where a pack stands, begun if it was not."""
    if kept.is_ready(order.name):
        return {"ready": order.address}
    await _begin(kept, order)
    return _step(kept, order.name)


def _step(kept: PacksKept, name: str) -> dict[str, Any]:
    step = kept.step(name)
    return (
        {"step": step.step, "done": step.done, "of": step.of}
        if step
        else {"step": "waiting", "done": 0, "of": 0}
    )


async def _told(kept: PacksKept, order: PackOrder) -> AsyncIterator[str]:
    """The messages of a stream: each step once, then where the pack is."""
    last: dict[str, Any] = {}
    silent = 0.0
    yield "retry: 2000\n\n"
    while not kept.is_ready(order.name):
        under_way = await _begin(kept, order)
        step = _step(kept, order.name)
        if step != last or silent >= SILENT_AT_MOST:
            yield f"data: {json.dumps(step, ensure_ascii=False)}\n\n" if step != last else ": still there\n\n"
            last, silent = step, 0.0
        if under_way is not None:
            done, _ = await asyncio.wait([under_way], timeout=LOOKED_AT_EVERY)
            if done and under_way.exception() is not None:
                yield f"data: {json.dumps({'failed': 'the pack could not be made'})}\n\n"
                under_way.result()
        else:
            await asyncio.sleep(LOOKED_AT_EVERY)
        silent += LOOKED_AT_EVERY
    yield f"data: {json.dumps({'ready': order.address})}\n\n"


async def _entry(file: IO[bytes], path: str) -> bytes | None:
    """One entry of a zip file; None where it has none of that name."""

    def read() -> bytes | None:
        with file, zipfile.ZipFile(file) as archive:
            return archive.read(path) if path in archive.namelist() else None

    return await run_in_threadpool(read)


def _chunks(file: IO[bytes]) -> Iterator[bytes]:
    with file:
        while chunk := file.read(_CHUNK):
            yield chunk
