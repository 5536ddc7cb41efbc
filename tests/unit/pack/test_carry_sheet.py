"""What drawers carry, on paper: figures are those of the study, and what is not known is said in words."""

from __future__ import annotations

import io
import math
import re
from collections.abc import Callable
from typing import Any

import pdfplumber
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drawerwright.carry import CarriedDrawer, carry_document, carry_job
from drawerwright.carry.balance_told import balances_of
from drawerwright.carry.words import figure_down
from drawerwright.catalogue import load_families
from drawerwright.drawing.drawn import extent
from drawerwright.drawing.primitives import Polyline
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import Check, FittedJob
from drawerwright.model.job import Job
from drawerwright.pack import USUAL, pack_contents
from drawerwright.pack.carry_cabinet import cabinet_page
from drawerwright.pack.carry_columns import part_groups
from drawerwright.pack.carry_figures import as_if_text, carry_margin_text
from drawerwright.pack.carry_page import carry_page, carrying_cautions
from drawerwright.pack.carry_pictures import chart_of, diagrams_of, filling, greatest_mass
from drawerwright.pack.carry_unknown import unknown_words
from drawerwright.pack.carrying import carried_of, carrying_files
from drawerwright.pack.distinct import distinct_drawers
from drawerwright.pack.layout import Layout
from drawerwright.pack.papers import PaperName, papers
from drawerwright.pack.shown import Shown
from drawerwright.units import ShownUnits

MM = Shown()
A4 = Layout(papers()["a4"])
MECHANICS: dict[str, Any] = {
    "carriages": {"lower": [130, 370], "upper": [130, 370]},
    "carriages_for": 500,
    "stiffness": {"cabinet": 1.2e9, "intermediate": 1.0e9, "drawer": 1.6e9},
    "roller": {"stiffness": 4000, "play": 0.1, "carries": 900, "count": 2},
    "soft_close": {"capture": 50, "pull_in": 8, "spring": 0.2, "damping": 0.1, "drag": 0.008},
}
PROFILES = [
    {
        "member": member,
        "points": [[2, 12], [0, 12], [0, 0], [24, 0], [24, 12], [22, 12]],
        "radii": 0.3,
        "thickness": 1.2,
        "steel": {"yield": 380, "ultimate": 470},
    }
    for member in ("drawer", "cabinet", "intermediate")
]
RAISED = [{"standard": "an invented standard", "load": 33, "modified": True, "cycles": 50000}]
FREE = {"freestanding": True, "size": {"width": 800, "height": 900, "depth": 560}, "mass": 38}

Family = Callable[..., SlideFamily]


def drawer(name: str, **keys: Any) -> dict[str, Any]:
    opening = {"width": 562.0, "height": 168.0, "depth": 530.0, **keys.pop("opening", {})}
    return {"id": name, "side": 16.0, "contents": 20.0, "opening": opening, **keys}


def fitted_on(
    families: list[SlideFamily], *drawers: dict[str, Any], cabinets: tuple[dict[str, Any], ...] = ()
) -> tuple[Job, FittedJob]:
    told = {"title": "Bench (invented)", "cabinet": list(cabinets), "drawer": list(drawers)}
    job = job_from_mapping(told)
    return job, fit_job(job, families)


def pages_of(fitted: FittedJob, units: ShownUnits = "mm", paper: PaperName = "a4") -> list[str]:
    ((name, content),) = carrying_files(
        fitted, distinct_drawers(fitted), Layout(papers()[paper]), Shown(units)
    )
    assert name == "carrying.pdf"
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        return [" ".join((page.extract_text() or "").split()) for page in pdf.pages]


def page_data(fitted: FittedJob, shown: Shown = MM) -> dict[str, Any]:
    distinct = distinct_drawers(fitted)
    return carry_page(distinct[0], carried_of(distinct, shown, None)[0], shown)


def figures_of(page: dict[str, Any]) -> dict[str, str]:
    return {row["title"]: row["figures"] for group in page["figures"] for row in group["rows"]}


def strip_of(page: dict[str, Any]) -> dict[str, str]:
    return {one["name"]: one["value"] for one in page["strip"]}


