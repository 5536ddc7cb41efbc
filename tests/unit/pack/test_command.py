"""`pack` and `demo` on the command line: sections, one file, and finer inches."""

from __future__ import annotations

import json
import zipfile
from pathlib import Path

import pytest

from drawerwright.cli.main import run

JOB = """
title = "Pair"
units = "in"
[[drawer]]
id = "A"
opening = { width = "562 mm", height = "168 mm", depth = "530 mm" }
side = "16 mm"
front = { style = "overlay", edging = "1 mm" }
contents = "20 kg"
"""


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(JOB, encoding="utf-8")
    return path


def test_sections_asked_for_are_all_that_is_written(job: Path, tmp_path: Path) -> None:
    out = tmp_path / "pack"
    assert run(["pack", str(job), "--out", str(out), "--only", "lists", "--only", "labels"]) == 0
    assert sorted(path.name for path in out.iterdir()) == [
        "cut-list.csv", "cut-list.xlsx", "hardware-list.csv", "hardware-list.xlsx", "labels.pdf", "lists.pdf",
        "manifest.json",
    ]  # fmt: skip


def test_a_section_that_is_not_known_is_bad_input(
    job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["pack", str(job), "--out", str(tmp_path / "pack"), "--only", "letters"]) == 2
    assert "letters" in capsys.readouterr().err
    assert not (tmp_path / "pack").exists()


def test_a_pack_in_one_file_is_the_same_file_every_time(
    job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "pack.zip"
    arguments = ["pack", str(job), "--out", str(out), "--only", "lists", "--json"]
    assert run(arguments) == 0
    listed = json.loads(capsys.readouterr().out)
    first = out.read_bytes()
    with zipfile.ZipFile(out) as archive:
        assert sorted(archive.namelist()) == sorted(
            ["manifest.json", *(entry["path"] for entry in listed["files"])]
        )
        assert json.loads(archive.read("manifest.json")) == listed
    assert run(arguments) == 0
    assert out.read_bytes() == first


def test_inches_go_to_a_sixty_fourth_where_they_are_asked_for(job: Path, tmp_path: Path) -> None:
    for fraction, wanted in (("32", "7 27/32"), ("64", "7 55/64")):
        out = tmp_path / fraction
        assert run(["pack", str(job), "--out", str(out), "--only", "lists", "--fraction", fraction]) == 0
        assert wanted in (out / "cut-list.csv").read_text(encoding="utf-8")


def test_a_file_of_somebody_else_is_left_alone(
    job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "pack.zip"
    out.write_bytes(b"dear")
    assert run(["pack", str(job), "--out", str(out), "--only", "lists"]) == 2
    assert str(out) in capsys.readouterr().err
    assert out.read_bytes() == b"dear"
