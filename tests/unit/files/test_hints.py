"""What would do, as a message hints: of the kind that was wanted there."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from drawerwright.catalogue.families import families_from_mappings
from drawerwright.errors import Fault, InputError
from drawerwright.files import read_job
from drawerwright.files.gaps import read_gaps

FAMILY = {"id": "mine", "capacity": 45, "inside_width_deduction": 42, "length": [{"nominal": 500}]}


def fault_of(read: Callable[[], Any]) -> Fault:
    with pytest.raises(InputError) as refused:
        read()
    (fault,) = refused.value.faults
    return fault


@pytest.mark.parametrize(
    ("keys", "hint"),
    [
        ({"rear_bracket": {"reach": [45, 0]}}, "[0, 45]"),
        ({"rear_bracket": {"reach": 7}}, "[0, 45]"),
        ({"adjust": {"side": 3}}, "[-1.5, 1.5]"),
        ({"adjust": {"height": [3, 0]}}, "[0.0, 3.0]"),
        ({"adjust": {"depth": "x"}}, "[0.0, 4.0]"),
        ({"width_band": "x"}, "[-1.0, 1.5]"),
        ({"carriages": {"lower": 1, "upper": [130, 370]}, "carriages_for": 500}, "[130, 370]"),
    ],
)
def test_a_band_is_hinted_at_by_one_that_its_key_takes(keys: dict[str, Any], hint: str) -> None:
    assert fault_of(lambda: families_from_mappings([{**FAMILY, **keys}])).try_ == hint
    key, value = next(iter(keys.items()))
    if isinstance(value, dict):
        (bad,) = [name for name, told in value.items() if told != [130, 370]]
        value = {**value, bad: [float(end) for end in hint.strip("[]").split(",")]}
    else:
        value = [float(end) for end in hint.strip("[]").split(",")]
    assert families_from_mappings([{**FAMILY, **keys, key: value}])


def test_a_family_without_an_id_is_shown_one_of_a_family() -> None:
    without = {key: value for key, value in FAMILY.items() if key != "id"}
    fault = fault_of(lambda: families_from_mappings([without]))
    assert fault.says == "is missing"
    assert families_from_mappings([{**without, "id": fault.try_.strip('"')}])[0].id == "plain-16"


def test_a_missing_gaps_file_is_hinted_at_by_a_table_of_gaps(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text("", encoding="utf-8")
    missing = fault_of(lambda: read_gaps(tmp_path / "none.csv"))
    assert missing.says == "does not exist"
    assert missing.try_ == "a table of gaps that ends in .csv, .xlsx or .toml"
    (tmp_path / "nine.csv").write_text("drawer\nA\n", encoding="utf-8")
    assert fault_of(lambda: read_gaps(tmp_path / "none.csv")).try_ == "nine.csv"
    (tmp_path / "empty.csv").write_text("", encoding="utf-8")
    empty = fault_of(lambda: read_gaps(tmp_path / "empty.csv"))
    assert (empty.says, "job" in empty.try_) == ("is empty", False)


def test_a_folder_in_place_of_a_file_is_said_to_be_one(tmp_path: Path) -> None:
    folder = tmp_path / "kitchen"
    folder.mkdir()
    assert fault_of(lambda: read_gaps(folder)).says == "is a folder: a file is wanted"
    assert fault_of(lambda: read_job(folder)).try_ == "drawerwright job new"
    for name, hint in (("a.toml", "kitchen/a.toml"), ("b.csv", "one of the 2 files in it")):
        (folder / name).write_text("", encoding="utf-8")
        fault = fault_of(lambda: read_job(folder))
        assert (fault.where, fault.says) == ("kitchen", "is a folder: a job file is wanted")
        assert fault.try_ == hint
