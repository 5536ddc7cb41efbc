"""Job files over HTTP: a stored job as TOML, CSV or XLSX, and a file made a stored job."""

from __future__ import annotations

import re
import tempfile
from collections.abc import Callable
from pathlib import Path, PurePath
from typing import Annotated, Any, Final, Literal

from fastapi import APIRouter, Query, Request
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.responses import Response

from drawerwright.catalogue.contents import contents_preset_ids
from drawerwright.errors import Fault, InputError
from drawerwright.files import job_from_mapping, read_job_file, write_job_toml
from drawerwright.files.job_source import JobSource
from drawerwright.model.job import Job
from drawerwright.store import Store
from drawerwright.store.shape import MOST_DRAWERS
from drawerwright.units import show_value
from drawerwright.web.api.answering import answer
from drawerwright.web.api.describing import described
from drawerwright.web.api.jobs import AtRevision, Kept, store_of
from drawerwright.web.api.saving import revision_told
from drawerwright.web.api.stored import stored_values
from drawerwright.web.as_typed import TYPED_WRITERS
from drawerwright.web.forms_sent import read_form
from drawerwright.web.leaving_out import leave_out

Ending = Literal["toml", "csv", "xlsx"]

MEDIA: Final[dict[str, str]] = {
    "toml": "application/toml",
    "csv": "text/csv; charset=utf-8",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}
NEW_LINE: Final = b"\n"
MOST_LINES: Final = 4 * MOST_DRAWERS
"""Most lines of a table: each drawer may have notes of several. Own choice."""

TOML_DRAWER: Final = re.compile(rb"^[ \t]*\[\[[ \t\"']*drawer[ \t\"']*\]\]", re.MULTILINE)
BYTE_ORDER_MARK: Final = b"\xef\xbb\xbf"
"""Before CSV: spreadsheets then take it for UTF-8."""

router = APIRouter(prefix="/jobs", tags=["files"])


@router.post("/import", **described("import_job", answer="ImportedJob", status=201, also=(403, 413)))
async def import_job(
    request: Request,
    name: Annotated[
        str | None,
        Query(description="With the file as the body itself: a name whose ending says what it is."),
    ] = None,
    by: str = "",
) -> Response:
    """Make a job of a file: as the body with `?name=job.xlsx`, or as the one file of a form.

    Only the ending of the name is used. Every fault of the file is told together.
    """
    ending, content = await uploaded(request, name)
    return await run_in_threadpool(lambda: answer(imported(store_of(request), ending, content, by), 201))


@router.get("/{job}/file.{ending}", **described("export_job", media=tuple(MEDIA.values()), also=(404,)))
def export_job(
    store: Kept,
    job: str,
    ending: Ending,
    revision: AtRevision = None,
    without: Annotated[
        list[str] | None, Query(description="Drawers that are left out, such as those not measured yet.")
    ] = None,
    as_typed: Annotated[
        bool, Query(description="Everything as it was typed, also what does not read yet.")
    ] = False,
) -> Response:
    """A stored job as a file; unless it is wanted as typed, what is not left out of it must read."""
    values = leave_out(store.export_job(job, revision_told(revision)), without or ())
    if as_typed:
        content = TYPED_WRITERS[ending](values)
    else:
        content = WRITERS[ending](job_from_mapping(values, presets=contents_preset_ids()))
    name = f'attachment; filename="job-{job}{"-as-typed" if as_typed else ""}.{ending}"'
    return Response(content, media_type=MEDIA[ending], headers={"Content-Disposition": name})


def _csv(job: Job) -> bytes:
    from drawerwright.files import write_job_csv

    return BYTE_ORDER_MARK + write_job_csv(job).encode("utf-8")


def _xlsx(job: Job) -> bytes:
    from drawerwright.files import write_job_xlsx

    return write_job_xlsx(job)


WRITERS: Final[dict[str, Callable[[Job], bytes]]] = {
    "toml": lambda job: write_job_toml(job).encode("utf-8"),
    "csv": _csv,
    "xlsx": _xlsx,
}


async def uploaded(request: Request, name: str | None) -> tuple[str, bytes]:
    """Ending and content of the one file of a request. Raises InputError where there is none of ours."""
    if request.headers.get("content-type", "").startswith("multipart/form-data"):
        form = await read_form(request, most_fields=8, most_files=1)
        try:
            files = [one for one in form.values() if isinstance(one, UploadFile)]
            if not files:
                raise InputError([Fault("the form", "", "holds no file", "a job file: .toml, .csv, .xlsx")])
            chosen = files[0].filename or ""
            return _ending(chosen, "a file saved as .toml, .csv or .xlsx"), _told(
                chosen, await files[0].read()
            )
        finally:
            await form.close()
    return _ending(name, "?name=job.xlsx"), await request.body()


def _told(chosen: str, content: bytes) -> bytes:
    """The content of a file that was chosen in a form. Raises InputError where it is empty."""
    if not content:
        try_ = "the file that holds your rows, or begin a new job here"
        raise InputError([Fault("the file", show_value(chosen[-40:]), "is empty", try_)])
    return content


def imported(store: Store, ending: str, content: bytes, by: str) -> dict[str, Any]:
    """A stored job made of a file's content, with what its reader remarked. Raises InputError."""
    values, remarks = read_content(ending, content)
    made = store.create_job(values, by=by, what=f"imported from a {ending.upper()} file")
    return {**stored_values(made), "remarks": remarks}


def read_content(ending: str, content: bytes) -> tuple[dict[str, Any], list[dict[str, str]]]:
    """The values of a job file, as they stand in it, and its reader's remarks.

    The readers want a file: it lies for that moment in a folder of its own, under a name of ours. Raises
    InputError with all faults.
    """
    _check_length(ending, content)
    with tempfile.TemporaryDirectory(prefix="drawerwright-") as folder:
        path = Path(folder) / f"job.{ending}"
        path.write_bytes(content)
        file = read_job_file(path, presets=contents_preset_ids(), progress=_within_bounds)
        source: JobSource = file.source
        remarks = [{"where": one.where, "says": one.says} for one in file.remarks]
        return dict(source.values), remarks


def _check_length(ending: str, content: bytes) -> None:
    """Raise InputError where a file is too long to be a job's, told before it is read."""
    if ending == "csv" and content.count(NEW_LINE) > MOST_LINES:
        raise _too_long(f"has {content.count(NEW_LINE)} lines, {MOST_LINES} at most")
    if ending == "toml":
        _within_bounds(0, sum(1 for _ in TOML_DRAWER.finditer(content)))


def _within_bounds(_: int, rows: int) -> None:
    """Raise InputError where a table has more rows than a stored job has, before they are read."""
    if rows > MOST_DRAWERS:
        raise _too_long(f"has {rows} drawers, {MOST_DRAWERS} at most")


def _too_long(says: str) -> InputError:
    return InputError([Fault("the file", "", says, "several files, a job each")])


def _ending(name: str | None, try_: str) -> str:
    ending = PurePath((name or "").replace("\\", "/")).suffix.lower().removeprefix(".")
    if ending in MEDIA:
        return ending
    says = "does not end in .toml, .csv or .xlsx: what kind of file is it?"
    raise InputError([Fault("name", show_value((name or "")[-40:]), says, try_)])
