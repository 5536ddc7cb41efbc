"""Files with more rows than a job has: they are refused before their rows are read."""

from __future__ import annotations

import io
from collections.abc import Callable

import pytest
from fastapi.testclient import TestClient
from openpyxl import Workbook

from drawerwright.files import job_tables, jobs
from drawerwright.web.faults import MOST_TOLD


def _csv(rows: int) -> bytes:
    lines = (f"A{at},562,168,530,16" for at in range(rows))
    return ("id,opening.width,opening.height,opening.depth,side\n" + "\n".join(lines)).encode()


def _xlsx(rows: int) -> bytes:
    book = Workbook(write_only=True)
    sheet = book.create_sheet("drawers")
    sheet.append(["id", "opening.width", "opening.height", "opening.depth", "side"])
    for at in range(rows):
        sheet.append([f"A{at}", 562, 168, 530, 16])
    kept = io.BytesIO()
    book.save(kept)
    return kept.getvalue()


def _toml(rows: int) -> bytes:
    return b"".join(
        b'[[drawer]]\nid = "A%d"\nside = 16\nopening = { width = 562, height = 168, depth = 530 }\n' % at
        for at in range(rows)
    )


@pytest.mark.parametrize(
    ("ending", "content", "rows"),
    [("csv", _csv, 5_001), ("csv", _csv, 30_000), ("xlsx", _xlsx, 5_001), ("toml", _toml, 5_001)],
)
def test_a_file_of_more_drawers_than_a_job_has_is_refused_unread(
    client: TestClient,
    monkeypatch: pytest.MonkeyPatch,
    ending: str,
    content: Callable[[int], bytes],
    rows: int,
) -> None:
    def never(*_: object, **__: object) -> None:
        raise AssertionError("a row was read")

    monkeypatch.setattr(job_tables._Reader, "_cabinet_of", never)
    monkeypatch.setitem(jobs.SOURCES, ".toml", never)
    answer = client.post(f"/api/v1/jobs/import?name=job.{ending}", content=content(rows))
    assert answer.status_code == 422
    (error,) = answer.json()["errors"]
    assert error["where"] == "the file"
    assert "at most" in error["says"]


def test_of_a_file_with_very_many_faults_the_first_are_told(client: TestClient) -> None:
    content = _csv(500).replace(b",562,", b",wide,")
    answer = client.post("/api/v1/jobs/import?name=job.csv", content=content)
    errors = answer.json()["errors"]
    assert (len(errors), errors[-1]["where"]) == (MOST_TOLD + 1, "400 more")
