"""Round after round at the bench: what stands, what was turned, and gaps that two fronts share."""

from __future__ import annotations

import re
from html import unescape
from typing import Any

import pytest
from fastapi.testclient import TestClient
from httpx import Response

from drawerwright.store import Store

PEOPLE = {"accept": "text/html"}
SIDES = dict.fromkeys(("left_top", "left_bottom", "right_top", "right_bottom"), "2.4")
LOW = {**SIDES, "top_left": "4.4", "top_right": "4.4", "bottom_left": "0.4", "bottom_right": "0.4"}
HIGH = {**SIDES, "top_left": "1", "top_right": "1", "bottom_left": "3.8", "bottom_right": "3.8"}


@pytest.fixture
def alone(store: Store) -> str:
    """One inset front behind a face frame, gaps of 3/32 in; invented."""
    drawer = {
        "id": "F1",
        "construction": "face-frame",
        "opening": {"width": "21 3/4 in", "height": "7 1/4 in", "depth": "22 1/2 in"},
        "frame": {"left": "1 1/2 in", "right": "1 1/2 in", "thickness": "3/4 in"},
        "front": {"style": "inset", "thickness": "3/4 in", "gap": "3/32 in"},
        "side": "1/2 in",
    }
    return store.create_job({"title": "Rounds (invented)", "drawer": [drawer]}).id


@pytest.fixture
def column(store: Store) -> str:
    """Three overlay fronts of one cabinet, told from the bottom up; invented."""
    drawers = [
        {
            "id": f"A{row}",
            "cabinet": "A",
            "row": row,
            "side": 16,
            "front": {"style": "overlay"},
            "opening": {"width": 562, "height": 168, "depth": 530, "floor": (row - 1) * 187},
        }
        for row in (1, 2, 3)
    ]
    return store.create_job({"title": "Column (invented)", "cabinet": [{"id": "A"}], "drawer": drawers}).id


class Bench:
    """A bench without a script: it reads the page and sends its forms."""

    def __init__(self, client: TestClient, job: str) -> None:
        self.client, self.job = client, job

    def address(self, drawer: str) -> str:
        return f"/jobs/{self.job}/bench/{drawer}/gaps"

    def page(self, drawer: str) -> str:
        return " ".join(unescape(self.client.get(self.address(drawer)).text).split())

    def measure(self, drawer: str, **told: str) -> Response:
        """Type gaps on the page as it is: what stands in its places of the adjusters goes along."""
        stands = re.findall(r'name="(set_\w+)" value="([^"]*)" autocomplete', self.page(drawer))
        data = {**dict(stands), **told}
        return self.client.post(self.address(drawer), data=data, headers=PEOPLE)

    def moves(self, drawer: str) -> list[str]:
        return re.findall(r'<p class="says">([^<]+)</p>', self.page(drawer))

    def done(self, drawer: str, on: str = "") -> Response:
        """Press the button that says a front was turned as told, on its own page or another's."""
        html = self.page(on or drawer)
        form = re.search(
            rf'<form method="post" action="{self.address(drawer)}" class="done">(.*?)</form>', html
        )
        assert form is not None
        data = dict(re.findall(r'type="hidden" name="([^"]+)" value="([^"]*)"', form[1]))
        return self.client.post(self.address(drawer), data=data, headers=PEOPLE)

    def stands(self, drawer: str) -> dict[str, str]:
        told = re.findall(r'name="(set_\w+)" value="([^"]*)" autocomplete', self.page(drawer))
        return {column: marks for column, marks in told if marks}

    def fields(self, drawer: str) -> dict[str, str]:
        told = re.findall(r'id="g-(\w+)" name="\1" value="([^"]*)"', self.page(drawer))
        return {name: value for name, value in told if value and not name.startswith("set_")}


def test_the_second_round_starts_from_where_the_first_left_the_adjusters(
    client: TestClient, store: Store, alone: str
) -> None:
    bench = Bench(client, alone)
    assert "where the adjusters stand was not told" not in bench.page("F1")
    bench.measure("F1", **LOW)
    assert bench.moves("F1") == ["both brackets: raise 4 marks (2 mm)"]
    assert bench.stands("F1") == {}
    bench.done("F1")
    assert bench.stands("F1") == {"set_height_left": "4", "set_height_right": "4"}
    assert store.gaps(alone)[-1].values == {"set_height_left": 4, "set_height_right": 4}
    assert "Turned as told: the adjusters stand at height left 4, height right 4" in bench.page("F1")
    assert bench.fields("F1") == {}
    bench.measure("F1", **HIGH)
    assert bench.moves("F1") == ["both brackets: lower 3 marks (1.5 mm)"]
    assert "Nothing to turn" not in bench.page("F1")
    bench.done("F1")
    assert bench.stands("F1") == {"set_height_left": "1", "set_height_right": "1"}


