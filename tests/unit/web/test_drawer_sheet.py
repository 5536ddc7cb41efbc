"""A stored drawer's sheet: shown, changed before it is saved, saved by its form, changed by two at once."""

from __future__ import annotations

from typing import Any
from urllib.parse import parse_qs, quote, urlencode, urlsplit

import pytest
from fastapi.testclient import TestClient
from tests.unit.web.test_quick import Elements

from drawerwright.store import Store, StoredJob

DRAWER = {
    "id": "B1-1",
    "opening": {"width": [562, 561.5], "height": 168, "depth": 530},
    "contents": "20 kg",
    "note": "left of the window",
}
HTML = {"accept": "text/html"}


@pytest.fixture
def job(store: Store) -> StoredJob:
    values = {
        "title": "Invented",
        "units": "mm",
        "defaults": {"side": 16, "front": {"style": "overlay"}},
        "drawer": [DRAWER, {**DRAWER, "id": "B/ü 2"}],
    }
    return store.create_job(values)


def path_of(job: StoredJob, drawer: str = "B1-1") -> str:
    return f"/jobs/{job.id}/drawers/{quote(drawer, safe='')}"


def shown(client: TestClient, address: str, status: int = 200) -> Elements:
    answer = client.get(address, headers=HTML)
    assert answer.status_code == status, answer.text[:500]
    return Elements(answer.text)


def saved(client: TestClient, job: StoredJob, told: dict[str, str], drawer: str = "B1-1") -> Any:
    return client.post(path_of(job, drawer), data=told, headers=HTML, follow_redirects=False)


def fields_of(page: Elements) -> dict[str, str]:
    """What a browser would send: fields with a name, and the options chosen."""
    fields = {
        one["name"]: one.get("value", "") for one in page.of("input") if one.get("name") and "id" in one
    }
    name = ""
    for tag, attrs in page.found:
        if tag == "select":
            name = attrs["name"]
        if tag == "option" and "selected" in attrs and name:
            fields[name] = attrs.get("value", "")
    return fields


def test_a_stored_drawer_is_shown_with_what_its_defaults_give(client: TestClient, job: StoredJob) -> None:
    page = shown(client, path_of(job))
    fields = fields_of(page)
    assert (fields["width"], fields["side"], fields["contents"]) == ("562, 561.5", "16", "20")
    assert fields["front.style"] == "overlay"
    assert fields["note"] == "left of the window"
    assert "As stored, revision 1" in page.text
    assert page.of("div", class_="board")


def test_a_drawer_with_any_id_has_an_address(client: TestClient, job: StoredJob) -> None:
    page = shown(client, path_of(job, "B/ü 2"))
    assert "B/ü 2" in page.text
    assert page.of("a", rel="prev")[0]["href"] == path_of(job)


def test_a_drawer_that_is_not_there_is_a_page_that_says_so(client: TestClient, job: StoredJob) -> None:
    shown(client, path_of(job, "nobody"), 404)


def test_fields_in_the_address_are_drawn_and_not_saved(
    client: TestClient, job: StoredJob, store: Store
) -> None:
    page = shown(client, f"{path_of(job)}?{urlencode({'depth': '600'})}")
    assert "Not saved: 1 field changed" in page.text
    assert "house-16 / 550" in page.text
    assert page.of("div", data_field="depth")[0]["data-stored"] == "530"
    assert store.job(job.id).revision == 1


def test_a_form_sent_as_it_was_shown_saves_nothing(client: TestClient, job: StoredJob, store: Store) -> None:
    fields = fields_of(shown(client, path_of(job)))
    answer = saved(client, job, fields | {"based_on": "1"})
    assert answer.status_code == 303
    assert store.job(job.id).revision == 1


def test_a_changed_field_is_saved_and_nothing_else(client: TestClient, job: StoredJob, store: Store) -> None:
    fields = fields_of(shown(client, path_of(job))) | {"depth": "600", "based_on": "1"}
    answer = saved(client, job, fields)
    assert answer.status_code == 303
    assert answer.headers["location"] == f"{path_of(job)}?saved=2"
    drawer = store.job(job.id).values["drawer"][0]
    assert drawer == {**DRAWER, "opening": {**DRAWER["opening"], "depth": 600}}  # type: ignore[dict-item]
    assert "Saved." in shown(client, answer.headers["location"]).text


