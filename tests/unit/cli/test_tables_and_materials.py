"""Jobs as tables, and materials of the shop's own, on the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

MATERIALS = """
[[material]]
name = "shop ply"
title = "Plywood of the shop (invented)"
density = 640
source = "invented"
thickness = [{ nominal = "15", bought = "14.6 mm" }]
"""


@pytest.mark.parametrize("name", ["job.csv", "job.xlsx", "job.toml"])
@pytest.mark.parametrize("units", ["mm", "in"])
def test_a_new_job_of_every_kind_can_be_fitted_as_it_is(
    command, tmp_path: Path, name: str, units: str
) -> None:
    path = tmp_path / name
    assert command("job", "new", "--out", str(path), "--units", units).code == 0
    ran = command("fit", str(path), "--json")
    assert ran.code == 0
    assert {one["verdict"] for one in json.loads(ran.out)["drawers"]} <= {"fits", "fits-with-care"}


def test_a_job_file_that_is_there_is_left_as_it_is(command, tmp_path: Path) -> None:
    path = tmp_path / "job.xlsx"
    path.write_bytes(b"mine")
    assert command("job", "new", "--out", str(path)).code == 2
    assert path.read_bytes() == b"mine"


def test_a_material_by_name_gives_thickness_and_mass(command, tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    drawer = 'id = "a"\nopening = { width = 562, height = 168, depth = 530 }\n'
    path.write_text(f'[[drawer]]\n{drawer}side = "3/4 ply"\n')
    (one,) = json.loads(command("fit", str(path), "--json").out)["drawers"]
    assert 17 < one["box"]["side"] < 19.05


def test_an_unknown_material_is_a_fault_and_known_once_its_file_is_given(command, tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    drawer = 'id = "a"\nopening = { width = 562, height = 168, depth = 530 }\n'
    path.write_text(f'[[drawer]]\n{drawer}side = "15 shop ply"\n')
    assert command("fit", str(path), "--json").code == 2
    own = tmp_path / "own.toml"
    own.write_text(MATERIALS)
    ran = command("fit", str(path), "--materials", str(own), "--json")
    assert ran.code == 0, ran.out
    assert json.loads(ran.out)["drawers"][0]["box"]["side"] == 14.6
