"""The text of a file that a person named, or a fault that says why there is none."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from drawerwright.errors import Fault, InputError
from drawerwright.model.spelling import nearest

LARGEST_FILE: Final = 20_000_000
"""Largest file that is read [bytes]; a job of 10,000 drawers is about a tenth of it."""


JOB_INSTEAD: Final = "drawerwright job new"
"""What helps whoever has no job file yet."""


def read_bytes(path: Path, *, instead: str | None = None) -> bytes:
    """All of a file, 1 byte to 20 MB. Raises InputError.

    `instead` is what would do where the file is missing or empty; None: a job file with a name like it.
    """
    try:
        with path.open("rb") as stream:
            content = stream.read(LARGEST_FILE + 1)
    except IsADirectoryError:
        raise _refused(path, "is a folder: a file is wanted", f"{path.name}/job.toml") from None
    except (FileNotFoundError, NotADirectoryError):
        raise _refused(path, "does not exist", instead or _similar(path)) from None
    except PermissionError:
        raise _refused(path, "may not be opened: permission denied", "a file you may read") from None
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        raise _refused(path, f"cannot be opened: {reason}", "another file") from None
    if len(content) > LARGEST_FILE:
        raise _refused(path, "is larger than 20 MB", "splitting the file")
    if not content:
        raise _refused(path, "is empty", instead or JOB_INSTEAD)
    return content


def read_text(path: Path, *, instead: str | None = None) -> str:
    """All of a text file in UTF-8, with or without a byte order mark. Raises InputError as above."""
    content = read_bytes(path, instead=instead)
    if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise _refused(path, "is text in UTF-16", "saving it as UTF-8")
    if content.startswith(b"PK\x03\x04"):
        raise _refused(path, "is not text but packed, perhaps a workbook", f"{path.stem}.xlsx")
    if b"\0" in content:
        halves = content[:4096][0::2].count(0), content[:4096][1::2].count(0)
        if max(halves) > 0.4 * len(content[:4096][0::2]) and min(halves) == 0:
            raise _refused(path, "is text in UTF-16", "saving it as UTF-8")
        raise _refused(path, "is not text: it holds zero bytes", "a text file in UTF-8")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        where = f"{path.name}:{line}"
        readable = sum(byte >= 32 or byte in b"\t\r\n" for byte in content) >= 0.95 * len(content)
        if not readable:
            raise InputError([Fault(where, "", "is not text", "a text file in UTF-8")]) from None
        byte = f"0x{content[error.start]:02x}"
        says = "is not UTF-8; it looks like a Windows or Latin-1 code page"
        raise InputError([Fault(where, f"byte {byte}", says, "saving the file as UTF-8")]) from None


def is_folder(path: Path) -> bool:
    """Whether there is a folder at that place; a name that no file can have is none."""
    try:
        return path.is_dir()
    except (OSError, ValueError):
        return False


def _refused(path: Path, says: str, try_: str) -> InputError:
    return InputError([Fault(path.name or str(path), "", says, try_)])


def _similar(path: Path) -> str:
    """A file beside the missing one with a name like it."""
    try:
        names = [entry.name for entry in path.parent.iterdir() if entry.suffix == path.suffix]
    except OSError:
        return "an existing folder"
    return nearest(path.name, names) or JOB_INSTEAD
