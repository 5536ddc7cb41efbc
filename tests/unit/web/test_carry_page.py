"""What a drawer carries on its sheet, balances of cabinets, sections of families, slides side by side."""

from __future__ import annotations

import json
import re
from typing import Any
from urllib.parse import quote, urlencode

import pytest
from fastapi.testclient import TestClient
from tests.unit.web.test_quick import Elements

from drawerwright.carry import carry_drawer
from drawerwright.catalogue.families import family_named, load_families
from drawerwright.drawing.shown import Shown
from drawerwright.model.fitted import FittedDrawer
from drawerwright.store import Store, StoredJob
from drawerwright.web.carried.asked import carry_pairs, read_question
from drawerwright.web.carried.drawn import BENT_DROP, bent_slide_of, diagrams_of
from drawerwright.web.carried.positions import measures, positions_of, words_at
from drawerwright.web.family.carry import family_carry
from drawerwright.web.fitting import answer_values
from drawerwright.web.quick_job import quick_values

HTML = {"accept": "text/html"}
OPENING = {"width": "562", "height": "168", "depth": "530", "side": "16", "contents": "20"}
STANDING = {
    "id": "F/1",
    "freestanding": True,
    "size": {"width": 800, "height": 900, "depth": 480},
    "mass": 30,
    "feet": 20,
    "floor_height": 100,
}


def page_of(client: TestClient, address: str, status: int = 200) -> Elements:
    answer = client.get(address, headers=HTML)
    assert answer.status_code == status, answer.text[:500]
    return Elements(answer.text)


def asked(**told: str) -> str:
    return f"/?{urlencode({**OPENING, **told})}"


def fitted(**told: str) -> FittedDrawer:
    values = quick_values({**OPENING, **told}.items())
    found = answer_values(values, load_families(None)).drawers[0].fitted
    assert found is not None
    return found


@pytest.fixture
def job(store: Store) -> StoredJob:
    def drawer(row: int) -> dict[str, Any]:
        opening = {"width": 762, "height": 190, "depth": 450, "floor": 20 + (row - 1) * 210}
        return {"id": f"F-{row}", "cabinet": "F/1", "row": row, "opening": opening, "contents": "12 kg"}

    front = {"style": "overlay"}
    defaults = {"side": 16, "front": front}
    alone = {"id": "A", "opening": {"width": 562, "height": 168, "depth": 530}, "contents": "20 kg"}
    values = {
        "title": "Invented",
        "units": "mm",
        "defaults": defaults,
        "cabinet": [STANDING],
        "drawer": [alone, *(drawer(row) for row in (1, 2, 3))],
    }
    return store.create_job(values)


def test_a_sheet_leads_to_what_it_carries_and_does_not_reckon_it_unasked(client: TestClient) -> None:
    page = page_of(client, asked())
    link = page.of("a", data_carry_open="")[0]
    assert "carry=1" in link["href"]
    assert link["href"].endswith("#carry")
    assert not page.of("svg", data_diagram="sag")
    opened = page_of(client, link["href"])
    assert opened.of("svg", data_diagram="sag")
    assert opened.of("svg", data_diagram="force")
    assert opened.of("svg", data_bent="")
    assert "May move, the least first" in opened.text
    assert "Who decides" in opened.text, "cautions stand at the foot"


def test_a_script_gets_the_main_answers_of_a_section_that_is_folded(client: TestClient) -> None:
    told = client.get(f"{asked()}&fragment=carry", headers=HTML)
    assert told.status_code == 200
    assert "<html" not in told.text
    assert "24.9 of 45.0 kg, the family&#39;s rating" in told.text
    assert "closes by itself" in told.text
    assert len(told.text) < 2_000


def test_a_place_is_told_in_words_where_the_drawer_is_drawn_out(client: TestClient) -> None:
    told = client.get(f"{asked(carry='1', out='200')}&fragment=carry", headers=HTML).text
    words = re.sub(r"\s+", " ", re.sub(r"<span[^>]*hidden>.*?</span>|<[^>]+>", "", told))
    assert re.search(
        r"200 mm out: the front sags 0\.\d mm; in one slide the lower front rollers carry \d+ N,", words
    )
    assert "the lower rear ones lift beyond 160 mm, pressed up by" in words
    assert "the upper rear ones carry" in words


