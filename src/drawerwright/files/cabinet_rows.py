"""Cabinets as the rows of a job's tables describe them."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from drawerwright.files.table_job import Spot


@dataclass
class CabinetEntry:
    """One cabinet: its values, where it was first told, and whether more than its name was."""

    number: int
    spot: Spot
    values: dict[str, Any] = field(default_factory=dict)
    own_row: bool = False
    told: bool = False


class CabinetRows:
    """Cabinets in the order in which a file names them first."""

    def __init__(self) -> None:
        self._entries: list[CabinetEntry] = []
        self._by_name: dict[str, CabinetEntry] = {}

    def add(self, spot: Spot) -> CabinetEntry:
        """A cabinet that has a row of its own."""
        entry = CabinetEntry(len(self._entries), spot, own_row=True)
        self._entries.append(entry)
        return entry

    def name(self, entry: CabinetEntry) -> None:
        """Remember the name of a cabinet that has a row of its own, for what stands beside its drawers."""
        name = entry.values.get("id")
        if isinstance(name, str):
            self._by_name.setdefault(name.strip(), entry)

    def beside(self, name: str, spot: Spot) -> CabinetEntry:
        """The cabinet that a drawer's row names."""
        entry = self._by_name.get(name.strip())
        if entry is None:
            entry = CabinetEntry(len(self._entries), spot, values={"id": name.strip()})
            self._entries.append(entry)
            self._by_name[name.strip()] = entry
        return entry

    def described(self) -> list[CabinetEntry]:
        """Cabinets that the job describes.

        Rows of their own describe all of them, so that a mistyped name is seen; without any, a job that tells
        something of one cabinet describes every cabinet it names; else names are names alone.
        """
        if any(entry.own_row for entry in self._entries):
            return [entry for entry in self._entries if entry.own_row or entry.told]
        return list(self._entries) if any(entry.told for entry in self._entries) else []
