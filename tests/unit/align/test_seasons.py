"""Fronts of solid wood over a year."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.align.air import Air, parse_air
from drawerwright.align.season_document import season_document
from drawerwright.align.season_room import HARDLY, LOWER, cures
from drawerwright.align.seasons import Climate, seasons_of
from drawerwright.catalogue.wood_species import species_named, wood_species
from drawerwright.cli.season_words import screw_words
from drawerwright.errors import InputError, ReadingError
from drawerwright.model.fitted import FittedJob

from .align_builders import INSET
from .test_moves import stack_job

FitMany = Callable[..., FittedJob]
HOUSE = Climate(Air(20.0, 0.45), Air(20.0, 0.45), Air(21.0, 0.25), Air(24.0, 0.65))
CHERRY = species_named("cherry")


@pytest.fixture
def one(fit_many: FitMany) -> FittedJob:
    """One inset front, 162 high."""
    return fit_many({"front": INSET})


def test_the_smallest_gap_of_the_year_is_the_limit(one: FittedJob) -> None:
    (front,) = seasons_of(one, CHERRY, HOUSE, limit=1.0).fronts
    assert front.size == 162.0
    for gap in front.gaps:
        assert gap.smallest == pytest.approx(1.0)
        assert gap.smallest < gap.set_today < gap.largest
        assert min(gap.months) == pytest.approx(gap.smallest)
        assert gap.months.index(min(gap.months)) == 6


def test_growth_is_that_of_the_equation_by_hand(one: FittedJob) -> None:
    """Within 6 to 14 %: 162 mm × 0.00248 × (moisture wet − now)."""
    found = seasons_of(one, CHERRY, HOUSE)
    (front,) = found.fronts
    grown = 162.0 * 0.00248 * (found.moistures.wet - found.moistures.now)
    assert front.to_wet == pytest.approx(grown)
    assert sum(gap.set_today - 1.0 for gap in front.gaps) == pytest.approx(grown)


def test_quarter_sawn_wood_needs_less(one: FittedJob) -> None:
    flat, quarter = (seasons_of(one, CHERRY, HOUSE, cut=cut).fronts[0].gaps[0] for cut in ("flat", "quarter"))  # type: ignore[arg-type]
    assert quarter.set_today < flat.set_today


def test_fronts_that_have_just_come_from_a_damp_workshop_are_large_today(one: FittedJob) -> None:
    damp = Climate(Air(18.0, 0.65), HOUSE.now, HOUSE.dry, HOUSE.wet)
    fresh = seasons_of(one, CHERRY, damp, settled=False).fronts[0]
    settled = seasons_of(one, CHERRY, damp).fronts[0]
    assert fresh.today == 0.0
    assert settled.today < 0.0
    assert fresh.gaps[0].set_today < settled.gaps[0].set_today
    assert settled.gaps[0].as_cut > fresh.gaps[0].as_cut == 3.0


def test_grain_that_runs_upright_moves_the_gaps_at_the_sides(one: FittedJob) -> None:
    (front,) = seasons_of(one, CHERRY, HOUSE, across="width").fronts
    assert [gap.edge for gap in front.gaps] == ["right", "left"]
    assert front.size == 556.0
    assert front.gaps[0].set_today == pytest.approx(front.gaps[1].set_today)


def test_the_gap_between_two_fronts_closes_by_both() -> None:
    lower, upper = seasons_of(stack_job(2), CHERRY, HOUSE).fronts
    assert [gap.edge for gap in lower.gaps] == ["top"]
    assert [gap.edge for gap in upper.gaps] == ["top"]
    closes = sum(gap.set_today - 1.0 for front in (lower, upper) for gap in front.gaps)
    # What the lower front grows under its screws closes no gap.
    assert upper.to_wet < closes < lower.to_wet + upper.to_wet
    assert lower.gaps[0].set_today > upper.gaps[0].set_today


def test_an_overlay_front_with_nothing_beneath_has_no_gap_there(fit_many: FitMany) -> None:
    """An inset one has the opening's edge under it, and any front has neighbours beside it."""
    over = fit_many({"front": {"style": "overlay"}})
    assert [gap.edge for gap in seasons_of(over, CHERRY, HOUSE).fronts[0].gaps] == ["top"]
    within = fit_many({"front": INSET})
    assert [gap.edge for gap in seasons_of(within, CHERRY, HOUSE).fronts[0].gaps] == ["top", "bottom"]
    (beside,) = seasons_of(over, CHERRY, HOUSE, across="width").fronts
    assert [gap.edge for gap in beside.gaps] == ["right", "left"]


