"""Stores to test on: SQLite always, PostgreSQL where there is one; a clock that can be told."""

from __future__ import annotations

import os
import secrets
import shutil
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import create_engine, make_url, text

from drawerwright.store import Store, open_store
from drawerwright.store.tables import metadata

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


@pytest.fixture(scope="session")
def new_schema(server: str) -> Iterator[Callable[[], str]]:
    """Maker of addresses, each of an empty schema of its own on the server."""
    engine = create_engine(make_url(server).set(drivername="postgresql+psycopg"))
    made: list[str] = []

    def make() -> str:
        name = f"test_{secrets.token_hex(6)}"
        with engine.begin() as connection:
            connection.execute(text(f"CREATE SCHEMA {name}"))
        made.append(name)
        address = make_url(server).update_query_dict({"options": f"-csearch_path={name}"})
        return address.render_as_string(hide_password=False)

    yield make
    with engine.begin() as connection:
        for name in made:
            connection.execute(text(f"DROP SCHEMA {name} CASCADE"))
    engine.dispose()


@pytest.fixture(scope="session")
def new_stores(request: pytest.FixtureRequest) -> Iterator[dict[str, Callable[[Path], str]]]:
    """Makers of stores with nothing in them, from one that was opened once: quicker than opening each."""
    made = request.getfixturevalue("tmp_path_factory").mktemp("made") / "store.sqlite3"
    open_store(f"sqlite:///{made}").close()
    emptied: list[Any] = []

    def copy(path: Path) -> str:
        shutil.copy(made, path)
        return f"sqlite:///{path}"

    def empty(_: Path) -> str:
        if not emptied:
            address = request.getfixturevalue("new_schema")()
            open_store(address).close()
            url = make_url(address).set(drivername="postgresql+psycopg")
            emptied.extend([address, create_engine(url)])
        with emptied[1].begin() as connection:
            names = ", ".join(metadata.tables)
            connection.execute(text(f"TRUNCATE {names} RESTART IDENTITY CASCADE"))
        return str(emptied[0])

    yield {"sqlite": copy, "postgresql": empty}
    for engine in emptied[1:]:
        engine.dispose()


@pytest.fixture(params=KINDS)
def bare_address(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """Where a store may be made, of each kind: there is none yet."""
    if request.param == "sqlite":
        return f"sqlite:///{tmp_path / 'bare.sqlite3'}"
    make: Callable[[], str] = request.getfixturevalue("new_schema")
    return make()


@pytest.fixture
def sqlite_address(tmp_path: Path, new_stores: dict[str, Callable[[Path], str]]) -> str:
    """Address of a store in a file, with nothing in it."""
    return new_stores["sqlite"](tmp_path / "store.sqlite3")


@pytest.fixture(params=KINDS)
def address(
    request: pytest.FixtureRequest, tmp_path: Path, new_stores: dict[str, Callable[[Path], str]]
) -> str:
    """Address of a store with nothing in it, of each kind."""
    return new_stores[request.param](tmp_path / "store.sqlite3")


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
