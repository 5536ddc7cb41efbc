"""What each section of a pack is for, and which of its files belong to it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from drawerwright.pack.manifest import PackFile
from drawerwright.pack.write import SECTIONS, Section


@dataclass(frozen=True, slots=True)
class SectionWords:
    """A section: its name, whom it is for and what it holds; names that its files begin with."""

    section: Section
    title: str
    says: str
    begins: tuple[str, ...]


WORDS: Final[dict[Section, SectionWords]] = {
    one.section: one
    for one in (
        SectionWords(
            "sheets",
            "Sheets",
            "For bench and site: a job sheet, a sheet a drawer with its drawing, parts, bores and checks, "
            "and the mounting sheet with the steps in the order of work.",
            ("sheets", "mounting", "lining-up"),
        ),
        SectionWords(
            "pictures",
            "Pictures",
            "For whoever orders and whoever puts it together: each cabinet from the front, each drawer drawn "
            "out and taken apart.",
            ("pictures",),
        ),
        SectionWords(
            "templates",
            "Templates",
            "Full size, to prick through: row holes, box back, locking brackets, front. Print at 100 % and "
            "hold the bar against a rule.",
            ("templates",),
        ),
        SectionWords(
            "lists",
            "Lists",
            "For saw and order: cut list and hardware list, printed, as workbooks and as plain rows.",
            ("cut-list", "hardware-list", "lists"),
        ),
        SectionWords(
            "dxf", "Panels", "For the machine: a DXF of each panel, bores and grooves on layers.", ("dxf/",)
        ),
        SectionWords(
            "labels", "Labels", "A label for each part, to stick on as it leaves the saw.", ("labels",)
        ),
        SectionWords(
            "carry",
            "What drawers carry",
            "For whoever answers for it: load against capacity, sag, forces and closing of each drawer, the "
            "balance of cabinets that stand free. Takes longer, and is left out unless it is marked.",
            ("carrying",),
        ),
    )
}
"""Every section in the order of the pack."""

REST: Final = "The job and its answer"

_KINDS: Final = {
    "pdf": "PDF",
    "xlsx": "workbook",
    "csv": "plain rows",
    "dxf": "DXF",
    "toml": "job file",
    "json": "JSON",
}


@dataclass(frozen=True, slots=True)
class FileWords:
    """A file of a pack: path, name, kind and size in words."""

    path: str
    name: str
    kind: str
    size: str


def section_of(path: str) -> Section | None:
    """The section that a file of a pack belongs to; None for the job, its answer and the manifest."""
    return next((key for key, one in WORDS.items() if path.startswith(one.begins)), None)


def files_by_section(files: Iterable[PackFile]) -> dict[str, list[FileWords]]:
    """Files in words under the title of their section, in the order of the pack; empty ones left out."""
    found: dict[str, list[FileWords]] = {
        title: [] for title in (*(WORDS[key].title for key in SECTIONS), REST)
    }
    for file in files:
        section = section_of(file.path)
        found[REST if section is None else WORDS[section].title].append(_words(file))
    return {title: those for title, those in found.items() if those}


def size_words(size: int) -> str:
    """A size [bytes] as people read it."""
    if size < 1000:
        return f"{size} bytes"
    return f"{size / 1000:.0f} kB" if size < 1_000_000 else f"{size / 1e6:.1f} MB"


def _words(file: PackFile) -> FileWords:
    name = file.path.rpartition("/")[2]
    stem, _, ending = name.rpartition(".")
    return FileWords(
        file.path,
        stem.replace("-", " ") if "/" not in file.path else stem,
        _KINDS.get(ending, ending),
        size_words(file.size),
    )
