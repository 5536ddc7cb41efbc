"""A slide family as the fields of a form, and back."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.catalogue import load_families
from drawerwright.catalogue.families import read_family
from drawerwright.catalogue.family_words import family_words
from drawerwright.catalogue.family_writer import write_family_toml
from drawerwright.model.family import SlideFamily
from drawerwright.web.family.checking import check_form
from drawerwright.web.family.fields import field_at, form_of, key_of, read_form, rows_of
from drawerwright.web.family.settling import put_together
from drawerwright.web.family.usual import choices, usual_values

LEAST: dict[str, Any] = {
    "id": "plain-16",
    "capacity": "45 kg",
    "inside_width_deduction": 42,
    "length": [{"nominal": 500}, {"nominal": 550}],
}


def told(family: SlideFamily) -> dict[str, Any]:
    return tomllib.loads(write_family_toml(family))


@pytest.mark.parametrize("family", load_families(), ids=lambda family: family.id)
def test_every_shipped_family_goes_through_the_form_unchanged(family: SlideFamily) -> None:
    values = told(family)
    assert read_form(form_of(values)).values == values
    assert check_form(read_form(form_of(values))).family == family


def test_every_key_has_a_field_that_is_read_back() -> None:
    texts = {
        "text": "words", "truth": "yes", "length": "12.5", "mass": "30 kg", "number": "2.5", "count": "4",
        "lengths": "3; 4.5", "band": "-1 to 1.5", "points": "12, 9; 28, 9",
    }  # fmt: skip
    values = {
        "text": "words", "truth": True, "length": 12.5, "mass": "30 kg", "number": 2.5, "count": 4,
        "lengths": [3, 4.5], "band": [-1, 1.5], "points": [[12, 9], [28, 9]],
    }  # fmt: skip
    for words in family_words().values():
        table, dot, inside = words.key.partition(".")
        in_table = dot and table in ("length", "profile", "evidence")
        name = f"{table}.3.{inside}" if in_table else words.key
        text = choices()[words.key][0] if words.written == "choice" else texts[words.written]
        found: Any = read_form({name: text}).values[table]
        found = found[0] if in_table else found
        for step in inside.split(".") if dot else []:
            found = found[step]
        assert found == (text if words.written == "choice" else values[words.written]), words.key


def test_what_is_usual_is_what_the_model_takes() -> None:
    usual = usual_values()
    filled = read_form(
        {name: text for name, text in usual.items() if key_of(name) in usual and "." not in name}
    )
    least = read_family(LEAST)
    assert read_family({**LEAST, **filled.values}) == least


@pytest.mark.parametrize(
    ("text", "means"),
    [
        ("0, 32, 224", [0, 32, 224]),
        ("0; 32,5; 224", [0, 32.5, 224]),
        ("[0, 32]", [0, 32]),
        ("none", []),
        ("1 1/4 in; 37 mm", ["1 1/4 in", "37 mm"]),
    ],
)
def test_places_are_read_as_people_write_them(text: str, means: list[Any]) -> None:
    assert read_form({"length.0.holes": text}).values == {"length": [{"holes": means}]}


@pytest.mark.parametrize("text", ["-1.5 to 1.5", "−1.5 to 1.5", "-1,5; 1,5", "[-1.5, 1.5]"])
def test_a_band_is_read_as_people_write_it(text: str) -> None:
    assert read_form({"width_band": text}).values == {"width_band": [-1.5, 1.5]}


def test_a_fault_is_told_at_the_field_that_was_typed_though_rows_before_it_are_blank() -> None:
    form = {**form_of(LEAST), "length.0.nominal": "", "length.5.nominal": "600", "length.5.holes": "0; 700"}
    checked = check_form(read_form(form))
    assert set(checked.at_fields) == {"length.5.holes"}
    assert "lies beyond the member" in checked.at_fields["length.5.holes"].says
    assert checked.family is None
    assert rows_of(form, "length") == 6


def test_all_faults_are_told_together() -> None:
    form = {**form_of(LEAST), "capacity": "", "rear.bore": "-6", "spacers": "3; x", "setback": "1"}
    assert set(check_form(read_form(form)).at_fields) == {"capacity", "rear.bore", "spacers", "setback"}


def test_a_rear_bracket_that_a_file_tells_without_a_number_stays_one() -> None:
    read = read_form(form_of({**LEAST, "rear_bracket": {}}))
    assert read_family(read.values).rear_bracket == read_family({**LEAST, "rear_bracket": {}}).rear_bracket


def test_a_family_may_not_bear_the_name_of_an_address() -> None:
    assert set(check_form(read_form(form_of({**LEAST, "id": "new"}))).at_fields) == {"id"}


def test_a_place_without_a_field_of_its_own_has_none() -> None:
    assert field_at(("capcity",), {}) is None
    assert field_at(("length",), {}) is None


@given(st.dictionaries(st.text(max_size=30), st.text(max_size=20), max_size=8))
def test_any_fields_are_read_without_an_error(form: dict[str, str]) -> None:
    checked = check_form(read_form(form))
    assert checked.family is None
    assert checked.faults


@given(st.lists(st.tuples(st.sampled_from(sorted(family_words())), st.text(max_size=12)), max_size=12))
def test_anything_typed_into_the_fields_is_a_family_or_told_as_a_fault(typed: list[tuple[str, str]]) -> None:
    form = form_of(LEAST)
    for key, text in typed:
        table, dot, inside = key.partition(".")
        in_table = dot and table in ("length", "profile", "evidence")
        form[f"{table}.1.{inside}" if in_table else key] = text
    checked = check_form(read_form(form))
    assert (checked.family is None) == bool(checked.faults)


def test_two_peoples_changes_are_put_together_and_a_clash_tells_both() -> None:
    base = {**LEAST, "setback": 37, "min_gap": 4.5}
    mine = {**base, "setback": 38, "min_gap": 5, "length": [{"nominal": 500, "price": 3}, {"nominal": 550}]}
    theirs = {**base, "setback": 36, "title": "Theirs", "length": [{"nominal": 500, "price": 4}]}
    values, clashes = put_together(base, mine, theirs)
    assert values["setback"] == 38
    assert values["title"] == "Theirs"
    assert values["min_gap"] == 5
    assert values["length"] == [{"nominal": 500, "price": 3}]
    assert {(one.name, one.base, one.mine, one.theirs) for one in clashes} == {
        ("setback", "37", "38", "36"),
        ("length.0.price", "", "3", "4"),
    }
    assert {one.label for one in clashes} == {"Setback of the first row hole", "Price of a pair, length 1"}


def test_the_order_of_lengths_that_both_changed_is_mine() -> None:
    sizes = [{"nominal": size} for size in (500, 550, 600)]
    mine, theirs = [sizes[2], sizes[0], sizes[1]], [sizes[1], sizes[0], sizes[2]]
    values, clashes = put_together(
        {**LEAST, "length": sizes}, {**LEAST, "length": mine}, {**LEAST, "length": theirs, "carton": 6}
    )
    assert values["length"] == mine
    assert values["carton"] == 6
    assert clashes == ()
