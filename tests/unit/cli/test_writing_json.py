"""The one JSON document of a command: whole, or written item by item, to the same bytes."""

from __future__ import annotations

import json
import weakref
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.catalogue.families import load_families
from drawerwright.cli.answers import write_json
from drawerwright.files import read_job
from drawerwright.fit import fit_document, fit_job
from drawerwright.fit.document import fit_document_by_drawer

SCALARS = st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False)
VALUES = st.recursive(
    SCALARS | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=12,
)


@given(st.dictionaries(st.text(max_size=3), VALUES, max_size=3), st.lists(VALUES, max_size=4))
def test_a_list_written_item_by_item_is_the_same_bytes_as_the_list(
    head: dict[str, Any], items: list[Any]
) -> None:
    document = {**{key: value for key, value in head.items() if key != "last"}, "last": items}
    with pytest.MonkeyPatch.context() as patched:
        written: list[str] = []
        patched.setattr("drawerwright.cli.answers.sys.stdout.write", written.append)
        write_json({**document, "last": iter(items)})
        pieces = "".join(written)
        written.clear()
        write_json(document)
        whole = "".join(written)
    assert pieces == whole == json.dumps(document, ensure_ascii=False, indent=2) + "\n"


class Item(dict[str, int]):
    """An item that tells when nobody keeps it any longer."""


def test_of_a_list_written_item_by_item_no_more_than_the_one_at_hand_is_kept(
    capsys: pytest.CaptureFixture[str],
) -> None:
    made: list[weakref.ref[Item]] = []

    def items() -> Iterator[Item]:
        for number in range(50):
            assert sum(one() is not None for one in made) <= 1
            item = Item(number=number)
            made.append(weakref.ref(item))
            yield item
            del item

    write_json({"items": items()})
    assert len(json.loads(capsys.readouterr().out)["items"]) == 50


def test_a_number_that_is_none_ahead_of_the_items_is_an_error_before_anything_is_written(
    capsys: pytest.CaptureFixture[str],
) -> None:
    with pytest.raises(ValueError, match="JSON"):
        write_json({"margin": float("nan"), "items": iter([1])})
    assert capsys.readouterr().out == ""


def test_the_document_of_fit_by_drawer_is_the_document_of_fit(mixed_job: Path) -> None:
    fitted = fit_job(read_job(mixed_job), load_families())
    told = fit_document_by_drawer(fitted)
    assert {**told, "drawers": list(told["drawers"])} == fit_document(fitted)
    assert list(told)[-1] == "drawers"
