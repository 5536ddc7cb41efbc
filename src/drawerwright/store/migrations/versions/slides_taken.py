"""Jobs remember with which slide families they were saved, and since when their choice of slides stands."""

from __future__ import annotations

from datetime import datetime

import sqlalchemy as sa
from alembic import op

from drawerwright.store.family_state import State, state_line

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

TIME = sa.DateTime(timezone=True)
DOCUMENT = sa.table(
    "document",
    sa.column("key", sa.Integer),
    sa.column("kind", sa.Text),
    sa.column("name", sa.Text),
    sa.column("head", sa.Integer),
    sa.column("binned_at", TIME),
    sa.column("slides_taken", sa.Integer),
)
REVISION = sa.table(
    "revision",
    sa.column("document", sa.Integer),
    sa.column("number", sa.Integer),
    sa.column("how", sa.Text),
    sa.column("saved_at", TIME),
    sa.column("families", sa.Text),
)


def upgrade() -> None:
    """Add the columns; of saves before, the families are those of that moment, and the last save stands."""
    op.add_column("revision", sa.Column("families", sa.Text()))
    op.add_column("document", sa.Column("slides_taken", sa.Integer()))
    connection = op.get_bind()
    jobs = sa.select(DOCUMENT.c.key).where(DOCUMENT.c.kind == "job")
    of_jobs = sa.update(REVISION).where(REVISION.c.document.in_(jobs))
    state: State = {}
    connection.execute(of_jobs.values(families=state_line(state)))
    for moment, name, of in _events(connection):
        if of is None:
            state.pop(name, None)
        else:
            state[name] = of
        since = of_jobs.where(REVISION.c.saved_at >= moment)
        connection.execute(since.values(families=state_line(state)))
    taken = sa.update(DOCUMENT).where(DOCUMENT.c.kind == "job")
    connection.execute(taken.values(slides_taken=DOCUMENT.c.head))


def _events(connection: sa.Connection) -> list[tuple[datetime, str, tuple[int, int] | None]]:
    """Saves of families, and when those in the bin went there, in the order of time."""
    families = DOCUMENT.c.kind == "family"
    saves = (
        sa.select(DOCUMENT.c.name, DOCUMENT.c.key, REVISION.c.number, REVISION.c.saved_at)
        .join(REVISION, REVISION.c.document == DOCUMENT.c.key)
        .where(families, REVISION.c.how != "kept")
    )
    found: list[tuple[datetime, str, tuple[int, int] | None]] = [
        (row.saved_at, row.name, (row.key, row.number)) for row in connection.execute(saves)
    ]
    binned = sa.select(DOCUMENT.c.name, DOCUMENT.c.binned_at).where(
        families, DOCUMENT.c.binned_at.is_not(None)
    )
    found += [(row.binned_at, row.name, None) for row in connection.execute(binned)]
    return sorted(found, key=lambda event: (event[0], event[2] is None, event[2] or (0, 0)))
