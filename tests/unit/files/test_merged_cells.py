"""Merged cells among the drawers: people see one value in all of them, the file holds it in the first."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from drawerwright.errors import Fault, InputError
from drawerwright.files import read_job_file
from drawerwright.files.grid import Grid, Merge
from drawerwright.files.merged import MergedCells
from drawerwright.files.tables import TableColumn, read_table

from .workbooks import HEADING, ROW, workbook


def refused(path: Path, *rows: list[Any], over: str) -> tuple[Fault, ...]:
    """The faults of a job of those rows under the heading, with a range merged."""
    path = path / "job.xlsx"
    path.write_bytes(workbook(HEADING, *rows, change=lambda book: book["drawers"].merge_cells(over)))
    with pytest.raises(InputError) as error:
        read_job_file(path)
    return error.value.faults


def test_a_size_merged_down_rows_is_refused_with_the_range_and_what_would_do(tmp_path: Path) -> None:
    rows = [ROW, ["A-2", *ROW[1:]], ["A-3", *ROW[1:]]]
    faults = refused(tmp_path, *rows, over="B2:B4")
    assert [one.where for one in faults] == [
        "job.xlsx:drawers!B3 drawer A-2 opening.width",
        "job.xlsx:drawers!B4 drawer A-3 opening.width",
    ]
    assert {one.says for one in faults} == {
        "is merged with others, B2:B4, of which B2 alone holds the value 562"
    }
    assert {one.try_ for one in faults} == {"B2:B4 unmerged, and the value in each row that it is meant for"}


def test_sizes_merged_across_a_row_and_over_a_block_are_told_likewise(tmp_path: Path) -> None:
    (across,) = refused(tmp_path, ROW, over="B2:C2")
    assert across.where == "job.xlsx:drawers!C2 drawer A-1 opening.height"
    assert across.try_ == "B2:C2 unmerged, and the value in each column that it is meant for"
    block = refused(tmp_path, ROW, ["A-2", *ROW[1:]], over="B2:E3")
    assert [one.where.split()[0][-2:] for one in block] == ["C2", "D2", "E2", "B3", "C3", "D3", "E3"]
    assert block[-1].try_ == "B2:E3 unmerged, and the value in each cell that it is meant for"


def test_what_may_be_left_out_is_not_lost_in_a_merge(tmp_path: Path) -> None:
    (fault,) = refused(tmp_path, ROW, ["A-2", *ROW[1:]], over="F2:F3")
    assert fault.where == "job.xlsx:drawers!F3 drawer A-2 quantity"
    assert "F2 alone holds the value 1" in fault.says


def test_a_blank_merge_hides_nothing(tmp_path: Path) -> None:
    path = tmp_path / "job.xlsx"
    rows = [["A-1", *ROW[1:5], None, ""], ["A-2", *ROW[1:5], None, ""]]
    path.write_bytes(workbook(HEADING, *rows, change=lambda book: book["drawers"].merge_cells("F2:F3")))
    assert [one.quantity for one in read_job_file(path).job.drawers] == [1, 1]


def test_a_row_merged_over_the_table_is_told_once_and_how_it_is_passed_over(
    tmp_path: Path,
) -> None:
    (fault,) = refused(tmp_path, ["Upper cabinets"], ROW, over="A2:G2")
    assert (fault.where, fault.value) == ("job.xlsx:drawers!A2", '"Upper cabinets"')
    assert fault.try_ == "# Upper cabinets"


def test_other_tables_tell_their_merges_too(tmp_path: Path) -> None:
    path = tmp_path / "parts.xlsx"
    rows = [["id", "length"], ["a", 500], ["b", None]]
    path.write_bytes(workbook(*rows, change=lambda book: book["drawers"].merge_cells("B2:B3")))
    with pytest.raises(InputError) as error:
        read_table(path, [TableColumn("id", required=True), TableColumn("length", "size")], entry="part")
    (fault,) = error.value.faults
    assert fault.where == "parts.xlsx:drawers!B3 length"
    assert "B2:B3" in fault.says


def test_a_merge_over_more_rows_than_there_are_takes_no_time() -> None:
    grid = Grid("job.xlsx", "drawers", [["a"], [""]], [1, 2], merged=(Merge(0, 0, 1_048_575, 16_383),) * 1000)
    found = MergedCells(grid).hidden_value(1, 0)
    assert found is not None
    assert "A1 alone holds" in found.says
