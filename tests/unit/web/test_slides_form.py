"""A family added, changed, copied, read from a file, thrown away and brought back, all without a script."""

from __future__ import annotations

import re
import tomllib
from typing import Any

from fastapi.testclient import TestClient

from drawerwright.catalogue import load_families
from drawerwright.catalogue.families import read_family
from drawerwright.catalogue.family_writer import write_family_toml
from drawerwright.store import Store
from drawerwright.web.family.fields import form_of

LEAST: dict[str, Any] = {
    "id": "plain-16",
    "capacity": "45 kg",
    "inside_width_deduction": 42,
    "length": [{"nominal": 500}, {"nominal": 550}],
}
PEOPLE = {"accept": "text/html"}


def fields_in(html: str) -> dict[str, str]:
    """What a browser would send of the page's long form: inputs and chosen options."""
    form = html[html.index('class="family-fields') :]
    fields = {}
    for tag in re.findall(r"<input [^>]*>", form[: form.index("</form>")]):
        name = re.search(r'name="([^"]*)"', tag)
        value = re.search(r'value="([^"]*)"', tag)
        if name and not fields.get(name[1]):
            fields[name[1]] = value[1] if value else ""
    for name, options in re.findall(r'<select [^>]*name="([^"]*)".*?>(.*?)</select>', form, re.DOTALL):
        chosen = re.search(r"<option selected>([^<]*)<", options)
        fields[name] = chosen[1] if chosen else ""
    return fields