def test_the_table_of_places_holds_the_forces_and_the_sag_of_the_study_everywhere() -> None:
    one = carry_drawer(fitted(), positions=501, off_centre=60.0).slide
    assert one is not None
    positions = positions_of(one)
    assert one.sides is not None
    for place, out in enumerate(one.drawn.extension.tolist()):
        for name in ("lower_front", "lower_rear", "upper_front", "upper_rear"):
            assert positions.value(name, out) == pytest.approx(getattr(one.drawn, name)[place], abs=1e-6)
        lifts = (one.rollers.lifts_lower, one.rollers.lifts_upper) if one.rollers is not None else ()
        if all(at is None or abs(out - at) > 0.05 for at in lifts):
            assert positions.value("sag", out) == pytest.approx(one.drawn.sag[place], abs=0.02)
            right = one.sides.drawn["right"].sag[place]
            assert positions.value("sag_right", out) == pytest.approx(right, abs=0.03)


def test_words_of_a_place_are_in_inches_where_inches_are_read() -> None:
    one = carry_drawer(fitted()).slide
    assert one is not None
    told = words_at(one, positions_of(one), 254.0, Shown("in"))
    assert told.out == "10.0 in"
    assert told.sag is not None
    assert re.fullmatch(r"0\.\d{3} in", told.sag.words), "a fraction of an inch would hide it"
    assert all(front.words.endswith(" lbf") for front in told.fronts)
    assert measures(Shown("mm"))["force"].words(-0.2) == "0 N"


def test_the_bent_slide_comes_down_at_its_front_as_far_as_the_sag_says() -> None:
    one = carry_drawer(fitted()).slide
    assert one is not None
    bent = bent_slide_of(one, positions_of(one))
    assert bent is not None
    points = [tuple(map(float, pair.split(","))) for pair in bent.points(500.0)[2].split()]
    larger = BENT_DROP / float(one.drawn.sag.max())
    assert points[-1][0] == pytest.approx(90.0, abs=0.01)
    assert points[-1][1] == pytest.approx(float(one.drawn.sag[-1]) * larger, abs=0.02)
    closed = [tuple(map(float, pair.split(","))) for pair in bent.points(0.0)[2].split()]
    assert closed[0][0] == 0.0
    stands = bent.stands(500.0)
    assert len(stands) == 6
    assert [x for x, _ in stands] == pytest.approx(
        [
            place * bent.scale
            for place in (
                *one.data.screws,
                *(at + 125 for at in one.data.lower),
                *(at + 375 for at in one.data.upper),
            )
        ],
        abs=0.01,
    )


def test_dots_of_a_diagram_lie_on_its_curves() -> None:
    one = carry_drawer(fitted()).slide
    assert one is not None
    sag, force = diagrams_of(one, Shown("mm"))
    assert sag.name == "sag"
    assert len(force.curves) == 4
    assert sag.x(500.0) == sag.width
    for diagram in (sag, force):
        drawn = re.findall(r'd="(M[^"]+)"', diagram.inside)
        places = [at for at in drawn if at.count("L") == len(diagram.at) - 1]
        assert len(places) == len(diagram.curves)
        for path, curve in zip(places, diagram.curves, strict=True):
            last = float(path.rpartition("L")[2].split()[1])
            assert curve[-1] == pytest.approx(last, abs=0.006)


def test_what_does_not_read_is_told_at_its_field_and_the_sheet_stands(client: TestClient) -> None:
    page = page_of(client, asked(carry="1", tilt="steep", off_centre="left"))
    wrong = [one["name"] for one in page.of("input") if one.get("aria-invalid") == "true"]
    assert wrong == ["tilt", "off_centre"]
    assert page.of("div", class_="board")
    answer = client.get(f"{asked(carry='1', tilt='20')}&fragment=carry", headers=HTML)
    assert answer.status_code == 422
    assert "up to 15° either way" in answer.text


@pytest.mark.parametrize("tilt", ["nan", "1e400", "--", "<b>"])
def test_a_lean_that_is_no_number_is_refused(tilt: str) -> None:
    found = read_question({"tilt": tilt}, "mm")
    assert [one.where for one in found.faults] == ["tilt"]
    assert found.tilt_deg == 0.0


