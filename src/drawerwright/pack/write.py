"""A job's whole pack, made in memory and put into its folder at once."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeAlias

from drawerwright.drawing.scene import Scene
from drawerwright.drawing.sheet import drawer_sheet
from drawerwright.files import write_job_toml
from drawerwright.fit import fit_document
from drawerwright.model.fitted import FittedJob
from drawerwright.model.job import Job
from drawerwright.pack.cut_list import cut_list
from drawerwright.pack.distinct import AlikeDrawers, distinct_drawers
from drawerwright.pack.drawer_page import page_data
from drawerwright.pack.folder import check_folder, put_in_place
from drawerwright.pack.hardware_list import hardware_list
from drawerwright.pack.job_sheet import job_sheet_data
from drawerwright.pack.layout import CHECK_BAR, Layout
from drawerwright.pack.lettering import for_sheets
from drawerwright.pack.manifest import Manifest
from drawerwright.pack.panels import panel_files
from drawerwright.pack.papers import PaperName, papers
from drawerwright.pack.tables import write_csv, write_xlsx
from drawerwright.pack.typeset import set_sheets
from drawerwright.units import ShownUnits

Progress: TypeAlias = Callable[[int, int, str], None]
"""Called with steps done, steps in all, and what was done last."""


def sheets_data(
    fitted: FittedJob, paper: PaperName, units: ShownUnits, tell: Callable[[str], None]
) -> dict[str, Any]:
    """Everything the sheets show, in words, with each distinct drawer's drawing."""
    layout = Layout(papers()[paper])
    distinct = distinct_drawers(fitted)
    keys = tuple(f"sheet-{number}" for number in range(1, len(distinct) + 1))
    pages = []
    for alike, key in zip(distinct, keys, strict=True):
        pages.append(page_data(alike, _drawing_of(alike, layout), key, units))
        tell(f"drawing of {alike.first.id}")
    title = for_sheets(fitted.title) or "Drawers"
    return {
        "document_title": f"{title}: sheets",
        "job": title,
        "paper": layout.document(),
        "bar": {"length": CHECK_BAR, "says": f"Print at 100 %: this bar is {CHECK_BAR:g} mm long"},
        "cover": job_sheet_data(fitted, distinct, keys, units),
        "sheets": pages,
    }


def _drawing_of(alike: AlikeDrawers, layout: Layout) -> Scene:
    return drawer_sheet(alike.first, layout.drawing_width, layout.drawing_height)


def pack_contents(
    job: Job,
    fitted: FittedJob,
    *,
    paper: PaperName = "a4",
    units: ShownUnits = "mm",
    progress: Progress | None = None,
) -> dict[str, bytes]:
    """Every file of the pack but its manifest, by path with `/`; nothing is written.

    Same job, drawers, paper and units give the same bytes.
    """
    distinct = distinct_drawers(fitted)
    total, done = 2 * len(distinct) + 3, 0

    def tell(what: str) -> None:
        nonlocal done
        done += 1
        if progress is not None:
            progress(done, total, what)

    contents = {
        "job.toml": write_job_toml(job).encode("utf-8"),
        "fit.json": (json.dumps(fit_document(fitted), indent=1, ensure_ascii=False) + "\n").encode("utf-8"),
    }
    tell("job and answer")
    for name, table in (
        ("cut-list", cut_list(fitted, units)),
        ("hardware-list", hardware_list(fitted, units)),
    ):
        contents[f"{name}.csv"] = write_csv(table)
        contents[f"{name}.xlsx"] = write_xlsx(table, papers()[paper])
    tell("lists")
    contents.update(panel_files(distinct, lambda alike: tell(f"panels of {alike.first.id}")))
    contents["sheets.pdf"] = set_sheets(sheets_data(fitted, paper, units, tell))
    tell("sheets")
    return contents


def write_pack(
    job: Job,
    fitted: FittedJob,
    out: Path,
    *,
    paper: PaperName = "a4",
    units: ShownUnits = "mm",
    progress: Progress | None = None,
) -> Manifest:
    """Writes a job's papers and files into the folder `out` and returns the list of them.

    `paper` is the sheets' size, `units` adds inches for people to read, `progress` is told each step. The
    folder appears complete or not at all; one that is there already is replaced only if it is empty or holds
    a pack of ours that nobody has added to or changed.

    Raises:
        InputError: `out` holds what is not ours, or the disk refuses.
        TypesettingError: a fault in the sheets' templates.
    """
    check_folder(out)
    contents = pack_contents(job, fitted, paper=paper, units=units, progress=progress)
    return put_in_place(contents, fitted.title, out)
