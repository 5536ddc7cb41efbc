from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.catalogue import (
    density_of,
    load_materials,
    material_named,
    material_of,
    shipped_materials,
    thickness_notes,
)
from drawerwright.errors import InputError, ReadingError
from drawerwright.files import job_from_mapping

IDS = shipped_materials().ids


@pytest.mark.parametrize(
    ("name", "id_", "thickness"),
    [
        ("1/2 ply", "1/2 ply", 11.90625),
        ("½ plywood", "1/2 ply", 11.90625),
        ('3/4" ply', "3/4 ply", 18.25625),
        ("3/4 birch ply", "3/4 birch ply", 18.0),
        ("6,5 birch plywood", "6.5 birch ply", 6.5),
        ("16 melamine", "16 melamine", 16.0),
        ("16mm MELAMINE", "16 melamine", 16.0),
        ("18  mdf", "18 mdf", 18.0),
        ("0.5 mdf", "1/2 mdf", 12.7),
        ("1 mdf", "1 in mdf", 25.4),
        ("12.7 maple", "12.7 maple", 12.7),
        ("3/4 hard maple", "3/4 maple", 19.05),
        ("0.75 cherry", "0.75 in cherry", 19.05),
        ("18 mm oak", "18 mm red oak", 18.0),
    ],
)
def test_the_names_that_shops_use_stand_for_what_is_bought(name: str, id_: str, thickness: float) -> None:
    material = material_named(name)
    assert (material.id, material.thickness) == (id_, thickness)
    assert material_named(material.id) == material


@pytest.mark.parametrize("name", IDS)
def test_a_material_is_told_with_its_sources_and_lies_within_its_limits(name: str) -> None:
    material = material_named(name)
    assert material.id == name
    assert material.source
    assert material.density_source
    assert material.limits_source
    assert material.lowest is not None
    assert material.highest is not None
    assert material.lowest < material.thickness < material.highest
    assert -1e-9 <= material.thinner < 0.13 * material.nominal
    assert material.density == density_of(name)
    assert "measure" in material.caution()


def test_ids_are_unique() -> None:
    assert len(set(IDS)) == len(IDS)


@pytest.mark.parametrize(
    ("name", "says", "try_"),
    [
        ("1/2 plu", "is neither a length nor a known material", '"1/2 ply"'),
        ("16 melamin", "is neither a length nor a known material", '"16 melamine"'),
        ("3/4 chery", "is neither a length nor a known material", '"3/4 cherry"'),
        ("17 mdf", "is not a thickness in which mdf is known: 1/4, 1/2", '"16 mdf"'),
        ("ply", "names no thickness of ply", '"1/4 ply"'),
        ("", "is neither a length nor a known material", ""),
        ("1/2/3 ply", "is neither a length nor a known material", "ply"),
    ],
)
def test_an_unknown_name_names_the_nearest(name: str, says: str, try_: str) -> None:
    with pytest.raises(InputError) as refused:
        material_named(name, where="drawer A side")
    (fault,) = refused.value.faults
    assert fault.where == "drawer A side"
    assert says in fault.says
    assert try_ in fault.try_


@given(st.text(st.sampled_from("0123456789/ .,½\"'plymdfbircha") | st.characters(), max_size=14))
def test_any_text_is_a_material_or_refused(text: str) -> None:
    try:
        found = shipped_materials().find(text).id
    except ReadingError as error:
        found = error.says
    assert found
    assert shipped_materials().is_meant(text) in (True, False)


@pytest.mark.parametrize("text", ["16", "16 mm", '5/8"', "1' 9 3/4\"", "27 kg", "abc", "", "auto", "½"])
def test_a_length_or_other_text_is_not_taken_for_a_material(text: str) -> None:
    assert not shipped_materials().is_meant(text)


def written(tmp_path: Path, text: str) -> Path:
    path = tmp_path / "mine.toml"
    path.write_text(text, encoding="utf-8")
    return path


MINE = """
units = "in"

[[tolerance]]
id = "mine"
plus = 0.01
minus = 0.02
source = "measured in the shop"

[[material]]
name = "bamboo"
aliases = ["bamboo ply"]
density = 700
density_source = "weighed"
tolerance = "mine"
source = "supplier's sheet"
thickness = [{ nominal = "3/4", bought = 0.73 }, { nominal = "12" }]

[[material]]
name = "ply"
source = "measured in the shop"
thickness = [{ nominal = "1/2", bought = "11.6 mm" }, { nominal = "7/8" }]
"""


