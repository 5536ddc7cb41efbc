"""The quick answer's page, asked without a script, and the fragments that a script asks for."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from urllib.parse import parse_qs, urlencode, urlsplit

import pytest
from fastapi.testclient import TestClient

from drawerwright.drawing.scene import quantities
from drawerwright.drawing.shown import Shown
from drawerwright.web.families import shipped_families
from drawerwright.web.fitting import answer_values
from drawerwright.web.quick_job import quick_values
from drawerwright.web.sheet.views import NOT_WORKED, draw_views
from drawerwright.web.sheet.working import unfold

PLAIN = {"width": "562, 561.5", "height": "168", "depth": "530", "side": "16", "contents": "20"}
OVERLAY = PLAIN | {"front.style": "overlay"}
KINDS = {
    "overlay": OVERLAY,
    "no front": PLAIN,
    "inset": PLAIN | {"front.style": "inset"},
    "face frame": OVERLAY
    | {"construction": "face-frame", "frame.left": "38", "frame.right": "41", "frame.thickness": "19"},
    "shelf": PLAIN | {"mount": "shelf"},
    "side mounted": PLAIN | {"slide": "side-mounted", "side": "12.7"},
    "very wide": OVERLAY | {"width": "1200", "height": "90", "contents": "10"},
    "tall": OVERLAY | {"width": "400", "height": "700", "contents": "10"},
    "cut out": OVERLAY | {"width": "900", "cut_out.width": "300", "cut_out.depth": "250"},
    "does not fit": OVERLAY | {"width": "300", "depth": "200"},
    "inches": {"width": "22 1/8", "height": "6 5/8", "depth": "21", "side": "5/8", "units": "in"},
}


class Elements(HTMLParser):
    """Every element of a page with its attributes, in order, and the text of it all."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str]]] = []
        self.words: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, {name: value or "" for name, value in attrs}))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)

    def handle_data(self, data: str) -> None:
        self.words.append(data)

    def of(self, tag: str, **wanted: str) -> list[dict[str, str]]:
        """Attributes of all elements of a tag that have the wanted ones; `class_` is one of its classes."""
        cls = wanted.pop("class_", None)
        return [
            attrs
            for name, attrs in self.found
            if name == tag
            and (cls is None or cls in attrs.get("class", "").split())
            and all(attrs.get(key.replace("_", "-")) == value for key, value in wanted.items())
        ]

    @property
    def text(self) -> str:
        """All words, runs of white space as one blank."""
        return " ".join(" ".join(self.words).split())


def asked(client: TestClient, told: dict[str, str], **also: str) -> Elements:
    answer = client.get(f"/?{urlencode(told | also)}", headers={"accept": "text/html"})
    assert answer.status_code == 200, answer.text[:400]
    return Elements(answer.text)


def test_a_question_in_the_address_is_answered_with_drawing_verdict_and_notes(client: TestClient) -> None:
    page = asked(client, OVERLAY)
    assert "fits with care" in page.text
    assert len(page.of("svg", class_="paper")) == 8, (
        "wide, and four views in two sizes but the picture in one"
    )
    assert "562, 561.5: say which is front" in page.text
    assert page.of("input", name="width")[0]["value"] == "562, 561.5"
    assert page.of("option", value="overlay")[0].get("selected") == ""


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_drawer_has_its_sheet(client: TestClient, kind: str) -> None:
    page = asked(client, KINDS[kind])
    assert page.of("div", class_="board")
    assert not [attrs for _, attrs in page.found if "style" in attrs], "the policy forbids style attributes"
    assert not page.of("style")
    assert all("src" in attrs for attrs in page.of("script")), "the policy forbids scripts in the page"


@pytest.mark.parametrize("kind", KINDS)
def test_no_id_stands_twice(client: TestClient, kind: str) -> None:
    ids = [attrs["id"] for _, attrs in asked(client, KINDS[kind]).found if "id" in attrs]
    assert len(ids) == len(set(ids)), sorted({one for one in ids if ids.count(one) > 1})


