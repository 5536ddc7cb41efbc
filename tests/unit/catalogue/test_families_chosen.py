"""What the shipped families are given to: a special one takes no drawer from an ordinary one."""

from __future__ import annotations

from functools import cache
from itertools import product

import pytest

from drawerwright.catalogue import family_named, load_families
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer

FIRST = ("house-16", "house-19", "short-16", "heavy-19")
LAST = ("three-quarter-16", "side-mounted")
SIDES = (12.7, 16, 18, 19)
DEPTHS = tuple(range(232, 790, 18))
LOADS = (8, 30, 43, 58)

Key = tuple[float, float, float]


def named(*names: str) -> tuple[SlideFamily, ...]:
    return tuple(family_named(load_families(), name) for name in names)


def is_worth_trying(side: float, depth: float, load: float) -> bool:
    """Whether most families have something for it: a drawer that fits nothing takes long to be told so."""
    return depth >= (480 if load > 30 else 370 if side > 16 else 250)


@cache
def fitted(names: tuple[str, ...]) -> dict[Key, FittedDrawer]:
    """Ordinary drawers, overlay fronts in a frameless cabinet, by side, depth and load."""
    keys = [key for key in product(SIDES, DEPTHS, LOADS) if is_worth_trying(*key)]
    drawers = [
        {
            "id": f"{place}",
            "opening": {"width": 568, "height": 192, "depth": depth},
            "side": side,
            "mount": "side",
            "front": {"style": "overlay"},
            "contents": load,
        }
        for place, (side, depth, load) in enumerate(keys)
    ]
    done = fit_job(job_from_mapping({"drawer": drawers}), named(*names))
    return dict(zip(keys, done.drawers, strict=True))


def everything() -> dict[Key, FittedDrawer]:
    return fitted(tuple(family.id for family in load_families()))


def length_of(drawer: FittedDrawer) -> float:
    return drawer.box.length if drawer.box is not None else 0.0


def family_of(drawer: FittedDrawer) -> str:
    return drawer.slide.family.id if drawer.slide is not None else ""


def test_no_drawer_gets_a_shorter_box_because_there_are_more_families() -> None:
    fewer = fitted(FIRST)
    assert [key for key, drawer in everything().items() if length_of(drawer) < length_of(fewer[key])] == []


def test_a_drawer_that_a_slide_of_full_extension_carries_is_not_given_less_or_one_beside_the_box() -> None:
    ordinary = fitted((*FIRST, "thin-12", "inch-19"))
    stolen = [
        key
        for key, drawer in everything().items()
        if family_of(drawer) in LAST and length_of(ordinary[key]) >= length_of(drawer)
    ]
    assert stolen == []


def test_a_drawer_with_an_ordinary_load_never_gets_three_quarters_or_a_slide_beside_the_box() -> None:
    concealed = fitted((*FIRST, "thin-12", "inch-19"))
    light = [drawer for key, drawer in everything().items() if key[2] <= 30 and family_of(concealed[key])]
    assert len(light) > 200
    assert {family_of(drawer) for drawer in light}.isdisjoint(LAST)


@pytest.mark.parametrize("side", [16, 18])
def test_a_drawer_of_thicker_sides_than_half_an_inch_is_chosen_as_before(side: float) -> None:
    fewer = fitted(FIRST)
    for (thick, depth, load), drawer in everything().items():
        before = fewer[thick, depth, load]
        if thick == side and load <= 30 and family_of(before):
            assert (family_of(drawer), length_of(drawer)) == (family_of(before), length_of(before))


def test_a_light_drawer_of_half_inch_sides_needs_no_spacer() -> None:
    lengths = {length.nominal for length in named("thin-12")[0].lengths}
    light = [drawer for (side, _, load), drawer in everything().items() if side == 12.7 and load == 8]
    spaced = [
        drawer.slide
        for drawer in light
        if drawer.slide is not None
        and drawer.slide.length.nominal in lengths
        and (drawer.slide.side_spacers or drawer.slide.subfront_spacers)
    ]
    assert "thin-12" in {family_of(drawer) for drawer in light}
    assert spaced == []


def test_what_no_concealed_slide_carries_goes_beside_the_box() -> None:
    job = job_from_mapping(
        {
            "drawer": [
                {
                    "id": "heavy",
                    "opening": {"width": 568, "height": 192, "depth": 600},
                    "side": 16,
                    "contents": 85,
                },
                {
                    "id": "thick",
                    "opening": {"width": 568, "height": 192, "depth": 600},
                    "side": 25,
                    "contents": 20,
                },
            ]
        }
    )
    for drawer in fit_job(job, load_families()).drawers:
        assert family_of(drawer) == "side-mounted"
        assert drawer.box is not None
        assert drawer.box.side_gap == pytest.approx(12.7)


def test_over_seventy_kilograms_three_quarters_are_better_than_none() -> None:
    drawer = {
        "id": "jars",
        "opening": {"width": 568, "height": 192, "depth": 600},
        "side": 16,
        "contents": 65,
    }
    (done,) = fit_job(job_from_mapping({"drawer": [drawer]}), load_families()).drawers
    assert done.mass is not None
    assert 70.0 < done.mass.moving < 75.0
    assert family_of(done) == "three-quarter-16"
