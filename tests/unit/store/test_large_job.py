"""A job of two thousand drawers and five hundred edits stays small and quick.

The bounds are far above what was measured, so that a slow machine passes; figures stand in `docs/store.md`.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from sqlalchemy import func, select

from drawerwright.store import open_store
from drawerwright.store.tables import part

MakeDrawer = Callable[..., dict[str, Any]]
DRAWERS, EDITS = 2_000, 500


def test_edits_of_a_long_job_copy_only_what_they_change(sqlite_address: str, a_drawer: MakeDrawer) -> None:
    with open_store(sqlite_address) as store:
        job = store.create_job({"title": "Hotel", "drawer": [a_drawer(f"D{at}") for at in range(DRAWERS)]})
        revision = 1
        for at in range(EDITS):
            name = f"D{at * 7 % DRAWERS}"
            revision = store.save_drawer(
                job.id, name, a_drawer(name, note=str(at)), based_on=revision
            ).revision
        with store._connections.reading() as connection:
            # The drawers, the edits, title and units.
            assert connection.scalar(select(func.count()).select_from(part)) == DRAWERS + EDITS + 2
        values = store.job(job.id).values
        assert [one.get("note") for one in values["drawer"]].count(None) == DRAWERS - EDITS
        # In front of all others: no other row moves.
        saved = store.save_job(
            job.id, {**values, "drawer": [a_drawer("first"), *values["drawer"]]}, based_on=revision
        )
        assert saved.what == "added drawer first"
        with store._connections.reading() as connection:
            assert connection.scalar(select(func.count()).select_from(part)) == DRAWERS + EDITS + 3
        back = store.undo(job.id, based_on=saved.revision)
        assert back.values == values
        assert store.job(job.id, 1).values["drawer"][7] == a_drawer("D7")
