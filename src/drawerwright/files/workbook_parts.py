"""What is inside a workbook file, looked at before any of it is read as a workbook.

An XLSX file is a zip of XML parts (ECMA-376, Office Open XML). A small file can hold enormous parts, parts
that are not what the list of parts says, entities that fetch other files, or a cell in the last row of a
sheet of a million: so the parts are unpacked here under limits, and only those that are wanted are handed
on, in a new plain zip. The limits are by judgement, without a source.
"""

from __future__ import annotations

import io
import zipfile
import zlib
from collections.abc import Iterable, Mapping
from typing import Final
from xml.etree import ElementTree as Xml

from drawerwright.errors import Fault, InputError

MOST_PARTS: Final = 2_000
MOST_UNPACKED: Final = 100_000_000
"""Most bytes of all the parts that are read."""

_OLE: Final = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_ENCRYPTED: Final = "EncryptedPackage".encode("utf-16-le")
_BLOCK: Final = 1 << 18
_PLAIN: Final = frozenset(
    {"[content_types].xml", "_rels/.rels", "xl/_rels/workbook.xml.rels"}
    | {"xl/sharedstrings.xml", "xl/styles.xml"}
)
_OTHER_KINDS: Final = {
    "xl/workbook.bin": "a binary workbook (.xlsb)",
    "content.xml": "an OpenDocument file (.ods)",
    "mimetype": "an OpenDocument file (.ods)",
}
"""What a zip is that holds such a part (ECMA-376-1 and OpenDocument 1.3 part 2: Packages)."""
WORKBOOK: Final = "xl/workbook.xml"
RELATIONS: Final = "xl/_rels/workbook.xml.rels"


def refuse(name: str, says: str, try_: str) -> InputError:
    """The error that refuses a whole file."""
    return InputError([Fault(name, "", says, try_)])


def open_parts(content: bytes, name: str) -> zipfile.ZipFile:
    """The zip of a workbook, its list of parts looked at. Raises InputError saying what it is instead."""
    if content.startswith(_OLE):
        if _ENCRYPTED in content:
            raise refuse(name, "is protected by a password", "saving a copy without the password")
        raise refuse(name, "is a workbook of the old kind (.xls)", "saving it as .xlsx")
    if not content.startswith(b"PK\x03\x04"):
        if content.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"<"):
            says = "is no workbook but a web page or XML, as some programs name .xlsx"
            raise refuse(name, says, "opening it in a spreadsheet and saving it as .xlsx")
        csv = b"\0" not in content[:4096] and b"\n" in content
        says = "is no workbook: it looks like plain text" if csv else "is no workbook"
        raise refuse(name, says, "naming it .csv" if csv else "a workbook saved as .xlsx")
    try:
        archive = zipfile.ZipFile(io.BytesIO(content))
    except (zipfile.BadZipFile, ValueError, RuntimeError, OSError):
        raise damaged(name) from None
    parts = archive.infolist()
    if len(parts) > MOST_PARTS:
        says = f"has {len(parts)} parts: at most {MOST_PARTS} are read"
        raise refuse(name, says, "copying the sheets into a new workbook")
    names = [part.filename.lower() for part in parts]
    if len(set(names)) < len(names):
        raise refuse(name, "holds a part twice", "saving it anew in the spreadsheet")
    if any(part.flag_bits & 1 for part in parts):
        raise refuse(name, "is protected by a password", "saving a copy without the password")
    if any("vbaproject" in part or part.startswith("xl/macrosheets/") for part in names):
        raise refuse(name, "holds macros, which are not wanted here", "saving it as .xlsx without macros")
    if WORKBOOK not in names:
        kinds = (f"is {kind}, no XLSX workbook" for part, kind in _OTHER_KINDS.items() if part in names)
        raise refuse(name, next(kinds, "is a zip archive that holds no XLSX workbook"), "saving it as .xlsx")
    return archive


