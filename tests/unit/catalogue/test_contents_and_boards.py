from __future__ import annotations

import pytest

from drawerwright.catalogue import (
    board,
    boards,
    box_board,
    contents_preset,
    contents_preset_ids,
    contents_presets,
    front_board,
)
from drawerwright.errors import InputError


def test_every_preset_is_a_load_per_area_or_per_volume_with_its_source() -> None:
    for preset in contents_presets():
        assert (preset.per_area > 0.0) != (preset.per_volume > 0.0)
        assert preset.source
        assert preset.title
        assert contents_preset(preset.id) is preset


def test_the_presets_are_listed_in_order() -> None:
    assert contents_preset_ids() == ("kcma-drawer", "clothing-fill")


def test_an_unknown_preset_names_the_nearest() -> None:
    with pytest.raises(InputError) as refused:
        contents_preset("clothes-fill", where="job.toml:9 drawer A contents.preset")
    (fault,) = refused.value.faults
    assert fault.where == "job.toml:9 drawer A contents.preset"
    assert fault.value == '"clothes-fill"'
    assert fault.try_ == '"clothing-fill"'


def test_the_density_of_every_board_lies_in_the_range_of_its_source() -> None:
    for one in boards():
        assert one.lowest <= one.density <= one.highest
        assert one.source
        assert 300.0 < one.density < 1100.0
        assert board(one.id) is one


def test_ids_of_boards_are_unique() -> None:
    ids = [one.id for one in boards()]
    assert len(set(ids)) == len(ids)


def test_boxes_are_taken_as_plywood_and_fronts_as_fibreboard() -> None:
    assert (box_board().id, front_board().id) == ("plywood", "mdf")


def test_an_unknown_board_names_the_nearest() -> None:
    with pytest.raises(InputError) as refused:
        board("playwood")
    assert refused.value.faults[0].try_ == '"plywood"'
