"""Stores to test on: SQLite always, PostgreSQL where there is one; a clock that can be told."""

from __future__ import annotations

import os
import secrets
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import create_engine, make_url, text

from drawerwright.store import Store, open_store

SERVER = os.environ.get("DRAWERWRIGHT_TEST_POSTGRES")
NOTHING_LEFT_OUT = bool(os.environ.get("DRAWERWRIGHT_ORACLES"))
# One test is left out for want of a server, in plain words, not each of them.
KINDS = ["sqlite", "postgresql"] if SERVER or NOTHING_LEFT_OUT else ["sqlite"]


@pytest.fixture(scope="session")
def server() -> str:
    """Address of a PostgreSQL database, or the test is left out.

    Where `DRAWERWRIGHT_ORACLES` is set, nothing may be left out: a missing server fails the test.
    """
    if SERVER:
        return SERVER
    leave = pytest.fail if NOTHING_LEFT_OUT else pytest.skip
    return leave("no PostgreSQL: DRAWERWRIGHT_TEST_POSTGRES=$(tools/start_postgres.sh start FOLDER)")


@pytest.fixture
def postgres_address(server: str) -> Iterator[str]:
    """An empty schema of its own on the server."""
    name = f"test_{secrets.token_hex(6)}"
    engine = create_engine(make_url(server).set(drivername="postgresql+psycopg"))
    with engine.begin() as connection:
        connection.execute(text(f"CREATE SCHEMA {name}"))
    address = make_url(server).update_query_dict({"options": f"-csearch_path={name}"})
    yield address.render_as_string(hide_password=False)
    with engine.begin() as connection:
        connection.execute(text(f"DROP SCHEMA {name} CASCADE"))
    engine.dispose()


@pytest.fixture
def sqlite_address(tmp_path: Path) -> str:
    """A file that is not there yet."""
    return f"sqlite:///{tmp_path / 'store.sqlite3'}"


@pytest.fixture(params=KINDS)
def address(request: pytest.FixtureRequest) -> str:
    """Address of an empty store, of each kind."""
    kind = "sqlite_address" if request.param == "sqlite" else "postgres_address"
    found: str = request.getfixturevalue(kind)
    return found


class Clock:
    """A clock that goes on by a second each time it is read."""

    def __init__(self) -> None:
        self.at = datetime(2030, 5, 6, 7, 8, 9, 123456, tzinfo=UTC)

    def __call__(self) -> datetime:
        self.at += timedelta(seconds=1)
        return self.at


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def store(address: str, clock: Clock) -> Iterator[Store]:
    """An open store of each kind."""
    with open_store(address, now=clock) as opened:
        yield opened


def drawer(name: str, **keys: Any) -> dict[str, Any]:
    """A drawer as a job file has it; invented."""
    return {"id": name, "opening": {"width": 562, "height": 168, "depth": 530}, "side": 16, **keys}


@pytest.fixture
def a_drawer() -> Callable[..., dict[str, Any]]:
    return drawer


@pytest.fixture
def two_drawers() -> dict[str, Any]:
    """Values of a job with a cabinet and the drawers A and B; invented."""
    return {
        "title": "Kitchen",
        "units": "mm",
        "defaults": {"front": {"style": "overlay"}, "contents": "20 kg"},
        "cabinet": [{"id": "B1", "pitch": 32}],
        "drawer": [drawer("A", cabinet="B1"), drawer("B", side=12.7)],
    }
