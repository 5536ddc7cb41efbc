"""The folder beside a pack in which it is made: held by its living writer, removed when that is gone.

A writer that is killed leaves its folder behind. While it lives it holds a lock on it, which the system lets
go with it, so the next pack for the same place knows what is nobody's any more, without a clock or a list.
"""

from __future__ import annotations

import contextlib
import os
import re
import secrets
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Final

if sys.platform != "win32":  # where there are no such locks, what is left behind stays
    import fcntl

WRITING: Final = ".writing"
"""Ending of a folder that becomes the pack, and of a file that becomes its archive."""
UNPACKED: Final = ".folder"
"""Ending of the folder from which an archive is made."""
_KEPT_OF_NAME: Final = 40
_TRIES: Final = 8


@contextlib.contextmanager
def working_folder(target: Path, ending: str) -> Iterator[Path]:
    """A new folder beside `target`, held until the end and then removed, unless it was moved away.

    Before it is made, those that dead writers left there are removed. Raises OSError.
    """
    _remove_abandoned(target)
    target.parent.mkdir(parents=True, exist_ok=True)
    folder, held = _made_and_held(target, ending)
    try:
        yield folder
    finally:
        if folder.exists():
            shutil.rmtree(folder, ignore_errors=True)
        if held is not None:
            os.close(held)


@contextlib.contextmanager
def place_held(folder: Path) -> Iterator[None]:
    """Keeps other packs from being put into `folder` meanwhile: the folder itself is what is locked.

    Where there are no such locks, or no such folder yet, nothing is kept. Raises OSError.
    """
    if sys.platform == "win32" or not folder.is_dir():
        yield
        return
    held = os.open(folder, os.O_RDONLY)
    try:
        with contextlib.suppress(OSError):  # a file system without locks
            fcntl.flock(held, fcntl.LOCK_EX)
        yield
    finally:
        os.close(held)


def beside(folder: Path, ending: str) -> Path:
    """What belongs to the same writer as a working folder, under another ending."""
    return folder.with_suffix(ending)


def _made_and_held(target: Path, ending: str) -> tuple[Path, int | None]:
    """A new folder and the lock on it; made anew where another pack took it for abandoned in between."""
    for _ in range(_TRIES):
        folder = target.with_name(f".{target.name[:_KEPT_OF_NAME]}.{secrets.token_hex(4)}{ending}")
        folder.mkdir()
        if sys.platform == "win32":
            return folder, None
        try:
            held = os.open(folder, os.O_RDONLY)
        except FileNotFoundError:
            continue  # another pack took it for abandoned already
        try:
            fcntl.flock(held, fcntl.LOCK_EX)
            if folder.exists():
                return folder, held
        except OSError:
            os.close(held)  # a file system without locks: others cannot hold it either, and leave it
            return folder, None
        os.close(held)
    raise OSError("others remove what is being written")


def _remove_abandoned(target: Path) -> None:
    """Remove what writers for the same place left behind that are gone; what cannot be removed stays."""
    if sys.platform == "win32" or not target.parent.is_dir():
        return
    ours = re.compile(rf"\.{re.escape(target.name[:_KEPT_OF_NAME])}\.[0-9a-f]{{8}}\.(writing|folder)")
    found = [one for one in target.parent.iterdir() if ours.fullmatch(one.name) and not one.is_symlink()]
    for folder in found:
        if folder.is_dir():
            _remove_if_free(folder)
    for file in found:
        # An archive is written while its folder stands: without one it is nobody's.
        if file.is_file() and not beside(file, UNPACKED).exists():
            file.unlink(missing_ok=True)


def _remove_if_free(folder: Path) -> None:
    """Remove a working folder, and the archive begun from it, unless a living writer holds it."""
    if sys.platform == "win32":
        return
    try:
        held = os.open(folder, os.O_RDONLY)
    except OSError:
        return
    try:
        fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
        if folder.suffix == UNPACKED:
            beside(folder, WRITING).unlink(missing_ok=True)
        shutil.rmtree(folder, ignore_errors=True)
    except OSError:
        return
    finally:
        os.close(held)
