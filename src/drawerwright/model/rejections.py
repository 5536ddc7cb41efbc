"""Slides that were tried and stopped, put together for people to read."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from drawerwright.model.fitted import Mount, Rejected


@dataclass(frozen=True, slots=True)
class RejectedAlike:
    """Lengths of one family on one mount that the same check stopped first, in the order tried."""

    family: str
    mount: Mount
    because: str
    unit: str
    members: tuple[Rejected, ...]


def rejected_alike(rejected: Iterable[Rejected]) -> list[RejectedAlike]:
    """Rejected slides by family, mount and the check that stopped them first, in the order of the first."""
    groups: dict[tuple[str, Mount, str, str], list[Rejected]] = {}
    for one in rejected:
        groups.setdefault((one.family, one.mount, one.because, one.unit), []).append(one)
    return [RejectedAlike(*key, tuple(members)) for key, members in groups.items()]
