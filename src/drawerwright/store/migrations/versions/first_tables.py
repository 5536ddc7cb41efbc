"""The first tables: documents with revisions and parts, gap readings, ticks, test logs."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

TIME = sa.DateTime(timezone=True)


def _document() -> sa.Column[int]:
    return sa.Column("document", sa.Integer(), nullable=False)


def _belongs_to_document(table: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(
        ["document"], ["document.key"], name=f"fk_{table}_document", ondelete="CASCADE"
    )


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "document",
        sa.Column("key", sa.Integer(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("name", sa.Text()),
        sa.Column("head", sa.Integer(), nullable=False),
        sa.Column("last", sa.Integer(), nullable=False),
        sa.Column("binned_at", TIME),
        sa.PrimaryKeyConstraint("key", name="pk_document"),
        sa.UniqueConstraint("kind", "name", name="uq_document_kind_name"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "revision",
        _document(),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("how", sa.Text(), nullable=False),
        sa.Column("based_on", sa.Integer()),
        sa.Column("shows", sa.Integer(), nullable=False),
        sa.Column("previous", sa.Integer()),
        sa.Column("tip", sa.Integer(), nullable=False),
        sa.Column("saved_at", TIME, nullable=False),
        sa.Column("author", sa.Text(), nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("units", sa.Text(), nullable=False),
        sa.Column("entries", sa.Integer(), nullable=False),
        sa.Column("side", sa.JSON()),
        _belongs_to_document("revision"),
        sa.PrimaryKeyConstraint("document", "number", name="pk_revision"),
    )
    op.create_table(
        "part",
        sa.Column("key", sa.Integer(), nullable=False),
        _document(),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("position", sa.BigInteger(), nullable=False),
        sa.Column("since", sa.Integer(), nullable=False),
        sa.Column("until", sa.Integer()),
        sa.Column("content", sa.JSON(), nullable=False),
        _belongs_to_document("part"),
        sa.PrimaryKeyConstraint("key", name="pk_part"),
    )
    op.create_index("ix_part_document_kind_id", "part", ["document", "kind", "id"])
    op.create_index("ix_part_document_until", "part", ["document", "until"])
    op.create_table(
        "gap_reading",
        sa.Column("key", sa.Integer(), nullable=False),
        _document(),
        sa.Column("drawer", sa.Text(), nullable=False),
        sa.Column("saved_at", TIME, nullable=False),
        sa.Column("author", sa.Text(), nullable=False),
        sa.Column("content", sa.JSON(), nullable=False),
        sa.Column("token", sa.Text()),
        _belongs_to_document("gap_reading"),
        sa.PrimaryKeyConstraint("key", name="pk_gap_reading"),
        sa.UniqueConstraint("document", "token", name="uq_gap_reading_document_token"),
    )
    op.create_table(
        "tick",
        _document(),
        sa.Column("drawer", sa.Text(), nullable=False),
        sa.Column("step", sa.Text(), nullable=False),
        sa.Column("done", sa.Boolean(), nullable=False),
        sa.Column("told_at", TIME, nullable=False),
        sa.Column("author", sa.Text(), nullable=False),
        _belongs_to_document("tick"),
        sa.PrimaryKeyConstraint("document", "drawer", "step", name="pk_tick"),
    )
    op.create_table(
        "test_log",
        sa.Column("key", sa.Integer(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("saved_at", TIME, nullable=False),
        sa.Column("author", sa.Text(), nullable=False),
        sa.Column("content", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("key", name="pk_test_log"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "test_row",
        sa.Column("key", sa.Integer(), nullable=False),
        sa.Column("log", sa.Integer(), nullable=False),
        sa.Column("saved_at", TIME, nullable=False),
        sa.Column("author", sa.Text(), nullable=False),
        sa.Column("content", sa.JSON(), nullable=False),
        sa.Column("token", sa.Text()),
        sa.ForeignKeyConstraint(["log"], ["test_log.key"], name="fk_test_row_log", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("key", name="pk_test_row"),
    )
    op.create_index("ix_test_row_log", "test_row", ["log"])