@pytest.mark.parametrize("kind", KINDS)
def test_every_dimension_unfolds_a_working(kind: str) -> None:
    values = quick_values(KINDS[kind].items())
    fitted = answer_values(values, shipped_families()).drawers[0].fitted
    assert fitted is not None
    shown = Shown("in" if kind == "inches" else "mm")
    for scene in draw_views(fitted, shown).scenes.values():
        for quantity in quantities(scene):
            if quantity not in NOT_WORKED:
                opened = unfold(quantity, fitted, shown)
                assert opened is not None, quantity
                assert opened.source
                assert opened.terms


def test_a_dimension_is_a_link_that_unfolds_its_working_and_then_folds_it(client: TestClient) -> None:
    page = asked(client, OVERLAY)
    link = page.of("a", id="plan-inside_width")[0]
    assert link["aria-expanded"] == "false"
    assert link["aria-label"] == "inside width 519.5 mm"
    opened = Elements(client.get(link["href"], headers={"accept": "text/html"}).text)
    assert "561.5 − 42 = 519.5 mm" in opened.text
    assert opened.of("a", id="plan-inside_width")[0]["aria-expanded"] == "true"
    folded = opened.of("a", class_="close")[0]["href"]
    assert "show" not in parse_qs(urlsplit(folded).query)
    assert parse_qs(urlsplit(folded).query)["width"] == ["562, 561.5"]


def test_what_cannot_be_read_is_told_at_its_field_and_keeps_what_was_typed(client: TestClient) -> None:
    answer = client.get(f"/?{urlencode(PLAIN | {'depth': '53x'})}", headers={"accept": "text/html"})
    assert answer.status_code == 422
    page = Elements(answer.text)
    assert page.of("input", name="depth")[0] == page.of("input", name="depth", aria_invalid="true")[0]
    assert page.of("input", name="depth")[0]["value"] == "53x"
    assert 'has the unit "x"' in page.text
    assert not page.of("div", class_="board")


def test_a_fragment_of_what_cannot_be_read_names_the_field(client: TestClient) -> None:
    answer = client.get(f"/?{urlencode(PLAIN | {'side': 'thick', 'fragment': 'sheet'})}")
    assert answer.status_code == 422
    assert [fault["field"] for fault in answer.json()["errors"]] == ["side"]
    assert answer.json()["errors"][0]["try"]


def test_a_key_that_no_drawer_has_is_told_above_the_drawing(client: TestClient) -> None:
    answer = client.get(f"/?{urlencode(PLAIN | {'heigth': '3'})}", headers={"accept": "text/html"})
    assert answer.status_code == 422
    assert "height" in Elements(answer.text).text


def test_a_note_typed_as_markup_stays_text(client: TestClient) -> None:
    told = PLAIN | {"note": "<script>alert(1)</script>", "id": "<b>x</b>"}
    text = client.get(f"/?{urlencode(told)}", headers={"accept": "text/html"}).text
    assert "<script>alert" not in text
    assert "<b>x</b>" not in text


def test_without_a_question_an_invented_example_stands_there_and_says_so(client: TestClient) -> None:
    page = Elements(client.get("/", headers={"accept": "text/html"}).text)
    assert "Example invented" in page.text
    assert page.of("div", class_="board")


def test_units_change_by_a_link_that_means_the_same(client: TestClient) -> None:
    page = asked(client, OVERLAY)
    inch = client.get(page.of("a", class_="unit-in")[0]["href"], headers={"accept": "text/html"})
    query = {name: values[0] for name, values in parse_qs(inch.url.query.decode()).items()}
    assert (query["units"], query["height"]) == ("in", "168 mm")
    back = Elements(inch.text)
    assert back.of("input", name="width")[0]["value"] == "562 mm, 561.5 mm"
    metric = client.get(back.of("a", class_="unit-mm")[0]["href"], headers={"accept": "text/html"})
    told = {name: values[0] for name, values in parse_qs(metric.url.query.decode()).items()}
    assert (told["width"], told["height"], told["contents"]) == ("562, 561.5", "168", "20")


