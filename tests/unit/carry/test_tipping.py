"""A cabinet that stands free, from its job: which drawers open, what is said, what is missing."""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from itertools import combinations
from typing import Any

import pytest
from tests.conftest import plain_drawer, plain_family

from drawerwright.carry.loose_shelf import loose_shelf_document, loose_shelf_of
from drawerwright.carry.tipping import Tipping, tipping_of
from drawerwright.carry.tipping_document import tipping_document
from drawerwright.errors import InputError, Problems
from drawerwright.fit import fit_job
from drawerwright.model.cabinet import Cabinet
from drawerwright.model.fitted import FittedDrawer
from drawerwright.model.job import Job
from drawerwright.units import format_mass

G = 9.80665
SIZE = {"width": 600, "height": 800, "depth": 550}
COLUMN = [0, 186, 372]


def fitted(
    contents: Sequence[float] = (8, 8, 8), front: bool = True, **cabinet: Any
) -> tuple[Cabinet, tuple[FittedDrawer, ...]]:
    """Three drawers of one free-standing cabinet; keys of the cabinet override."""
    keys = {"id": "C", "freestanding": True, "size": SIZE, "mass": 40, **cabinet}
    drawers = [
        plain_drawer(
            id=f"C-{row}",
            cabinet="C",
            row=row,
            opening={"floor": floor},
            contents=held,
            front={"style": "overlay" if front else "none"},
        )
        for row, (floor, held) in enumerate(zip(COLUMN, contents, strict=True), start=1)
    ]
    job = Job.model_validate({"cabinet": [keys], "drawer": drawers})
    return job.cabinets[0], fit_job(job, [plain_family()]).drawers


def balance(contents: Sequence[float] = (8, 8, 8), **cabinet: Any) -> Tipping:
    found = tipping_of(*fitted(contents, **cabinet))
    assert found is not None
    return found


def by_hand(drawers: Sequence[FittedDrawer], open_: Sequence[str], held: Sequence[bool]) -> float:
    """Restoring less overturning [N m], level, feet at the front edge, from the sizes of the fit alone."""
    moment = 40 * 550 / 2
    for one, loaded in zip(drawers, held, strict=True):
        assert one.box is not None
        assert one.mass is not None
        assert one.front is not None
        out = 500 if one.id in open_ else 0
        box = -one.box.front_depth - one.box.length / 2 + out
        inside = (
            -one.box.front_depth - one.box.subfront - (one.box.length - one.box.subfront - one.box.back) / 2
        )
        moment -= (one.mass.box + one.mass.hardware) * box
        moment -= one.mass.front * (one.front.stands_out + one.front.thickness / 2 + out)
        moment -= one.mass.contents * (inside + out) * loaded
    return moment * G / 1000


@pytest.mark.parametrize("interlock", [True, False, None])
def test_the_least_margin_level_is_the_least_over_every_set_and_every_loading(interlock: bool | None) -> None:
    cabinet, drawers = fitted((8, 3, 15), interlock=interlock)
    found = tipping_of(cabinet, drawers)
    assert found is not None
    ids = [one.id for one in drawers]
    most = 1 if interlock else 3
    sets = [open_ for size in range(most + 1) for open_ in combinations(ids, size)]
    margins = {
        name: min(by_hand(drawers, open_, held) for open_ in sets for held in loads)
        for name, loads in {
            "told": [(True,) * 3],
            "empty": [(False,) * 3],
            "adverse": [tuple(bool(bits >> at & 1) for at in range(3)) for bits in range(8)],
        }.items()
    }
    level = {
        case.load: case.margin for case in found.cases if case.stance == "level" and case.load != "filled"
    }
    assert level == pytest.approx(margins)


def test_an_interlock_keeps_all_but_one_drawer_shut() -> None:
    assert len(balance(interlock=True).worst.open) == 1
    assert balance(interlock=False).worst.open == ("C-1", "C-2", "C-3")
    assert balance().worst.open == ("C-1", "C-2", "C-3")
    assert any("interlock" in note for note in balance().notes)
    assert not any("interlock" in note for note in balance(interlock=False).notes)


