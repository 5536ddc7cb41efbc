"""A job's papers and files: sheets, lists, DXF, the job and its answer, and a manifest of them all."""

from __future__ import annotations

from drawerwright.pack.manifest import Manifest, PackFile
from drawerwright.pack.papers import PaperName
from drawerwright.pack.write import Progress, pack_contents, write_pack

__all__ = ["Manifest", "PackFile", "PaperName", "Progress", "pack_contents", "write_pack"]
