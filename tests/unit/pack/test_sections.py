"""Parts of a pack asked for alone, and long papers in several documents."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pack_builders import fitting, job_of, not_fitting

from drawerwright.pack import USUAL, pack_contents, sheets
from drawerwright.pack.parts import in_parts, part_names

WANTED = {
    "sheets": {"sheets.pdf", "mounting.pdf", "lining-up.pdf"},
    "pictures": {"pictures.pdf"},
    "templates": {"templates.pdf"},
    "lists": {"cut-list.csv", "cut-list.xlsx", "hardware-list.csv", "hardware-list.xlsx", "lists.pdf"},
    "labels": {"labels.pdf"},
}


@pytest.mark.parametrize("section", USUAL)
def test_a_section_alone_is_what_the_whole_pack_has_of_it(section: Any, whole: dict[str, bytes]) -> None:
    job, fitted = job_of(fitting("B1-1"), not_fitting("X"))
    alone = pack_contents(job, fitted, only=[section])
    assert {path: whole[path] for path in alone} == alone
    if section == "dxf":
        assert set(alone) == {path for path in whole if path.startswith("dxf/")}
    else:
        assert set(alone) == WANTED[section]


@pytest.fixture(scope="module")
def whole() -> dict[str, bytes]:
    return pack_contents(*job_of(fitting("B1-1"), not_fitting("X")))


def test_sections_can_be_added_up_and_progress_still_ends_at_its_total() -> None:
    told: list[tuple[int, int]] = []
    pack_contents(
        *job_of(fitting("A"), fitting("B", side=12.7)),
        only=["lists", "sheets"],
        progress=lambda done, total, what: told.append((done, total)),
    )
    assert told[-1][0] == told[-1][1] == len(told)


@given(st.integers(0, 500), st.integers(1, 90))
def test_parts_hold_everything_in_order_and_none_is_too_long(count: int, most: int) -> None:
    parts = in_parts(range(count), most)
    assert [one for part in parts for one in part] == list(range(count))
    assert max(len(part) for part in parts) <= most
    assert len(parts) == max(-(-count // most), 1)


def test_documents_of_one_paper_are_numbered_so_that_they_sort() -> None:
    assert part_names("sheets", 1) == ("sheets",)
    assert part_names("sheets", 3) == ("sheets-01", "sheets-02", "sheets-03")
    names = part_names("sheets", 120)
    assert sorted(names) == list(names)
    assert names[-1] == "sheets-120"


def test_a_job_of_very_many_drawers_has_its_sheets_in_parts(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sheets, "ALONE", 4)
    monkeypatch.setattr(sheets, "PAGES", 2)
    made = pack_contents(*job_of(*(fitting(f"D{n}", side=12.0 + n / 10) for n in range(5))), only=["sheets"])
    assert set(made) == {"mounting.pdf", "lining-up.pdf", "sheets-01.pdf", "sheets-02.pdf", "sheets-03.pdf"}
