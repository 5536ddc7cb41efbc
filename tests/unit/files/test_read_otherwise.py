"""What is read otherwise than may be expected is told at its place and keeps no job from being read."""

from __future__ import annotations

from pathlib import Path

import pytest

from drawerwright.files import read_job_file

FRAME = "frame = { left = 38, right = 41, thickness = 19 }"
DRAWER = """
[[drawer]]
id = "{id}"
opening = {{ width = 562, height = 168, depth = 530 }}
side = 16
"""


def told(folder: Path, text: str) -> list[tuple[str, str]]:
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    return [(one.where, one.says) for one in read_job_file(path).remarks]


def test_a_frame_on_a_frameless_drawer_is_told_at_its_line(tmp_path: Path) -> None:
    ((where, says),) = told(tmp_path, DRAWER.format(id="A") + FRAME)
    assert where == "job.toml:6 drawer A frame"
    assert "left aside" in says
    assert 'construction = "face-frame"' in says


@pytest.mark.parametrize("framed", ['construction = "face-frame"\n', ""])
def test_a_frame_of_the_defaults_is_told_once_and_only_where_no_drawer_uses_it(
    tmp_path: Path, framed: str
) -> None:
    drawers = DRAWER.format(id="A") + framed + DRAWER.format(id="B") + DRAWER.format(id="C")
    found = told(tmp_path, f"[defaults]\n{FRAME}\n{drawers}")
    assert [where for where, _ in found] == ([] if framed else ["job.toml:2 defaults.frame"])


def test_a_drawer_with_a_frame_that_is_used_gets_no_remark(tmp_path: Path) -> None:
    assert told(tmp_path, DRAWER.format(id="A") + FRAME + '\nconstruction = "face-frame"') == []


@pytest.mark.parametrize(
    ("box", "missing"),
    [
        ("length = 500", "width and height"),
        ("inside_width = 520", "length and height"),
        ("outside_width = 552, length = 500", "height"),
        ("inside_width = 520, length = 500, height = 140", ""),
    ],
)
def test_a_box_that_is_measured_in_part_says_what_was_assumed(tmp_path: Path, box: str, missing: str) -> None:
    found = told(tmp_path, DRAWER.format(id="A") + f"existing_box = {{ {box} }}")
    if not missing:
        assert found == []
        return
    ((where, says),) = found
    assert where == "job.toml:6 drawer A existing_box"
    assert f"the box's {missing}: taken as it would be cut" in says
