"""What a request that saves says beside its values: what they are based on, who saves, what was changed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final, overload

from drawerwright.errors import Fault, InputError
from drawerwright.store import NotInStore
from drawerwright.units import show_value
from drawerwright.web.api.body import check_keys

WORDS: Final = ("by", "what")
_LARGEST: Final = 2**31 - 1


@dataclass(frozen=True, slots=True)
class Saving:
    """A request to save, read: its own parts by key, and what goes with every save."""

    parts: dict[str, Any]
    based_on: int
    by: str
    what: str


def read_saving(
    body: Mapping[str, Any], *needed: str, based: bool = True, may: tuple[str, ...] = ()
) -> Saving:
    """Read the body of a request that saves. `needed`, `may`: its own keys; `based`: it replaces something.

    Raises InputError with all faults of the body's own keys; what the values hold is for others to say.
    """
    faults: list[Fault] = []
    own = (*needed, *may)
    check_keys(body, (*own, *(("based_on",) if based else ()), *WORDS), faults)
    faults += [Fault(key, "", "is missing", f'"{key}": …') for key in needed if key not in body]
    based_on = _revision(body, faults) if based else 0
    by, what = (_text(body, key, faults) for key in WORDS)
    if faults:
        raise InputError(faults)
    return Saving({key: body[key] for key in own if key in body}, based_on, by, what)


@overload
def revision_told(number: int, where: str = "revision") -> int: ...
@overload
def revision_told(number: int | None, where: str = "revision") -> int | None: ...
def revision_told(number: int | None, where: str = "revision") -> int | None:
    """A revision told in an address under the key `where`. Raises NotInStore where none has such a number."""
    if number is None or 0 < number <= _LARGEST:
        return number
    says = "is no revision of this store: they are counted from 1"
    raise NotInStore([Fault(where, show_value(number), says, "1")])


def _revision(body: Mapping[str, Any], faults: list[Fault]) -> int:
    told = body.get("based_on")
    if isinstance(told, int) and not isinstance(told, bool) and 0 < told <= _LARGEST:
        return told
    says = "is missing" if told is None else "is not the number of a revision"
    faults.append(
        Fault("based_on", "" if told is None else show_value(told), says, "the revision that was read")
    )
    return 0


def _text(body: Mapping[str, Any], key: str, faults: list[Fault]) -> str:
    told = body.get(key, "")
    if isinstance(told, str):
        return told
    faults.append(Fault(key, show_value(told), "is not text", '"…"'))
    return ""