def test_what_does_not_read_is_saved_as_it_was_typed_and_told_at_its_field(
    client: TestClient, job: StoredJob, store: Store
) -> None:
    assert saved(client, job, {"height": "tall", "based_on": "1"}).status_code == 303
    assert store.job(job.id).values["drawer"][0]["opening"]["height"] == "tall"
    page = shown(client, path_of(job), 422)
    assert page.of("input", name="height", aria_invalid="true")[0]["value"] == "tall"


def test_a_choice_that_the_defaults_would_fill_is_told_in_words(
    client: TestClient, job: StoredJob, store: Store
) -> None:
    assert saved(client, job, {"front.style": "", "based_on": "1"}).status_code == 303
    assert store.job(job.id).values["drawer"][0]["front"] == {"style": "none"}
    assert "no front" in shown(client, path_of(job)).text


def test_two_who_change_one_drawer_are_shown_both_versions(
    client: TestClient, job: StoredJob, store: Store
) -> None:
    assert saved(client, job, {"depth": "600", "based_on": "1"}).status_code == 303
    answer = saved(client, job, {"depth": "610", "based_on": "1"})
    assert answer.status_code == 303
    assert "/conflict?" in answer.headers["location"]
    page = shown(client, answer.headers["location"])
    assert "600" in page.text
    assert "610" in page.text
    assert store.job(job.id).values["drawer"][0]["opening"]["depth"] == 600


def test_two_who_change_two_fields_of_one_drawer_are_put_together(
    client: TestClient, job: StoredJob, store: Store
) -> None:
    fields = fields_of(shown(client, path_of(job))) | {"based_on": "1"}
    assert saved(client, job, fields | {"width": "555"}).status_code == 303
    answer = saved(client, job, fields | {"depth": "600"})
    assert answer.headers["location"] == f"{path_of(job)}?saved=3"
    opening = store.job(job.id).values["drawer"][0]["opening"]
    assert (opening["width"], opening["depth"]) == (555, 600)


def test_who_saves_the_same_as_somebody_else_saves_nothing_more(
    client: TestClient, job: StoredJob, store: Store
) -> None:
    for _ in range(2):
        answer = saved(client, job, {"depth": "600", "based_on": "1"})
        assert answer.headers["location"] == f"{path_of(job)}?saved=2"
    assert store.job(job.id).revision == 2


def test_a_conflict_asks_of_the_field_that_both_changed_and_not_of_others(
    client: TestClient, job: StoredJob, store: Store
) -> None:
    assert saved(client, job, {"depth": "600", "width": "555", "based_on": "1"}).status_code == 303
    address = saved(client, job, {"depth": "610", "contents": "7", "based_on": "1"}).headers["location"]
    page = shown(client, address)
    asked = {one["name"] for one in page.of("input", type="radio")}
    assert len(asked) == 2
    assert "555" not in page.text
    chosen = dict.fromkeys(asked, "mine") | {"based_on": page.of("input", name="based_on")[0]["value"]}
    assert client.post(address, data=chosen, headers=HTML, follow_redirects=False).status_code == 303
    drawer = store.job(job.id).values["drawer"][0]
    assert (drawer["opening"]["width"], drawer["opening"]["depth"]) == (555, 610)
    assert drawer["contents"] in (7, "7 kg")


def test_a_page_made_of_an_older_revision_tells_what_was_changed_elsewhere(
    client: TestClient, job: StoredJob
) -> None:
    told = {"depth": "600", "width": "555", "front.style": "inset", "note": "", "based_on": "1"}
    assert saved(client, job, told).status_code == 303
    page = shown(client, f"{path_of(job)}?{urlencode({'depth': '610', 'based_on': '1'})}")
    assert {one["data-of"]: one["data-now"] for one in page.of("p", class_="notice") if "data-of" in one} == {
        "depth": "600",
        "width": "555",
        "front.style": "inset",
        "note": "",
    }
    assert "Opening width was changed elsewhere to 555 mm." in page.text
    assert "Depth: changed here, and elsewhere to 600 mm; saving lets you choose." in page.text
    assert page.of("input", name="based_on")[0]["value"] == "1"
    alone = shown(client, f"{path_of(job)}?{urlencode({'contents': '7', 'based_on': '1'})}")
    assert alone.of("input", name="based_on")[0]["value"] == "2"


