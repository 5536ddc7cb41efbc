from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from drawerwright.catalogue import (
    SHIPPED,
    check_family,
    families_from_mappings,
    family_named,
    load_families,
)
from drawerwright.catalogue.shipped import shipped_values
from drawerwright.errors import Fault, InputError

LEAST: dict[str, Any] = {
    "id": "plain", "capacity": "45 kg", "inside_width_deduction": 42, "length": [{"nominal": 500}],
}  # fmt: skip
TEXT = 'id = "{}"\ncapacity = "45 kg"\ninside_width_deduction = 42\n[[{}length]]\nnominal = 500\n'


def family_file(folder: Path, *ids: str, name: str | None = None) -> Path:
    path = folder / (name or f"{ids[0]}.toml")
    if len(ids) == 1:
        path.write_text(TEXT.format(ids[0], ""))
    else:
        path.write_text("".join("[[family]]\n" + TEXT.format(id_, "family.") for id_ in ids))
    return path


def faults_of(*paths: Path) -> tuple[Fault, ...]:
    with pytest.raises(InputError) as refused:
        load_families(paths)
    return refused.value.faults


def test_the_shipped_families_are_eight_invented_ones_in_a_fixed_order() -> None:
    families = load_families()
    assert [family.id for family in families] == list(SHIPPED)
    assert len(families) == 8
    assert all(
        family.invented and "invented" in family.source and "invented" in family.title for family in families
    )
    assert load_families() is families


def test_the_shipped_families_cover_what_a_shop_meets() -> None:
    by_id = {family.id: family for family in load_families()}
    for name, side, deduction in (("house-16", 16.0, 42.0), ("house-19", 19.0, 49.0)):
        assert (by_id[name].design_side, by_id[name].inside_width_deduction) == (side, deduction)
    assert (by_id["thin-12"].design_side, by_id["thin-12"].design_subfront) == (12.7, 12.7)
    short = by_id["short-16"]
    assert (short.lengths[0].nominal, short.lengths[-1].nominal) == (225.0, 350.0)
    assert by_id["heavy-19"].capacity > 50.0
    assert by_id["heavy-19"].extension == "over"
    assert by_id["three-quarter-16"].extension == "three-quarter"
    inch = by_id["inch-19"]
    assert inch.units == "in"
    assert [length.nominal / 25.4 for length in inch.lengths] == pytest.approx([12, 15, 18, 21])


def test_the_side_mounted_family_leaves_half_an_inch_a_side() -> None:
    family = family_named(load_families(), "side-mounted")
    assert family.carriage == "side-mounted"
    assert family.inside_width_deduction / 2 - family.design_side == pytest.approx(12.7)
    assert family.rear_bracket is None
    assert not any(length.shelf_holes for length in family.lengths)


def test_short_lengths_have_no_holes_for_a_shelf() -> None:
    lengths = [length for family in load_families() for length in family.lengths]
    assert [length.nominal for length in lengths if length.nominal < 400.0 and length.shelf_holes] == []


def test_heavy_families_go_over_travel_and_three_quarter_ones_leave_a_quarter_inside() -> None:
    families = load_families()
    for length in family_named(families, "heavy-19").lengths:
        assert family_named(families, "heavy-19").travel_of(length) > length.box
    for length in family_named(families, "three-quarter-16").lengths:
        assert family_named(families, "three-quarter-16").travel_of(length) == 0.75 * length.box


def test_at_least_half_of_the_shipped_families_tell_how_they_move() -> None:
    told = [
        family.id
        for family in load_families()
        if family.carriages and family.stiffness and family.roller and family.soft_close
    ]
    assert len(told) >= 4


def test_the_shipped_families_tell_every_key_and_nothing_odd() -> None:
    for family in load_families():
        remarks = [remark for remark in check_family(family) if remark.kind != "missing"]
        assert remarks == [], family.id


