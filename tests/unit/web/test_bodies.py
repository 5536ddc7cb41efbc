"""Bodies that are no honest JSON, and files that are no honest files."""

from __future__ import annotations

import csv
import io
import json
import tempfile
import zipfile
from pathlib import Path

import pytest
from fastapi.testclient import TestClient
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import load_workbook

from drawerwright.errors import InputError
from drawerwright.store import Store
from drawerwright.web.api.body import DEEPEST, object_of, value_of_json

DRAWER = '{"id": "A", "opening": {"width": 562, "height": 168, "depth": 530}, "side": 16}'
ROUTES = ("/api/v1/fit", "/api/v1/jobs", "/api/v1/slides/check")


def said_of(client: TestClient, address: str, content: bytes | str) -> dict[str, str]:
    """The first fault of a body that must be refused."""
    answer = client.post(address, content=content)
    assert answer.status_code == 422, answer.text
    told = answer.json()["errors"][0]
    assert set(told) == {"where", "value", "says", "try"}
    return dict(told)


@pytest.mark.parametrize("address", ROUTES)
@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("", "is empty"),
        ("   ", "is empty"),
        ("nonsense", "is not JSON"),
        ('{"job": ', "is not JSON"),
        ("[1, 2]", "is not a JSON object"),
        ("null", "is not a JSON object"),
        ('{"job": NaN}', "no number that JSON has"),
        ('{"job": -Infinity}', "no number that JSON has"),
        ('{"job": 1e999}', "too large"),
        ('{"job": -1e999}', "too large"),
        (f'{{"job": {"9" * 5000}}}', "digits"),
        ('{"job": 1, "job": 2}', "stands twice"),
        ('{"job": {"drawer": [{"id": "A", "id": "B"}]}}', "stands twice"),
        ('{"job": {"title": "\\ud800"}}', "half a surrogate"),
        ('{"job": {"\\udfff": 1}}', "half a surrogate"),
        (b'{"job": "\xff\xfe"}', "is not UTF-8"),
        ('{"job": ' + "[" * 100_000 + "]" * 100_000 + "}", "deeper than"),
        ('{"a":' * 5_000 + "1" + "}" * 5_000, "deeper than"),
        ('{"job": ' + "[" * (DEEPEST + 1) + "]" * (DEEPEST + 1) + "}", "deeper than"),
    ],
    ids=[
        "empty",
        "blank",
        "words",
        "cut off",
        "list",
        "null",
        "not a number",
        "infinity",
        "too large",
        "too small",
        "5,000 digits",
        "key twice",
        "key twice inside",
        "half a pair",
        "half a pair as key",
        "not UTF-8",
        "100,000 lists",
        "5,000 objects",
        "one level too many",
    ],
)
def test_a_body_that_is_no_honest_json_is_refused_with_a_reason(
    client: TestClient, address: str, content: bytes | str, says: str
) -> None:
    assert says in said_of(client, address, content)["says"]


def test_a_byte_order_mark_before_a_body_is_passed_over(client: TestClient) -> None:
    content = b"\xef\xbb\xbf" + f'{{"job": {{"drawer": [{DRAWER}]}}}}'.encode()
    assert client.post("/api/v1/fit", content=content).status_code == 200


def test_where_a_body_is_no_json_its_line_and_column_are_told(client: TestClient) -> None:
    told = said_of(client, "/api/v1/fit", '{"job":\n  {"drawer": [1,,2]}}')
    assert told["where"] == "the body line 2 column 17"


@pytest.mark.parametrize(
    ("content", "where"),
    [
        ('{"job": {"drawer": [{"id": "A"}, {"opening": {"width": NaN}}]}}', "job.drawer[1].opening.width"),
        ('{"gaps": [{"left_top": 3, "right_top": -1e999}], "tilt": NaN}', "gaps[0].right_top"),
        (f'{{"job": {{"title": {"9" * 500}}}}}', "job.title"),
        (f'{{"{"k" * 100}": {"[" * 40} NaN {"]" * 40}}}', "[0]" * 30),
        ('{"job": {"id": 1, "id": 2}, "tilt": NaN}', ""),
        ('{"job": NaN, "job": 2}', ""),
        ("NaN", ""),
        ('{"job": NaN, ' + "[" * 100_000, ""),
    ],
    ids=[
        "NaN",
        "first of two",
        "digits",
        "deep",
        "key twice first",
        "hidden by a later key",
        "alone",
        "cut off",
    ],
)
def test_the_place_of_a_number_that_json_does_not_hold_is_named(
    client: TestClient, content: str, where: str
) -> None:
    assert said_of(client, "/api/v1/fit", content)["where"] == f"the body {where}".rstrip()


TEXTS = st.text(st.characters(exclude_categories=["Cs"]))
NUMBERS = st.integers(-(10**12), 10**12) | st.floats(allow_nan=False, allow_infinity=False)
JSON_VALUES = st.recursive(
    st.none() | st.booleans() | NUMBERS | TEXTS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXTS, inner, max_size=4),
    max_leaves=20,
)


@given(JSON_VALUES)
def test_json_that_is_honest_reads_as_it_was_written(values: object) -> None:
    for ascii_only in (True, False):
        assert value_of_json(json.dumps(values, ensure_ascii=ascii_only).encode()) == values


@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused(raw: bytes) -> None:
    places = ["the body"]
    try:
        assert isinstance(object_of(raw), dict)
    except InputError as error:
        places = [fault.where for fault in error.faults]
    assert all(place.startswith("the body") for place in places)