def test_a_question_of_an_address_is_read_in_its_units() -> None:
    pairs = carry_pairs([("width", "562"), ("tilt", " \u22121,5 °"), ("off_centre", "2"), ("carry", "")])
    assert dict(pairs) == {"tilt": " \u22121,5 °", "off_centre": "2"}
    found = read_question(dict(pairs), "in")
    assert found.options == {"tilt_deg": -1.5, "off_centre": 50.8, "sag_limit": None}


def test_lean_offset_and_limit_are_answered_and_kept_in_links_and_fields(client: TestClient) -> None:
    page = page_of(client, asked(carry="1", tilt="3", off_centre="100", sag_limit="4"))
    assert "Load off centre" in page.text
    assert "4 mm are allowed" in page.text
    assert "Does not carry" in page.text
    fields = {one["name"]: one["value"] for one in page.of("input") if one.get("id", "").startswith("c-")}
    assert fields == {"tilt": "3", "off_centre": "100", "sag_limit": "4"}
    dimension = page.of("a", data_quantity="inside_width")[0]["href"]
    assert "carry=1" in dimension
    assert "tilt=3" in dimension
    fold = page.of("a", data_carry_fold="")[0]["href"]
    assert "carry" not in fold
    twin = next(one["href"] for one in page.of("a") if one.get("href", "").startswith("/api/v1/quick/carry"))
    told = client.get(twin).json()["drawers"][0]
    assert told["sides"]["off_centre"] == 100.0
    assert told["closing"]["tilt"] == 3.0


def test_a_family_that_tells_little_gets_what_can_be_said_and_what_to_measure(client: TestClient) -> None:
    page = page_of(client, asked(carry="1", depth="330", slide="short-16", contents="5"))
    assert "Carries, as far as is known" in page.text
    assert "Not known: roller groups" in page.text
    assert "Wanted: where the roller groups stand along the member" in page.text
    assert "In the slide file: carriages, carriages_for." in page.text
    assert "[[profile]]" not in page.text
    assert "= {" not in page.text
    assert not page.of("svg", data_diagram="sag")
    assert not page.of("script", type="application/json")


def test_a_drawer_that_fits_nothing_is_not_drawn_out(client: TestClient) -> None:
    page = page_of(client, asked(carry="1", depth="200"))
    assert "No slide fits" in page.text
    assert not page.of("svg", data_bent="")


def test_figures_of_a_drawer_that_fits_nothing_name_the_slide_that_they_are_told_on_and_why_it_fails(
    client: TestClient,
) -> None:
    told = r"Carried as if on \S+ / \d+ on the cabinet side, which does not fit: depth, 105 mm short\."
    assert len(re.findall(told, page_of(client, asked(carry="1", depth="200")).text)) == 1
    assert "as if" not in page_of(client, asked(carry="1")).text


def test_figures_told_as_if_are_those_of_the_answer_s_json(client: TestClient) -> None:
    page = page_of(client, asked(carry="1", depth="200"))
    twin = next(one["href"] for one in page.of("a") if one.get("href", "").startswith("/api/v1/quick/carry"))
    told = client.get(twin).json()["drawers"][0]
    assert told["slide"] is None
    assert f"{told['nearest']['family']} / {told['nearest']['nominal']:g} " in page.text
    assert f"sags {told['sag'][-1]:.1f} mm" in page.text


def test_the_data_of_a_section_are_json_that_no_text_can_break_out_of(client: TestClient) -> None:
    told = client.get(f"{asked(carry='1')}&fragment=carry", headers=HTML).text
    found = re.search(r'<script type="application/json" data-carried>(.*?)</script>', told, re.S)
    assert found is not None
    data = json.loads(found[1])
    assert data["travel"] == 500.0
    assert set(data["diagrams"]) == {"sag", "force"}
    assert len(data["told"]["at"]) == len(data["told"]["sag"]) == len(data["bent"]["heights"])
    assert len(told) < 70_000