@pytest.fixture
def plain(family: Family) -> FittedJob:
    """One drawer on a family that tells all but sections and tests."""
    return fitted_on([family(**MECHANICS)], drawer("A"))[1]


def test_the_figures_of_the_page_are_those_of_the_study(plain: FittedJob) -> None:
    (told,) = carry_document(carry_job(plain))["drawers"]
    page = page_data(plain)
    strip, figures = strip_of(page), figures_of(page)
    assert strip["Moves"] == f"{told['load']:.1f} kg"
    assert strip["May move: the family's rating"] == f"{told['capacity']:g} kg"
    assert strip["To spare"] == f"{told['capacity'] - told['load']:.1f} kg"
    assert strip["Front sags, full out"] == f"{told['sag'][-1]:.1f} mm"
    assert strip["Most on a roller group"] == f"{told['rollers']['largest']:.0f} N"
    rear, front = told["screws"]["rear"][-1], told["screws"]["front"][-1]
    assert rear < 0 < front
    assert strip["Rearmost fixing, full out"] == figures["Rearmost fixing"] == f"pulled, {-rear:.0f} N"
    assert figures["Foremost fixing"] == f"pressed, {front:.0f} N"
    let_go, pushed = told["closing"], told["closing"]["pushed"]
    assert let_go["time"] != pushed["time"]
    assert strip["Closes by itself"] == f"yes, shut in {let_go['time']:.1f} s"
    assert figures["Let go 50 mm from home"] == f"shut in {let_go['time']:.1f} s"
    assert figures["Pushed at 300 mm/s"] == f"shut in {pushed['time']:.1f} s"
    assert figures["It then meets home at"] == f"{pushed['slam_speed']:.0f} mm/s"
    assert figures["Drawn home up to a lean of"] == f"{told['closing']['limit_tilt']:.1f}°"
    shares = {key: values[-1] for key, values in told["sag_shares"].items()}
    assert float(figures["Intermediate member"].removesuffix(" mm")) == pytest.approx(
        shares["intermediate_member"], abs=0.005
    )
    assert float(figures["Together"].removesuffix(" mm")) == pytest.approx(told["sag"][-1], abs=0.005)
    assert figures["Of it on each roller"] == f"{told['rollers']['each']:.0f} N"
    assert figures["Lower rear lifts beyond"] == f"{told['rollers']['lower_rear_lifts_at']:g} mm"
    assert figures["Turns, seen from above"] == f"{told['racking']['yaw']:.2f}°"
    assert figures["Sags, edges free to turn"] == f"{told['bottom']['sag']['supported']:.1f} mm"
    for fixing in told["fixings"]:
        row = next(value for name, value in figures.items() if fixing_name(fixing["id"]) in name)
        assert row == f"{fixing['pull']:.0f} N, {fixing['ratio']:.1f} ×"


def fixing_name(id_: str) -> str:
    return {"screw-front": "Front", "screw-bracket": "Locking bracket", "screw-mount": "rearmost"}[id_]


def test_the_paper_says_what_the_page_was_given(plain: FittedJob) -> None:
    data = page_data(plain)
    (page,) = pages_of(plain)
    for name, value in strip_of(data).items():
        assert name in page
        assert value in page
    for group in data["figures"]:
        assert group["title"] in page
        assert all(row["figures"] in page for row in group["rows"])
    for words in ("Sag of the front, and what makes it up", "Forces of the roller groups", "closes softly"):
        assert words in page
    for caution in carrying_cautions():
        assert caution["who"] in page


def test_the_least_capacity_comes_first_and_a_raised_test_is_called_modified_wherever_it_shows(
    family: Family,
) -> None:
    one = family(**MECHANICS, evidence=RAISED)
    fitted = fitted_on([one], drawer("A", contents=30))[1]
    (told,) = carry_document(carry_job(fitted))["drawers"]
    assert told["limited_by"] == "test"
    page = page_data(fitted)
    rows = page["figures"][0]["rows"]
    assert rows[0] == {"title": "A modified test passed", "figures": "33 kg"}
    masses = [float(row["figures"].removesuffix(" kg")) for row in rows]
    assert masses == sorted(masses)
    assert strip_of(page)["May move: a modified test passed"] == "33 kg"
    assert page["load"]["text"].endswith(", modified test")
    assert (page["state"], page["verdict"]) == ("stop", "Does not carry")
    (text,) = pages_of(fitted)
    careful = next(group for group in page["beside"] if group["title"] == "Look at these")
    assert "33 kg, passed in a modified test by an invented standard" in careful["rows"][0]["says"]
    # Strip, row, bar and check on the paper; never a test without the word.
    assert text.lower().count("modified test") == 4
    assert not re.search(r"(?<!modified )test passed", text)


