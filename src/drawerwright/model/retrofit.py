"""A box that is already made, on another slide: what has to be done to it. Lengths mm."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, TypeAlias

if TYPE_CHECKING:
    from drawerwright.model.fitted import Mount

WorkKind: TypeAlias = Literal["side-spacer", "subfront-spacer", "hook-bore", "notch", "recess", "height"]


@dataclass(frozen=True, slots=True)
class Work:
    """One piece of work on the box, told as a person does it; `by`: how much is added, moved or taken off."""

    kind: WorkKind
    by: float
    says: str


@dataclass(frozen=True, slots=True)
class Retrofit:
    """A slide that takes the box: as it is, or after the work.

    `measure`: what the box was not told to have, and must.
    """

    family: str
    nominal: float
    mount: Mount
    work: tuple[Work, ...]
    measure: tuple[str, ...]

    @property
    def as_is(self) -> bool:
        """Whether nothing has to be done to the box, as far as it was told."""
        return not self.work
