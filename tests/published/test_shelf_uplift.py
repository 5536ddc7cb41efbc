"""The load at which a loose shelf lifts at the rear, against a finite-element beam.

Source: PyNiteFEA, elastic beam elements on two supports, as an oracle: the reaction of the rear support
changes its sign at that load. The shelf is modelled afresh from the readings, not from any equation of ours.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from typing import Any

import pytest

from drawerwright.fit import fit_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.job import Job

G = 9.80665
PARTICLEBOARD = 700.0  # kg/m³, Wood Handbook (FPL-GTR-190) Table 12-1, the middle of 0.6 to 0.8
THICKNESS = 18.0
SHELVES = [(562, 530, 500), (412, 480, 450), (900, 580, 550), (700, 540, 350)]


def lifting_load(family: SlideFamily, width: float, depth: float, nominal: float) -> float:
    """Moving mass [kg] at which a shelf is told to lift."""
    drawer = {
        "id": "A",
        "opening": {"width": width, "height": 168, "depth": depth},
        "side": 16,
        "mount": "shelf",
        "slide": f"plain-16/{nominal}",
    }
    fitted = fit_job(Job.model_validate({"drawer": [drawer]}), [family]).drawers[0]
    return fitted.workings["shelf_lifts_at"].value


def rear_reaction(oracle: Any, width: float, depth: float, nominal: float, load: float) -> float:
    """Upward force [N] of the rear support with a load [kg] in the middle of a drawer that is all out."""
    front, rear = 37.0, depth - 37.0
    face = 2.0 - 3.0  # the member's end 2 behind the edge, the box 3 ahead of it
    middle = face + nominal / 2 - nominal
    model = oracle.FEModel3D()
    for name, x in (("load", middle), ("edge", 0.0), ("front", front), ("rear", rear), ("end", depth)):
        model.add_node(name, x, 0, 0)
    model.add_material("board", 2500.0, 1000.0, 0.25, 0.0)
    model.add_section("shelf", width * THICKNESS, 1e6, width * THICKNESS**3 / 12, 1e6)
    order = ["load", "edge", "front", "rear", "end"]
    for at, (start, end) in enumerate(pairwise(order)):
        model.add_member(f"m{at}", start, end, "board", "shelf")
    weight = width * THICKNESS * PARTICLEBOARD * 1e-9 * G  # N/mm
    for member in ("m1", "m2", "m3"):
        model.add_member_dist_load(member, "Fy", -weight, -weight)
    model.add_node_load("load", "FY", -load * G)
    model.def_support("front", True, True, True, True, True, False)
    model.def_support("rear", False, True, True, False, False, False)
    model.analyze()
    return float(model.nodes["rear"].RxnFY["Combo 1"])


@pytest.mark.parametrize(("width", "depth", "nominal"), SHELVES)
def test_the_rear_reaction_changes_its_sign_at_the_load_that_is_told(
    width: float, depth: float, nominal: float, oracle: Callable[[str], Any], family: Callable[..., Any]
) -> None:
    pynite = oracle("Pynite")
    load = lifting_load(family(), width, depth, nominal)
    assert load > 0.5
    assert rear_reaction(pynite, width, depth, nominal, 0.999 * load) > 0
    assert rear_reaction(pynite, width, depth, nominal, 1.001 * load) < 0
    assert rear_reaction(pynite, width, depth, nominal, load) == pytest.approx(0, abs=1e-6)


def test_the_oracle_agrees_with_a_beam_that_can_be_done_in_the_head(oracle: Callable[[str], Any]) -> None:
    """Without a drawer each support carries half of the shelf: 562 × 530 × 18 × 700 = 3.753 kg, 18.4 N."""
    half = 562 * 530 * 18 * 700e-9 * G / 2
    assert rear_reaction(oracle("Pynite"), 562, 530, 500, 0.0) == pytest.approx(half)