def test_checks_stand_in_order_of_care_and_those_that_hold_have_one_line(family: Family) -> None:
    weak = {"stiffness": 4000, "play": 0.1, "carries": 100}
    page = page_data(fitted_on([family(**{**MECHANICS, "roller": weak}, sag_limit=1)], drawer("A"))[1])
    careful = next(group for group in page["beside"] if group["title"] == "Look at these")
    states = [row["state"] for row in careful["rows"]]
    assert states == sorted(states)  # stop before watch
    assert {"stop", "watch"} == set(states)
    assert {row["name"] for row in careful["rows"]} == {"Load", "Roller force", "Sag"}
    fine = next(group for group in page["beside"] if group["kind"] == "fine")
    assert {row["state"] for row in fine["rows"]} == {"ok"}


def test_a_family_that_tells_nothing_gets_what_can_be_said_and_what_is_missing(family: Family) -> None:
    fitted = fitted_on([family()], drawer("A"))[1]
    page = page_data(fitted)
    unknown = next(group for group in page["beside"] if group["title"] == "What is not known")
    names = ["Roller groups", "Stiffness", "Rollers", "Closing unit"]
    assert [row["who"] for row in unknown["rows"]] == names
    assert all("Wanted: " in row["says"] for row in unknown["rows"])
    assert strip_of(page)["Front sags, full out"] == strip_of(page)["Closes by itself"] == "not told"
    assert "Sag at full out" not in [group["title"] for group in page["figures"]]
    (text,) = pages_of(fitted)
    (one,) = carried_of(distinct_drawers(fitted), MM, None)
    for told in diagrams_of(one, 90.0, 58.0, MM):
        assert told["drawing"] is None
        assert told["says"].endswith("does not tell its roller groups, stiffness, rollers.")
    assert "roller groups, stiffness, rollers." in text
    assert "tells of no closing unit" in text
    assert "45 kg" in text
    for file_word in ("[[", "= {", "_"):
        assert file_word not in text
        assert not any(file_word in row["says"] for row in unknown["rows"])


def test_every_key_that_may_be_missing_has_words(family: Family) -> None:
    bare = family(length=[{"nominal": 500, "holes": [0]}])
    (one,) = carried_of(distinct_drawers(fitted_on([bare], drawer("A"))[1]), MM, None)
    assert set(one.missing) <= set(unknown_words())
    assert all(words["says"].endswith(".") and words["wants"] for words in unknown_words().values())
    page = page_data(fitted_on([bare], drawer("A"))[1])
    assert "Row holes" in str(page["beside"])


def test_a_drawer_that_fits_nothing_says_so(family: Family) -> None:
    fitted = fitted_on([family(**MECHANICS)], drawer("X", opening={"depth": 120.0}))[1]
    (text,) = pages_of(fitted)
    assert "Does not fit" in text
    assert "No slide fits this drawer" in text


def test_figures_of_a_drawer_that_fits_nothing_name_the_slide_they_are_told_on_and_why_it_fails(
    family: Family,
) -> None:
    """Depth 480: the member from 2 to 502 and 3 behind it want 505."""
    one_length = family(**MECHANICS, length=[{"nominal": 500, "holes": [0, 32, 224, 256, 416]}])
    fitted = fitted_on([one_length], drawer("X", opening={"depth": 480.0}))[1]
    page = page_data(fitted)
    first = page["beside"][0]
    says = "Carried as if on plain-16 / 500 on the cabinet side, which does not fit: depth, 25 mm short."
    assert first["title"] == "No slide fits"
    assert first["rows"][0] == {"who": "Figures", "says": says}
    told = carry_document(carry_job(fitted))["drawers"][0]
    assert told["slide"] is None
    assert strip_of(page)["Front sags, full out"] == f"{told['sag'][-1]:.1f} mm"
    assert "Sag at full out" in [group["title"] for group in page["figures"]]
    assert " ".join(says.split()[:6]) in " ".join(pages_of(fitted)[0].split())


