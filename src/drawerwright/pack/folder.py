"""Putting a pack into its folder: all of it or nothing, and never over what is not ours.

The files are written into a new folder beside the wanted one, which is then renamed into place. A folder
that is there already is replaced only when it is empty, or when it holds a pack of ours in which nothing was
added or changed since: a file that someone else put there, or altered, is named in the error and all is left
as it was.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Final

from drawerwright.errors import Fault, InputError
from drawerwright.pack.manifest import FILE_NAME, Manifest, file_of, read_manifest
from drawerwright.pack.working import WRITING, place_held, working_folder

SHOWN: Final = 5
"""How many files an error names before it only counts the rest."""

_ANOTHER: Final = "a folder that is not there yet"
_MOVING: Final = f"moving them elsewhere, or {_ANOTHER}"


def fault(out: Path, says: str, try_: str = _ANOTHER) -> InputError:
    """An error about where the pack was to go."""
    return InputError([Fault(where="output", value=str(out), says=says, try_=try_)])


def _entries_below(folder: Path) -> dict[str, Path]:
    """Everything in a folder that is no plain folder itself, by its path with `/`; links are not followed."""
    found = {}
    for root, folders, names in os.walk(folder):
        here = Path(root)
        for name in [*names, *(f for f in folders if (here / f).is_symlink())]:
            found[(here / name).relative_to(folder).as_posix()] = here / name
    return found


def _manifest_in(folder: Path) -> Manifest | None:
    path = folder / FILE_NAME
    if path.is_symlink() or not path.is_file():
        return None
    return read_manifest(path.read_bytes())


def not_vouched_for(folder: Path, manifest: Manifest) -> tuple[str, ...]:
    """Paths in a folder that the manifest does not vouch for, sorted: foreign files and edited ones.

    A file is ours only while its size and hash are those of the manifest. Empty folders are nobody's.
    """
    listed = {entry.path: entry for entry in manifest.files}
    foreign = []
    for path, where in _entries_below(folder).items():
        if path == FILE_NAME:
            continue
        entry = listed.get(path)
        if (
            entry is None
            or where.is_symlink()
            or not where.is_file()
            or where.stat().st_size != entry.size
            or file_of(path, where.read_bytes()) != entry
        ):
            foreign.append(path)
    return tuple(sorted(foreign))


def _check_replaceable(out: Path) -> None:
    """Raises InputError where `out` holds anything that is not ours to remove."""
    if not out.is_dir():
        raise fault(out, "is a file, not a folder")
    here = Path.cwd().resolve()
    if here == out or out in here.parents:
        raise fault(out, "is the folder you are working in, or one above it, and would be replaced")
    if not any(out.iterdir()):
        return
    manifest = _manifest_in(out)
    if manifest is None:
        raise fault(out, "holds files and no pack of ours, and is left alone", "an empty folder or a new one")
    foreign = not_vouched_for(out, manifest)
    if foreign:
        says = "holds files that were added or changed since the pack was written, and is left alone"
        raise fault(out, f"{says}: {_named(foreign)}", _MOVING)
    _check_nothing_in_the_way(_set_aside(out))


def _check_nothing_in_the_way(before: Path) -> None:
    """Raises InputError where the old pack cannot wait because somebody's files stand in that place."""
    if before.is_symlink() or (before.exists() and not before.is_dir()):
        says = "stands where the old pack is kept while a new one takes its place, and is left alone"
        raise fault(before, says, "moving it elsewhere")
    if before.exists():
        says = (
            "is kept for the old pack while a new one takes its place, holds other files, and is left alone"
        )
        raise fault(before, f"{says}: {_named(sorted(_entries_below(before)))}", _MOVING)


def _named(paths: Sequence[str]) -> str:
    """The first of several paths, and how many more there are."""
    return ", ".join(paths[:SHOWN]) + (f" and {len(paths) - SHOWN} more" if len(paths) > SHOWN else "")


def _remove_pack(folder: Path) -> None:
    """Removes a pack's own files, the manifest last, then the folders they leave empty.

    Whatever came in meanwhile stays, and so does its folder.
    """
    manifest = _manifest_in(folder)
    if manifest is not None:
        foreign = set(not_vouched_for(folder, manifest))
        for path, where in _entries_below(folder).items():
            if path != FILE_NAME and path not in foreign:
                where.unlink()
        if not foreign:
            (folder / FILE_NAME).unlink()
    for root, _, _ in os.walk(folder, topdown=False):
        if not any(Path(root).iterdir()):
            Path(root).rmdir()


def _set_aside(out: Path) -> Path:
    """Where the old pack waits while the new one is put in its place."""
    return out.with_name(f".{out.name}.before")


def _recover(out: Path) -> None:
    """Ends what a run began that was killed between its two renamings, or while it removed the old pack.

    Of a set aside folder without a manifest nothing goes but folders that are empty: no file in it is ours.
    """
    before = _set_aside(out)
    if not before.is_dir() or before.is_symlink():
        return
    if out.exists():
        _remove_pack(before)
    elif _manifest_in(before) is not None:
        before.rename(out)


def check_folder(out: Path) -> Path:
    """The folder that a pack may be put in, made absolute, with links followed.

    Raises:
        InputError: something is there that is not ours to replace; the message names it.
    """
    try:
        resolved = out.expanduser().resolve()
        with place_held(resolved.parent):
            _recover(resolved)
            if resolved.exists():
                _check_replaceable(resolved)
    except (OSError, RuntimeError, ValueError) as error:
        raise fault(out, f"cannot be used: {reason_of(error)}") from None
    return resolved


def reason_of(error: Exception) -> str:
    """What the system says, without its number and path."""
    return (error.strerror or str(error)) if isinstance(error, OSError) else str(error)


def put_in_place(contents: Iterable[tuple[str, bytes]], title: str, out: Path) -> Manifest:
    """Writes files, given by path with `/` and content, and their manifest as the folder `out`.

    Until the new folder is complete the old one is as it was. Missing folders above `out` are made.

    Raises:
        InputError: `out` holds what is not ours, or the disk refuses.
    """
    resolved = check_folder(out)
    try:
        with working_folder(resolved, WRITING) as fresh:
            manifest = write_all(contents, title, fresh)
            with place_held(resolved.parent):
                _recover(resolved)
                _swap(fresh, resolved)
    except OSError as error:
        raise fault(out, f"cannot be written: {reason_of(error)}") from None
    return manifest


def write_all(contents: Iterable[tuple[str, bytes]], title: str, folder: Path) -> Manifest:
    """Writes files and their manifest below `folder`, each as it comes: no more than one is in memory.

    Raises:
        OSError: the disk refuses.
    """
    written = []
    for path, content in contents:
        _write(folder, path, content)
        written.append(file_of(path, content))
    manifest = Manifest(title, tuple(sorted(written, key=lambda one: one.path)))
    _write(folder, FILE_NAME, manifest.write())
    return manifest


def _write(folder: Path, path: str, content: bytes) -> None:
    where = folder.joinpath(*path.split("/"))
    where.parent.mkdir(parents=True, exist_ok=True)
    where.write_bytes(content)


def _swap(fresh: Path, out: Path) -> None:
    """Puts the finished folder where the old one is, and removes the old one's files."""
    if not out.exists():
        fresh.rename(out)
        return
    _check_replaceable(out)
    if not any(out.iterdir()):
        out.rmdir()
        fresh.rename(out)
        return
    before = _set_aside(out)
    out.rename(before)
    try:
        fresh.rename(out)
    except OSError:
        before.rename(out)
        raise
    _remove_pack(before)
