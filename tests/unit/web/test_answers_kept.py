"""Answers that a process keeps."""

from __future__ import annotations

from typing import Any

import pytest

from drawerwright.catalogue.families import load_families
from drawerwright.errors import Fault, InputError
from drawerwright.model.family import SlideFamily
from drawerwright.web import fitting
from drawerwright.web.answers_kept import KeptAnswers
from drawerwright.web.fitting import answer_values

FAMILY = load_families()[0]
OPENING = {"width": 562, "height": 168, "depth": 530}
ANSWER = InputError([Fault("job", "", "is no answer", "")])


def column(drawers: int, width: int) -> dict[str, Any]:
    """A job of one cabinet."""
    opening = {**OPENING, "width": width}
    rows = [
        {"id": str(at), "cabinet": "C", "row": at + 1, "opening": opening, "side": 16}
        for at in range(drawers)
    ]
    return {"cabinet": [{"id": "C"}], "drawer": rows}


def test_cabinets_of_many_drawers_are_kept_by_their_drawers(monkeypatch: pytest.MonkeyPatch) -> None:
    kept = KeptAnswers(10)
    monkeypatch.setattr(fitting, "_kept", kept)
    for at in range(6):
        answer_values(column(4, 560 + at), [FAMILY])
        assert kept.drawers <= 10
    assert kept.drawers == 8


def test_the_same_asked_again_is_answered_from_what_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fitting, "_kept", KeptAnswers(10))
    first = answer_values(column(2, 562), (FAMILY,))
    again = answer_values(column(2, 562), [FAMILY.model_copy(deep=True)])
    assert again.drawers[0].fitted is first.drawers[0].fitted


def test_what_was_asked_for_longest_ago_goes_first() -> None:
    kept = KeptAnswers(3)
    for name in (b"a", b"b", b"c"):
        kept.put((name, 1, "mm"), ANSWER, 1)
    assert kept.get((b"a", 1, "mm")) is ANSWER
    kept.put((b"d", 1, "mm"), ANSWER, 1)
    assert kept.get((b"b", 1, "mm")) is None
    assert kept.get((b"a", 1, "mm")) is ANSWER
    assert kept.drawers == 3


def test_an_answer_kept_twice_counts_once_and_one_too_large_not_at_all() -> None:
    kept = KeptAnswers(3)
    kept.put((b"a", 1, "mm"), ANSWER, 2)
    kept.put((b"a", 1, "mm"), ANSWER, 3)
    kept.put((b"b", 1, "mm"), ANSWER, 4)
    assert kept.drawers == 3
    assert kept.get((b"b", 1, "mm")) is None


def test_families_share_a_number_only_where_they_are_equal() -> None:
    class Alike(SlideFamily):
        def __hash__(self) -> int:
            return 0

    one = Alike.model_validate(FAMILY.model_dump(by_alias=True))
    other = one.model_copy(update={"title": "another"})
    kept = KeptAnswers(1)
    assert kept.number_of((one,)) == kept.number_of((one.model_copy(),))
    assert kept.number_of((one,)) != kept.number_of((other,))


def test_a_number_is_never_given_to_other_families_again() -> None:
    kept = KeptAnswers(1)
    sets = [(FAMILY.model_copy(update={"title": str(at)}),) for at in range(20)]
    numbers = [kept.number_of(one) for one in sets]
    assert len(set(numbers)) == 20
    assert kept.number_of(sets[0]) not in numbers