def test_a_cabinet_that_tips_under_its_own_drawers_stops() -> None:
    check = balance((20, 20, 20), interlock=False).checks[0]
    assert (check.id, check.state) == ("tipping", "stop")
    assert check.margin < 0
    assert "fix it to the wall" in check.says
    assert "an interlock" in check.cure


def test_a_cabinet_that_only_a_child_tips_is_watched_and_says_by_how_much() -> None:
    found = balance(interlock=True)
    check = found.checks[0]
    assert check.state == "watch"
    assert check.margin > 0
    assert "27.5 kg" in check.says
    least = min(case.may_hang for case in found.cases if case.load != "filled" and case.may_hang is not None)
    assert f"Up to {format_mass(math.floor(least * 10) / 10)} may hang" in check.says
    assert "interlock" not in check.cure


def test_a_heavy_cabinet_stands_and_still_is_to_be_anchored() -> None:
    check = balance((1, 1, 1), interlock=True, mass=200).checks[0]
    assert check.state == "ok"
    assert "Anchor it to the wall whatever this says." in check.says


@pytest.mark.parametrize("load", ["told", "empty", "adverse", "filled"])
def test_the_block_under_the_rear_always_makes_it_worse(load: str) -> None:
    cases = {case.stance: case for case in balance().cases if case.load == load}
    assert cases["block"].margin < cases["level"].margin


def test_feet_behind_the_front_edge_and_a_floor_told_high_make_it_worse() -> None:
    assert balance(feet=40).worst.margin < balance().worst.margin
    low, high, not_told = (balance(**keys) for keys in ({"floor_height": 30}, {"floor_height": 260}, {}))
    assert low.worst.margin > high.worst.margin
    assert not_told.raised == pytest.approx(800 - 372 - 168)
    assert not_told.worst.margin == pytest.approx(balance(floor_height=260).worst.margin)


def test_the_lean_is_the_blocks_height_over_the_way_from_its_edge_to_the_feet() -> None:
    assert balance(feet=25).lean_deg == pytest.approx(math.degrees(math.atan(10.9 / 500)))


def test_a_cabinet_that_does_not_stand_free_has_no_balance() -> None:
    cabinet, drawers = fitted()
    assert tipping_of(cabinet.model_copy(update={"freestanding": False}), drawers) is None


def test_drawers_of_other_cabinets_are_left_out() -> None:
    cabinet, drawers = fitted()
    other = cabinet.model_copy(update={"id": "D"})
    found = tipping_of(other, drawers)
    assert found is not None
    assert found.drawers == ()
    assert found.worst.margin == pytest.approx(40 * G * 0.275, rel=0.05)
    assert found.worst.child_margin is None
    json.dumps(tipping_document(found), allow_nan=False)


def test_size_and_mass_that_are_not_told_are_named_and_not_guessed() -> None:
    bare = Cabinet.model_construct(id="C", freestanding=True, size=None, mass=None)
    with pytest.raises(InputError) as refused:
        tipping_of(bare, [])
    assert [fault.where for fault in refused.value.faults] == ["cabinet C size", "cabinet C mass"]


def test_a_drawer_that_does_not_fit_is_named_and_the_answer_watched() -> None:
    keys = {"id": "C", "freestanding": True, "size": SIZE, "mass": 300, "interlock": True}
    drawers = [
        plain_drawer(id="C-1", cabinet="C"),
        plain_drawer(id="C-2", cabinet="C", opening={"depth": 120, "floor": 186}),
    ]
    job = Job.model_validate({"cabinet": [keys], "drawer": drawers})
    found = tipping_of(job.cabinets[0], fit_job(job, [plain_family()]).drawers)
    assert found is not None
    assert len(found.missing) == 1
    assert "C-2" in found.missing[0]
    assert found.checks[0].state == "watch"
    assert "C-2" in found.checks[0].says


