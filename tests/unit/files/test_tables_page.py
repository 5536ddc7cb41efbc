"""The page on tables is true: its examples are read as it says."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

from drawerwright.catalogue import load_materials, material_named
from drawerwright.files import read_job
from drawerwright.files.workbook_parts import MOST_PARTS, MOST_UNPACKED

PAGE = (Path(__file__).resolve().parents[3] / "docs" / "tables.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```(\w*)\n(.*?)```", PAGE, re.DOTALL)


def test_the_job_of_the_page_is_read(tmp_path: Path) -> None:
    path = tmp_path / "job.csv"
    path.write_text(BLOCKS[0][1], encoding="utf-8")
    job = read_job(path)
    assert (job.title, job.units, job.drawers[0].side) == ("Kitchen", "in", 15.875)


def test_the_materials_of_the_page_are_read(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(BLOCKS[1][1], encoding="utf-8")
    assert tomllib.loads(BLOCKS[1][1])["material"][0]["name"] == "bamboo"
    assert material_named("3/4 bamboo", load_materials([path])).thickness == 18.6
    named = PAGE.split("## Materials")[1].split(": a thickness and a kind")[0]
    for name in re.findall(r"`([^`]+)`", named):
        assert material_named(name).id == name


def test_the_limits_on_the_page_are_those_in_use() -> None:
    assert f"more than\n  {MOST_UNPACKED // 1_000_000} MB" in PAGE
    assert f"{MOST_PARTS:,} parts" in PAGE