def workbook_bomb() -> bytes:
    """A workbook of a few kB whose sheet is 200 MB of the same row."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("[Content_Types].xml", "<Types/>")
        with archive.open("xl/worksheets/sheet1.xml", "w") as sheet:
            for _ in range(200):
                sheet.write(b"<row><c><v>1</v></c></row>" * 40_000)
    return out.getvalue()


def test_a_small_workbook_that_unpacks_to_a_large_one_is_refused(client: TestClient, store: Store) -> None:
    content = workbook_bomb()
    assert len(content) < 2_000_000
    for answer in (
        client.post("/api/v1/jobs/import?name=job.xlsx", content=content),
        client.post("/api/v1/jobs/import", files={"file": ("job.xlsx", content)}),
    ):
        assert answer.status_code == 422
        assert answer.json()["errors"][0]["where"].startswith("job.xlsx")
    assert store.jobs() == []


@pytest.mark.parametrize(
    "name", ["job.exe", "job", "", "job.xlsm", "../../job.txt", "job.toml\x00.exe", "x" * 5000]
)
def test_a_file_whose_name_does_not_tell_its_kind_is_refused(client: TestClient, name: str) -> None:
    answer = client.post("/api/v1/jobs/import", params={"name": name}, content=b"title = 'x'")
    assert answer.status_code == 422
    assert answer.json()["errors"][0]["where"] == "name"


@pytest.mark.parametrize(
    "name", ["../../../tmp/kitchen.toml", "C:\\jobs\\kitchen.TOML", "/etc/kitchen.toml", "küche „x“.toml"]
)
def test_a_clients_name_of_a_file_is_kept_nowhere(
    client: TestClient, store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    content = b"[[drawer]]\nid = 'A'\nside = 16\nopening = {width = 562, height = 168, depth = 530}"
    answer = client.post("/api/v1/jobs/import", files={"file": (name, content)})
    assert answer.status_code == 201
    kept = store.job(answer.json()["id"])
    assert "kitchen" not in f"{kept.values}{kept.what}{kept.title}"
    assert "küche" not in f"{kept.values}{kept.what}{kept.title}"
    assert [one for one in tmp_path.rglob("*") if "store.db" not in one.name] == []


def test_the_faults_of_a_file_name_our_name_of_it_and_leave_nothing_behind(
    client: TestClient, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    content = b"[[drawer]]\nid = 'A'\nside = 'x'"
    answer = client.post("/api/v1/jobs/import", files={"file": ("secret.toml", content)})
    told = answer.json()["errors"]
    assert answer.status_code == 422
    assert len(told) > 1
    assert all(one["where"].startswith("job.toml") for one in told)
    assert "secret" not in answer.text
    assert [one for one in tmp_path.rglob("*") if "store.db" not in one.name] == []


@pytest.fixture
def dangerous(client: TestClient) -> tuple[str, TestClient]:
    """A job whose texts a spreadsheet might take for formulas."""
    texts = ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "=cmd|'/c calc'!A0"]
    drawers = [
        {"id": f"{at}", "opening": {"width": 562, "height": 168, "depth": 530}, "side": 16, "note": text}
        for at, text in enumerate(texts)
    ]
    made = client.post("/api/v1/jobs", json={"values": {"title": "=HYPERLINK(1)", "drawer": drawers}})
    return made.json()["id"], client


def cells_of(content: bytes) -> list[str]:
    """Every cell of a CSV file."""
    rows = csv.reader(io.StringIO(content.decode("utf-8-sig")))
    return [cell for row in rows for cell in row]


def test_no_cell_of_an_exported_table_begins_like_a_formula(dangerous: tuple[str, TestClient]) -> None:
    job, client = dangerous
    cells = cells_of(client.get(f"/api/v1/jobs/{job}/file.csv").content)
    assert [cell for cell in cells if cell.startswith(("=", "+", "-", "@", "\t", "\r"))] == []
    assert "'=HYPERLINK(1)" in cells


def test_no_cell_of_an_exported_workbook_is_a_formula(dangerous: tuple[str, TestClient]) -> None:
    job, client = dangerous
    book = load_workbook(io.BytesIO(client.get(f"/api/v1/jobs/{job}/file.xlsx").content))
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row if cell.value is not None]
    assert {cell.data_type for cell in cells} <= {"s", "n"}
    assert any(cell.value == "=1+1" for cell in cells)


def test_no_cell_of_a_packs_tables_begins_like_a_formula(dangerous: tuple[str, TestClient]) -> None:
    job, client = dangerous
    archive = zipfile.ZipFile(io.BytesIO(client.get(f"/api/v1/jobs/{job}/pack?only=lists").content))
    for name in ("cut-list.csv", "hardware-list.csv"):
        cells = cells_of(archive.read(name))
        assert len(cells) > 10
        assert [cell for cell in cells if cell.startswith(("=", "+", "@", "\t", "\r"))] == []


@pytest.mark.parametrize("ending", ["toml", "csv", "xlsx"])
def test_an_exported_job_comes_back_as_it_was(dangerous: tuple[str, TestClient], ending: str) -> None:
    job, client = dangerous
    content = client.get(f"/api/v1/jobs/{job}/file.{ending}").content
    again = client.post(f"/api/v1/jobs/import?name=job.{ending}", content=content)
    assert again.status_code == 201
    answers = [client.get(f"/api/v1/jobs/{one}/fit").json() for one in (job, again.json()["id"])]
    assert answers[0] == answers[1]
    assert answers[0]["title"] == "=HYPERLINK(1)"
