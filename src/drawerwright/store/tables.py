"""The tables of the store, one set for SQLite and PostgreSQL.

A document (a job or a slide family) has revisions, numbered from 1. Its parts (drawers, cabinets, …) are rows
that hold from the revision `since` to the one before `until`; what a revision leaves as it was is not copied.
Revisions on the side (`how` is "kept") hold what they differ in from the main line in `side`.
"""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any, Final

from sqlalchemy import (
    JSON,
    BigInteger,
    Boolean,
    Column,
    DateTime,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
)
from sqlalchemy.engine import Dialect
from sqlalchemy.types import TypeDecorator

SCHEMA: Final = "0002"
"""The schema revision that this version of the program works with."""

VERSION_TABLE: Final = "store_version"


class UtcTime(TypeDecorator[datetime]):
    """A moment, aware and in UTC on both sides; SQLite keeps no zone, so it is taken off and put back."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: Any, dialect: Dialect) -> datetime | None:
        """To the database."""
        if value is None:
            return None
        told: datetime = value.astimezone(UTC)
        return told.replace(tzinfo=None) if dialect.name == "sqlite" else told

    def process_result_value(self, value: Any, dialect: Dialect) -> datetime | None:
        """From the database."""
        if value is None:
            return None
        told: datetime = value
        return told.replace(tzinfo=UTC) if told.tzinfo is None else told.astimezone(UTC)


metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "pk": "pk_%(table_name)s",
    }
)


def _document(**options: Any) -> Column[int]:
    return Column("document", ForeignKey("document.key", ondelete="CASCADE"), nullable=False, **options)


document = Table(
    "document",
    metadata,
    Column("key", Integer, primary_key=True),
    Column("kind", Text, nullable=False),
    Column("name", Text),
    Column("head", Integer, nullable=False),
    Column("last", Integer, nullable=False),
    Column("binned_at", UtcTime),
    Column("slides_taken", Integer),
    UniqueConstraint("kind", "name"),
    # A number that was given once is never given again, also when its job is deleted.
    sqlite_autoincrement=True,
)
"""`name`: a family's id; jobs are named by their key. `last`: the highest number a revision has.

`slides_taken`: the revision of a job at which its choice of slides was taken last; None: the first.
"""

revision = Table(
    "revision",
    metadata,
    _document(primary_key=True),
    Column("number", Integer, primary_key=True),
    Column("how", Text, nullable=False),
    Column("based_on", Integer),
    Column("shows", Integer, nullable=False),
    Column("previous", Integer),
    Column("tip", Integer, nullable=False),
    Column("saved_at", UtcTime, nullable=False),
    Column("author", Text, nullable=False),
    Column("what", Text, nullable=False),
    Column("title", Text, nullable=False),
    Column("units", Text, nullable=False),
    Column("entries", Integer, nullable=False),
    Column("side", JSON(none_as_null=True)),
    Column("families", Text),
)
"""`shows`: the revision whose values these are; `previous`: what undo goes to; `tip`: what redo ends at.

`entries`: how many drawers (or lengths) there are. `families`: of a job, the store's own slide families at
that moment, a line of `family_state`.
"""

part = Table(
    "part",
    metadata,
    Column("key", Integer, primary_key=True),
    _document(),
    Column("kind", Text, nullable=False),
    Column("id", Text, nullable=False),
    Column("position", BigInteger, nullable=False),
    Column("since", Integer, nullable=False),
    Column("until", Integer),
    Column("content", JSON, nullable=False),
    Index("ix_part_document_kind_id", "document", "kind", "id"),
    Index("ix_part_document_until", "document", "until"),
)

gap_reading = Table(
    "gap_reading",
    metadata,
    Column("key", Integer, primary_key=True),
    _document(),
    Column("drawer", Text, nullable=False),
    Column("saved_at", UtcTime, nullable=False),
    Column("author", Text, nullable=False),
    Column("content", JSON, nullable=False),
    Column("token", Text),
    UniqueConstraint("document", "token"),
)

tick = Table(
    "tick",
    metadata,
    _document(primary_key=True),
    Column("drawer", Text, primary_key=True),
    Column("step", Text, primary_key=True),
    Column("done", Boolean, nullable=False),
    Column("told_at", UtcTime, nullable=False),
    Column("author", Text, nullable=False),
)

test_log = Table(
    "test_log",
    metadata,
    Column("key", Integer, primary_key=True),
    Column("title", Text, nullable=False),
    Column("saved_at", UtcTime, nullable=False),
    Column("author", Text, nullable=False),
    Column("content", JSON, nullable=False),
    sqlite_autoincrement=True,
)

test_row = Table(
    "test_row",
    metadata,
    Column("key", Integer, primary_key=True),
    Column("log", ForeignKey("test_log.key", ondelete="CASCADE"), nullable=False, index=True),
    Column("saved_at", UtcTime, nullable=False),
    Column("author", Text, nullable=False),
    Column("content", JSON, nullable=False),
    Column("token", Text),
)