def test_the_row_holes_of_the_shipped_families_lie_on_the_32_grid_and_start_at_0() -> None:
    for family in load_families():
        for length in family.lengths:
            assert length.holes[0] == 0.0
            assert [hole / 32 for hole in length.holes] == pytest.approx(
                [hole // 32 for hole in length.holes]
            )
            assert len(length.holes) >= 3


def test_the_shipped_rollers_stay_on_their_rails_over_the_whole_travel() -> None:
    for family in load_families():
        if family.carriages is None or family.carriages_for is None:
            continue
        for length in family.lengths:
            scale, quarter = length.nominal / family.carriages_for, family.travel_of(length) / 4
            for rear, front in (family.carriages.lower, family.carriages.upper):
                assert rear * scale >= quarter
                assert front * scale <= length.member - quarter


def test_a_file_holds_one_family_or_several(tmp_path: Path) -> None:
    one, several = family_file(tmp_path, "z"), family_file(tmp_path, "b", "a")
    assert [family.id for family in load_families([one, several])] == ["z", "b", "a"]


def test_a_folder_is_read_by_the_names_of_its_files(tmp_path: Path) -> None:
    for name in ("c", "a", "b"):
        family_file(tmp_path, name)
    (tmp_path / "notes.txt").write_text("not a family")
    assert [family.id for family in load_families([tmp_path])] == ["a", "b", "c"]


def test_an_inch_family_file_is_converted(tmp_path: Path) -> None:
    path = family_file(tmp_path, "a")
    path.write_text('units = "in"\n' + path.read_text().replace("500", '"21"').replace("42", "1.65"))
    (family,) = load_families([path])
    assert family.lengths[0].nominal == 533.4
    assert family.inside_width_deduction == pytest.approx(41.91)


def test_the_same_id_twice_is_refused_where_it_comes_again(tmp_path: Path) -> None:
    first, second = family_file(tmp_path, "a"), family_file(tmp_path, "b", "a", name="more.toml")
    (fault,) = faults_of(first, second)
    assert fault.where == "more.toml:8 family a id"
    assert "a.toml" in fault.says
    (inside,) = faults_of(family_file(tmp_path, "c", "c"))
    assert inside.where == "c.toml:8 family c id"


def test_faults_of_all_files_come_together_with_their_lines(tmp_path: Path) -> None:
    first, second = family_file(tmp_path, "a"), family_file(tmp_path, "b")
    first.write_text(first.read_text() + "holes = [0, 64, 32]\nhols = 3\n")
    second.write_text(second.read_text().replace('"45 kg"', '"45 mm"') + "[[length]]\nnominal = 500\n")
    assert [fault.where for fault in faults_of(first, second, tmp_path / "none.toml")] == [
        "a.toml:6 family a length 500 holes",
        "a.toml:7 family a length 500 hols",
        "b.toml:2 family b capacity",
        "b.toml:7 family b length 500 nominal",
        "none.toml",
    ]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "is empty"),
        ("family = 3", "is not a list of families"),
        ("family = []", "is not a list of families"),
        ("family = [3]", "is not a table"),
        ('capacity = 3\n[[family]]\nid = "a"', "stands beside [[family]]"),
        ("id = ", "is not TOML"),
        ("length = 3", "is missing"),
    ],
)
def test_a_file_that_is_no_family_is_refused(tmp_path: Path, text: str, says: str) -> None:
    path = tmp_path / "family.toml"
    path.write_text(text)
    faults = faults_of(path)
    assert any(says in fault.says for fault in faults)
    assert all(fault.where.startswith("family.toml") for fault in faults)


def test_a_folder_without_families_is_refused(tmp_path: Path) -> None:
    (fault,) = faults_of(tmp_path)
    assert "without a slide-family file" in fault.says


@pytest.mark.parametrize("values", [None, [], {}, "plain", [3], [None]])
def test_mappings_that_are_no_families_are_refused(values: object) -> None:
    with pytest.raises(InputError) as refused:
        families_from_mappings(values, where="request slides")
    assert all(fault.where.startswith("request slides") for fault in refused.value.faults)


def test_mappings_are_read_as_files_are() -> None:
    shipped = [shipped_values(f"families/{name}.toml") for name in SHIPPED]
    assert families_from_mappings(shipped) == load_families()


def test_rules_between_lengths_are_checked_though_a_key_is_broken() -> None:
    broken = {**LEAST, "width_band": [2, 1], "extension": "over"}
    broken["length"] = [{"nominal": 500, "travl": 3}, {"nominal": 550}, {"nominal": 550, "travel": 600}]
    with pytest.raises(InputError) as refused:
        families_from_mappings([broken])
    assert [fault.where for fault in refused.value.faults] == [
        "slides[0] family plain width_band",
        "slides[0] family plain length 500 travl",
        "slides[0] family plain length 550 travel",
        "slides[0] family plain length 550 nominal",
    ]


def test_a_family_is_found_by_id_or_the_nearest_is_named() -> None:
    families = load_families()
    assert family_named(families, "house-19") is families[1]
    with pytest.raises(InputError) as refused:
        family_named(families, "house-18", where="drawer B1 slide")
    (fault,) = refused.value.faults
    assert (fault.where, fault.value) == ("drawer B1 slide", '"house-18"')
    assert fault.try_ in ('"house-16"', '"house-19"')
