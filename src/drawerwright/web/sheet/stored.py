"""A stored drawer in the fields of its sheet: what is written there, what was changed, what is saved."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from drawerwright.files.defaults import merged
from drawerwright.files.job_columns import drawer_columns
from drawerwright.units import BareUnit
from drawerwright.web.schedule.columns import text_of, with_cell
from drawerwright.web.schedule.edits import SetCell
from drawerwright.web.sheet.fields import USUAL_WORDS, key_of, texts_of, without_own_units
from drawerwright.web.sheet.units import in_other_units

Values = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class StoredDrawer:
    """A drawer of a job's values: its row, and the texts of its fields in the units of the page."""

    values: Values
    row: int
    texts: Mapping[str, str]
    job_units: BareUnit
    page_units: BareUnit

    @property
    def drawer(self) -> Values:
        """The drawer's own values."""
        drawer: Values = self.values["drawer"][self.row]
        return drawer

    @property
    def name(self) -> str:
        """The drawer's id."""
        return str(self.drawer.get("id", "")).strip()

    def changed(self, told: Mapping[str, str]) -> dict[str, str]:
        """Of the texts told, by the fields' names, those that are not what is stored."""
        return {
            name: text
            for name, text in told.items()
            if name in self.texts and text.strip() != self.texts[name].strip()
        }

    def edits(self, changed: Mapping[str, str]) -> list[SetCell]:
        """The edits of the job's schedule that changed fields come to."""
        return [
            SetCell(row=self.row, key=key_of(name), text=text)
            for name, text in self._to_store(changed).items()
        ]

    def with_changes(self, changed: Mapping[str, str]) -> dict[str, Any]:
        """The job's values as they would be saved with changed fields."""
        columns = drawer_columns()
        drawer: Values = self.drawer
        for name, text in self._to_store(changed).items():
            drawer = with_cell(drawer, columns[key_of(name)], text)
        drawers: Sequence[Any] = self.values["drawer"]
        return {**self.values, "drawer": [*drawers[: self.row], drawer, *drawers[self.row + 1 :]]}

    def _to_store(self, changed: Mapping[str, str]) -> dict[str, str]:
        """Texts in the units of the job. A blank field that the defaults would fill says what it means."""
        defaults = self.values.get("defaults") or {}
        columns, texts = drawer_columns(), {}
        for name, text in in_other_units(changed, self.page_units, self.job_units).items():
            key = key_of(name)
            filled = not text.strip() and key in USUAL_WORDS and bool(text_of(defaults, columns[key]))
            texts[name] = USUAL_WORDS[key] if filled else text
        return texts


def stored_drawer(values: Values, name: str, page_units: BareUnit | None) -> StoredDrawer | None:
    """The drawer of that id; None where the job has none. `page_units`: None for the job's own."""
    job_units: BareUnit = "in" if values.get("units") == "in" else "mm"
    shown = page_units or job_units
    for row, drawer in enumerate(values["drawer"]):
        if isinstance(drawer, Mapping) and str(drawer.get("id", "")).strip() == name:
            whole = merged(values.get("defaults") or {}, drawer)
            texts = without_own_units(
                in_other_units(without_own_units(texts_of(whole), job_units), job_units, shown), shown
            )
            return StoredDrawer(values, row, texts, job_units, shown)
    return None


def neighbours(values: Values, row: int) -> tuple[str, str]:
    """Ids of the drawers before and after a row; empty where there is none."""
    names = [str(one.get("id", "")).strip() if isinstance(one, Mapping) else "" for one in values["drawer"]]
    before = names[row - 1] if row else ""
    return before, names[row + 1] if row + 1 < len(names) else ""