class Parts:
    """The parts of a workbook that are read, each unpacked once, all of them under one limit."""

    def __init__(self, content: bytes, name: str) -> None:
        self.name = name
        self._archive = open_parts(content, name)
        self._by_name = {part.filename.lower(): part for part in self._archive.infolist()}
        self._left = MOST_UNPACKED
        self._read: dict[str, bytes] = {}

    def __contains__(self, part: str) -> bool:
        return part.lower() in self._by_name

    def read(self, part: str) -> bytes:
        """An XML part. Raises InputError when it is too large, damaged, or declares entities."""
        key = part.lower()
        if key not in self._read:
            self._read[key] = self._unpacked(self._by_name[key])
        return self._read[key]

    def _unpacked(self, part: zipfile.ZipInfo) -> bytes:
        if part.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
            says = f"packs {part.filename} in a way that workbooks do not use"
            raise refuse(self.name, says, "saving it anew")
        blocks: list[bytes] = []
        try:
            with self._archive.open(part) as stream:
                while block := stream.read(_BLOCK):
                    self._left -= len(block)
                    if self._left < 0:
                        says = f"unpacks to more than {MOST_UNPACKED // 1_000_000} MB: it may be a zip bomb"
                        raise refuse(self.name, says, "copying the wanted sheets into a new workbook")
                    blocks.append(block)
        except (zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError, RuntimeError):
            raise damaged(self.name) from None
        content = b"".join(blocks)
        self._no_entities(part.filename, content)
        return content

    def _no_entities(self, part: str, content: bytes) -> None:
        """Entities can fetch files and grow without end; no spreadsheet writes any."""
        head = content[:4]
        if head[:2] in (b"\xff\xfe", b"\xfe\xff") or b"\0" in head:
            raise refuse(self.name, f"holds {part} in UTF-16", "saving it anew in the spreadsheet")
        if b"<!DOCTYPE" in content or b"<!ENTITY" in content:
            says = f"declares a document type or entities in {part}: these are never read"
            raise refuse(self.name, says, "saving it anew in the spreadsheet")

    def xml(self, part: str) -> Xml.Element:
        """The root of a small XML part."""
        try:
            return Xml.fromstring(self.read(part))
        except (Xml.ParseError, ValueError, LookupError):
            raise damaged(self.name) from None

    def repacked(self, sheets: Iterable[str]) -> io.BytesIO:
        """A plain zip of the workbook's own parts and those sheets, all of them as they were looked at."""
        out = io.BytesIO()
        with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as archive:
            wanted = {WORKBOOK, *_PLAIN, *(sheet.lower() for sheet in sheets)}
            for key, part in self._by_name.items():
                if key in wanted:
                    archive.writestr(zipfile.ZipInfo(part.filename), self.read(key))
        out.seek(0)
        return out


def sheet_parts(parts: Parts) -> Mapping[str, str]:
    """The part of each sheet, by the sheet's name, in the workbook's order; chart sheets left out."""
    if RELATIONS not in parts:
        raise damaged(parts.name)
    targets = {
        relation.get("Id", ""): _absolute(relation.get("Target", ""))
        for relation in parts.xml(RELATIONS)
        if relation.get("TargetMode") != "External" and relation.get("Type", "").endswith("/worksheet")
    }
    found: dict[str, str] = {}
    for sheet in parts.xml(WORKBOOK).iter():
        if sheet.tag.rpartition("}")[2] != "sheet":
            continue
        id_ = next((value for key, value in sheet.attrib.items() if key.endswith("}id")), "")
        name, target = sheet.get("name", ""), targets.get(id_, "")
        if target in parts and name not in found:
            found[name] = target
    return found


def _absolute(target: str) -> str:
    """A part's name from the target of a relation, which is relative to xl/ unless it begins with a slash."""
    return target[1:] if target.startswith("/") else f"xl/{target}"


def damaged(name: str) -> InputError:
    """The error that refuses a workbook whose parts contradict each other."""
    says = "is a damaged workbook: its parts cannot be read"
    return refuse(name, says, "saving it anew in the spreadsheet")
