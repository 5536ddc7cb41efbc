"""Requests for an answer: what goes into them, and every fault of one told together."""

from __future__ import annotations

from typing import Any

import pytest
from fastapi.testclient import TestClient

from drawerwright.store import Store

DRAWER = {"id": "A", "opening": {"width": 562, "height": 168, "depth": 530}, "side": 16}
JOB = {"drawer": [DRAWER]}
SHOP = {"id": "shop-16", "capacity": 40, "inside_width_deduction": 42, "length": [{"nominal": 500}]}


def refused(client: TestClient, route: str, body: dict[str, Any]) -> list[dict[str, str]]:
    answer = client.post(f"/api/v1/{route}", json=body)
    assert answer.status_code == 422, answer.text
    return list(answer.json()["errors"])


def places(faults: list[dict[str, str]]) -> list[str]:
    return [one["where"] for one in faults]


def test_an_unknown_key_names_the_nearest_known_one(client: TestClient) -> None:
    (told,) = refused(client, "fit", {"job": JOB, "slids": []})
    assert told["where"] == "slids"
    assert '"slides"' in told["says"]


def test_job_slides_materials_and_options_tell_their_faults_together(client: TestClient) -> None:
    body = {
        "job": {"drawer": [{"id": "A", "opening": {"width": 562, "height": 168}, "side": "thick"}]},
        "slides": [SHOP, {"id": "x"}],
        "materials": [{"material": [{"name": "board"}]}, 3],
        "units": "cm",
        "cheapest": "yes",
        "lose_at_most": "far",
        "colour": "red",
    }
    told = places(refused(client, "fit", body))
    for wanted in (
        "colour",
        "cheapest",
        "lose_at_most",
        "units",
        "job drawer A opening.depth",
        "job drawer A side",
        "slides[1] family x capacity",
        "materials[0] material 1 source",
        "materials[1]",
    ):
        assert wanted in told, (wanted, told)
    assert len(told) == len(set(told))


@pytest.mark.parametrize("route", ["fit", "compare", "carry", "align"])
def test_a_request_without_a_job_says_so(client: TestClient, route: str) -> None:
    assert "job" in places(refused(client, route, {}))


@pytest.mark.parametrize("job", [None, 3, "job.toml", [], {"drawer": []}, {"drawer": {}}, {"drawer": [3]}])
def test_a_job_that_is_none_is_refused(client: TestClient, job: object) -> None:
    assert all(one.startswith("job") for one in places(refused(client, "fit", {"job": job})))


@pytest.mark.parametrize("slides", [[], {}, "house-16", [3], [None]])
def test_slides_that_are_none_are_refused(client: TestClient, slides: object) -> None:
    assert all(
        one.startswith("slides") for one in places(refused(client, "fit", {"job": JOB, "slides": slides}))
    )


def test_a_slide_asked_for_in_vain_is_told_at_its_drawer(client: TestClient) -> None:
    (told,) = refused(client, "fit", {"job": {"drawer": [{**DRAWER, "slide": "house-17"}]}})
    assert told["where"] == "job drawer A slide"
    assert told["value"] == '"house-17"'
    assert told["try"].startswith('"house-')


def test_two_aims_exclude_each_other_and_a_limit_goes_with_one(client: TestClient) -> None:
    (two,) = refused(client, "fit", {"job": JOB, "cheapest": True, "fewest_setups": True})
    assert two["where"] == "cheapest fewest_setups"
    (alone,) = refused(client, "fit", {"job": JOB, "lose_at_most": 10})
    assert alone["where"] == "lose_at_most"


def test_a_comparison_of_one_slide_is_none(client: TestClient) -> None:
    (told,) = refused(client, "compare", {"job": JOB, "compare": ["house-16"]})
    assert told["where"] == "compare"
    assert places(refused(client, "compare", {"job": JOB, "compare": "house-16"})) == ["compare"]


def test_the_stores_own_families_are_taken_when_they_are_asked_for(client: TestClient, store: Store) -> None:
    store.save_family(SHOP)
    job = {"drawer": [{**DRAWER, "slide": "shop-16"}]}
    assert places(refused(client, "fit", {"job": job})) == ["job drawer A slide"]
    answer = client.post("/api/v1/fit", json={"job": job, "own_slides": True})
    assert answer.json()["drawers"][0]["slide"]["family"] == "shop-16"
    assert places(refused(client, "fit", {"job": job, "own_slides": True, "slides": [SHOP]})) == [
        "own_slides"
    ]


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("tilt", "steep"),
        ("positions", 1.5),
        ("positions", 1),
        ("drawer", 7),
        ("drawer", "B"),
        ("off_centre", "far"),
    ],
)
def test_an_option_of_carrying_that_does_not_read_is_told_at_its_name(
    client: TestClient, key: str, value: object
) -> None:
    assert places(refused(client, "carry", {"job": JOB, key: value})) == [key]


@pytest.mark.parametrize(
    ("body", "place"),
    [
        ({}, "gaps"),
        ({"gaps": 3}, "gaps"),
        ({"gaps": [{"drawer": "A", "left_top": "wide"}]}, "gaps 1 left_top"),
        ({"gaps": [{"drawer": "A", "left": 3}]}, "gaps 1 left"),
        ({"gaps": [{"drawer": "A", "left_top": 3}], "target": "odd"}, "target"),
        ({"gaps": [{"drawer": "A", "left_top": 3}], "line": {"A.left": 3}}, "line"),
        ({"gaps": [{"drawer": "A", "left_top": 3}], "line": [1]}, "line"),
        ({"gaps": [{"drawer": "A", "left_top": 3}], "line": {"A.left_top": 3}, "target": "even"}, "target"),
    ],
)
def test_what_does_not_read_of_lining_up_is_told_at_its_place(
    client: TestClient, body: dict[str, Any], place: str
) -> None:
    job = {"drawer": [{**DRAWER, "front": {"style": "overlay"}}]}
    assert place in places(refused(client, "align", {"job": job, **body}))


def test_a_long_job_is_answered_while_others_are(client: TestClient) -> None:
    drawers = [{**DRAWER, "id": f"A{at}"} for at in range(200)]
    told = client.post("/api/v1/fit", json={"job": {"drawer": drawers}}).json()
    assert [one["id"] for one in told["drawers"]] == [f"A{at}" for at in range(200)]


def test_a_request_for_more_than_a_shop_has_is_refused_before_it_is_worked_on(client: TestClient) -> None:
    def family(number: int, lengths: int) -> dict[str, Any]:
        nominals = [{"nominal": 300 + one} for one in range(lengths)]
        return {**SHOP, "id": f"shop-{number}", "length": nominals}

    many = [{"id": "A"}] * 5_001
    assert places(refused(client, "fit", {"job": {"drawer": many}})) == ["job drawer"]
    assert places(refused(client, "fit", {"job": JOB, "slides": [SHOP] * 201})) == ["slides"]
    drawers = [{**DRAWER, "id": f"A{at}"} for at in range(300)]
    wide = [family(1, 1400)]
    (told,) = refused(client, "fit", {"job": {"drawer": drawers}, "slides": wide})
    assert told["value"] == "300 drawers on 1400 lengths"
    compared = [f"house-16/{one}" for one in range(21)]
    assert places(refused(client, "compare", {"job": JOB, "compare": compared})) == ["compare"]
    drawn = {"job": {"drawer": drawers}, "positions": 2_000}
    assert places(refused(client, "carry", drawn)) == ["positions"]
    assert places(refused(client, "align", {"job": JOB, "gaps": [{"drawer": "A"}] * 5_001})) == ["gaps"]
