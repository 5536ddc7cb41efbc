"""Doors, things in the way, cut-outs and diagonals: what a job may say of them, and what it may not."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from drawerwright.errors import InputError
from drawerwright.files import job_from_mapping, read_job, write_job_toml
from drawerwright.model.job import Drawer

OPENING = {"width": 562, "height": 168, "depth": 530}


def drawer(**keys: Any) -> Drawer:
    return job_from_mapping({"drawer": [{"id": "A", "opening": OPENING, "side": 16, **keys}]}).drawers[0]


def fault(**keys: Any) -> str:
    with pytest.raises(InputError) as caught:
        drawer(**keys)
    return str(caught.value)


def test_a_door_opens_square_and_is_as_wide_as_the_opening_unless_told() -> None:
    door = drawer(door={"hinge": "left"}).door
    assert door is not None
    assert (door.opens, door.thickness, door.stands_in, door.width) == (90.0, 19.0, None, None)


def test_an_angle_is_a_number_or_text_with_its_sign_in_any_unit_of_length() -> None:
    for told in (95, "95", "95°", "95,0"):
        keys = {"id": "A", "opening": OPENING, "side": 16, "door": {"hinge": "left", "opens": told}}
        job = job_from_mapping(
            {"units": "in", "drawer": [{**keys, "opening": {"width": 22, "height": 6, "depth": 20}}]}
        )
        assert job.drawers[0].door is not None
        assert job.drawers[0].door.opens == 95
    assert "is not an angle in degrees" in fault(door={"hinge": "left", "opens": "wide"})
    assert "10 to 180 degrees" in fault(door={"hinge": "left", "opens": 5})


def test_a_thing_in_the_way_names_its_side_and_how_far_it_stands_in() -> None:
    assert "stands_in" in fault(in_the_way=[{"what": "hinge", "side": "left"}])
    assert "in_the_way" in fault(in_the_way=[{"what": "hinge", "side": "above", "stands_in": 3}])
    upside_down = {"what": "hinge", "side": "left", "stands_in": 3, "bottom": 130, "top": 60}
    assert "is not above its bottom, 130 mm" in fault(in_the_way=[upside_down])


def test_diagonals_keep_their_order_and_are_two() -> None:
    assert drawer(opening={**OPENING, "diagonals": [588, 586]}).opening.diagonals == (588, 586)
    assert "two are wanted" in fault(opening={**OPENING, "diagonals": [588, 586, 587]})


@pytest.mark.parametrize("units", ["mm", "in"])
def test_what_stands_round_a_drawer_is_written_and_read_back(units: str, tmp_path: Path) -> None:
    told = drawer(
        opening={**OPENING, "diagonals": [588, 586], "height": {"left": 168, "right": 167}},
        door={"hinge": "right", "opens": 87.5, "stands_in": -2, "width": 596},
        in_the_way=[
            {"what": 'hinge "upper"', "side": "left", "stands_in": 22, "bottom": -5, "depth": [-40, 12]},
            {"what": "handle", "side": "right", "stands_in": 9},
        ],
        pack_rear=True,
        cut_out={"width": 180, "depth": 200},
        stabiliser=True,
    )
    job = job_from_mapping({"drawer": [{"id": "B", "opening": OPENING, "side": 16}]})
    job = job.model_copy(update={"units": units, "drawers": (told,)})
    path = tmp_path / "job.toml"
    path.write_text(write_job_toml(job), encoding="utf-8")
    assert read_job(path) == job


def test_a_row_of_a_table_holds_its_things_in_one_cell(tmp_path: Path) -> None:
    path = tmp_path / "job.csv"
    cell = "[{ what = 'hinge', side = 'left', stands_in = 22 }]"
    path.write_text(
        "id,opening.width,opening.height.left,opening.height.right,opening.depth,side,in_the_way,door.hinge,door.opens\n"
        f'A,562,168,167,530,16,"{cell}",left,95\n',
        encoding="utf-8",
    )
    read = read_job(path).drawers[0]
    assert [(thing.what, thing.side, thing.stands_in) for thing in read.in_the_way] == [("hinge", "left", 22)]
    assert read.opening.height.labelled == {"left": 168, "right": 167}
    path.write_text(path.read_text(encoding="utf-8").replace("[{", "{"), encoding="utf-8")
    with pytest.raises(InputError, match="is not a list of tables"):
        read_job(path)
