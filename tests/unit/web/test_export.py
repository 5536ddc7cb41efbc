"""A job that is half typed, as a file: what reads, or everything as it was typed."""

from __future__ import annotations

import csv
import io
import re
import tomllib
from typing import Any

from fastapi.testclient import TestClient
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import load_workbook

from drawerwright.files.cells import as_typed
from drawerwright.files.job_columns import drawer_columns
from drawerwright.store import Store
from drawerwright.web.as_typed import typed_csv, typed_toml
from drawerwright.web.reading_places import PLACES
from drawerwright.web.schedule.columns import filed_text_of, value_from

PEOPLE = {"accept": "text/html"}
OPENING = {"width": 562, "height": 168, "depth": 530}
HALF: dict[str, Any] = {
    "title": "Boathouse (invented)",
    "defaults": {"side": 16, "box": {"joint": "dowel"}},
    "cabinet": [{"id": "K", "first_row": "about 45"}],
    "drawer": [
        {"id": "A", "opening": OPENING},
        {"id": "B/1", "opening": {"width": {"front_top": 562, "back_top": "wide"}, "height": [168, "1,5 m"]}},
        {"id": "C", "cabinet": "K", "opening": OPENING, "note": "=1+1"},
        {"id": "D", "opening": {**OPENING, "depth": "562,5"}, "front": {"overlay": {"left": 8}}},
        {"id": "E"},
    ],
}


def test_a_finished_job_goes_out_at_once(client: TestClient, store: Store) -> None:
    job = store.create_job({"drawer": [{"id": "A", "opening": OPENING, "side": 16}]}).id
    reply = client.get(f"/jobs/{job}/file.csv", follow_redirects=False)
    assert (reply.status_code, reply.headers["location"]) == (303, f"/api/v1/jobs/{job}/file.csv")


def test_an_unfinished_job_says_what_is_missing_and_offers_the_rest(client: TestClient, store: Store) -> None:
    job = store.create_job(HALF).id
    assert f'href="/jobs/{job}/file.csv"' in client.get(f"/jobs/{job}").text
    reply = client.get(f"/jobs/{job}/file.csv", headers=PEOPLE)
    assert reply.status_code == 200
    html = reply.text
    assert "3 of 5 drawers are not finished" in html
    assert "<b>Width back top</b> &#34;wide&#34; cannot be read as a length" in html
    assert f'<a href="/jobs/{job}/drawers/B%2F1">B/1</a>' in html
    assert "first_row" in html
    links = [one.replace("&amp;", "&") for one in re.findall(r'href="(/api/v1/jobs/[^"]+file[^"]+)"', html)]
    assert len(links) == 6
    for link in links:
        assert client.get(link).status_code == 200
    rest = client.get(next(one for one in links if "file.toml" in one and "without" in one)).text
    assert [one["id"] for one in tomllib.loads(rest)["drawer"]] == ["A", "D"]


def test_a_job_of_which_nothing_reads_goes_out_as_typed_alone(client: TestClient, store: Store) -> None:
    job = store.create_job({"defaults": {"side": "thick"}, "drawer": [{"id": "A", "opening": OPENING}]}).id
    html = client.get(f"/jobs/{job}/file.xlsx", headers=PEOPLE).text
    assert "without=" not in html
    assert html.count("as_typed=true") == 3
    assert "thick" in html


def test_a_program_is_still_told_what_does_not_read_unless_it_wants_it_as_typed(
    client: TestClient, store: Store
) -> None:
    job = store.create_job(HALF).id
    assert client.get(f"/api/v1/jobs/{job}/file.toml").status_code == 422
    reply = client.get(f"/api/v1/jobs/{job}/file.toml?as_typed=true")
    assert 'filename="job-1-as-typed.toml"' in reply.headers["content-disposition"]
    assert tomllib.loads(reply.text) == {**HALF, "units": "mm"}
    assert client.get(f"/api/v1/jobs/{job}/file.toml?as_typed=true&without=B/1").text.count("[[drawer]]") == 4


