"""A slide of three members against frame analysis by PyNiteFEA, and against figures worked by it before.

Each member is a row of nodes of its own, joined to the next by springs that stand upright because the nodes
lie above one another. L = 500 mm, 200 N, E = 200 GPa, I = 6,000 / 5,000 / 8,000 mm⁴, groups at 130 and 370
mm, screws at 60 and 460 mm, 4,000 N/mm a group. A roller beyond a member's end would silently make that
member and its load longer: the model refuses it, and every run is held against the load.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drawerwright.carry.slide_data import SlideData, together
from drawerwright.carry.telescope import Drawn, draw_out

MODULUS = 200e3
RIGID = None


@dataclass(frozen=True)
class Case:
    """One slide at one extension: mm, N, mm⁴, N/mm; `mount` None: screws that give nothing."""

    extension: float = 500.0
    member: float = 500.0
    weight: float = 200.0
    lower: tuple[float, float] = (130.0, 370.0)
    upper: tuple[float, float] = (130.0, 370.0)
    screws: tuple[float, float] = (60.0, 460.0)
    inertia: tuple[float, float, float] = (6000.0, 5000.0, 8000.0)
    roller: float = 4000.0
    mount: float | None = RIGID

    @property
    def lower_places(self) -> tuple[float, float]:
        return self.lower[0] + self.extension / 4, self.lower[1] + self.extension / 4

    @property
    def upper_places(self) -> tuple[float, float]:
        return self.upper[0] + 0.75 * self.extension, self.upper[1] + 0.75 * self.extension


NAMES = ("upper_rear", "upper_front", "lower_rear", "lower_front", "screw_rear", "screw_front")

CASES = {
    "A": (Case(250.0), (47.9167, 152.0833, -56.25, 256.25, -20.0, 220.0), 0.86755),
    "B": (Case(375.0), (21.875, 178.125, -134.375, 334.375, -82.5, 282.5), 2.58170),
    "C": (Case(500.0), (-4.1667, 204.1667, -212.5, 412.5, -145.0, 345.0), 6.17765),
    "D": (Case(500.0, roller=1e9), (-4.1667, 204.1667, -212.5, 412.5, -145.0, 345.0), 5.63937),
}


def by_formula(case: Case) -> Drawn:
    data = SlideData(
        member=case.member,
        travel=max(case.extension, 1.0),
        weight=case.weight,
        lower=case.lower,
        upper=case.upper,
        screws=case.screws,
        bending=(MODULUS * case.inertia[0], MODULUS * case.inertia[1], MODULUS * case.inertia[2]),
        roller_give=1.0 / case.roller,
        play=0.0,
        mount_give=0.0 if case.mount is None else 1.0 / case.mount,
        missing=(),
    )
    drawn = draw_out(together([data]), np.array([[case.extension]]))
    return Drawn(*(getattr(drawn, name)[0] for name in Drawn.__slots__))


def by_frame_analysis(pynite: Any, case: Case) -> tuple[tuple[float, ...], float]:
    """Forces in the order of `NAMES` [N], and how far the front end comes down [mm]."""
    model = pynite.FEModel3D()
    model.add_material("steel", MODULUS, 77e3, 0.3, 0.0)
    half, out = case.extension / 2, case.extension
    middles = [*case.lower_places, *case.upper_places]
    rows = [
        ("C", 0.0, 0.0, [*case.screws, *case.lower_places], case.inertia[0]),
        ("I", 10.0, half, middles, case.inertia[1]),
        ("D", 20.0, out, list(case.upper_places), case.inertia[2]),
    ]
    for name, height, start, places, inertia in rows:
        _add_member(model, name, height, start, start + case.member, places, inertia)
    for place in case.lower_places:
        model.add_spring(f"low{place}", f"C{place}", f"I{place}", case.roller)
    for place in case.upper_places:
        model.add_spring(f"up{place}", f"I{place}", f"D{place}", case.roller)
    for member, _, _, places, _ in rows:
        model.def_support(f"{member}{min(places)}", True, False, True, True, True, False)
    _hold_screws(model, case)
    for member in [name for name in model.members if name.startswith("D")]:
        model.add_member_dist_load(member, "Fy", -case.weight / case.member, -case.weight / case.member)
    model.analyze(check_statics=False)
    moves = {name: node.DY["Combo 1"] for name, node in model.nodes.items()}

    def spring(below: str, above: str, stiffness: float) -> float:
        return stiffness * (moves[below] - moves[above])

    up = [spring(f"I{place}", f"D{place}", case.roller) for place in case.upper_places]
    low = [spring(f"C{place}", f"I{place}", case.roller) for place in case.lower_places]
    if case.mount is None:
        screws = [model.nodes[f"C{place}"].RxnFY["Combo 1"] for place in case.screws]
    else:
        screws = [-case.mount * moves[f"C{place}"] for place in case.screws]
    for pair in (up, low, screws):
        assert sum(pair) == pytest.approx(case.weight, rel=1e-6)
    return (*up, *low, *screws), -moves[f"D{out + case.member}"]


def _add_member(
    model: Any, name: str, height: float, start: float, end: float, places: Sequence[float], inertia: float
) -> None:
    assert start - 1e-9 <= min(places) <= max(places) <= end + 1e-9, "a support beyond the member's end"
    stations = sorted({start, end, *map(float, places)})
    model.add_section(f"section{name}", 100.0, inertia, inertia, inertia)
    for place in stations:
        model.add_node(f"{name}{place}", place, height, 0.0)
        model.def_support(f"{name}{place}", False, False, True, True, True, False)
    for one, other in pairwise(stations):
        model.add_member(f"{name}{one}-{other}", f"{name}{one}", f"{name}{other}", "steel", f"section{name}")


def _hold_screws(model: Any, case: Case) -> None:
    for place in case.screws:
        along = place == min(*case.screws, *case.lower_places)
        if case.mount is None:
            model.def_support(f"C{place}", along, True, True, True, True, False)
            continue
        model.add_node(f"G{place}", place, -10.0, 0.0)
        model.def_support(f"G{place}", True, True, True, True, True, True)
        model.add_spring(f"screw{place}", f"G{place}", f"C{place}", case.mount)


@pytest.mark.parametrize("name", CASES)
def test_the_closed_form_gives_the_figures_worked_before(name: str) -> None:
    case, forces, sag = CASES[name]
    drawn = by_formula(case)
    assert [float(getattr(drawn, one)[0]) for one in NAMES] == pytest.approx(forces, abs=5e-5)
    assert float(drawn.sag[0]) == pytest.approx(sag, abs=5e-6)


def test_the_members_are_bent_as_worked_before() -> None:
    drawn = by_formula(CASES["C"][0])
    assert float(drawn.drawer_moment[0]) == pytest.approx(13_005)
    assert float(drawn.intermediate_moment[0]) == pytest.approx(51_000)


@pytest.mark.parametrize("name", CASES)
def test_frame_analysis_gives_the_figures_worked_before(name: str, oracle: Callable[[str], Any]) -> None:
    case, forces, sag = CASES[name]
    found, tip = by_frame_analysis(oracle("Pynite"), case)
    assert found == pytest.approx(forces, abs=5e-5)
    assert tip == pytest.approx(sag, abs=5e-6)


@st.composite
def slides(draw: st.DrawFn) -> Case:
    """A slide whose rollers stay on their rails; places in whole mm, so that no two nearly meet."""
    member = draw(st.integers(250, 700))

    def groups() -> tuple[float, float]:
        rear = draw(st.integers(member // 20, member * 2 // 5))
        return float(rear), float(draw(st.integers(rear + member // 5, member - member // 20)))

    lower, upper = groups(), groups()
    reach = int(min(lower[0], upper[0], member - lower[1], member - upper[1]))
    screw = draw(st.integers(0, member * 2 // 5))
    return Case(
        # The intermediate member stands half as far out, the carriages a quarter: whole mm as well.
        extension=4.0 * draw(st.integers(0, min(reach, member // 4))),
        member=float(member),
        weight=draw(st.floats(10.0, 1000.0)),
        lower=lower,
        upper=upper,
        screws=(float(screw), float(draw(st.integers(screw + member // 4, member)))),
        inertia=(draw(st.floats(1e3, 5e4)), draw(st.floats(1e3, 5e4)), draw(st.floats(1e3, 5e4))),
        roller=10 ** draw(st.floats(2.7, 6.0)),
        mount=draw(st.one_of(st.none(), st.floats(500.0, 1e5))),
    )


@settings(max_examples=200, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(case=slides())
def test_any_slide_comes_out_as_by_frame_analysis(case: Case, oracle: Callable[[str], Any]) -> None:
    forces, tip = by_frame_analysis(oracle("Pynite"), case)
    drawn = by_formula(case)
    assert [float(getattr(drawn, one)[0]) for one in NAMES] == pytest.approx(
        forces, rel=1e-6, abs=1e-6 * case.weight
    )
    shares = (drawn.cabinet_sag, drawn.intermediate_sag, drawn.drawer_sag, drawn.roller_sag, drawn.mount_sag)
    scale = sum(abs(float(share[0])) for share in shares)
    assert float(drawn.sag[0]) == pytest.approx(tip, rel=1e-6, abs=1e-6 * scale)
