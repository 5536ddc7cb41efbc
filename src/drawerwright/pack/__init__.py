"""A job's papers and files: sheets, templates, lists, labels, DXF, the job and its answer, and a manifest."""

from __future__ import annotations

from drawerwright.pack.manifest import Manifest, PackFile
from drawerwright.pack.papers import PaperName
from drawerwright.pack.write import SECTIONS, USUAL, Progress, Section, pack_contents, pack_files, write_pack

__all__ = [
    "SECTIONS",
    "USUAL",
    "Manifest",
    "PackFile",
    "PaperName",
    "Progress",
    "Section",
    "pack_contents",
    "pack_files",
    "write_pack",
]
