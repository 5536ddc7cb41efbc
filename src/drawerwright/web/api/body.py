"""The JSON body of a request, read strictly: one object, each key once, real numbers, whole characters."""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Collection
from typing import Any, Final, TypeAlias

from fastapi import Request

from drawerwright.errors import Fault, InputError
from drawerwright.model.spelling import nearest
from drawerwright.units import show_value

DEEPEST: Final = 30
"""Most levels of lists and objects: a job needs six. As in the files that are read."""

LONGEST_NUMBER: Final = 40
"""Most digits of a whole number: turning a long one into text takes time with its square. Own choice."""

MOST_UNKNOWN: Final = 200
"""Most unknown keys that are looked at: more than an answer tells, and seeking the nearest takes time."""

PLACE: Final = "the body"
_KEY_SHOWN: Final = 80
_EXAMPLE: Final = '{"job": {"drawer": [...]}}'


class _NotOurs(ValueError):
    """Something that JSON, or a number of ours, is not."""


class _NoNumberOfOurs(_NotOurs):
    """A number that JSON, or a float, does not hold."""


async def read_body(request: Request, example: str = _EXAMPLE) -> dict[str, Any]:
    """The one JSON object of a request's body. Raises InputError where it is something else."""
    return object_of(await request.body(), example)


def object_of(raw: bytes, example: str = _EXAMPLE) -> dict[str, Any]:
    """The one JSON object in some bytes (RFC 8259). Raises InputError where they hold something else."""
    values = value_of_json(raw, example)
    if not isinstance(values, dict):
        raise InputError([Fault(PLACE, show_value(values), "is not a JSON object", example)])
    return values


def value_of_json(raw: bytes, example: str = _EXAMPLE) -> Any:
    """Any JSON value in some bytes (RFC 8259). Raises InputError where there is none."""
    if not raw.strip():
        raise InputError([Fault(PLACE, "", "is empty: JSON is wanted", example)])
    try:
        text = raw.decode("utf-8-sig")
        values = json.loads(
            text,
            parse_constant=_no_number,
            parse_float=_real,
            parse_int=_whole,
            object_pairs_hook=_once,
        )
    except UnicodeDecodeError as error:
        says = f"is not UTF-8: byte {error.start + 1} cannot be read"
        raise InputError([Fault(PLACE, "", says, "the text saved as UTF-8")]) from None
    except json.JSONDecodeError as error:
        found = text[error.pos : error.pos + 40]
        where = f"{PLACE} line {error.lineno} column {error.colno}"
        says = f"is not JSON: {error.msg[:1].lower()}{error.msg[1:]}"
        raise InputError([Fault(where, ascii(found) if found else "", says, example)]) from None
    except _NotOurs as error:
        value, says, try_ = map(str, error.args)
        place = _place_of_first_odd_number(text) if isinstance(error, _NoNumberOfOurs) else PLACE
        raise InputError([Fault(place, value, says, try_)]) from None
    except RecursionError:
        raise _too_deep() from None
    _check_depth(values, text)
    if "\\u" in text:
        _check_characters(values)
    return values


def check_keys(values: Collection[str], known: Collection[str], faults: list[Fault]) -> None:
    """Add a fault for every key that is not known, naming the nearest; of very many only the first."""
    for key in values:
        if len(faults) > MOST_UNKNOWN:
            return
        if key not in known:
            close = nearest(key, known)
            says = f'is not a known key: the nearest is "{close}"'
            faults.append(Fault(key[:80] or PLACE, "", says, ", ".join(known)))


def _no_number(word: str) -> float:
    raise _NoNumberOfOurs(word, "is no number that JSON has", "562.5")


def _real(text: str) -> float:
    number = float(text)
    if math.isinf(number):
        raise _NoNumberOfOurs(text[:40], "is too large for a number", "562.5")
    return number


def _whole(text: str) -> int:
    if len(text) > LONGEST_NUMBER:
        says = f"has {len(text)} digits, {LONGEST_NUMBER} at most"
        raise _NoNumberOfOurs(f"{text[:40]}…", says, "562")
    return int(text)


_Way: TypeAlias = "tuple[()] | tuple[str | int, _Way]"
"""Keys that lead to a place in a body, the last one first."""


class _Odd:
    """Stands in a body for a number that is none of ours."""


def _place_of_first_odd_number(text: str) -> str:
    """Where the first number stands that JSON or a float does not hold, as in `job.drawer[0].opening.width`.

    The body alone where there is none: what else may be wrong with it has no such place.
    """

    def kept(read: Callable[[str], float]) -> Callable[[str], float | _Odd]:
        def read_or_keep(word: str) -> float | _Odd:
            try:
                return read(word)
            except _NotOurs:
                return _Odd()

        return read_or_keep

    try:
        values = json.loads(
            text, parse_constant=kept(_no_number), parse_float=kept(_real), parse_int=kept(_whole)
        )
    except (json.JSONDecodeError, RecursionError):
        return PLACE
    to_look_at: list[tuple[Any, _Way]] = [(values, ())]
    while to_look_at:
        one, way = to_look_at.pop()
        if isinstance(one, _Odd):
            return f"{PLACE} {_words(way)}".rstrip()
        if isinstance(one, (dict, list)):
            inside = one.items() if isinstance(one, dict) else enumerate(one)
            to_look_at += [(each, (key, way)) for key, each in inside][::-1]
    return PLACE


def _words(way: _Way) -> str:
    """A way into a body in words; only the last steps of a long one."""
    steps: list[str] = []
    while way:
        key, way = way
        steps.append(f"[{key}]" if isinstance(key, int) else f".{key[:_KEY_SHOWN]}")
        if len(steps) == DEEPEST:
            break
    return "".join(reversed(steps)).removeprefix(".")


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    values = dict(pairs)
    if len(values) < len(pairs):
        seen: set[str] = set()
        for key, _ in pairs:
            if key in seen:
                raise _NotOurs(ascii(key[:80]), "is a key that stands twice in one object", "each key once")
            seen.add(key)
    return values


def _check_depth(values: Any, text: str) -> None:
    """Raise InputError where lists and objects nest too deep, told layer by layer without recursion."""
    if text.count("[") + text.count("{") <= DEEPEST:
        return
    layer = [values]
    for _ in range(DEEPEST):
        layer = [one for holder in layer for one in _inside(holder) if isinstance(one, (dict, list))]
        if not layer:
            return
    raise _too_deep()


def _check_characters(values: Any) -> None:
    """Raise InputError where a text or key holds half a surrogate pair, which is no character."""
    layer = [values]
    while layer:
        inner: list[Any] = []
        for holder in layer:
            inner += _inside(holder)
            if isinstance(holder, dict):
                inner += holder
        for one in inner:
            if isinstance(one, str) and any("\ud800" <= sign <= "\udfff" for sign in one):
                says = "holds half a surrogate pair, which is no character"
                raise InputError([Fault(PLACE, ascii(one[:40]), says, "the text without it")])
        layer = [one for one in inner if isinstance(one, (dict, list))]


def _inside(holder: Any) -> list[Any]:
    return list(holder.values()) if isinstance(holder, dict) else holder


def _too_deep() -> InputError:
    says = f"nests lists or objects deeper than {DEEPEST} levels"
    return InputError([Fault(PLACE, "", says, "a flatter object")])