def test_a_front_that_hangs_free_is_hung_lower_before_it_is_planed(fit_many: FitMany) -> None:
    over = fit_many({"front": {"style": "overlay"}})
    (front,) = seasons_of(over, CHERRY, HOUSE, limit=3.0).fronts
    assert -2.0 < front.gaps[0].margin < -HARDLY
    assert (front.shift, front.lacks) == (pytest.approx(front.gaps[0].margin), 0.0)
    (front,) = seasons_of(over, CHERRY, HOUSE, limit=6.0).fronts
    assert front.lacks == pytest.approx(-front.gaps[0].margin - LOWER)


def test_screws_want_slots_where_the_wood_moves_past_them(fit_many: FitMany) -> None:
    """Across the height the screws stand close; across the width of 594 the outer ones are 212 off."""
    over = fit_many({"front": {"style": "overlay"}})
    (wide,) = seasons_of(over, CHERRY, HOUSE, across="width").fronts
    year = abs(wide.to_wet - wide.to_dry)
    assert over.drawers[0].fixing is not None
    farthest = max(x for x, _ in over.drawers[0].fixing.holes_in_front)
    assert wide.screw_play == pytest.approx(year * farthest / wide.size)
    assert wide.wants_slots
    assert screw_words(wide, "mm").startswith("slots for its screws, ")
    (quarter,) = seasons_of(over, CHERRY, HOUSE, cut="quarter").fronts
    assert 0.0 < quarter.screw_play < wide.screw_play
    assert (screw_words(quarter, "mm") == "") == (quarter.screw_play <= 0.25)
    assert season_document(seasons_of(over, CHERRY, HOUSE))["fronts"][0]["screw_play"] > 0.0


def test_a_drawer_that_is_not_there_or_has_no_front_is_named(one: FittedJob, fit_many: FitMany) -> None:
    with pytest.raises(InputError, match="is no drawer of this job"):
        seasons_of(one, CHERRY, HOUSE, only="B")
    with pytest.raises(InputError, match="no drawer of this job has a front"):
        seasons_of(fit_many({}), CHERRY, HOUSE)
    with pytest.raises(InputError, match="has no front"):
        seasons_of(fit_many({}, {"id": "B", "front": INSET}), CHERRY, HOUSE, only="A")


@given(st.sampled_from([one.id for one in wood_species()]), st.floats(0.1, 0.9), st.floats(0.1, 0.9))
def test_in_any_house_the_gap_set_today_never_closes_below_the_limit(
    name: str, dry: float, wet: float
) -> None:
    climate = Climate(HOUSE.workshop, HOUSE.now, Air(20.0, min(dry, wet)), Air(22.0, max(dry, wet)))
    for front in seasons_of(stack_job(2), species_named(name), climate, limit=0.8).fronts:
        for gap in front.gaps:
            assert gap.set_today >= 0.8
            assert gap.smallest >= 0.8 - 1e-9
            assert min(gap.months) >= gap.smallest - 1e-9


@pytest.mark.parametrize(
    ("told", "warmth", "humidity"),
    [("20C/45", 20.0, 0.45), ("68F/45 %", 20.0, 0.45), ("20 °C, 45 %", 20.0, 0.45), ("21,5/30", 21.5, 0.3)],
)
def test_air_is_read_as_people_write_it(told: str, warmth: float, humidity: float) -> None:
    air = parse_air(told)
    assert (air.temperature_c, air.humidity) == pytest.approx((warmth, humidity))


@pytest.mark.parametrize(
    ("told", "says"),
    [("warm", "is not a temperature"), ("90C/40", "known from"), ("20C/99", "outside 0 to 95")],
)
def test_what_is_no_air_is_refused(told: str, says: str) -> None:
    with pytest.raises(ReadingError, match=says):
        parse_air(told)


