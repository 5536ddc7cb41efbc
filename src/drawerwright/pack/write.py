"""A job's whole pack, made file by file, and put into its folder or archive at once."""

from __future__ import annotations

import json
from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final, Literal, TypeAlias, get_args

from drawerwright.catalogue.materials import Materials
from drawerwright.files import write_job_toml
from drawerwright.fit import fit_document
from drawerwright.model.fitted import FittedJob
from drawerwright.model.job import Job
from drawerwright.pack.archive import check_archive, is_archive, put_in_archive, refuse_other_archives
from drawerwright.pack.cut_list import cut_list
from drawerwright.pack.distinct import AlikeDrawers, distinct_drawers
from drawerwright.pack.folder import check_folder, put_in_place
from drawerwright.pack.full_size import full_size_files
from drawerwright.pack.hardware_list import hardware_list
from drawerwright.pack.labels import label_files
from drawerwright.pack.layout import Layout
from drawerwright.pack.lining_up import lining_up_files
from drawerwright.pack.manifest import Manifest
from drawerwright.pack.mounting_sheet import mounting_files
from drawerwright.pack.panels import panel_files
from drawerwright.pack.papers import PaperName, papers
from drawerwright.pack.pictures import drawers_to_draw, picture_files
from drawerwright.pack.printed_lists import printed_lists
from drawerwright.pack.sheets import sheet_files
from drawerwright.pack.shown import Parts, Shown
from drawerwright.pack.tables import write_csv, write_xlsx
from drawerwright.units import ShownUnits

Progress: TypeAlias = Callable[[int, int, str], None]
"""Called with steps done, steps in all, and what was done last."""

Section: TypeAlias = Literal["sheets", "pictures", "templates", "lists", "dxf", "labels", "carry"]
"""A part of the pack that can be asked for alone."""

SECTIONS: Final[tuple[Section, ...]] = get_args(Section)
USUAL: Final = SECTIONS[:-1]
"""Sections of the whole pack. What drawers carry takes a study's time, and is made where it is asked for."""

Files: TypeAlias = Iterator[tuple[str, bytes]]


@dataclass(slots=True)
class _Steps:
    """Counts steps for whoever watches."""

    total: int
    watcher: Progress | None
    done: int = 0

    def tell(self, what: str) -> None:
        """One more step is done."""
        self.done = min(self.done + 1, self.total)
        if self.watcher is not None:
            self.watcher(self.done, self.total, what)


def pack_files(
    job: Job,
    fitted: FittedJob,
    *,
    paper: PaperName = "a4",
    units: ShownUnits = "mm",
    inch_parts: Parts = 32,
    only: Collection[Section] = (),
    materials: Materials | None = None,
    progress: Progress | None = None,
) -> Files:
    """Every file of the pack but its manifest, one after another: path with `/`, and content.

    `only` names the sections wanted; none means all that are usual. With all of these come the job and its
    answer. Inches are shown to 1/`inch_parts`. `materials`: those that the job was read with, the shipped
    ones without. Same job, drawers and options give the same bytes; nothing is written here.
    """
    distinct = distinct_drawers(fitted)
    shown = Shown(units, inch_parts)
    wanted = frozenset(only) or frozenset(USUAL)
    whole = wanted.issuperset(USUAL)
    drawers = len(distinct)
    drawn = drawers_to_draw(distinct) if "pictures" in wanted else ()
    each = {
        "sheets": drawers + 3,
        "pictures": len(drawn) + 1,
        "templates": drawers + 1,
        "lists": 1,
        "dxf": drawers,
        "labels": 1,
        "carry": 0,
    }
    if "carry" in wanted:
        # Heavy parts come in with the study: they are imported where it is asked for.
        from drawerwright.pack.carrying import carrying_files, carrying_pages

        each["carry"] = drawers + carrying_pages(fitted) + 1
    steps = _Steps(sum(each[section] for section in wanted) + whole, progress)
    if whole:
        yield "job.toml", write_job_toml(job).encode("utf-8")
        yield (
            "fit.json",
            (json.dumps(fit_document(fitted), indent=1, ensure_ascii=False) + "\n").encode("utf-8"),
        )
        steps.tell("job and answer")
    if "lists" in wanted:
        yield from _lists(fitted, paper, shown)
        steps.tell("lists")
    if "labels" in wanted:
        yield from label_files(fitted, paper, shown)
        steps.tell("labels")
    if "dxf" in wanted:
        yield from panel_files(distinct, shown, lambda alike: steps.tell(_panels_of(alike)))
    if "templates" in wanted:
        yield from full_size_files(fitted.title, distinct, papers()[paper], shown, steps.tell)
    if "sheets" in wanted:
        yield from mounting_files(fitted, papers()[paper], shown)
        steps.tell("mounting sheet")
        yield from lining_up_files(fitted, papers()[paper])
        steps.tell("lining-up sheet")
        yield from sheet_files(fitted, distinct, Layout(papers()[paper]), shown, steps.tell)
    if "pictures" in wanted:
        yield from picture_files(fitted, drawn, papers()[paper], shown, steps.tell)
    if "carry" in wanted:
        layout = Layout(papers()[paper])
        yield from carrying_files(fitted, distinct, layout, shown, materials, steps.tell)


def _panels_of(alike: AlikeDrawers) -> str:
    return f"panels of {alike.first.id}"


def _lists(fitted: FittedJob, paper: PaperName, shown: Shown) -> Files:
    tables = {"cut-list": cut_list(fitted, shown), "hardware-list": hardware_list(fitted, shown)}
    for name, table in tables.items():
        yield f"{name}.csv", write_csv(table)
        yield f"{name}.xlsx", write_xlsx(table, papers()[paper])
    yield from printed_lists(fitted.title, tuple(tables.values()), papers()[paper], shown)


def pack_contents(
    job: Job,
    fitted: FittedJob,
    *,
    paper: PaperName = "a4",
    units: ShownUnits = "mm",
    inch_parts: Parts = 32,
    only: Collection[Section] = (),
    materials: Materials | None = None,
    progress: Progress | None = None,
) -> dict[str, bytes]:
    """All files of `pack_files` in memory, by path."""
    return dict(
        pack_files(
            job,
            fitted,
            paper=paper,
            units=units,
            inch_parts=inch_parts,
            only=only,
            materials=materials,
            progress=progress,
        )
    )


def write_pack(
    job: Job,
    fitted: FittedJob,
    out: Path,
    *,
    paper: PaperName = "a4",
    units: ShownUnits = "mm",
    inch_parts: Parts = 32,
    only: Collection[Section] = (),
    materials: Materials | None = None,
    progress: Progress | None = None,
) -> Manifest:
    """Writes a job's papers and files into the folder `out`, or the archive if it ends in `.zip`.

    Options are those of `pack_files`; `progress` is told each step. The pack appears complete or not at all;
    one that is there already is replaced whole, and only if nobody has added to it or changed it.

    Raises:
        InputError: `out` holds what is not ours or asks for another archive, or the disk refuses.
        TypesettingError: a fault in the papers' templates.
    """
    refuse_other_archives(out)
    check, put = (check_archive, put_in_archive) if is_archive(out) else (check_folder, put_in_place)
    check(out)
    made = pack_files(
        job,
        fitted,
        paper=paper,
        units=units,
        inch_parts=inch_parts,
        only=only,
        materials=materials,
        progress=progress,
    )
    return put(made, fitted.title, out)
