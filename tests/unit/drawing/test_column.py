from __future__ import annotations

from functools import cache
from typing import Any

import pytest

from drawerwright.catalogue import families_from_mappings
from drawerwright.drawing.primitives import Hole
from drawerwright.drawing.scene import Dimension, RunningDimension, Scene, mirror
from drawerwright.drawing.views.cabinet_column import bored_in_column, cabinet_sides
from drawerwright.drawing.views.panels import panels
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedDrawer

from .drawers import PLAIN, fitted

OPENING = {"width": 562, "height": 168, "depth": 530}


@cache
def _column() -> tuple[FittedDrawer, ...]:
    """Two cabinets bored alike, one bored otherwise, and a drawer that stands alone."""
    drawers: list[dict[str, Any]] = [
        {"id": f"{cabinet}-{row}", "cabinet": cabinet, "row": row, "opening": {**OPENING, "floor": floor}}
        for cabinet in ("A", "B")
        for row, floor in ((1, 0), (2, 186))
    ]
    drawers.append({"id": "C-1", "cabinet": "C", "row": 1, "opening": {**OPENING, "depth": 400, "floor": 0}})
    drawers.append({"id": "alone", "opening": OPENING})
    job = {
        "title": "Columns",
        "cabinet": [{"id": name, "first_row": 56} for name in "ABC"],
        "drawer": [{"side": 16, "front": {"style": "overlay"}, **told} for told in drawers],
    }
    return fit_job(job_from_mapping(job), families_from_mappings([PLAIN])).drawers


def _holes(scene: Scene) -> list[tuple[float, float]]:
    return sorted(e.centre for e in scene.primitives if isinstance(e, Hole))


def test_a_side_carries_the_holes_of_every_drawer_of_its_cabinet() -> None:
    left = cabinet_sides(_column())[0]
    wanted = [
        (x, one.mounting.screw_line)
        for one in _column()
        if one.drawer.cabinet == "A" and one.mounting is not None
        for x in one.mounting.holes_from_side_edge
    ]
    assert len(wanted) == 10
    assert _holes(left.scene) == sorted(wanted)


def test_sides_that_are_bored_alike_are_drawn_once() -> None:
    found = cabinet_sides(_column())
    assert [(each.name, each.cabinets) for each in found] == [
        ("cabinet side left", ("A", "B")),
        ("cabinet side right", ("A", "B")),
        ("cabinet side left", ("C",)),
        ("cabinet side right", ("C",)),
    ]
    assert found[0].ids == ("A-1", "A-2", "B-1", "B-2")
    assert found[2].ids == ("C-1",)
    assert mirror(found[0].scene).primitives == found[1].scene.primitives


def test_screw_lines_are_dimensioned_from_the_floor_and_holes_from_the_front_edge() -> None:
    left = cabinet_sides(_column())[0].scene
    heights = [e.value for e in left.primitives if isinstance(e, Dimension)]
    rows = [e for e in left.primitives if isinstance(e, RunningDimension)]
    assert heights == sorted({y for _, y in _holes(left)})
    assert [row.values[0] for row in rows] == [37.0]


def test_drawers_that_are_no_column_keep_a_side_of_their_own() -> None:
    alone = _column()[-1]
    assert not bored_in_column(alone)
    assert "cabinet side left" in dict(panels(alone))
    assert "cabinet side left" not in dict(panels(alone, with_cabinet_sides=False))
    assert bored_in_column(_column()[0])
    for name in ("frame", "frame-packed-inset", "too-low"):
        assert not bored_in_column(fitted(name))
    assert cabinet_sides([fitted("frame"), alone]) == ()


def test_inches_are_written_on_a_column_in_full() -> None:
    """37 mm is 1 15/32 in to a thirty-second: 37 / 25.4 = 1.4567."""
    left = cabinet_sides(_column(), "in")[0].scene
    (row,) = [e for e in left.primitives if isinstance(e, RunningDimension)]
    assert row.texts is not None
    assert row.seconds is not None
    assert (row.texts[0], row.seconds[0]) == ("37 mm", "(1-15/32″)")
    assert _holes(left) == _holes(cabinet_sides(_column())[0].scene)
    assert pytest.approx(1 + 15 / 32, abs=1 / 64) == 37 / 25.4
