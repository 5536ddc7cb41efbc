"""Whatever a file holds, it is read or refused with faults; nothing else ever comes out."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.catalogue import families_from_mappings
from drawerwright.catalogue.shipped import shipped_text
from drawerwright.errors import InputError
from drawerwright.files import job_from_mapping, job_from_source, job_template
from drawerwright.files.toml_text import parse_toml

ODD = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(max_size=6)
    | st.sampled_from(["mm", "in", "auto", "21 3/4 in", "27 kg", 16, 562.0, "face-frame", "\ud800"]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=4), inner, max_size=3),
    max_leaves=6,
)
JOB_WORDS = st.sampled_from(
    [
        "id",
        "cabinet",
        "row",
        "opening",
        "lost",
        "construction",
        "frame",
        "mount",
        "slide",
        "front",
        "side",
        "subfront",
        "size_from",
        "existing_box",
        "box",
        "box_height",
        "contents",
        "quantity",
        "note",
        "width",
        "height",
        "depth",
        "floor",
        "left",
        "right",
        "thickness",
        "lap",
        "style",
        "overlay",
        "gap",
    ]
)
TABLES = st.dictionaries(JOB_WORDS, ODD | st.dictionaries(JOB_WORDS, ODD, max_size=4), max_size=8)


def refused_or_read(read: Callable[[], Any]) -> bool:
    try:
        read()
    except InputError as error:
        return all(fault.where and fault.says for fault in error.faults)
    return True


@given(
    ODD
    | st.fixed_dictionaries(
        {"drawer": st.lists(TABLES, max_size=3) | ODD},
        optional={"defaults": TABLES | ODD, "units": ODD, "cabinet": st.lists(TABLES, max_size=2) | ODD},
    )
)
def test_any_values_are_a_job_or_refused(values: Any) -> None:
    assert refused_or_read(lambda: job_from_mapping(values))


FAMILY_KEYS = st.sampled_from(
    [
        "id",
        "capacity",
        "inside_width_deduction",
        "width_band",
        "adjust",
        "carriages",
        "carriages_for",
        "profile",
        "spacers",
        "setback",
        "heights",
        "length",
        "nominal",
        "holes",
        "travel",
        "extension",
        "rear_bracket",
        "reach",
        "units",
    ]
)
FAMILIES = st.dictionaries(
    FAMILY_KEYS, ODD | st.lists(st.dictionaries(FAMILY_KEYS, ODD, max_size=4), max_size=2), max_size=8
)


@given(ODD | st.lists(FAMILIES | ODD, max_size=3))
def test_any_values_are_families_or_refused(values: Any) -> None:
    assert refused_or_read(lambda: families_from_mappings(values))


@given(st.data())
def test_a_damaged_job_file_is_read_or_refused_with_a_line(data: st.DataObject) -> None:
    text = data.draw(st.sampled_from([job_template(), shipped_text("families/house-16.toml")]))
    for _ in range(data.draw(st.integers(1, 3))):
        at = data.draw(st.integers(0, len(text)))
        cut = data.draw(st.integers(0, 4))
        text = text[:at] + data.draw(st.text("=[]{}\"'#,.-0a \n", max_size=3)) + text[at + cut :]
    assert refused_or_read(lambda: job_from_source(parse_toml(text, "job.toml")))
    assert refused_or_read(lambda: families_from_mappings([parse_toml(text, "job.toml").values]))


@pytest.mark.parametrize("depth", [50, 150, 250, 320, 400, 3000])
@pytest.mark.parametrize("shape", ["[{}]", "{{ a = {} }}"])
def test_deep_nesting_is_refused(depth: int, shape: str) -> None:
    value = "1"
    for _ in range(depth):
        value = shape.format(value)
    text = f'[[drawer]]\nid = "a"\nside = {value}\n'
    with pytest.raises(InputError) as refused:
        job_from_source(parse_toml(text, "job.toml"))
    assert refused.value.faults[0].where.startswith("job.toml:")
