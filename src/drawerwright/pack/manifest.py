"""The list of a pack's files with their hashes, by which a pack is checked and safely replaced."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from typing import Final

SCHEMA: Final = "drawerwright/pack/1"
FILE_NAME: Final = "manifest.json"


@dataclass(frozen=True, slots=True)
class PackFile:
    """One file of a pack: its path inside the pack with `/`, its size [bytes] and SHA-256 [hex]."""

    path: str
    size: int
    sha256: str


@dataclass(frozen=True, slots=True)
class Manifest:
    """A pack's files in the order of their paths; the manifest itself is not among them."""

    title: str
    files: tuple[PackFile, ...]

    def document(self) -> dict[str, object]:
        """The manifest as its JSON document."""
        return {
            "schema": SCHEMA,
            "title": self.title,
            "files": [{"path": f.path, "bytes": f.size, "sha256": f.sha256} for f in self.files],
        }

    def write(self) -> bytes:
        """The manifest file's content."""
        return (json.dumps(self.document(), indent=1, ensure_ascii=False) + "\n").encode("utf-8")


def file_of(path: str, content: bytes) -> PackFile:
    """Size and hash of one file's content."""
    return PackFile(path, len(content), hashlib.sha256(content).hexdigest())


def read_manifest(content: bytes) -> Manifest | None:
    """The manifest that `content` holds, or None where it is no manifest of this schema."""
    try:
        document = json.loads(content)
    except (ValueError, RecursionError):
        return None
    if not isinstance(document, dict) or document.get("schema") != SCHEMA:
        return None
    files = []
    listed = document.get("files")
    for entry in listed if isinstance(listed, list) else [None]:
        match entry:
            case {"path": str(path), "bytes": int(size), "sha256": str(sha256)}:
                files.append(PackFile(path, size, sha256))
            case _:
                return None
    return Manifest(str(document.get("title", "")), tuple(files))