@given(st.floats(30.0, 600.0), st.floats(0.0, 300.0), st.sampled_from(["mm", "in", "both"]))
@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_what_is_told_as_if_is_told_of_no_drawer_that_fits(
    family: Family, depth: float, contents: float, units: Any
) -> None:
    told = drawer("X", opening={"depth": depth}, contents=contents)
    fitted = fitted_on([family(**MECHANICS)], told)[1]
    (one,) = carried_of(distinct_drawers(fitted), MM, None)
    text = as_if_text(one, Shown(units))
    assert bool(text) == (one.slide is None and (one.nearest is not None or one.load is not None))
    if text:
        assert re.search(r"which does not fit: .+ (short|off)\.$", text)


def test_alike_drawers_have_one_page_also_in_cabinets_that_stand_differently(family: Family) -> None:
    cabinets = tuple({"id": name, **FREE} for name in ("F", "G"))
    told = [drawer(f"{name}-1", cabinet=name, row=1) for name in ("F", "G")]
    above = [
        drawer(f"{name}-2", cabinet=name, row=2, contents=contents, opening={"floor": 300.0})
        for name, contents in (("F", 5), ("G", 30))
    ]
    fitted = fitted_on([family(**MECHANICS)], *told, *above, cabinets=cabinets)[1]
    assert [one.ids for one in distinct_drawers(fitted)] == [("F-1", "G-1"), ("F-2",), ("G-2",)]
    pages = pages_of(fitted)
    assert len(pages) == 5
    assert "Drawer, 2 built alike" in pages[0]
    assert "Cabinet F, G stands free" in pages[0]
    assert "Tipping" not in [
        row["name"] for group in page_data(fitted)["beside"] for row in group["rows"] if "name" in row
    ]
    assert [balance.worst.margin for balance in balances_of(fitted.drawers)] == sorted(
        (balance.worst.margin for balance in balances_of(fitted.drawers)), reverse=True
    )
    assert "Free-standing cabinet" in pages[3]


def test_the_balance_of_a_cabinet_that_stands_free_is_told_with_its_cautions_in_full(family: Family) -> None:
    cabinets = ({"id": "F", **FREE},)
    drawers = (
        drawer("F-1", cabinet="F", row=1),
        drawer("F-2", cabinet="F", row=2, contents=30, opening={"floor": 300.0}),
    )
    fitted = fitted_on([family(**MECHANICS)], *drawers, cabinets=cabinets)[1]
    told = carry_document(carry_job(fitted))["drawers"][0]["tipping"]
    (tipping,) = balances_of(fitted.drawers)
    page = cabinet_page(tipping, A4.paper, MM)
    rows = next(group for group in page["groups"] if group["kind"] == "cases")["rows"][0]["rows"]
    assert len(rows) == len(told["cases"])
    for row, case in zip(rows, told["cases"], strict=True):
        left, child = (float(text.replace("−", "-")) for text in (row[4], row[5]))
        assert left == math.floor(case["margin"])
        assert child == math.floor(case["child_margin"])
    text = pages_of(fitted)[-1]
    for caution in tipping.cautions:
        assert caution in text
    for words in ("from memory", "no statement that a unit meets any standard", "27.5 kg", "44.5 N"):
        assert words in text
    assert (page["state"], page["verdict"]) == ("stop", "Tips")
    assert "1 : " in page["scale"]


