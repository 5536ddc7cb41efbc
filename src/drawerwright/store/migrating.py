"""The steps from schema to schema, taken by Alembic. Imported only where there is something to do."""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.script import ScriptDirectory
from sqlalchemy import Connection


def _config() -> Config:
    config = Config()
    # A per cent sign in the folder's name would be read as a placeholder.
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations").replace("%", "%%"))
    return config


def known_versions() -> list[str]:
    """Schemas that this version of the program knows, the newest first."""
    return [step.revision for step in ScriptDirectory.from_config(_config()).walk_revisions()]


def upgrade(connection: Connection) -> None:
    """Take every step that is left, in the transaction of `connection`."""
    config = _config()
    config.attributes["connection"] = connection
    command.upgrade(config, "head")
