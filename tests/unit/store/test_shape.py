"""The shape that values must have to be kept."""

from __future__ import annotations

import json
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.errors import InputError
from drawerwright.store import shape
from drawerwright.store.parts import same
from drawerwright.store.shape import settle_job, settle_part, settle_text


@pytest.mark.parametrize(
    ("values", "where", "says"),
    [
        ([], "job", "is not a table of keys"),
        ({"title": 5}, "title", "is not text"),
        ({"units": None}, "units", "is not text"),
        ({"defaults": [1]}, "defaults", "is not a table of keys"),
        ({"drawer": {"id": "A"}}, "drawer", "is not a list of drawers"),
        ({"cabinet": "B1"}, "cabinet", "is not a list of cabinets"),
        ({"drawer": ["A"]}, "drawer no. 1", "is not a table of keys"),
        ({"drawer": [{}] * 5_001}, "drawer", "are more than the 5000 that a job holds"),
        ({"drawer": [{"id": "A", "note": "x" * 10_001}]}, "drawer A note", "has 10001 characters"),
        (
            {"drawer": [{"id": "A", "opening": {"width": float("nan")}}]},
            "drawer A opening.width",
            "no number",
        ),
        (
            {"drawer": [{"id": "A", "opening": {"width": [1, 10**400]}}]},
            "drawer A opening.width[1]",
            "no number",
        ),
        ({"drawer": [{"id": "A", "note": "a\0b"}]}, "drawer A note", "no database takes"),
        ({"drawer": [{"id": "A", "note": "\ud800"}]}, "drawer A note", "no database takes"),
        ({"drawer": [{"id": "A", 5: 1}]}, "drawer A", "is no key"),
        ({"drawer": [{"id": "A", "k" * 201: 1}]}, "drawer A", "is no key"),
        ({"drawer": [{"id": "A", "day": date(2030, 1, 1)}]}, "drawer A day", "is a date, which JSON"),
        ({"drawer": [{"id": "A", **{f"k{n}": 1 for n in range(200)}}]}, "drawer A", "has 201 keys"),
        ({"drawer": [{"id": "A", "heights": [1] * 1001}]}, "drawer A heights", "has 1001 entries"),
        ({"x\0": 1}, "job", "no database takes"),
    ],
)
def test_what_would_harm_the_store_is_refused_with_its_place(values: Any, where: str, says: str) -> None:
    with pytest.raises(InputError) as told:
        settle_job(values)
    assert told.value.faults[0].where == where
    assert says in told.value.faults[0].says


def test_what_is_nested_without_end_is_refused() -> None:
    endless: dict[str, Any] = {"id": "A"}
    endless["front"] = endless
    with pytest.raises(InputError, match="nested deeper than 8 levels"):
        settle_part("drawer", endless)


def test_all_faults_are_told_together_but_no_more_than_one_can_read() -> None:
    with pytest.raises(InputError) as told:
        settle_job({"drawer": [{"id": str(at), "note": "\0"} for at in range(400)], "title": 7})
    assert 2 <= len(told.value.faults) <= 60


def test_a_job_is_bounded_as_a_whole(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shape, "LARGEST", 1_000)
    assert settle_job({"drawer": [{"id": "A", "note": "x" * 500}]})
    with pytest.raises(InputError, match="is more than 1000 characters in all") as told:
        settle_job({"drawer": [{"id": "A", "note": "x" * 500}, {"id": "B", "note": "x" * 500}]})
    assert len(told.value.faults) == 1


TEXTS = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), max_size=9)
VALUES = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**60), 2**60) | st.floats(-1e9, 1e9) | TEXTS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXTS, inner, max_size=4),
    max_leaves=8,
)


@given(st.dictionaries(TEXTS, VALUES, max_size=5))
def test_what_is_kept_is_json_and_stays_as_it_is_when_it_comes_again(values: dict[str, Any]) -> None:
    settled = settle_part("drawer", values)
    assert settled == values
    assert same(settled, settle_part("drawer", settled))
    assert same(settled, settle_part("drawer", json.loads(json.dumps(settled))))


def test_short_texts_are_trimmed_and_bounded() -> None:
    assert settle_text("  A 1 ", "drawer") == "A 1"
    assert settle_text("", "by", needed=False) == ""
    for text in ("", "  ", "x" * 201, "a\0", None, 5):
        with pytest.raises(InputError):
            settle_text(text, "drawer")