def test_sections_have_a_page_where_the_family_tells_them_cabinet_member_first(family: Family) -> None:
    one = family(**MECHANICS, profile=PROFILES)
    fitted = fitted_on([one], drawer("A"))[1]
    pages = pages_of(fitted)
    assert len(pages) == 2
    places = [
        pages[1].index(f"Section of the {name} member") for name in ("cabinet", "intermediate", "drawer")
    ]
    assert places == sorted(places)
    (told,) = carry_document(carry_job(fitted))["drawers"]
    assert f"A {told['stresses'][0]['section']['area']:.2f} mm²" in pages[1].replace("mm2", "mm²")
    worst = max(told["stresses"], key=lambda each: each["share"])
    assert f"{worst['stress']:.0f} of {worst['yield']:.0f} N/mm" in pages[0]


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("units", ["mm", "in", "both"])
def test_a_drawer_has_one_page_on_any_paper_in_any_units(
    family: Family, paper: PaperName, units: ShownUnits
) -> None:
    one = family(**MECHANICS, profile=PROFILES, evidence=RAISED)
    fitted = fitted_on([one], drawer("A", contents=28))[1]
    pages = pages_of(fitted, units, paper)
    assert len(pages) == 2
    assert ("lb" in pages[0]) == (units != "mm")
    assert "more overleaf" not in pages[0]


def test_the_same_bytes_again_with_the_house_s_lettering_alone(plain: FittedJob) -> None:
    first, second = (
        dict(carrying_files(plain, distinct_drawers(plain), A4, Shown("both"))) for _ in range(2)
    )
    assert first == second
    with pdfplumber.open(io.BytesIO(first["carrying.pdf"])) as pdf:
        fonts = {char["fontname"].partition("+")[2] for page in pdf.pages for char in page.chars}
    assert fonts
    assert all(name.startswith("Barlow") for name in fonts)


def test_words_of_any_letters_can_be_set(family: Family) -> None:
    name = "抽屉 #[x] $y$ \\ *"
    free = {"id": "K #1", **FREE}
    fitted = fitted_on([family(**MECHANICS)], drawer(name, cabinet="K #1", row=1), cabinets=(free,))[1]
    pages = pages_of(fitted)
    assert "#[x] $y$ \\ *" in pages[0]
    assert "K #1" in pages[1]


def test_the_section_is_made_where_it_is_asked_for_and_is_not_in_the_usual_pack(family: Family) -> None:
    job, fitted = fitted_on([family(**MECHANICS)], drawer("A"))
    steps: list[tuple[int, int]] = []
    alone = pack_contents(
        job, fitted, only=["carry"], progress=lambda done, total, _: steps.append((done, total))
    )
    assert set(alone) == {"carrying.pdf"}
    assert steps[-1][0] == steps[-1][1] == len(steps)
    whole, more = pack_contents(job, fitted), pack_contents(job, fitted, only=[*USUAL, "carry"])
    assert "carrying.pdf" not in whole
    assert more == whole | alone


def test_very_many_drawers_are_in_several_documents(family: Family, monkeypatch: pytest.MonkeyPatch) -> None:
    from drawerwright.pack import carrying

    monkeypatch.setattr(carrying, "PAGES", 2)
    drawers = [drawer(f"D{n}", contents=5.0 + n) for n in range(3)]
    job, fitted = fitted_on([family(**MECHANICS)], *drawers)
    assert set(pack_contents(job, fitted, only=["carry"])) == {"carrying-01.pdf", "carrying-02.pdf"}


def test_a_job_without_drawers_has_a_page_that_says_so() -> None:
    assert "nothing to carry" in pages_of(FittedJob("", ()))[0]


def test_the_drawings_keep_to_their_rooms(plain: FittedJob) -> None:
    (one,) = carried_of(distinct_drawers(plain), MM, None)
    for shown in (MM, Shown("in"), Shown("both")):
        for told in (*diagrams_of(one, 90.0, 58.0, shown), chart_of(one, 80.0, 90.0, shown)):
            assert told is not None
            assert told["drawing"]["width"] <= 90.0
            assert told["drawing"]["height"] <= 90.0
            assert told["drawing"]["width"] >= 70.0


