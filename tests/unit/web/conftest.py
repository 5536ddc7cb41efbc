"""The application over a fresh store, asked without a network."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi import FastAPI
from fastapi.testclient import TestClient

from drawerwright.store import Store, open_store
from drawerwright.web.app import create_app
from drawerwright.web.settings import Settings


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """A store without a job, in a file of its own."""
    with open_store(f"sqlite:///{tmp_path / 'store.db'}") as opened:
        yield opened


@pytest.fixture
def app(store: Store, tmp_path: Path) -> FastAPI:
    """The application over the fresh store; what it makes meanwhile lies beside it."""
    return create_app(Settings(cache=str(tmp_path / "cache")), store=store)


@pytest.fixture
def client(app: FastAPI) -> Iterator[TestClient]:
    """Asks the application as this machine does; a fault of the program is an answer, not an exception."""
    with TestClient(app, base_url="http://localhost", raise_server_exceptions=False) as asking:
        yield asking