def test_an_end_that_nobody_told_never_makes_nothing_to_turn(client: TestClient, alone: str) -> None:
    bench = Bench(client, alone)
    bench.measure("F1", **HIGH)
    html = bench.page("F1")
    assert "<h2>Where the adjusters stand decides</h2>" in html
    assert "Nothing to turn" not in html
    assert "at 3 marks or more, lower 3 marks" in html
    bench.measure("F1", **HIGH, set_height_left="4", set_height_right="4")
    assert bench.moves("F1") == ["both brackets: lower 3 marks (1.5 mm)"]


def test_a_place_that_is_not_known_any_more_can_be_cleared(client: TestClient, alone: str) -> None:
    bench = Bench(client, alone)
    bench.measure("F1", **LOW, set_height_left="2", set_height_right="2")
    assert bench.stands("F1") == {"set_height_left": "2", "set_height_right": "2"}
    bench.measure("F1", **LOW, set_height_left="", set_height_right="")
    assert bench.stands("F1") == {}


def test_a_setting_where_no_adjuster_can_stand_is_told_at_its_place_and_nothing_is_kept(
    client: TestClient, store: Store, alone: str
) -> None:
    for wrong in ("99", "x"):
        answer = Bench(client, alone).measure("F1", **LOW, set_height_left=wrong)
        assert answer.status_code == 422
        assert re.search(r'id="g-set_height_left"[^>]*aria-invalid="true"', answer.text)
        assert "Nothing of this was kept yet" in answer.text
    assert store.gaps(alone) == []


def test_turned_is_kept_once_and_refused_where_the_front_was_measured_since(
    client: TestClient, store: Store, alone: str
) -> None:
    bench = Bench(client, alone)
    bench.measure("F1", **LOW)
    number = str(store.gaps(alone)[-1].id)
    data = {"turned": number, "page": "F1", "set_height_left": "4", "set_height_right": "4"}
    for _ in range(2):
        assert client.post(bench.address("F1"), data=data, follow_redirects=False).status_code == 303
    assert len(store.gaps(alone)) == 2
    bench.measure("F1", **HIGH)
    answer = client.post(bench.address("F1"), data=data, headers=PEOPLE)
    assert answer.status_code == 422
    assert "was measured again since that page was shown" in answer.text
    assert len(store.gaps(alone)) == 3


def measured_column(bench: Bench) -> None:
    bench.measure("A1", left_top="3", right_top="3", top_left="4", top_right="4", bottom_left="1")
    bench.measure("A2", left_top="3", right_top="3", top_left="2", top_right="2")
    bench.measure("A3", left_top="3", right_top="3", top_left="3", top_right="3")


def test_fronts_that_share_gaps_are_listed_and_wanted_measured_before_a_screw_is_turned(
    client: TestClient, column: str
) -> None:
    bench = Bench(client, column)
    bench.measure("A1", top_left="4", top_right="4")
    html = bench.page("A1")
    assert "<b>Measure A2 and A3 too before you turn a screw:</b>" in html
    assert re.search(r"<b>A1</b>, this front: measured", html)
    assert re.search(r">A2</a>: not measured", html)
    assert "So far, from the fronts that are measured" in html
    measured_column(bench)
    html = bench.page("A1")
    assert "before you turn a screw" not in html
    assert "So far" not in html


def test_moves_of_all_fronts_stand_in_one_view_and_shared_gaps_agree_between_pages(
    client: TestClient, column: str
) -> None:
    bench = Bench(client, column)
    measured_column(bench)
    views = [bench.moves(name) for name in ("A1", "A2", "A3")]
    assert views[0]
    assert views[0] == views[1] == views[2]

    def then(drawer: str, words: str) -> str:
        found = re.search(
            rf'{words}</th><td class="number">[^<]*</td><td class="number"><b>([^<]+)', bench.page(drawer)
        )
        assert found is not None
        return found[1]

    for lower, upper in (("A1", "A2"), ("A2", "A3")):
        for end in ("left", "right"):
            assert then(lower, f"top edge, {end}") == then(upper, f"bottom edge, {end}")


def test_turning_one_front_leaves_the_moves_of_the_others_as_they_were_told(
    client: TestClient, column: str
) -> None:
    bench = Bench(client, column)
    measured_column(bench)
    before = bench.moves("A1")
    first = re.search(r'action="/jobs/\d+/bench/(A\d)/gaps" class="done"', bench.page("A2"))
    assert first is not None
    bench.done(first[1], on="A2")
    html = bench.page("A2")
    assert bench.moves("A2") == before
    assert f"{first[1]}: turned as told" in html.replace(", this front", "")
    told = client.get(f"/api/v1/jobs/{column}/align").json()
    assert {one["drawer"] for one in told["fronts"]} == {"A1", "A2", "A3"}


