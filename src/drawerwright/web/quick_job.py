"""A quick question as a job: one opening, asked in an address, with the keys of a job file.

`width`, `height`, `depth`, `side`, `contents` are enough; every other key of a drawer may be told by its
dotted name (`front.style`, `frame.left`, `slide`), and what is known of its cabinet after `cabinet.`.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Final

from drawerwright.errors import Fault, InputError, ReadingError
from drawerwright.files.cells import value_of
from drawerwright.files.columns import Column, put
from drawerwright.files.job_columns import job_columns
from drawerwright.model.spelling import nearest
from drawerwright.units import ShownUnits, show_value
from drawerwright.web.reading_places import readings_as_filed

Pairs = Iterable[tuple[str, str]]
"""Keys and values of an address, in its order."""

DRAWER: Final = "quick"
"""Id of the drawer of a quick question, unless one is told."""

SHORT_KEYS: Final = {"width": "opening.width", "height": "opening.height", "depth": "opening.depth"}
"""Keys of the address that stand for a longer one of the job file."""

EXAMPLE: Final = {"width": "562", "height": "168", "depth": "530", "side": "16", "contents": "20 kg"}
"""An invented question, for the page that was asked none and for the API's description."""

SHOWN_UNITS: Final[Mapping[str, ShownUnits]] = {"mm": "mm", "in": "in", "both": "both"}
"""Units that an answer may be told in, by the word that asks for them."""

LONGEST: Final = 8_000
"""Most characters of a question: as many as an address may be counted on to have (RFC 9110 §4.1)."""

_SEVERAL: Final = ("number", "list")


@dataclass(frozen=True, slots=True)
class QuickQuestion:
    """A question read: the job's values, the units to answer in, and what could not be read in the address.

    `told` is whether anything was asked at all.
    """

    values: dict[str, Any]
    units: ShownUnits
    faults: tuple[Fault, ...]
    told: bool


def quick_keys() -> list[str]:
    """Every key that a quick question may have, the short ones first."""
    return [*SHORT_KEYS, "units", *(key for key in job_columns() if key not in SHORT_KEYS.values())]


def quick_values(query: Pairs, *, besides: Collection[str] = ()) -> dict[str, Any]:
    """The values of a job with the one drawer asked about, for `files.job_from_mapping`.

    `besides`: keys of the address that are not the question's. A value that is blank counts as not told.
    Raises InputError for keys that no drawer has and values that cannot be read.
    """
    question = read_question(query, besides=besides)
    if question.faults:
        raise InputError(question.faults)
    return question.values


def read_question(query: Pairs, *, besides: Collection[str] = ()) -> QuickQuestion:
    """A quick question as `quick_values` reads it, its faults beside what could be read.

    Raises InputError where it is longer than any question.
    """
    query = tuple(query)
    size = sum(len(key) + len(text) + 2 for key, text in query)
    if size > LONGEST:
        says = f"has {size} characters, {LONGEST} at most"
        raise InputError([Fault("the address", "", says, "POST /api/v1/fit, or fewer keys")])
    drawer: dict[str, Any] = {"id": DRAWER, "opening": {}}
    cabinet: dict[str, Any] = {}
    faults: list[Fault] = []
    told = _told(query, besides)
    shown = _units(told.pop("units", []), faults)
    for key, texts in told.items():
        column = job_columns().get(SHORT_KEYS.get(key, key))
        if column is None:
            close = nearest(key, quick_keys())
            says = f'is not a known key: the nearest is "{close}"'
            faults.append(_fault(key[:80], show_value(texts[0]), says, close))
            continue
        try:
            value = _value(column, texts)
        except ReadingError as error:
            faults.append(error.fault(f"job drawer {DRAWER} {column.key}"))
            continue
        if column.key == "id":
            drawer["id"] = value
        elif not _put(drawer, cabinet, column, value):
            says = "is told beside a key of its own table: one of the two"
            faults.append(_fault(column.key, show_value(value), says, f"{column.key} alone"))
    values: dict[str, Any] = {"units": "in" if shown == "in" else "mm", "drawer": [drawer]}
    if cabinet:
        drawer.setdefault("cabinet", DRAWER)
        values["cabinet"] = [{"id": drawer["cabinet"], **cabinet}]
    return QuickQuestion(values, shown, tuple(faults), bool(told))


def _told(query: Pairs, besides: Collection[str]) -> dict[str, list[str]]:
    """Texts by key that are not blank; a key that stands several times has several."""
    told: dict[str, list[str]] = {}
    for key, text in query:
        if key not in besides and text.strip():
            told.setdefault(key.strip(), []).append(text.strip())
    return told


def _units(texts: list[str], faults: list[Fault]) -> ShownUnits:
    for text in texts:
        if text in SHOWN_UNITS:
            return SHOWN_UNITS[text]
        faults.append(_fault("units", show_value(text), 'is not one of "mm", "in", "both"', "mm"))
    return "mm"


def _value(column: Column, texts: list[str]) -> Any:
    """A value as a job file holds it: several readings stand between `;`, or `,` and a blank."""
    if column.kind in _SEVERAL:
        parts = (readings_as_filed(column.key, text).replace(", ", "; ") for text in texts)
        return value_of("; ".join(parts), column.kind)
    if len(texts) > 1:
        raise ReadingError(show_value(texts[1]), "is told twice", f"{column.key}={texts[0]}")
    return value_of(texts[0], column.kind)


def _put(drawer: dict[str, Any], cabinet: dict[str, Any], column: Column, value: Any) -> bool:
    if column.path[0] == "cabinet" and len(column.path) > 1:
        return put(cabinet, column.path[1:], value)
    return put(drawer, column.path, value)


def _fault(key: str, value: str, says: str, try_: str) -> Fault:
    return Fault(f"job drawer {DRAWER} {key}", value, says, try_)
