"""What the store refuses, each an InputError with place, value and what would do.

InputError
├── StoreUnusable        the store cannot be opened, read or written: address, file, server, version
├── NotInStore           no job, family, revision or log of that name (HTTP: 404)
└── Conflict             somebody else changed the same things meanwhile; both versions are kept (HTTP: 409)
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from drawerwright.errors import Fault, InputError
from drawerwright.units import show_value


class StoreUnusable(InputError):
    """The store cannot be opened, read or written."""


class NotInStore(InputError):
    """Nothing of that name is in the store."""


@dataclass(frozen=True, slots=True)
class PartClash:
    """One part that was changed on both sides in different ways.

    `kind`: "drawer", "cabinet", "defaults", "length", "" (a key of the whole, such as `title`) or "order"
    (the order of the `id`s: "drawer" or "cabinet"). `mine`, `theirs`, `base`: its content on each side; None:
    not there. `mine_keys`, `theirs_keys`: dotted keys that each side changed. `theirs_revision`, `theirs_by`:
    who changed it last on their side.
    """

    kind: str
    id: str
    mine: Any
    theirs: Any
    base: Any
    mine_keys: tuple[str, ...] = ()
    theirs_keys: tuple[str, ...] = ()
    theirs_revision: int = 0
    theirs_by: str = ""

    @property
    def name(self) -> str:
        """The part in words: "drawer B1-2", "defaults.front", "title", "order of the drawers"."""
        if self.kind == "order":
            return f"order of the {self.id}s"
        if self.kind == "defaults":
            return f"defaults.{self.id}"
        return f"{self.kind} {self.id}".strip() or "(without a name)"


@dataclass(frozen=True, slots=True)
class Clash:
    """Two versions of one thing that cannot be put together without asking.

    `kept_revision`: where the losing version ("mine") was put, so that it can be read again at any time.
    """

    where: str
    base: dict[str, Any]
    mine: dict[str, Any]
    theirs: dict[str, Any]
    base_revision: int
    kept_revision: int
    theirs_revision: int
    parts: tuple[PartClash, ...] = field(default=())


class Conflict(InputError):
    """What was saved clashes with what somebody saved meanwhile. Nothing is lost: `kept_revision` has mine.

    `mine`, `theirs`, `base`: whole values; `mine` is what was to be saved, `theirs` the newest that is
    stored, `base` what both began with. `parts`: what clashes, part by part; `drawers`: those that are
    drawers. To settle it, save what is wanted, based on `theirs_revision`.
    """

    def __init__(self, clash: Clash) -> None:
        self.clash = clash
        super().__init__([_fault(clash, part) for part in clash.parts])
        self.args = (clash,)

    @property
    def mine(self) -> dict[str, Any]:
        """Values that were to be saved."""
        return self.clash.mine

    @property
    def theirs(self) -> dict[str, Any]:
        """Values as stored now."""
        return self.clash.theirs

    @property
    def base(self) -> dict[str, Any]:
        """Values that both sides began with."""
        return self.clash.base

    @property
    def base_revision(self) -> int:
        """Number of the revision that both sides began with."""
        return self.clash.base_revision

    @property
    def theirs_revision(self) -> int:
        """Number of the newest revision."""
        return self.clash.theirs_revision

    @property
    def kept_revision(self) -> int:
        """Number of the revision on the side that keeps `mine`."""
        return self.clash.kept_revision

    @property
    def parts(self) -> tuple[PartClash, ...]:
        """What clashes, part by part."""
        return self.clash.parts

    @property
    def drawers(self) -> tuple[PartClash, ...]:
        """The drawers that clash."""
        return tuple(part for part in self.clash.parts if part.kind == "drawer")


def _fault(clash: Clash, part: PartClash) -> Fault:
    who = part.theirs_by or "somebody"
    told = ", ".join(filter(None, part.theirs_keys))  # a whole that is no table has no key
    keys = f" ({told})" if told else ""
    done = "removed" if part.theirs is None else "changed"
    says = (
        f"was {done} by {who} meanwhile{keys}, in revision {part.theirs_revision}: "
        f"your version is kept as revision {clash.kept_revision}"
    )
    try_ = f"the values you want, based on revision {clash.theirs_revision}"
    return Fault(f"{clash.where} {part.name}", "", says, try_)


def not_in_store(what: str, name: object, try_: str = "") -> NotInStore:
    """The error for a name that nothing has: `what` is "job", "family" or such."""
    return NotInStore([Fault(what, show_value(name), f"is no {what} of this store", try_)])