def test_a_diagram_fills_its_room_and_a_room_too_small_gets_the_least_field(plain: FittedJob) -> None:
    from functools import partial

    from drawerwright.drawing.views.carried import sag_diagram

    (one,) = carried_of(distinct_drawers(plain), MM, None)
    assert one.slide is not None
    draw = partial(sag_diagram, one.slide)
    large = filling(draw, 120.0, 80.0)
    assert 118.0 < large.room.width <= 120.0
    assert 78.0 < large.room.height <= 80.0
    small = filling(draw, 5.0, 5.0)
    frame = next(item for item in small.scene.primitives if isinstance(item, Polyline) and item.closed)
    assert max(x for x, _ in frame.points) == pytest.approx(40.0)
    assert extent(small.scene).width > 5.0


@pytest.mark.parametrize(("moving", "goes_to"), [(5.0, 60.0), (60.0, 60.0), (61.0, 80.0), (200.0, 250.0)])
def test_the_chart_goes_on_beyond_a_heavy_drawer(moving: float, goes_to: float) -> None:
    assert greatest_mass(moving) == goes_to


@given(st.floats(-1e12, 1e12))
def test_a_figure_is_never_shown_larger_than_it_is(value: float) -> None:
    shown = float(figure_down(value).replace("−", "-"))
    assert shown <= value + 2e-4 + 1e-12 * abs(value)
    assert shown >= value - max(1.0, abs(value) * 0.011)


def test_margins_carry_their_unit() -> None:
    def told(margin: float, unit: str, shown: Shown = MM) -> str:
        return carry_margin_text(Check("x", "ok", margin, unit, "", "", ""), shown)

    assert told(1034.7, "N") == "1034 N"
    assert told(44.482216152605, "N", Shown("in")) == "10.0 lbf"
    assert told(-0.05, "deg") == "−0.1°"
    assert told(-24.61, "N/mm²") == "−24.7 N/mm²"
    assert told(3.04, "kg") == "3.0 kg"


def test_groups_of_figures_are_kept_whole_and_all_of_them_are_told(plain: FittedJob) -> None:
    page = page_data(plain)
    for height in (20.0, 60.0, 100.0, 300.0):
        parted = part_groups(page["figures"], page["beside"], (46.0, height), A4)
        told = [*parted["first"], *parted["second"], *parted["beside"]]
        assert all(group in told for group in (*page["figures"], *page["beside"]))
        assert len(told) == len(page["figures"]) + len(page["beside"])
    wide = part_groups(page["figures"], page["beside"], (46.0, 300.0), A4)
    assert (wide["figures_step"], wide["beside"]) == (0, page["beside"])


def test_shipped_families_have_pages_with_drawings() -> None:
    job = job_from_mapping({"drawer": [drawer("A", slide="house-16/500")]})
    fitted = fit_job(job, load_families(None))
    (one,) = carried_of(distinct_drawers(fitted), MM, None)
    assert isinstance(one, CarriedDrawer)
    assert all(told["drawing"] is not None for told in diagrams_of(one, 90.0, 58.0, MM))


def test_a_margin_of_speed_is_told_in_the_units_of_the_lengths() -> None:
    check = Check("closes", "ok", 300.0, "mm/s", "", "", "")
    assert carry_margin_text(check, Shown("mm")) == "300 mm/s"
    assert carry_margin_text(check, Shown("in")) == "11.8 in/s"


def test_in_inches_no_sag_speed_or_margin_is_told_in_millimetres(family: Family) -> None:
    fitted = fitted_on(
        [family(**MECHANICS)], drawer("A", cabinet="F", row=1), cabinets=({"id": "F", **FREE},)
    )[1]
    text = " ".join(pages_of(fitted, "in"))
    assert re.findall(r"\d mm(?:/s)?(?![²³⁴/])\b", text) == []
    assert "in/s" in text
    assert "block 0.43 in, as on carpet" in " ".join(text.split())


@pytest.mark.parametrize("margin", [0.3048, 0.0, -0.1, 2.9])
def test_a_small_margin_in_inches_has_decimals_and_is_never_told_larger(margin: float) -> None:
    check = Check("sag", "ok", margin, "mm", "", "", "")
    told = carry_margin_text(check, Shown("in"))
    assert re.fullmatch(r"−?\d\.\d{3} in", told)
    shown = float(told.removesuffix(" in").replace("−", "-"))
    assert margin / 25.4 - 0.001 < shown <= margin / 25.4 + 1e-6
