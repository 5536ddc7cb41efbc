"""The balance of a free-standing cabinet as a drawing: its levers and bars are those of the case."""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import pairwise
from typing import Any

import pytest

from drawerwright.carry.tipping import Tipping, tipping_of
from drawerwright.carry.tipping_facts import CHILD
from drawerwright.drawing.primitives import Text
from drawerwright.drawing.scene import Dimension, Leader, Scene, scale_to_paper
from drawerwright.drawing.svg import write_svg
from drawerwright.drawing.views.tipping_balance import balance_names, tipping_balance
from drawerwright.model.fitted import FittedJob

G = 9.80665


@pytest.fixture
def balance(fit_many: Callable[..., FittedJob]) -> Callable[..., Tipping]:
    def make(contents: float = 8, **keys: Any) -> Tipping:
        size = {"width": 600, "height": 800, "depth": 550}
        cabinet = {"id": "C", "freestanding": True, "size": size, "mass": 40, **keys}
        drawers = [
            {
                "id": f"C-{row}",
                "cabinet": "C",
                "row": row,
                "opening": {"floor": floor},
                "contents": contents,
                "front": {"style": "overlay"},
            }
            for row, floor in enumerate((0, 186, 372), start=1)
        ]
        fitted = fit_many(*drawers, cabinets=[cabinet])
        cabinet_model = fitted.drawers[0].cabinet
        assert cabinet_model is not None
        found = tipping_of(cabinet_model, fitted.drawers)
        assert found is not None
        return found

    return make


def levers(scene: Scene) -> list[Dimension]:
    return [one for one in scene.primitives if isinstance(one, Dimension) and one.quantity == "tipping_lever"]


def moment(scene: Scene) -> float:
    """Restoring less overturning [N m], read off the notes' masses and the levers' places."""
    notes = [one for one in scene.primitives if isinstance(one, Leader) and one.quantity == "weight"]
    total = 0.0
    for note in notes:
        mass = float(note.second_line.removesuffix(" kg"))
        total += G * mass * note.at[0] / 1000
    return total


@pytest.mark.parametrize("interlock", [True, False])
@pytest.mark.parametrize("hanging", [True, False])
def test_masses_and_levers_that_are_drawn_add_up_to_the_margin_of_the_case(
    balance: Callable[..., Tipping], interlock: bool, hanging: bool
) -> None:
    tipping = balance(interlock=interlock)
    for case in tipping.cases:
        scene = tipping_balance(tipping, case, hanging=hanging)
        margin = case.child_margin if hanging else case.margin
        assert margin is not None
        assert moment(scene) == pytest.approx(margin, abs=0.6)  # the notes round masses to 0.1 kg
        verdict = "stands" if margin >= 0 else "tips"
        assert any(verdict in one.text for one in scene.primitives if isinstance(one, Text))
        assert f"it {verdict}" in scene.alt


def test_levers_start_at_the_feet_and_are_as_long_as_they_say(balance: Callable[..., Tipping]) -> None:
    drawn = levers(tipping_balance(balance(interlock=True)))
    assert len(drawn) == 4
    for one in drawn:
        assert 0.0 in (one.start[0], one.end[0])
        assert one.end[0] - one.start[0] == pytest.approx(one.value)


def test_the_block_is_drawn_where_it_stands_under_the_rear_and_not_when_level(
    balance: Callable[..., Tipping],
) -> None:
    tipping = balance()
    level, block = (
        next(case for case in tipping.cases if case.stance == name) for name in ("level", "block")
    )
    for case, shown in ((level, False), (block, True)):
        notes = [one.text for one in tipping_balance(tipping, case).primitives if isinstance(one, Leader)]
        assert any("block 10.9 mm" in note for note in notes) is shown


def test_the_childs_test_mass_and_the_pull_say_what_they_are(balance: Callable[..., Tipping]) -> None:
    scene = tipping_balance(balance())
    words = [one.text for one in scene.primitives if isinstance(one, Text)]
    assert "(from memory, for comparison)" in words
    notes = {one.text: one.second_line for one in scene.primitives if isinstance(one, Leader)}
    assert notes["test mass of a child"] == f"{CHILD} kg"
    without = tipping_balance(balance(), hanging=False)
    assert "test mass of a child" not in {one.text for one in without.primitives if isinstance(one, Leader)}


def test_a_cabinet_without_drawers_and_one_with_heavy_ones_are_drawn(balance: Callable[..., Tipping]) -> None:
    tipping = balance(contents=1e6)
    bare = tipping_of(tipping.cabinet, [])
    assert bare is not None
    for one in (tipping, bare):
        svg = write_svg(scale_to_paper(tipping_balance(one), 0.1))
        assert not re.search(r"\b(nan|inf)\b", svg)


def test_the_same_balance_gives_the_same_bytes_and_inches_stand_on_it(
    balance: Callable[..., Tipping],
) -> None:
    one, other = (write_svg(scale_to_paper(tipping_balance(balance()), 0.1)) for _ in range(2))
    assert one == other
    inches = write_svg(scale_to_paper(tipping_balance(balance(), units="in"), 0.1))
    assert "60.6 lb" in inches
    assert "27.5 kg" not in inches


def test_notes_of_the_balance_do_not_run_into_each_other(balance: Callable[..., Tipping]) -> None:
    scene = tipping_balance(balance(interlock=True))
    notes = [one for one in scene.primitives if isinstance(one, Leader) and one.quantity == "weight"]
    for side in (-1, 1):
        levels = sorted(one.bend[1] for one in notes if one.bend is not None and one.bend[0] * side > 0)
        assert all(later - earlier >= 90 for earlier, later in pairwise(levels))


@pytest.mark.parametrize("hanging", [True, False])
def test_numbers_in_the_place_of_names_are_as_many_as_the_names_told_beside(
    balance: Callable[..., Tipping], hanging: bool
) -> None:
    tipping = balance()
    for case in tipping.cases:
        scene = tipping_balance(tipping, case, hanging=hanging, numbered=True)
        names = balance_names(tipping, case, hanging=hanging)
        numbers = [one.text for one in scene.primitives if isinstance(one, Text) and one.text.isdecimal()]
        assert numbers == [str(number) for number in range(1, len(names) + 1)]
        assert not [one for one in scene.primitives if isinstance(one, Leader)]
        named = tipping_balance(tipping, case, hanging=hanging)
        weights = [one for one in named.primitives if isinstance(one, Leader) and one.quantity == "weight"]
        told = {(one.text, one.second_line) for one in weights}
        assert told == set(names[: len(weights)])
        assert levers(scene) == levers(named)
        others = [name for name, amount in names[len(weights) :]]
        assert others[0].startswith("pull 44.5 N")
        assert len(others) == (2 if case.stance == "block" else 1)