def test_rows_as_typed_hold_every_cell_and_can_be_pasted_back(client: TestClient, store: Store) -> None:
    job = store.create_job(HALF).id
    text = client.get(f"/api/v1/jobs/{job}/file.csv?as_typed=true").content.decode("utf-8-sig")
    lines = list(csv.reader(io.StringIO(text)))
    assert ["title", "Boathouse (invented)"] in lines
    assert ["defaults.box.joint", "dowel"] in lines
    heading = next(line for line in lines if line[0] == "id")
    rows = {line[0]: dict(zip(heading, line, strict=True)) for line in lines[lines.index(heading) + 1 :]}
    assert rows["B/1"]["opening.width"] == "front_top=562; back_top=wide"
    assert rows["B/1"]["opening.height"] == "168; 1,5 m"
    assert rows["D"]["opening.depth"] == "562,5"
    assert rows["D"]["front.overlay.left"] == "8"
    assert rows["C"]["note"] == "'=1+1"
    assert rows[""]["cabinet.first_row"] == "about 45"
    other = store.create_job({"drawer": []}).id
    block = "\n".join(
        "\t".join(line) for line in [heading, *(list(row.values()) for row in rows.values())][:5]
    )
    pasted = {"based_on": "1", "do": "paste", "paste": block}
    client.post(f"/jobs/{other}", data=pasted)
    back = {one["id"]: one for one in store.job(other).values["drawer"]}
    assert back["B/1"]["opening"] == HALF["drawer"][1]["opening"]
    assert back["C"]["note"] == "=1+1"


def test_a_workbook_as_typed_has_numbers_where_numbers_were_typed(client: TestClient, store: Store) -> None:
    job = store.create_job(HALF).id
    content = client.get(f"/api/v1/jobs/{job}/file.xlsx?as_typed=true").content
    book = load_workbook(io.BytesIO(content))
    rows = list(book["drawers"].values)
    at = rows[0].index("opening.width")
    assert [row[at] for row in rows[1:]] == [562, "front_top=562; back_top=wide", 562, 562, None]
    settings = dict(row[:2] for row in book["job"].values)
    assert settings["defaults.side"] == 16


TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
VALUES = st.recursive(
    st.one_of(st.booleans(), st.integers(-(10**9), 10**9), st.floats(-1e6, 1e6), TEXTS),
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(TEXTS, inner, max_size=3)),
    max_leaves=6,
)


@given(
    st.dictionaries(TEXTS, VALUES, max_size=4),
    st.lists(st.dictionaries(TEXTS, VALUES, max_size=3), max_size=3),
)
def test_toml_as_typed_reads_back_as_what_is_stored(defaults: dict[str, Any], drawers: list[Any]) -> None:
    values: dict[str, Any] = {"title": "x", "units": "mm", "drawer": drawers}
    if defaults:
        values["defaults"] = defaults
    read = tomllib.loads(typed_toml(values).decode("utf-8"))
    assert read == {key: value for key, value in values.items() if value != []}


@given(st.sampled_from(sorted(drawer_columns())), TEXTS)
def test_whatever_is_typed_into_a_cell_goes_out_as_a_table(key: str, text: str) -> None:
    column = drawer_columns()[key]
    value = value_from(text, column)
    entry: dict[str, Any] = {}
    here = entry
    for step in column.path[:-1]:
        here = here.setdefault(step, {})
    here[column.path[-1]] = value
    text_out = typed_csv({"drawer": [entry]}).decode("utf-8-sig")
    heading, cells = list(csv.reader(io.StringIO(text_out, newline="")))
    told = {name: as_typed(cell) for name, cell in zip(heading, cells, strict=True)}
    where = next((one for one in PLACES if key.startswith(f"{one}.")), key)  # one cell for all places
    shown = filed_text_of(entry, drawer_columns()[where])
    if value is not None and not isinstance(value, dict):
        assert told[where] == shown.replace("\0", "\N{REPLACEMENT CHARACTER}")