def test_a_new_family_is_kept_and_then_offered(client: TestClient, store: Store) -> None:
    answer = client.post("/slides/new", data=form_of(LEAST), follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (303, "/slides/plain-16?saved=1")
    assert read_family(store.family("plain-16").values) == read_family(LEAST)
    assert 'href="/slides/plain-16"' in client.get("/slides").text


def test_a_copy_of_a_shipped_family_says_that_it_is_invented_and_has_an_id_of_its_own(
    client: TestClient,
) -> None:
    fields = fields_in(client.get("/slides/new", params={"from": "house-16"}).text)
    assert fields["id"] == "house-16-2"
    assert fields["invented"] == "yes"
    assert client.post("/slides/new", data=fields, follow_redirects=False).status_code == 303
    shipped = load_families()[0].model_dump() | {"id": "house-16-2"}
    kept = read_family(tomllib.loads(client.get("/slides/house-16-2/file.toml").text))
    assert kept.model_dump() == shipped


def test_what_cannot_be_used_comes_back_as_it_was_typed_with_every_fault_at_its_field(
    client: TestClient, store: Store
) -> None:
    typed = {**form_of(LEAST), "rear.bore": "six", "length.1.holes": "0; 600", "capacity": ""}
    answer = client.post("/slides/new", data=typed, headers=PEOPLE)
    assert answer.status_code == 422
    assert fields_in(answer.text)["rear.bore"] == "six"
    for name in ("rear.bore", "length.1.holes", "capacity"):
        said = re.search(rf'id="h-{re.escape(name)}"[^>]*>(.*?)</span>', answer.text, re.DOTALL)
        assert said is not None, name
        assert "fault" in said[1], name
    assert store.families() == []


def test_more_lengths_keeps_what_was_typed(client: TestClient) -> None:
    typed = {**form_of(LEAST), "length.3.nominal": "600", "more": "1"}
    answer = client.post("/slides/new", data=typed)
    assert answer.status_code == 200
    fields = fields_in(answer.text)
    assert fields["length.3.nominal"] == "600"
    assert "length.9.nominal" in fields


def test_a_change_is_a_revision_and_the_id_stays(client: TestClient, store: Store) -> None:
    store.save_family(LEAST)
    fields = fields_in(client.get("/slides/plain-16/edit").text)
    changed = {**fields, "setback": "38", "what": "setback measured"}
    assert client.post("/slides/plain-16/edit", data=changed, follow_redirects=False).status_code == 303
    assert store.family_revisions("plain-16")[0].what == "setback measured"
    moved = {**fields, "id": "other", "based_on": "2"}
    answer = client.post("/slides/plain-16/edit", data=moved, headers=PEOPLE)
    assert answer.status_code == 422
    assert "which it keeps" in answer.text


def test_a_shipped_family_that_is_changed_becomes_the_shops_own(client: TestClient, store: Store) -> None:
    fields = fields_in(client.get("/slides/house-16/edit").text)
    assert "based_on" not in fields
    client.post("/slides/house-16/edit", data={**fields, "setback": "38", "invented": "no"})
    assert store.family("house-16").values["setback"] == 38
    assert store.family("house-16").revision == 1


def test_two_people_on_one_family_see_both_versions_and_lose_nothing(
    client: TestClient, store: Store
) -> None:
    store.save_family({**LEAST, "setback": 37})
    mine = fields_in(client.get("/slides/plain-16/edit").text)
    theirs = fields_in(client.get("/slides/plain-16/edit").text)
    client.post("/slides/plain-16/edit", data={**theirs, "setback": "36", "carton": "6"})
    answer = client.post("/slides/plain-16/edit", data={**mine, "setback": "38"}, headers=PEOPLE)
    assert answer.status_code == 409
    assert "Theirs</b> 36" in " ".join(answer.text.split())
    again = fields_in(answer.text)
    assert (again["setback"], again["carton"]) == ("38", "6")
    client.post("/slides/plain-16/edit", data=again)
    assert store.family("plain-16").values | {"setback": 38, "carton": 6} == store.family("plain-16").values
    kept = [one for one in store.family_revisions("plain-16") if one.how == "kept"]
    assert store.family("plain-16", kept[0].number).values["setback"] == 38


def test_a_new_family_with_an_id_of_ones_own_is_told_another(client: TestClient, store: Store) -> None:
    store.save_family(LEAST)
    answer = client.post("/slides/new", data=form_of(LEAST), headers=PEOPLE)
    assert answer.status_code == 422
    assert "plain-16-2" in answer.text


def test_a_file_fills_the_form_and_what_no_field_shows_is_told(client: TestClient, store: Store) -> None:
    text = 'id = "mine"\ncapacity = "30 kg"\ninside_width_deduction = 42\nsetbck = 37\n'
    text += "[[length]]\nnominal = 500\n"
    answer = client.post("/slides/new/file", files={"file": ("x.toml", text.encode())}, headers=PEOPLE)
    assert answer.status_code == 200
    assert fields_in(answer.text)["capacity"] == "30 kg"
    assert "the nearest is" in answer.text
    pasted = client.post("/slides/new/file", data={"text": text.replace("setbck = 37\n", "")})
    assert "Can be used" in pasted.text
    assert store.families() == []


def test_a_file_that_is_none_is_refused_with_its_line(client: TestClient) -> None:
    for sent, says in (
        (b"id = \n", "the file:1"),
        (b"\xff\xfe\x00", "is not text in UTF-8"),
        (b"", "holds nothing"),
        (b"#" * 1_000_002, "are beyond"),
    ):
        answer = client.post("/slides/new/file", files={"file": ("x.toml", sent)}, headers=PEOPLE)
        assert answer.status_code == 422
        assert says in answer.text


def test_checks_are_told_while_it_is_typed(client: TestClient) -> None:
    bad = client.post("/slides/check", data={**form_of(LEAST), "setback": "x"})
    assert 'data-field="setback"' in bad.text
    good = client.post("/slides/check", data={**form_of(LEAST), "carton": "6"})
    assert "Can be used" in good.text
    assert "common practice is taken" in good.text
    assert 'data-remark-for="source"' in good.text


def test_the_history_compares_takes_back_and_takes_again(client: TestClient, store: Store) -> None:
    store.save_family(LEAST)
    store.save_family({**LEAST, "setback": 38}, based_on=1)
    page = client.get("/slides/plain-16/history").text
    assert "Setback of the first row hole" in page
    assert "left out" in page
    client.post("/slides/plain-16/undo", data={"based_on": "2"})
    assert "setback" not in store.family("plain-16").values
    client.post("/slides/plain-16/redo", data={"based_on": "3"})
    assert store.family("plain-16").values["setback"] == 38
    client.post("/slides/plain-16/history/1", data={"based_on": "4"})
    assert "setback" not in store.family("plain-16").values
    assert store.family("plain-16").what == "as in revision 1"


def test_a_family_goes_into_the_bin_and_comes_out_of_it(client: TestClient, store: Store) -> None:
    store.save_family(LEAST)
    client.post("/slides/plain-16/bin")
    page = client.get("/slides").text
    assert 'href="/slides/plain-16"' not in page
    assert 'action="/slides/plain-16/restore"' in page
    client.post("/slides/plain-16/restore")
    assert 'href="/slides/plain-16"' in client.get("/slides").text


def test_a_family_in_the_bin_keeps_its_id(client: TestClient, store: Store) -> None:
    store.save_family(LEAST)
    store.bin_family("plain-16")
    answer = client.post("/slides/new", data=form_of(LEAST), headers=PEOPLE)
    assert answer.status_code == 422
    assert "is the id of a family in the bin" in answer.text


def test_a_name_of_a_page_or_one_without_end_is_no_id_of_a_new_family(
    client: TestClient, store: Store
) -> None:
    for name in ("new", "Compare", "check", "a" * 61):
        values = {**LEAST, "id": name}
        answer = client.post("/slides/new", data=form_of(values), headers=PEOPLE)
        assert answer.status_code == 422, name
        assert client.put(f"/api/v1/slides/{name}", json={"values": values}).status_code == 422, name
    assert store.families() == []


def test_before_a_family_goes_into_the_bin_its_jobs_are_told_and_what_becomes_of_them(
    client: TestClient, store: Store
) -> None:
    shipped = next(family for family in load_families() if family.id == "house-16")
    own = tomllib.loads(write_family_toml(shipped))
    store.save_family({**own, "inside_width_deduction": 46})
    store.save_family({**LEAST, "id": "mine-16"})
    opening = {"width": 562, "height": 168, "depth": 530}
    drawers = [
        {"id": "A", "opening": opening, "side": 16, "slide": "house-16"},
        {"id": "B", "opening": opening, "side": 16, "slide": "mine-16"},
    ]
    store.create_job({"title": "Kitchen", "drawer": drawers})
    store.create_job({"title": "Others", "drawer": [{**drawers[0], "slide": "short-16"}]})
    form = client.get("/slides/house-16/edit").text
    assert 'href="/slides/house-16/bin"' in form
    assert 'action="/slides/house-16/bin"' not in form
    told = " ".join(client.get("/slides/house-16/bin").text.split())
    assert "that comes with the program" in told
    assert "Kitchen" in told
    assert "Others" not in told
    assert re.search(r">A</th><td>house-16 / 500, box 5\d\d", told)
    now, then = re.search(r">A</th><td>([^<]*)</td><td>([^<]*)</td>", told).groups()  # type: ignore[union-attr]
    assert now != then
    told = client.get("/slides/mine-16/bin").text
    assert re.search(r">B</th><td>[^<]*</td><td>does not read: its slide is not there</td>", told)
    assert 'action="/slides/mine-16/bin"' in told
