"""Cabinets of several rows, and existing boxes, as the console and the JSON tell them."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Command = Callable[..., Any]


@pytest.fixture
def by_fronts(tmp_path: Path) -> Path:
    """A column as a table, told by its fronts: the opening's height has no column."""
    path = tmp_path / "column.csv"
    path.write_text(
        "id,cabinet,row,opening.width,opening.depth,side,front.style,front.height,cabinet.first_row\n"
        "K-1,K,1,562,530,16,overlay,206.5,45\n"
        "K-2,K,2,562,530,16,overlay,204.5,\n",
        encoding="utf-8",
    )
    return path


def test_a_table_may_tell_fronts_in_place_of_openings(command: Command, by_fronts: Path) -> None:
    """206.5 − 16 + 1.5 = 192; 204.5 − 16 + 1.5 = 190."""
    (column,) = json.loads(command("fit", by_fronts, "--json").out)["columns"]
    assert [row["opening"] for row in column["rows"]] == [192, 190]
    assert [row["floor"] for row in column["rows"]] == [0, 192]
    assert [row["screw_line"] for row in column["rows"]] == [45, 237]


def test_a_row_that_tells_neither_front_nor_opening_is_a_fault(command: Command, by_fronts: Path) -> None:
    by_fronts.write_text(by_fronts.read_text(encoding="utf-8").replace("204.5", ""), encoding="utf-8")
    ran = command("fit", by_fronts)
    assert ran.code == 2
    assert "drawer K-2 opening.height: is missing" in ran.err


def test_the_console_shows_a_cabinet_from_top_to_bottom(command: Command, by_fronts: Path) -> None:
    told = command("fit", by_fronts).out
    assert told.index("Cabinet K") < told.rindex("K-2") < told.rindex("K-1")
    assert "−16 – 190.5 = 206.5 mm" in told
    assert "45 mm, 21 mm up to its row" in told
    assert "they close." in told
    assert "Raise the opening of row 1" in told


def test_a_job_without_columns_shows_none(command: Command, mixed_job: Path) -> None:
    assert "Cabinet" not in command("fit", mixed_job).out
    assert json.loads(command("fit", mixed_job, "--json").out)["columns"] == []


@pytest.mark.parametrize("units", ["in", "both"])
def test_a_column_is_told_in_inches(units: str, command: Command, by_fronts: Path) -> None:
    told = command("fit", by_fronts, "--units", units).out
    assert "8 1/8 in" in told
    assert "429 mm" not in told


def test_an_existing_box_tells_who_takes_it_and_what_to_measure(command: Command, tmp_path: Path) -> None:
    job = tmp_path / "old.toml"
    job.write_text(
        '[[drawer]]\nid = "old"\nside = 16\nopening = { width = 562, height = 168, depth = 530 }\n'
        "existing_box = { inside_width = 520, length = 500, bore_in = 12, bore_up = 11 }\n",
        encoding="utf-8",
    )
    told = " ".join(command("fit", job).out.split())
    assert (
        "Existing box on house-16/500, three-quarter-16/500 on the cabinet side: Bore the hook holes" in told
    )
    assert "plug the old ones first" in told
    assert "Measure its notches: at least 35 mm wide and 13 mm high" in told


def test_a_box_that_no_family_takes_is_told_so(command: Command, tmp_path: Path) -> None:
    job = tmp_path / "old.toml"
    job.write_text(
        '[[drawer]]\nid = "old"\nside = 16\nopening = { width = 562, height = 168, depth = 530 }\n'
        "existing_box = { inside_width = 470, length = 500 }\n",
        encoding="utf-8",
    )
    assert "no family takes it" in command("fit", job).out
    (drawer,) = json.loads(command("fit", job, "--json").out)["drawers"]
    assert drawer["retrofit"] == []