def test_a_sheet_in_inches_shows_fractions(client: TestClient) -> None:
    page = asked(client, KINDS["inches"])
    assert page.of("tspan", class_="frac")
    assert re.search(r"\d+\.\d+ in\b", asked(client, KINDS["inches"], show="inside_width").text)


def test_what_would_make_it_fit_is_a_link_that_makes_it_fit(client: TestClient) -> None:
    page = asked(client, KINDS["does not fit"])
    assert "does not fit" in page.text
    assert not page.of("rect", class_="fill-wood"), "no box is drawn"
    changed = [
        one["href"] for one in page.of("a") if one.get("href", "").startswith("/?") and "305" in one["href"]
    ]
    assert changed
    answer = Elements(client.get(changed[0], headers={"accept": "text/html"}).text)
    assert "does not fit" not in answer.text
    assert answer.of("input", name="depth")[0]["value"] == "305"


def test_the_picture_is_drawn_out_as_far_as_asked_and_no_farther_than_it_comes(client: TestClient) -> None:
    for told, shown in (("350", "350"), ("4000", "500"), ("0", "0"), ("-5", "200"), ("far", "200")):
        page = asked(client, OVERLAY, out=told)
        slider = page.of("input", type="range")[0]
        assert slider["value"] == shown, told
        assert slider["max"] == "500"


@pytest.mark.parametrize(
    ("arrangement", "boards", "stacks"), [("wide", 1, 0), ("mid", 0, 1), ("small", 0, 1)]
)
def test_a_fragment_holds_the_arrangement_asked_for(
    client: TestClient, arrangement: str, boards: int, stacks: int
) -> None:
    page = asked(client, OVERLAY, **{"fragment": "sheet", "for": arrangement})
    assert len(page.of("div", data_swap="board")) == boards
    assert len(page.of("div", data_swap="stack")) == stacks
    assert page.of("footer", data_swap="title")
    assert not page.of("html")
    rest = asked(client, OVERLAY, **{"fragment": "rest", "for": arrangement})
    assert len(rest.of("svg", data_picture="wide" if arrangement == "wide" else "mid")) == 1
    assert rest.of("div", data_swap="under")


def test_links_of_dimensions_lead_to_their_workings_on_a_page_and_are_left_to_its_script_in_a_fragment(
    client: TestClient,
) -> None:
    page = asked(client, OVERLAY)
    (board,) = page.of("div", data_swap="board")
    links = page.of("a", data_quantity="inside_width")
    assert links
    assert all(link["href"] == f"{board['data-folded']}&show=inside_width" for link in links)
    fragment = asked(client, OVERLAY, fragment="sheet")
    assert all(link["href"] == "" for link in fragment.of("a", data_quantity="inside_width"))
    assert fragment.of("div", data_swap="board")[0]["data-folded"] == board["data-folded"]


def test_the_page_is_light_before_its_drawings(client: TestClient) -> None:
    text = client.get(f"/?{urlencode(OVERLAY)}", headers={"accept": "text/html"}).text
    without = re.sub(
        r"<g class=\"lines\".*?</g>\s*(?=<)(?=<g class=\"leads|</svg>|<polyline)", "", text, flags=re.S
    )
    assert len(without.encode()) < 60_000


def test_the_twin_in_json_answers_the_same(client: TestClient) -> None:
    page = asked(client, OVERLAY)
    twin = page.of("link", type="application/json")[0]["href"]
    answer = client.get(twin)
    assert answer.status_code == 200
    assert answer.json()["drawers"][0]["slide"]["nominal"] == 500