def test_the_numbers_of_the_scope_are_told_without_a_claim() -> None:
    in_scope = balance(size={**SIZE, "height": 900}).scope
    assert in_scope.height == 900
    assert in_scope.numbers_met in (True, None)
    low = balance(size={**SIZE, "height": 685}).scope
    assert low.numbers_met is False
    for scope in (in_scope, low):
        assert "Built-in kitchen cabinets are out of its scope." in scope.says
        assert "no statement that a unit meets any standard" in scope.says
        assert "16 CFR 1261" in scope.source


def test_a_drawers_volume_ends_an_eighth_of_an_inch_under_its_opening() -> None:
    found = balance()
    one = fitted()[1][0]
    assert one.box is not None
    inside = one.box.lower_edge + one.box.bottom_recess + one.box.bottom
    height = 168 - inside - 3.175
    length = one.box.length - one.box.subfront - one.box.back
    assert found.drawers[0].litres == pytest.approx(height * length * one.box.inside_width / 1e6)


def test_cautions_stand_in_every_document_and_what_is_from_memory_says_so() -> None:
    document = tipping_document(balance())
    told = " ".join(document["cautions"])
    assert [
        word for word in ("Anchor", "Local codes", "maker's", "licensed professional") if word not in told
    ] == []
    assert "from memory" in document["pull"]["source"]
    assert "read" in document["child"]["source"]
    assert document["margin"] == pytest.approx(document["restoring"] - document["overturning"], abs=2e-6)
    assert json.dumps(document, allow_nan=False) == json.dumps(tipping_document(balance()), allow_nan=False)


@pytest.mark.parametrize("contents", [(0, 0, 0), (1e9, 0, 1e12), (0.001, 0, 0)])
def test_any_contents_give_numbers(contents: Sequence[float]) -> None:
    keys = {"id": "C", "freestanding": True, "size": SIZE, "mass": 40}
    drawers = [
        plain_drawer(id=f"C-{row}", cabinet="C", opening={"floor": floor}, contents=held)
        for row, (floor, held) in enumerate(zip(COLUMN, contents, strict=True))
    ]
    job = Job.model_validate({"cabinet": [keys], "drawer": drawers})
    found = tipping_of(job.cabinets[0], fit_job(job, [plain_family()]).drawers)
    assert found is not None
    json.dumps(tipping_document(found), allow_nan=False)
    assert found.checks[0].state in ("ok", "watch", "stop")


@pytest.mark.parametrize(
    ("keys", "where"),
    [({"feet": 300}, "feet"), ({"floor_height": 800}, "floor_height")],
)
def test_feet_and_floors_that_no_cabinet_has_are_refused(keys: dict[str, Any], where: str) -> None:
    with pytest.raises(ValueError, match="cabinet") as refused:
        Cabinet.model_validate({"id": "C", "freestanding": True, "size": SIZE, "mass": 40, **keys})
    assert where in str(refused.value) or isinstance(refused.value, Problems)


def test_inches_are_told_where_inches_are_read() -> None:
    cabinet, drawers = fitted(interlock=True)
    found = tipping_of(cabinet, drawers, units="in")
    assert found is not None
    assert "60.6 lb" in found.checks[0].says
    assert "27.5 kg" not in found.checks[0].says


def test_a_loose_shelf_says_from_which_mass_it_lifts() -> None:
    drawer = plain_drawer(mount="shelf", contents=8, cabinet="S")
    job = Job.model_validate({"cabinet": [{"id": "S", "shelf_fixed": True}], "drawer": [drawer]})
    one = fit_job(job, [plain_family()]).drawers[0]
    shelf = loose_shelf_of(one)
    assert shelf is not None
    assert shelf.fixed
    assert shelf.lifts
    assert shelf.moving == pytest.approx(one.mass.moving if one.mass else 0.0)
    assert loose_shelf_document(shelf)["lifts_at"] == pytest.approx(shelf.lifts_at)


def test_a_drawer_on_the_cabinet_side_has_no_shelf() -> None:
    assert loose_shelf_of(fitted()[1][0]) is None
