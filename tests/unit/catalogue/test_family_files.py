"""Family files that a person names: each once, and what would do where one is missing."""

from __future__ import annotations

from pathlib import Path

import pytest

from drawerwright.catalogue import load_families
from drawerwright.errors import Fault, InputError

FAMILY = 'id = "{}"\ncapacity = "45 kg"\ninside_width_deduction = 42\n[[length]]\nnominal = 500\n'


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    path = tmp_path / "my-slides.toml"
    path.write_text(FAMILY.format("mine"))
    return path


def fault_of(*paths: Path) -> Fault:
    with pytest.raises(InputError) as refused:
        load_families(paths)
    (fault,) = refused.value.faults
    return fault


def test_a_file_given_twice_is_to_be_given_once(mine: Path) -> None:
    for again in (mine, mine.parent, mine.parent / "x" / ".." / mine.name):
        told = fault_of(mine, again)
        assert (told.where, told.try_) == ("my-slides.toml", "giving it once")
        assert "twice" in told.says


def test_two_files_with_one_id_are_still_told_to_differ(mine: Path) -> None:
    (mine.parent / "other.toml").write_text(FAMILY.format("mine"))
    assert fault_of(mine.parent).try_ == '"mine-2"'


def test_a_missing_file_is_answered_with_a_family_file_beside_it_and_never_a_job(mine: Path) -> None:
    (mine.parent / "my-slidez-job.toml").write_text('[[drawer]]\nid = "A"\n')
    assert fault_of(mine.parent / "my-slidez.toml").try_ == "my-slides.toml"


@pytest.mark.parametrize("name", ["slides.toml", "slides"])
def test_a_missing_file_in_an_empty_folder_is_answered_with_what_would_do_for_slides(
    tmp_path: Path, name: str
) -> None:
    told = fault_of(tmp_path / name)
    assert told.says == "does not exist"
    assert "slide-family file" in told.try_
    assert "job" not in told.try_


def test_an_empty_file_is_answered_with_what_would_do_for_slides(tmp_path: Path) -> None:
    (tmp_path / "empty.toml").write_text("")
    told = fault_of(tmp_path / "empty.toml")
    assert told.says == "is empty"
    assert "job" not in told.try_


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("width_band", "[-1.0, 1e30]"),
        ("width_band", "[-5001, 1.5]"),
        ("bracket_holes", "[[12, 9e9]]"),
        ("adjust", '{ side = ["-6 m", 1.5] }'),
    ],
)
def test_bands_and_points_beyond_5000_mm_are_refused(tmp_path: Path, key: str, value: str) -> None:
    (tmp_path / "wide.toml").write_text(f"{key} = {value}\n{FAMILY.format('wide')}")
    assert "from -5000 to 5000 mm" in fault_of(tmp_path / "wide.toml").says


def test_a_spacer_that_is_no_list_is_answered_with_a_list_of_a_spacer(tmp_path: Path) -> None:
    (tmp_path / "three.toml").write_text(f"spacers = 3\n{FAMILY.format('three')}")
    told = fault_of(tmp_path / "three.toml")
    assert (told.value, told.says, told.try_) == ("3", "is not a list", "[3]")