def test_a_fragment_tells_of_changes_elsewhere_only_where_there_are_some(
    client: TestClient, job: StoredJob
) -> None:
    assert saved(client, job, {"width": "555", "based_on": "1"}).status_code == 303
    for based_on, told in (("1", True), ("2", False), ("9", False), ("x", False), ("", False)):
        query = urlencode({"contents": "7", "based_on": based_on, "fragment": "sheet", "for": "wide"})
        answer = client.get(f"{path_of(job)}?{query}", headers=HTML)
        assert answer.status_code == 200
        assert ("data-elsewhere" in answer.text) is told


def test_two_who_change_two_drawers_are_put_together(
    client: TestClient, job: StoredJob, store: Store
) -> None:
    assert saved(client, job, {"depth": "600", "based_on": "1"}).status_code == 303
    assert saved(client, job, {"depth": "610", "based_on": "1"}, "B/ü 2").status_code == 303
    drawers = store.job(job.id).values["drawer"]
    assert [one["opening"]["depth"] for one in drawers] == [600, 610]


def test_a_drawer_shown_in_inches_is_saved_in_the_units_of_its_job(
    client: TestClient, job: StoredJob, store: Store
) -> None:
    page = shown(client, f"{path_of(job)}?units=in")
    fields = fields_of(page)
    assert fields["height"] == "168 mm"
    same = saved(client, job, fields | {"based_on": "1", "units": "in"})
    assert same.headers["location"].endswith("units=in")
    assert store.job(job.id).revision == 1, "changing units alone changes nothing"
    assert saved(client, job, {"height": "6 1/2", "based_on": "1", "units": "in"}).status_code == 303
    assert store.job(job.id).values["drawer"][0]["opening"]["height"] == pytest.approx(165.1)


def test_a_form_without_its_revision_is_refused(client: TestClient, job: StoredJob) -> None:
    assert saved(client, job, {"depth": "600"}).status_code == 422


def test_a_change_that_makes_it_fit_keeps_what_else_was_changed(client: TestClient, job: StoredJob) -> None:
    page = shown(client, f"{path_of(job)}?{urlencode({'depth': '200', 'side': '15'})}")
    links = [one["href"] for one in page.of("a") if "depth=305" in one.get("href", "")]
    assert links
    assert "side=15" in links[0]
    assert "does not fit" not in shown(client, links[0]).text


def test_the_help_of_a_field_names_no_length_of_other_units(client: TestClient, store: Store) -> None:
    opening = {"width": 22, "height": 6, "depth": 21}
    job = store.create_job({"units": "in", "drawer": [{"id": "A", "opening": opening, "side": 0.625}]}).id
    html = client.get(f"/jobs/{job}/drawers/A").text
    assert "Several readings: commas between" in html
    assert "562" not in html


def test_every_link_of_a_changed_sheet_carries_the_revision_that_it_changes(
    client: TestClient, job: StoredJob, store: Store
) -> None:
    assert saved(client, job, {"height": "155", "based_on": "1"}).status_code == 303
    page = shown(client, f"{path_of(job)}?{urlencode({'height': '30', 'note': '', 'based_on': '1'})}")
    kept = [parse_qs(urlsplit(one["href"]).query, keep_blank_values=True) for one in page.of("a")]
    kept = [query for query in kept if "height" in query]
    assert len(kept) > 10, "units, dimensions, changes"
    assert all(query["based_on"] == ["1"] and query["note"] == [""] for query in kept)
    inch = client.get(page.of("a", class_="unit-in")[0]["href"], headers=HTML)
    assert parse_qs(inch.url.query.decode())["based_on"] == ["1"]
    form = Elements(inch.text).of("input", name="based_on")[0]["value"]
    told = {"height": "150 mm", "units": "in", "based_on": form}
    assert "conflict" in saved(client, job, told).headers["location"]
    assert store.job(job.id).revision == 2


def test_a_job_in_inches_is_shown_in_millimetres_and_back(client: TestClient, store: Store) -> None:
    opening = {"width": 22, "height": 6, "depth": 21}
    job = store.create_job({"units": "in", "drawer": [{"id": "A", "opening": opening, "side": 0.625}]}).id
    page = shown(client, f"/jobs/{job}/drawers/A?height=6+1%2F2")
    metric = Elements(client.get(page.of("a", class_="unit-mm")[0]["href"], headers=HTML).text)
    fields = fields_of(metric)
    assert (fields["width"], fields["height"], fields["side"]) == ("558.8", "165.1", "15.875")
    back = fields_of(Elements(client.get(metric.of("a", class_="unit-in")[0]["href"], headers=HTML).text))
    assert (back["width"], back["height"], back["side"]) == ("22", "6 1/2", "0.625")
