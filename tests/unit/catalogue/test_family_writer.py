"""Families written as files and read back."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.catalogue import check_family, load_families
from drawerwright.catalogue.families import family_mappings, read_family
from drawerwright.catalogue.family_writer import write_family_toml
from drawerwright.errors import InputError
from drawerwright.model.family import SlideFamily

SIZES = st.floats(0.01, 4999.0, allow_nan=False).map(lambda size: round(size, 4))
BANDS = st.tuples(SIZES, SIZES).map(lambda ends: [-ends[0], ends[1]])
FAMILIES = st.fixed_dictionaries(
    {
        "id": st.just("mine-1"),
        "capacity": SIZES,
        "inside_width_deduction": SIZES,
        "length": st.lists(st.integers(1, 4000), min_size=1, max_size=4, unique=True).map(
            lambda sizes: [{"nominal": size, "price": size / 8} for size in sizes]
        ),
    },
    optional={
        "title": st.text(max_size=30),
        "units": st.sampled_from(["mm", "in"]),
        "min_gap": SIZES,
        "width_band": BANDS,
        "spacers": st.lists(SIZES, max_size=3),
        "clearance": st.fixed_dictionaries({}, optional={"under": SIZES, "rear": SIZES}),
        "adjust": st.fixed_dictionaries({}, optional={"side": BANDS}),
        "stiffness": st.fixed_dictionaries(
            {key: st.floats(1e3, 1e12) for key in ("cabinet", "intermediate", "drawer")}
        ),
        "hardware_mass": SIZES,
    },
)


def back(family: SlideFamily) -> SlideFamily:
    return read_family(tomllib.loads(write_family_toml(family)))


@pytest.mark.parametrize("family", load_families(), ids=lambda family: family.id)
def test_a_shipped_family_reads_back_equal_with_the_same_remarks(family: SlideFamily) -> None:
    assert back(family) == family
    assert check_family(back(family)) == check_family(family)


@given(FAMILIES)
def test_any_family_reads_back_equal_and_leaves_out_what_was_left_out(values: dict[str, Any]) -> None:
    if values.get("units") == "in":
        values = {**values, "length": [{"nominal": 20}], "width_band": [-0.04, 0.06]}
        values = {key: one for key, one in values.items() if key in ("id", "units", "length", "width_band")}
        values |= {"capacity": "100 lb", "inside_width_deduction": "1 15/16"}
    family = read_family(values)
    assert back(family) == family
    assert back(family).model_fields_set == family.model_fields_set


def test_an_inch_family_tells_its_lengths_in_millimetres_with_their_unit() -> None:
    told = {
        "id": "inch",
        "units": "in",
        "capacity": 100,
        "inside_width_deduction": 2,
        "length": [{"nominal": 21}],
    }
    text = write_family_toml(read_family(told))
    assert 'inside_width_deduction = "50.8 mm"' in text
    assert 'nominal = "533.4 mm"' in text


def test_one_file_holds_one_family_or_several() -> None:
    one, two = (write_family_toml(family) for family in load_families()[:2])
    assert [values["id"] for values in family_mappings(one, "one.toml")] == ["house-16"]
    several = "[[family]]\n" + one.replace("[[length]]", "[[family.length]]")
    several += "[[family]]\n" + two.replace("[[length]]", "[[family.length]]")
    assert [values["id"] for values in family_mappings(several, "two.toml")] == ["house-16", "house-19"]


def test_text_that_is_no_file_of_families_is_refused_with_its_line() -> None:
    with pytest.raises(InputError) as raised:
        family_mappings('id = "a"\ncapacity = \n', "mine.toml")
    assert raised.value.faults[0].where == "mine.toml:2"
