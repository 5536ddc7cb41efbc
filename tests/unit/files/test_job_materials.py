from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from drawerwright.catalogue import load_materials
from drawerwright.errors import InputError
from drawerwright.files import job_from_mapping, read_job, write_job_csv, write_job_toml

OPENING = {"width": 562, "height": 168, "depth": 530}
TOML = """
[defaults]
side = "1/2 ply"
box = { bottom_thickness = "1/4 ply", back = "12 birch ply" }

[[drawer]]
id = "A-1"
opening = { width = 562, height = 168, depth = 530 }
front = { style = "overlay", thickness = "18 mdf" }

[[drawer]]
id = "A-2"
opening = { width = 562, height = 168, depth = 530 }
side = 12.1
subfront = "16 melamine"
materials = { side = "½ plywood" }
"""


def test_names_become_the_thickness_that_is_bought_and_are_kept() -> None:
    first, second = job_from_mapping(tomllib.loads(TOML)).drawers
    assert (first.side, first.box.bottom_thickness, first.box.back) == (11.90625, 5.55625, 12.0)
    assert first.front.thickness == 18.0
    assert first.materials.model_dump() == {
        "side": "1/2 ply",
        "subfront": None,
        "back": "12 birch ply",
        "bottom": "1/4 ply",
        "front": "18 mdf",
    }
    assert (second.side, second.subfront) == (12.1, 16.0)
    assert (second.materials.side, second.materials.subfront) == ("1/2 ply", "16 melamine")


def test_a_measured_thickness_overrides_the_material_of_the_defaults() -> None:
    keys = tomllib.loads(TOML.replace("materials = {", "lost = { left = 0 } # {"))
    assert job_from_mapping(keys).drawers[1].materials.side is None


def test_a_material_named_without_a_thickness_gives_its_own() -> None:
    drawer = {"id": "A", "opening": OPENING, "materials": {"side": "16 melamine", "front": "3/4 cherry"}}
    job = job_from_mapping({"units": "in", "drawer": [{**drawer, "opening": dict.fromkeys(OPENING, 7)}]})
    assert (job.drawers[0].side, job.drawers[0].front.thickness) == (16.0, 19.05)


def test_a_job_with_materials_reads_back_equal_from_toml_and_csv(tmp_path: Path) -> None:
    job = job_from_mapping(tomllib.loads(TOML))
    assert job_from_mapping(tomllib.loads(write_job_toml(job))) == job
    path = tmp_path / "job.csv"
    path.write_text(write_job_csv(job), encoding="utf-8", newline="")
    assert read_job(path) == job


def test_names_stand_in_cells_too(tmp_path: Path) -> None:
    path = tmp_path / "job.csv"
    heading = "id,opening.width,opening.height,opening.depth,side,box.bottom_thickness,materials.front\n"
    path.write_text(heading + "A-1,562,168,530,1/2 ply,6,18 mdf\n", encoding="utf-8")
    (drawer,) = read_job(path).drawers
    assert (drawer.side, drawer.materials.side, drawer.front.thickness) == (11.90625, "1/2 ply", 18.0)
    path.write_text(heading + "A-1,562,168,530,1/2 plu,6 kg,18 mdv\n", encoding="utf-8")
    with pytest.raises(InputError) as refused:
        read_job(path)
    assert [(fault.where, fault.value) for fault in refused.value.faults] == [
        ("job.csv:2 drawer A-1 side", '"1/2 plu"'),
        ("job.csv:2 drawer A-1 box.bottom_thickness", '"6 kg"'),
        ("job.csv:2 drawer A-1 materials.front", '"18 mdv"'),
    ]
    assert '"1/2 ply"' in refused.value.faults[0].try_


def test_an_unknown_name_in_the_defaults_is_told_once_at_its_line(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(TOML.replace('"1/2 ply"', '"1/2 pli"'), encoding="utf-8")
    with pytest.raises(InputError) as refused:
        read_job(path)
    (fault,) = refused.value.faults
    assert (fault.where, fault.value) == ("job.toml:3 defaults.side", '"1/2 pli"')


def test_a_persons_own_materials_are_known_when_they_are_given(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_text(
        '[[material]]\nname = "bamboo"\nboard = "plywood"\nsource = "supplier"\n'
        'thickness = [{ nominal = "19", bought = 18.6 }]\n',
        encoding="utf-8",
    )
    values = {"drawer": [{"id": "A", "opening": OPENING, "side": "19 bamboo"}]}
    job = job_from_mapping(values, materials=load_materials([tmp_path / "mine.toml"]))
    assert (job.drawers[0].side, job.drawers[0].materials.side) == (18.6, "19 bamboo")
    with pytest.raises(InputError, match="known material"):
        job_from_mapping(values)
