"""How a pack stands: not asked for, under way, ready with its files, or not to be made yet."""

from __future__ import annotations

import zipfile
from dataclasses import dataclass

from drawerwright.pack.manifest import FILE_NAME, PackFile, file_of, read_manifest
from drawerwright.web.packing import PackOrder
from drawerwright.web.packs_kept import PacksKept, Step

WAITING = Step("waiting its turn", 0, 0)


@dataclass(frozen=True, slots=True)
class Ready:
    """A pack that is built: its size [bytes] and files, the manifest last."""

    size: int
    files: tuple[PackFile, ...]


def begin_and_look(kept: PacksKept, order: PackOrder) -> Ready | Step:
    """Begin a pack where nobody did, and tell how it stands. Raises InputError if the job does not read."""
    ready = ready_pack(kept, order)
    if ready is not None:
        return ready
    if kept.begun(order.name) is None:
        kept.begin(order.name, order.maker())
    return kept.step(order.name) or WAITING


def ready_pack(kept: PacksKept, order: PackOrder) -> Ready | None:
    """A pack that is built already; None where it is not."""
    file = kept.open(order.name)
    if file is None:
        return None
    with file, zipfile.ZipFile(file) as archive:
        listing = archive.read(FILE_NAME)
        size = file.seek(0, 2)
    manifest = read_manifest(listing)
    files = () if manifest is None else manifest.files
    return Ready(size, (*files, file_of(FILE_NAME, listing)))