def test_a_stored_drawer_tells_the_balance_of_its_whole_cabinet(client: TestClient, job: StoredJob) -> None:
    page = page_of(client, f"/jobs/{job.id}/drawers/F-2?carry=1")
    links = [one["href"] for one in page.of("a") if "/cabinets#" in one.get("href", "")]
    assert links == [f"/jobs/{job.id}/cabinets#balance-F/1", f"/jobs/{job.id}/cabinets#F%2F1"]
    assert "With drawers F-1, F-2, F-3 open" in page.text
    short = client.get(f"/jobs/{job.id}/drawers/F-2?fragment=carry", headers=HTML).text
    assert "Carries, but its cabinet tips" in short
    assert "stops: tipping;" in short
    assert "Anchor the cabinet to the wall" in page.text
    twin = next(one["href"] for one in page.of("a") if one.get("href", "").startswith("/api/v1/jobs/1/carry"))
    assert [one["id"] for one in client.get(twin).json()["drawers"]] == ["F-2"]
    changed = page_of(client, f"/jobs/{job.id}/drawers/F-2?carry=1&contents=40")
    assert changed.text != page.text, "what is typed counts before it is saved"


def test_the_balance_of_a_free_standing_cabinet_is_drawn_with_every_case_and_cautions(
    client: TestClient, job: StoredJob
) -> None:
    page = page_of(client, f"/jobs/{job.id}/cabinets")
    drawn = [one for one in page.of("svg") if one.get("aria-label", "").startswith("Balance of cabinet F/1")]
    assert [one["class"] for one in drawn] == ["small", "mid"]
    assert drawn[0]["aria-label"] == drawn[1]["aria-label"]
    assert "cabinet without drawers" in page.text
    assert {"Open", "Hold", "Left", "May hang"} <= {one.get("data-label") for one in page.of("td")}
    for says in ("Anchor the cabinet to the wall; no balance replaces that.", "May hang", "from memory"):
        assert says in page.text
    names = {one.get("name") for one in page.of("input")}
    assert {"key.feet", "key.floor_height", "key.mass", "key.size.depth"} <= names


def test_feet_typed_further_forward_change_the_balance(
    client: TestClient, job: StoredJob, store: Store
) -> None:
    before = page_of(client, f"/jobs/{job.id}/cabinets").text
    told = {"based_on": "1", "cabinet": "F/1", "key.feet": "0", "key.floor_height": "120"}
    answer = client.post(f"/jobs/{job.id}/cabinets", data=told, headers=HTML, follow_redirects=False)
    assert answer.status_code == 303
    assert quote("F/1", safe="") in answer.headers["location"]
    kept = store.job(job.id).values["cabinet"][0]
    assert (kept["feet"], kept["floor_height"]) == (0, 120)
    assert page_of(client, f"/jobs/{job.id}/cabinets").text != before


def test_a_family_of_rolled_members_is_drawn_in_section_with_its_properties(client: TestClient) -> None:
    page = page_of(client, "/slides/heavy-19")
    drawn = [one for one in page.of("svg") if one.get("aria-label", "").startswith("Section of the")]
    assert len(drawn) == 3
    assert len({one["viewbox"] for one in drawn}) == 1, "all at one scale"
    for name in ("Centroid x, y", "Ix, bending down", "Turned by", "Stiffness EI about x"):
        assert name in page.text
    assert any(one.get("aria-label", "").startswith("Chart of closing") for one in page.of("svg"))


def test_a_family_without_sections_or_closing_unit_shows_neither(client: TestClient) -> None:
    families = load_families(None)
    assert family_carry(family_named(families, "short-16", where="test")) is None
    told = family_carry(family_named(families, "house-16", where="test"))
    assert told is not None
    assert told.sections == ()
    assert told.chart is not None
    assert "Rolled sections" not in page_of(client, "/slides/house-16").text
    assert "family-carry" not in client.get("/slides/short-16", headers=HTML).text


def test_slides_side_by_side_tell_what_each_carries(client: TestClient) -> None:
    families = [("family", "house-16"), ("family", "heavy-19"), ("family", "side-mounted")]
    page = page_of(client, f"/slides/compare?{urlencode([*OPENING.items(), *families])}")
    for name in (
        "May move",
        "Sag at full out",
        "Most in a roller group",
        "Drawn home up to a lean of",
        "Limited by",
        "The family does not tell",
    ):
        assert name in page.text