def test_a_species_that_is_not_known_is_refused_with_the_nearest() -> None:
    with pytest.raises(ReadingError) as refused:
        species_named("chery")
    assert refused.value.try_ == "cherry"


def test_the_document_tells_moistures_growth_and_gaps(one: FittedJob) -> None:
    told = season_document(seasons_of(one, CHERRY, HOUSE))
    assert told["schema"] == "drawerwright/season/1"
    assert told["moisture"]["wet"]["humidity"] == 0.65
    assert len(told["moisture_months"]) == len(told["fronts"][0]["gaps"][0]["months"]) == 12


def test_a_front_loses_what_its_gaps_lack_together(one: FittedJob) -> None:
    (front,) = seasons_of(one, CHERRY, HOUSE, limit=3.0).fronts
    assert front.lacks == pytest.approx(sum(gap.set_today - gap.as_cut for gap in front.gaps))
    assert front.shift == 0.0
    for gap in front.gaps:
        assert gap.margin == pytest.approx(gap.as_cut - gap.set_today)
        assert gap.margin < 0.0
        assert gap.smallest_as_cut == pytest.approx(3.0 + gap.margin)
    assert seasons_of(one, CHERRY, HOUSE, limit=0.0).fronts[0].lacks == 0.0


def test_a_column_of_fronts_with_room_enough_is_shifted_until_all_gaps_have_equally_much() -> None:
    found = seasons_of(stack_job(3), CHERRY, HOUSE, limit=1.75).fronts
    assert min(gap.margin for front in found for gap in front.gaps) < -0.1
    assert {front.lacks for front in found} == {0.0}
    hung = [*(front.shift for front in found), 0.0]
    margins = [front.gaps[0].margin for front in found]
    after = [margin + over - below for margin, below, over in zip(margins, hung[:-1], hung[1:], strict=True)]
    lowered = max(-sum(margins), 0.0)
    assert after == pytest.approx([(sum(margins) + lowered) / 4] * 3)


def test_a_column_without_room_enough_loses_what_it_lacks_front_by_front() -> None:
    found = seasons_of(stack_job(3), CHERRY, HOUSE, limit=4.0).fronts
    room = sum(gap.margin for front in found for gap in front.gaps)
    assert sum(front.lacks for front in found) == pytest.approx(-room - LOWER)
    assert [front.lacks / front.size for front in found] == pytest.approx(
        [(-room - LOWER) / sum(f.size for f in found)] * 3
    )
    assert {front.shift for front in found} == {0.0}
    (alone,) = seasons_of(stack_job(3), CHERRY, HOUSE, limit=4.0, only=found[1].drawer).fronts
    assert alone == found[1]


@given(
    st.lists(st.floats(-3.0, 3.0), min_size=2, max_size=7),
    st.floats(100.0, 400.0),
)
def test_cures_never_leave_a_gap_tighter_than_they_found_the_tightest(
    margins: list[float], size: float
) -> None:
    fronts = len(margins) - 1
    found = cures(margins, [size] * fronts)
    hung = [0.0, *(one.shift for one in found), 0.0]
    after = [margin + over - below for margin, below, over in zip(margins, hung, hung[1:], strict=False)]
    assert min(after) >= min(margins) - 1e-9
    if sum(margins) >= 0.0:
        assert min(after) >= -HARDLY - 1e-9
    assert sum(one.lacks for one in found) <= max(0.0, -sum(margins)) + 1e-9
    mirrored = cures(margins[::-1], [size] * fronts)
    if found[0].shift:
        assert [-one.shift for one in reversed(mirrored)] == pytest.approx(
            [one.shift for one in found], abs=1e-9
        )


@pytest.mark.parametrize(
    ("name", "kinds"), [("oak", "white oak or red oak"), ("Maple", "hard maple or soft maple")]
)
def test_a_name_that_two_species_share_is_asked_about(name: str, kinds: str) -> None:
    with pytest.raises(ReadingError) as refused:
        species_named(name)
    assert f"may be {kinds}" in str(refused.value.fault("--species"))
    assert species_named("red oak") is not species_named("white oak")
