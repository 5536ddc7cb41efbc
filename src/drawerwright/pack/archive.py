"""Putting a pack into one zip file: whole or not at all, same pack same bytes, nothing of others replaced."""

from __future__ import annotations

import zipfile
from collections.abc import Iterable
from pathlib import Path
from typing import Final

from drawerwright.pack.folder import fault, reason_of, write_all
from drawerwright.pack.manifest import FILE_NAME, Manifest, file_of, read_manifest
from drawerwright.pack.working import UNPACKED, WRITING, beside, working_folder

ENDING: Final = ".zip"
OTHER_ARCHIVES: Final = frozenset({".7z", ".bz2", ".gz", ".rar", ".tar", ".tgz", ".xz", ".zst"})
"""Endings of archives of other kinds: whoever asks for one does not mean a folder."""
EARLIEST: Final = (1980, 1, 1, 0, 0, 0)
"""The first date that a zip file can hold; every entry bears it: same pack, same bytes."""
_PLAIN_FILE: Final = 0o100644 << 16
_LARGEST_MANIFEST: Final = 64_000_000

_ANOTHER: Final = "a name that is not taken yet"


def is_archive(out: Path) -> bool:
    """Whether a pack for `out` is one zip file: it ends in .zip, and is no folder that is there."""
    return out.suffix.casefold() == ENDING and not out.is_dir()


def refuse_other_archives(out: Path) -> None:
    """Stops a folder that would be named like an archive of a kind that is not written.

    Raises:
        InputError: `out` ends as such an archive does, and no folder of that name is there.
    """
    if out.suffix.casefold() in OTHER_ARCHIVES and not out.is_dir():
        says = "ends as an archive of a kind that is not written: packs are folders or zip files"
        raise fault(out, says, "a name that ends in .zip, or a folder's")


def check_archive(out: Path) -> Path:
    """The zip file that a pack may be put in, made absolute.

    Raises:
        InputError: something is there that is no pack of ours.
    """
    try:
        resolved = out.expanduser().resolve()
        if resolved.exists() and not _is_ours(resolved):
            raise fault(out, "is there already, is no pack of ours, and is left alone", _ANOTHER)
    except (OSError, RuntimeError, ValueError) as error:
        raise fault(out, f"cannot be used: {reason_of(error)}") from None
    return resolved


def _is_ours(path: Path) -> bool:
    """Whether a file is a pack as it was written: its manifest vouches for every entry."""
    if not path.is_file() or not zipfile.is_zipfile(path):
        return False
    try:
        with zipfile.ZipFile(path) as archive:
            entries = {one.filename: one for one in archive.infolist()}
            listing = entries.pop(FILE_NAME, None)
            if listing is None or listing.file_size > _LARGEST_MANIFEST:
                return False
            manifest = read_manifest(archive.read(listing))
            if manifest is None or entries.keys() != {one.path for one in manifest.files}:
                return False
            return all(
                entries[one.path].file_size == one.size and file_of(one.path, archive.read(one.path)) == one
                for one in manifest.files
            )
    except (zipfile.BadZipFile, RuntimeError, EOFError):
        return False


def put_in_archive(contents: Iterable[tuple[str, bytes]], title: str, out: Path) -> Manifest:
    """Writes files and their manifest as the zip file `out`: sorted, stored, dated alike.

    Missing folders above `out` are made; until the new file is complete the old one is as it was.

    Raises:
        InputError: `out` is not ours to replace, or the disk refuses.
    """
    resolved = check_archive(out)
    try:
        with working_folder(resolved, UNPACKED) as unpacked:
            manifest = write_all(contents, title, unpacked)
            fresh = beside(unpacked, WRITING)
            try:
                _write_archive(manifest, unpacked, fresh)
                check_archive(out)
                fresh.replace(resolved)
            finally:
                fresh.unlink(missing_ok=True)
    except OSError as error:
        raise fault(out, f"cannot be written: {reason_of(error)}") from None
    return manifest


def _write_archive(manifest: Manifest, unpacked: Path, path: Path) -> None:
    with zipfile.ZipFile(path, "x", zipfile.ZIP_STORED) as archive:
        for name in sorted([FILE_NAME, *(one.path for one in manifest.files)]):
            entry = zipfile.ZipInfo(name, EARLIEST)
            entry.create_system = 3
            entry.external_attr = _PLAIN_FILE
            archive.writestr(entry, unpacked.joinpath(*name.split("/")).read_bytes())
