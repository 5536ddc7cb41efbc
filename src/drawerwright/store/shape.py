"""The shape that values must have to be kept: JSON, of bounded size. Whether they make sense is not asked.

A half-typed schedule must be savable, so only what would harm the store is refused. The limits are our own
choice (invented), far above what a shop has.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from drawerwright.errors import Fault, InputError
from drawerwright.units import show_value

MOST_DRAWERS: Final = 5_000
MOST_CABINETS: Final = 5_000
MOST_KEYS: Final = 200
MOST_ENTRIES: Final = 1_000
DEEPEST: Final = 8
LONGEST_TEXT: Final = 10_000
LONGEST_KEY: Final = 200
LARGEST_NUMBER: Final = 1e300
LARGEST: Final = 20_000_000
"""Characters of all texts of one job together, a few for each number."""

_COST: Final = 8
_EXACT: Final = 2**53
_MOST_FAULTS: Final = 50

_LISTS: Final = {"drawer": MOST_DRAWERS, "cabinet": MOST_CABINETS}


def is_storable(text: str) -> bool:
    """Whether every database takes such a text."""
    return "\0" not in text and not any("\ud800" <= sign <= "\udfff" for sign in text)


class _Reader:
    """Copies values while it collects what cannot be kept."""

    def __init__(self) -> None:
        self.faults: list[Fault] = []
        self._room = LARGEST

    def _take(self, size: int, where: str) -> None:
        self._room -= size
        if self._room < 0 <= self._room + size:
            says = f"is more than {LARGEST} characters in all"
            self.faults.append(Fault(where, "", says, "two jobs"))

    def refuse(self, where: str, value: object, says: str, try_: str) -> None:
        if len(self.faults) < _MOST_FAULTS:
            self.faults.append(Fault(where, show_value(value), says, try_))

    def copy(self, value: object, where: str, depth: int) -> Any:
        """A copy made of dict, list, str, int, float, bool and None; whole numbers are always int.

        A browser sends 562.0 as 562: were the two told apart, its save would seem to change every drawer.
        """
        self._take(_COST, where)
        if value is None or isinstance(value, bool):
            return value
        if isinstance(value, str):
            return self._text(value, where)
        if isinstance(value, (int, float)):
            return self._number(value, where)
        if depth > DEEPEST:
            self.refuse(where, "…", f"is nested deeper than {DEEPEST} levels", "a flatter table")
        elif isinstance(value, Mapping):
            return self._table(value, where, depth)
        elif isinstance(value, (list, tuple)):
            if len(value) > MOST_ENTRIES:
                says = f"has {len(value)} entries, {MOST_ENTRIES} at most"
                self.refuse(where, "[…]", says, "a shorter list")
            else:
                return [self.copy(one, f"{where}[{at}]", depth + 1) for at, one in enumerate(value)]
        else:
            says = f"is a {type(value).__name__}, which JSON does not have"
            self.refuse(where, value, says, "text, a number, true, false, null, a list or a table")
        return None

    def _table(self, value: Mapping[Any, Any], where: str, depth: int) -> dict[str, Any]:
        if len(value) > MOST_KEYS:
            self.refuse(where, "{…}", f"has {len(value)} keys, {MOST_KEYS} at most", "a smaller table")
            return {}
        copied = {}
        for key, one in value.items():
            if self.is_key(key, where):
                copied[key] = self.copy(one, f"{where} {key}" if depth == 0 else f"{where}.{key}", depth + 1)
        return copied

    def is_key(self, key: object, where: str) -> bool:
        """Whether a key can be kept; else it is refused."""
        if isinstance(key, str) and len(key) <= LONGEST_KEY:
            return bool(self._text(key, where) or not key)
        self.refuse(where, key, f"is no key: text of {LONGEST_KEY} characters at most", "a shorter key")
        return False

    def _text(self, text: str, where: str) -> str:
        if len(text) > LONGEST_TEXT:
            says = f"has {len(text)} characters, {LONGEST_TEXT} at most"
            self.refuse(where, f"{text[:40]}…", says, "a shorter text")
        elif not is_storable(text):
            says = "holds signs that no database takes (NUL, half a surrogate pair)"
            self.refuse(where, ascii(text[:40]), says, "the text without them")
        else:
            self._take(len(text), where)
            return text
        return ""

    def _number(self, number: int | float, where: str) -> int | float:
        if not -LARGEST_NUMBER <= number <= LARGEST_NUMBER:  # none is within, where it is no number
            told = f"a number of {number.bit_length()} bits" if isinstance(number, int) else f"{number:g}"
            self.faults.append(Fault(where, told, "is no number that JSON keeps", "562.5"))
            return 0
        return int(number) if number == int(number) and abs(number) <= _EXACT else number


def settle_job(values: object) -> dict[str, Any]:
    """A copy of a job's values, in the shape that is kept. `title` and `units` are text, lists are lists.

    Raises:
        InputError: it is no table, has too many drawers, or holds what cannot be kept; all faults together.
    """
    reader = _Reader()
    job = _table_of(reader, values, "job", "{title, units, defaults, cabinet, drawer}")
    settled: dict[str, Any] = {}
    for key, value in job.items():
        if not reader.is_key(key, "job"):
            continue
        if key in _LISTS:
            settled[key] = _entries(reader, key, value)
        elif key == "defaults":
            settled[key] = reader.copy(_table_of(reader, value, key, "{side = 16}"), key, 0)
        else:
            if key in ("title", "units") and not isinstance(value, str):
                reader.refuse(key, value, "is not text", '"mm"' if key == "units" else '"Kitchen"')
            settled[key] = reader.copy(value, key, 1)
    return _checked(reader, settled)


def settle_part(kind: str, values: object, *, named: str = "") -> dict[str, Any]:
    """A copy of one drawer, family, plan or row of readings, in the shape that is kept.

    Raises:
        InputError: it is no table, or holds what cannot be kept; all faults together.
    """
    reader = _Reader()
    where = f"{kind} {named}".strip()
    return _checked(reader, reader.copy(_table_of(reader, values, where, "{…}"), where, 0))


def settle_text(text: object, where: str, *, longest: int = 200, needed: bool = True) -> str:
    """A short text, such as a name, without blanks around it. Raises InputError."""
    if not isinstance(text, str) or (needed and not text.strip()) or len(text) > longest:
        says = f"is not a text of {'1 to ' if needed else 'at most '}{longest} characters"
        raise InputError([Fault(where, show_value(text), says, '"A-1"')])
    reader = _Reader()
    return str(_checked(reader, {"text": reader.copy(text.strip(), where, 1)})["text"])


def _entries(reader: _Reader, kind: str, value: object) -> list[dict[str, Any]]:
    if not isinstance(value, (list, tuple)):
        reader.refuse(kind, value, f"is not a list of {kind}s", f"[{{id = …}}] for each {kind}")
        return []
    if len(value) > _LISTS[kind]:
        says = f"are more than the {_LISTS[kind]} that a job holds"
        reader.refuse(kind, f"{len(value)} {kind}s", says, "two jobs, or more")
        return []
    copied = []
    for at, one in enumerate(value, 1):
        told = one.get("id") if isinstance(one, Mapping) else None
        where = f"{kind} {told}" if isinstance(told, str) and 0 < len(told) <= 80 else f"{kind} no. {at}"
        copied.append(reader.copy(_table_of(reader, one, where, "{id = …}"), where, 0))
    return copied


def _table_of(reader: _Reader, value: object, where: str, try_: str) -> Mapping[Any, Any]:
    if isinstance(value, Mapping):
        return value
    reader.refuse(where, value, "is not a table of keys", try_)
    return {}


def _checked(reader: _Reader, settled: dict[str, Any]) -> dict[str, Any]:
    if reader.faults:
        raise InputError(reader.faults)
    return settled
