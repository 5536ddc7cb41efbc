"""What goes to other machines, and every static file, is sent compressed to those who take it."""

from __future__ import annotations

import gzip
from collections.abc import Iterator

import pytest
from fastapi import FastAPI
from fastapi.testclient import TestClient

from drawerwright.web.render import STATIC, static_url

QUICK = "/api/v1/quick?width=562&height=168&depth=530&side=16"


@pytest.fixture
def near(app: FastAPI) -> Iterator[TestClient]:
    """Asks from this machine."""
    with TestClient(app, base_url="http://localhost", client=("127.0.0.1", 50000)) as asking:
        yield asking


@pytest.fixture
def far(app: FastAPI) -> Iterator[TestClient]:
    """Asks from another machine."""
    with TestClient(app, base_url="http://localhost", client=("192.168.7.7", 50000)) as asking:
        yield asking


def test_an_answer_to_another_machine_is_compressed_and_the_same(near: TestClient, far: TestClient) -> None:
    plain, packed = near.get(QUICK), far.get(QUICK)
    assert "Content-Encoding" not in plain.headers
    assert packed.headers["Content-Encoding"] == "gzip"
    assert "Accept-Encoding" in packed.headers["Vary"]
    assert packed.json() == plain.json()
    assert int(packed.headers["Content-Length"]) < len(plain.content) / 3


def test_who_takes_nothing_compressed_gets_it_as_it_is(far: TestClient) -> None:
    answer = far.get(QUICK, headers={"Accept-Encoding": "identity"})
    assert "Content-Encoding" not in answer.headers


def test_a_short_answer_goes_as_it_is(far: TestClient) -> None:
    assert "Content-Encoding" not in far.get("/api/v1/jobs").headers


@pytest.mark.parametrize("name", ["house.css", "house.js"])
def test_a_static_file_is_compressed_for_everyone_who_takes_it(
    near: TestClient, far: TestClient, name: str
) -> None:
    for asking in (near, far):
        answer = asking.get(static_url(name))
        assert answer.headers["Content-Encoding"] == "gzip"
        assert answer.headers["Content-Type"].startswith("text/")
        assert answer.content == (STATIC / name).read_bytes()
        assert "immutable" in answer.headers["Cache-Control"]
        assert len(gzip.compress(answer.content, mtime=0)) == int(answer.headers["Content-Length"])
        again = asking.get(static_url(name), headers={"If-None-Match": answer.headers["ETag"]})
        assert again.status_code == 304
    plain = near.get(static_url(name), headers={"Accept-Encoding": "identity"})
    assert "Content-Encoding" not in plain.headers
    assert plain.content == (STATIC / name).read_bytes()


def test_the_lettering_goes_as_the_font_package_has_it(near: TestClient) -> None:
    answer = near.get("/lettering/regular.ttf")
    assert "Content-Encoding" not in answer.headers
    assert answer.content[:4] in (b"\x00\x01\x00\x00", b"OTTO")
