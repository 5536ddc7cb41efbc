"""An existing box on other slides, in words on the console."""

from __future__ import annotations

from collections.abc import Iterator

from drawerwright.model.fitted import MOUNT_WORDS, FittedDrawer
from drawerwright.model.retrofit import Retrofit


def retrofit_notes(drawer: FittedDrawer) -> Iterator[str]:
    """A line for the families that take the box after the same work; none for a new box."""
    if drawer.drawer.existing_box is None:
        return
    if not drawer.retrofit:
        yield "Existing box: no family takes it, whatever is done to the box alone."
    alike: dict[tuple[str, str], list[Retrofit]] = {}
    for one in drawer.retrofit:
        alike.setdefault((MOUNT_WORDS[one.mount], _to_do(one)), []).append(one)
    for (where, to_do), slides in alike.items():
        named = ", ".join(f"{one.family}/{one.nominal:g}" for one in slides)
        yield f"Existing box on {named} {where}: {to_do}"


def _to_do(one: Retrofit) -> str:
    work = " ".join(piece.says for piece in one.work) or "as it is."
    return f"{work} Measure {'; '.join(one.measure)}." if one.measure else work
