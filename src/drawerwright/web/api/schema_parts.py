"""What schemas are put together of (JSON Schema 2020-12): words for the few forms that ours have."""

from __future__ import annotations

from typing import Any, Final

from drawerwright.web.api.describing import reference

Schema = dict[str, Any]

TEXT: Final[Schema] = {"type": "string"}
NUMBER: Final[Schema] = {"type": "number"}
COUNT: Final[Schema] = {"type": "integer"}
TRUTH: Final[Schema] = {"type": "boolean"}
ANYTHING: Final[Schema] = {}
TABLE: Final[Schema] = {"type": "object"}
UNITS: Final[Schema] = {"type": "string", "enum": ["mm", "in", "both"]}
MOMENT: Final[Schema] = {"type": "string", "format": "date-time"}
STATE: Final[Schema] = {"type": "string", "enum": ["ok", "watch", "stop"]}
VERDICT: Final[Schema] = {"type": "string", "enum": ["fits", "fits-with-care", "does-not-fit"]}


def ref(name: str) -> Schema:
    """The schema of that name."""
    return {"$ref": reference(name)}


def maybe(one: Schema) -> Schema:
    """That, or null."""
    return {"anyOf": [one, {"type": "null"}]}


def some(one: Schema) -> Schema:
    """A list of that."""
    return {"type": "array", "items": one}


def answered(says: str, /, **keys: Schema) -> Schema:
    """An object that has these keys, and may have more."""
    return {"type": "object", "description": says, "properties": keys, "required": list(keys)}


def sent(says: str, needed: tuple[str, ...], /, **keys: Schema) -> Schema:
    """An object that may have these keys, must have some of them, and has no others."""
    told = {"type": "object", "description": says, "properties": keys, "additionalProperties": False}
    return {**told, "required": list(needed)} if needed else told


def numbers(says: str, /, *keys: str) -> Schema:
    """An object of numbers."""
    return answered(says, **dict.fromkeys(keys, NUMBER))