def test_a_persons_file_adds_kinds_and_replaces_thicknesses(tmp_path: Path) -> None:
    materials = load_materials([written(tmp_path, MINE)])
    bamboo = material_named("3/4 bamboo ply", materials)
    assert (bamboo.id, bamboo.thickness) == ("3/4 bamboo", pytest.approx(18.542))
    assert (bamboo.lowest, bamboo.highest) == pytest.approx((18.034, 18.796))
    assert (bamboo.density, bamboo.density_source) == (700.0, "weighed")
    assert material_named("12 bamboo", materials).thickness == 12.0
    assert material_named("1/2 ply", materials).thickness == 11.6
    assert material_named("7/8 ply", materials).thickness == 22.225
    assert material_named("3/4 ply", materials).thickness == 18.25625
    assert material_named("1/2 ply").thickness == 11.90625


def test_without_files_the_shipped_materials_are_loaded() -> None:
    assert load_materials() is shipped_materials()
    assert load_materials([]) is shipped_materials()


def test_all_faults_of_a_persons_file_come_together_with_their_lines(tmp_path: Path) -> None:
    text = (
        MINE.replace('"mine"\nsource = "supplier', '"main"\nsource = "supplier')
        .replace("plus = 0.01", "plus = -1")
        .replace("aliases", "alias")
    )
    with pytest.raises(InputError) as refused:
        load_materials([written(tmp_path, text)])
    assert [(fault.where, fault.value) for fault in refused.value.faults] == [
        ("mine.toml:6 tolerance mine plus", "-1"),
        ("mine.toml:12 material 1 alias", '["bamboo ply"]'),
    ]
    text = (
        MINE.replace('"mine"\nsource = "supplier', '"main"\nsource = "supplier')
        .replace('name = "ply"', 'name = "ply"\nboard = "playwood"')
        .replace('nominal = "12"', 'nominal = "thick"')
    )
    with pytest.raises(InputError) as refused:
        load_materials([written(tmp_path, text)])
    assert [(fault.where, fault.try_.strip('"')) for fault in refused.value.faults] == [
        ("mine.toml:15 material 1 tolerance", "mine"),
        ("mine.toml:17 material 1 thickness thick nominal", '552.5 mm" or "21 3/4 in'),
        ("mine.toml:21 material 2 board", "plywood"),
    ]


OPENING = {"width": 562, "height": 168, "depth": 530}


def drawer_of(**keys: object):
    return job_from_mapping({"drawer": [{"id": "A", "opening": OPENING, **keys}]}).drawers[0]


def test_a_part_as_the_sides_is_of_their_material() -> None:
    drawer = drawer_of(side="1/2 ply", front={"style": "overlay", "thickness": "3/4 cherry"})
    assert material_of(drawer, "side") == material_named("1/2 ply")
    assert material_of(drawer, "subfront") == material_of(drawer, "back") == material_named("1/2 ply")
    assert material_of(drawer, "bottom") is None
    assert material_of(drawer_of(side="1/2 ply", subfront=16), "subfront") is None


def test_notes_tell_what_was_assumed_and_what_was_measured() -> None:
    drawer = drawer_of(
        side="1/2 ply",
        subfront=12.1,
        box={"bottom_thickness": 9},
        materials={"subfront": "1/2 ply", "bottom": "1/4 ply"},
    )
    side, subfront, bottom = thickness_notes(drawer)
    assert (side.part, side.thickness, side.assumed) == ("side", 11.90625, True)
    assert side.says == (
        "1/2 ply: 11.9 mm used, as commonly bought (11.5 mm to 12.3 mm); measure the stuff itself"
    )
    assert (subfront.assumed, subfront.says) == (False, "1/2 ply: 12.1 mm as measured")
    assert bottom.says.endswith("outside 5.2 mm to 6 mm, in which it commonly lies: measure it again")
    assert "15/32 in" in thickness_notes(drawer, "in")[0].says
    assert thickness_notes(drawer_of(side=16)) == ()
