"""The trade's sheet holds together in every situation that a drawer can bring."""

from __future__ import annotations

from itertools import product
from random import Random

import pytest

from drawerwright.equations.equation import collect
from drawerwright.equations.listing import checks_page, equations_page
from drawerwright.equations.sheet import spanned_situations
from drawerwright.equations.trade import CHECK_ORDER, CONDITIONS, GIVEN, LAYERS
from drawerwright.equations.working import template
from drawerwright.fit.trial import trial_plan

EQUATIONS = [item for layer in LAYERS for item in collect(layer)]


def test_conditions_use_only_the_sheets_words() -> None:
    for item in EQUATIONS:
        for key, allowed in item.conditions.items():
            assert set(allowed) <= set(CONDITIONS[key]), item.name


def test_every_check_id_has_an_order_and_every_order_a_check() -> None:
    assert {item.check.id for item in EQUATIONS if item.check is not None} == set(CHECK_ORDER)


def test_at_most_one_check_of_an_id_applies_in_any_situation() -> None:
    for id_ in CHECK_ORDER:
        variants = [item for item in EQUATIONS if item.check is not None and item.check.id == id_]
        for situation in spanned_situations(variants):
            assert sum(item.holds(situation) for item in variants) <= 1, (id_, situation)


def test_every_equation_has_a_working_and_a_source() -> None:
    for item in EQUATIONS:
        assert template(item)
        assert item.source


def test_every_situation_has_a_plan() -> None:
    # What a drawer can bring: the existing box and its height and length go together in any mix.
    keys = [key for key in CONDITIONS if key not in ("mount", "carriage")]
    drawn, planned = Random(1), 0
    for _ in range(400):
        situation = {key: drawn.choice(CONDITIONS[key]) for key in keys}
        if situation["sized"] != "existing" and "existing" in (situation["height"], situation["length"]):
            continue
        for mount, carriage in product(CONDITIONS["mount"], CONDITIONS["carriage"]):
            plan = trial_plan(situation, mount, carriage)  # type: ignore[arg-type]
            assert {"front_width", "moving_mass", "box_height"} <= {
                step.quantity for step in plan.answer.steps
            }
            planned += 1
    assert planned > 300


def test_given_quantities_are_all_used() -> None:
    used = {name for item in EQUATIONS for name in item.parameters}
    handed = {f"{name}_{hand}" for name in used for hand in ("left", "right")}
    assert set(GIVEN) <= used | handed


@pytest.mark.parametrize("page", [equations_page, checks_page])
def test_the_pages_name_every_check(page: object) -> None:
    text = page()  # type: ignore[operator]
    assert "{" not in text
    if page is checks_page:
        for id_ in CHECK_ORDER:
            assert f"## {id_}\n" in text