def test_what_was_measured_beside_a_front_before_it_was_turned_counts_no_more(
    client: TestClient, column: str
) -> None:
    bench = Bench(client, column)
    bench.measure("A2", left_top="3", right_top="3", bottom_left="2.75", bottom_right="2.75")
    bench.measure(
        "A1", left_top="3", right_top="3", top_left="3", top_right="3", bottom_left="1", bottom_right="1"
    )
    names = re.findall(r'action="/jobs/\d+/bench/(A\d)/gaps" class="done"', bench.page("A1"))
    assert "A1" in names
    bench.done("A1")
    bench.measure("A1", left_top="3", right_top="3", top_left="0.5", top_right="0.5")
    html = bench.page("A2")
    assert "bottom edge, left of A2 is not counted: A1 was turned since" in html
    told = client.get(f"/api/v1/jobs/{column}/align").json()
    upper = next(one for one in told["fronts"] if one["drawer"] == "A2")
    assert upper["measured"]["bottom_left"] == pytest.approx(0.5)
    says = "is left out for A1: which was turned since"
    assert {"where": f"job {column} gaps A2 bottom_left", "says": says} in told["remarks"]


def test_a_front_that_was_turned_while_another_is_measured_anew_waits_to_be_measured_again(
    client: TestClient, column: str
) -> None:
    bench = Bench(client, column)
    bench.measure("A1", top_left="6", top_right="6", bottom_left="1", bottom_right="1")
    bench.done("A1")
    bench.measure("A2", left_top="3", right_top="3", bottom_left="3", bottom_right="3")
    assert "Turned: measure it again" in bench.page("A1")
    html = bench.page("A2")
    assert "A1</a>: turned since it was measured: measure it again" in html
    told = client.get(f"/api/v1/jobs/{column}/align").json()
    assert [one["drawer"] for one in told["fronts"]] == ["A2"]
    assert told["fronts"][0]["measured"]["bottom_left"] == pytest.approx(3.0)


def test_a_shared_gap_told_otherwise_is_asked_about_in_words_and_kept_only_when_the_person_says_so(
    client: TestClient, store: Store, column: str
) -> None:
    bench = Bench(client, column)
    bench.measure("A1", top_left="4.4", top_right="4.4")
    typed = {"left_top": "3", "right_top": "3", "bottom_left": "2.75", "bottom_right": "2.75"}
    answer = bench.measure("A2", **typed)
    html = " ".join(unescape(answer.text).split())
    assert answer.status_code == 422
    assert len(store.gaps(column)) == 1
    assert "Nothing of this was kept yet" in html
    assert "<b>Between A1 and A2, at the left:</b> 2.75 here, 4.4 at A1." in html
    assert "measure A1 again</a>" in html
    assert "contradicts" not in html
    assert 'bottom_left "' not in html
    assert bench.fields("A2") == {}
    bench.measure("A2", **typed, for_both="1")
    assert store.gaps(column)[-1].values == {**typed, "for_both": True}
    assert "top edge, left of A1 is not counted: what was measured at A2 holds for both" in bench.page("A1")
    told = client.get(f"/api/v1/jobs/{column}/align").json()
    for front, name in zip(told["fronts"], ("top_left", "bottom_left"), strict=True):
        assert front["measured"][name] == pytest.approx(2.75)


def test_the_api_keeps_where_adjusters_stand_and_gaps_for_both(
    client: TestClient, store: Store, column: str
) -> None:
    def post(drawer: str, readings: dict[str, Any], **more: Any) -> int:
        body = {"drawer": drawer, "readings": readings, **more}
        return client.post(f"/api/v1/jobs/{column}/gaps", json=body).status_code

    assert post("A1", {"top_left": 4.4}) == 201
    assert post("A2", {"bottom_left": 2.75}) == 201
    html = Bench(client, column).page("A2")
    assert "told twice, and not alike" in html
    assert client.get(f"/api/v1/jobs/{column}/align").status_code == 422
    assert post("A2", {"bottom_left": 2.75}, for_both="yes") == 422
    assert post("A2", {"bottom_left": 2.75}, for_both=True) == 201
    assert client.get(f"/api/v1/jobs/{column}/align").status_code == 200
    assert post("A2", {"set_height_left": 3, "set_height_right": 3}) == 201
    assert post("A2", {}) == 422
    assert Bench(client, column).stands("A2") == {"set_height_left": "3", "set_height_right": "3"}


def test_left_and_right_are_told_as_seen_from_the_front(client: TestClient, alone: str) -> None:
    bench = Bench(client, alone)
    assert "left and right as you stand in front of the cabinet" in bench.page("F1")
    bench.measure("F1", **LOW)
    assert "Left and right as you stand in front of the cabinet; in is into the cabinet" in bench.page("F1")
    assert "0 to 8, plus is up" in bench.page("F1") or re.search(r"0 to \d+, plus is up", bench.page("F1"))
