"""What others saved of a drawer since its page was made: told there, and put together with its changes."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Final

from drawerwright.web.schedule.edits import SetCell
from drawerwright.web.sheet.fields import Field, strip_of
from drawerwright.web.sheet.stored import StoredDrawer

_UNITS: Final = {"length": {"mm": "mm", "in": "in"}, "mass": {"mm": "kg", "in": "lb"}}


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """A field that was changed elsewhere: its name, what is stored now, and a sentence of it.

    `mine`: the page changes it too, to something else.
    """

    name: str
    text: str
    says: str
    mine: bool


def changed_elsewhere(
    base: StoredDrawer | None, now: StoredDrawer, mine: Collection[str]
) -> tuple[Elsewhere, ...]:
    """The fields that are stored otherwise than the page was made of; `mine` are those that it changes.

    `base` and `now` in the same units; a drawer that was not there by this name tells nothing.
    """
    if base is None:
        return ()
    theirs = _theirs(base, now)
    fields = [field for field in strip_of(now.texts, of_a_job=True).fields if field.name in theirs]
    return tuple(
        Elsewhere(field.name, theirs[field.name], _says(field, now, field.name in mine), field.name in mine)
        for field in fields
    )


def put_together(
    base: StoredDrawer, now: StoredDrawer | None, changed: Mapping[str, str]
) -> tuple[list[SetCell], bool]:
    """Edits for the fields that a page changes, and whether they are to be done on what is stored now.

    Fields that the page left as they were take what others saved. Where both changed one, the edits are of
    the revision that the page was made of: saving them is a conflict, about those fields alone.
    """
    if now is None:
        return base.edits(changed), False
    theirs, mine = _theirs(base, now), now.changed(changed)
    if theirs.keys().isdisjoint(mine):
        return now.edits(mine), True
    if base.page_units != base.job_units or base.job_units != now.job_units:
        return base.edits(changed), False  # in other units their texts may be rounded
    return base.edits({**theirs, **mine}), False


def _theirs(base: StoredDrawer, now: StoredDrawer) -> dict[str, str]:
    return base.changed(now.texts)


def _says(field: Field, now: StoredDrawer, mine: bool) -> str:
    text = now.texts[field.name].strip()
    unit = _UNITS.get(field.unit, {}).get(now.page_units, "")
    words = dict(field.choices).get(text) or (f"{text} {unit}".strip() if text else "nothing")
    if mine:
        return f"{field.label}: changed here, and elsewhere to {words}; saving lets you choose."
    return f"{field.label} was changed elsewhere to {words}."
