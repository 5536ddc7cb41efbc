"""A slide family as the fields of a form: texts under dotted names, and the values that they mean.

A table of a list has its number in the name: `length.0.holes`. A blank field is a key left out.
What cannot be read is passed on as it was typed, so that the family's own reader says what is wrong.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Final

from drawerwright.catalogue.family_words import KeyWords, family_words
from drawerwright.errors import Problem
from drawerwright.model.family import RearBracket

TABLES: Final = ("length", "profile", "evidence")
"""Keys that hold a list of tables."""
EMPTY_MEANS: Final[Mapping[str, Mapping[str, Any]]] = {
    "rear_bracket": RearBracket().model_dump(mode="json", exclude_none=True),
}
"""Tables that mean something though they hold no key: what they stand for."""

MOST_ROWS: Final = 200
"""Most tables of one list that a form may bring. Own choice."""

_NUMBER: Final = re.compile(r"[-+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?\Z")
_ROW: Final = re.compile(rf"({'|'.join(TABLES)})\.(\d{{1,4}})\.(.+)\Z")

Form = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class FamilyForm:
    """Values read from a form. `rows`: of each list of tables, the numbers in the form of those told."""

    values: dict[str, Any]
    rows: dict[str, list[int]] = field(default_factory=dict)

    def field_of(self, problem: Problem) -> str | None:
        """Name of the field that a problem speaks of; None where the form has none for it."""
        return field_at(problem.loc, self.rows)


def read_form(form: Form) -> FamilyForm:
    """The values that a form means; names that belong to no key are left alone."""
    values: dict[str, Any] = {}
    tables: dict[str, dict[int, dict[str, Any]]] = {}
    for name, words in fields_of(form):
        text = form[name].strip()
        if not text:
            continue
        row = _ROW.match(name)
        if row is None:
            _put(values, words.key.split("."), value_of(text, words))
        elif len(tables.setdefault(row[1], {})) < MOST_ROWS or int(row[2]) in tables[row[1]]:
            _put(tables[row[1]].setdefault(int(row[2]), {}), row[3].split("."), value_of(text, words))
    rows = {key: sorted(found) for key, found in tables.items()}
    values |= {key: [tables[key][number] for number in numbers] for key, numbers in rows.items()}
    return FamilyForm(values, rows)


def fields_of(form: Form) -> Iterator[tuple[str, KeyWords]]:
    """Names of a form that stand for a key, each with the key's words, in the order of the keys."""
    order = {key: place for place, key in enumerate(family_words())}
    named = []
    for name in form:
        key = key_of(name)
        if key in order:
            named.append((order[key], name))
    for _, name in sorted(named):
        yield name, family_words()[key_of(name)]


def key_of(name: str) -> str:
    """The key that a field stands for: `length.holes` of `length.0.holes`."""
    row = _ROW.match(name)
    return f"{row[1]}.{row[3]}" if row else name


def form_of(values: Mapping[str, Any]) -> dict[str, str]:
    """The fields of a family's values; what is no key, or is not of a field's kind, has none."""
    form: dict[str, str] = {}
    for key, value in values.items():
        if key in TABLES:
            for number, table in enumerate(value if isinstance(value, list) else []):
                if isinstance(table, Mapping):
                    form |= _fields(table, f"{key}.{number}.")
        else:
            form |= _fields({key: value}, "")
    return form


def rows_of(form: Form, table: str) -> int:
    """How many tables of a list a form tells, blank ones before the last told among them."""
    numbers = [
        int(row[2])
        for name, text in form.items()
        if (row := _ROW.match(name)) and text.strip() and row[1] == table
    ]
    return max(numbers, default=-1) + 1


def field_at(loc: Sequence[str | int], rows: Mapping[str, Sequence[int]]) -> str | None:
    """Name of the field at a place in a family's values; the field of a whole list or pair is its own."""
    steps: list[str] = []
    for step in loc:
        if isinstance(step, str):
            steps.append(step)
        elif len(steps) == 1 and steps[0] in rows and step < len(rows[steps[0]]):
            steps.append(str(rows[steps[0]][step]))
    while steps and key_of(".".join(steps)) not in family_words():
        steps.pop()
    return ".".join(steps) or None


def value_of(text: str, words: KeyWords) -> Any:
    """What a field's text means for its key; the text itself where it cannot be read as that."""
    match words.written:
        case "length" | "mass" | "number" | "count":
            return _number(text)
        case "truth":
            return {"yes": True, "true": True, "no": False, "false": False}.get(text.casefold(), text)
        case "lengths":
            return _items(text)
        case "band":
            return _items(re.sub(r"\s+to\s+|\s*…\s*", "; ", text))
        case "points":
            pairs = [one for one in re.split(r"[;\n]", text.strip(" []")) if one.strip()]
            return [_items(pair) for pair in pairs]
        case _:
            return text


def text_of(value: Any, words: KeyWords) -> str | None:
    """A key's value as its field shows it; None where the field has no way to write it."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, (str, int, float)):
        return _shown(value)
    if not isinstance(value, (list, tuple)):
        return None
    if words.written == "points":
        pairs = [one for one in value if isinstance(one, (list, tuple))]
        return "; ".join(", ".join(map(_shown, pair)) for pair in pairs)
    between = " to " if words.written == "band" else "; "
    return between.join(_shown(one) for one in value) if value else "none"


def _fields(values: Mapping[str, Any], above: str) -> dict[str, str]:
    form: dict[str, str] = {}
    for key, value in values.items():
        name = f"{above}{key}"
        words = family_words().get(key_of(name))
        if words is not None:
            text = text_of(value, words)
            if text is not None:
                form[name] = text
        elif isinstance(value, Mapping):
            form |= _fields(value or EMPTY_MEANS.get(name, {}), f"{name}.")
    return form


def _shown(value: Any) -> str:
    """A number without trailing zeros, in full; a text as it is."""
    if isinstance(value, float) and value == int(value) and abs(value) < 1e15:
        return str(int(value))
    return str(value)


def _number(text: str) -> Any:
    """A number as a file has it; a text where it is none, such as one with a unit."""
    plain = text.replace("−", "-").strip()
    if plain.count(",") == 1 and "." not in plain:
        plain = plain.replace(",", ".")
    if not _NUMBER.match(plain):
        return text
    number = float(plain)
    return int(number) if number == number // 1 and abs(number) < 1e15 else number


def _items(text: str) -> list[Any]:
    """Values between `;`, or between `,` where there is no `;`; "none" or "[]" holds none."""
    bare = text.strip().strip("[]").strip()
    if bare.casefold() in ("", "none"):
        return []
    return [_number(one.strip()) for one in re.split(r";" if ";" in bare else r",", bare) if one.strip()]


def _put(values: dict[str, Any], steps: Sequence[str], value: Any) -> None:
    for step in steps[:-1]:
        values = values.setdefault(step, {})
    values[steps[-1]] = value
