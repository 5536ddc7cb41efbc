"""Drawings of the demo job, and of boxes built every way, compared with kept ones.

After a change that is meant, look at the new drawings and keep them: set KEEP_GOLDEN=1 for one run.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from importlib.resources import as_file, files
from typing import Any

import pytest

from drawerwright.catalogue import load_families
from drawerwright.drawing.clearing import clear_lettering
from drawerwright.drawing.scene import Scene, scale_to_paper
from drawerwright.drawing.sheet import drawer_sheet
from drawerwright.drawing.svg import write_svg
from drawerwright.drawing.templates import box_back as back_template
from drawerwright.drawing.templates import front_fixing, locking_bracket, row_holes
from drawerwright.drawing.tiles import tile
from drawerwright.drawing.views.cabinet_column import cabinet_sides
from drawerwright.drawing.views.panels import panels
from drawerwright.files import job_from_mapping, read_job
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedDrawer

from .test_drawings import KEPT, compare, entities


@cache
def _demo() -> dict[str, FittedDrawer]:
    with as_file(files("drawerwright.cli").joinpath("demo.toml")) as path:
        return {each.id: each for each in fit_job(read_job(path), load_families(None)).drawers}


@cache
def _built(joint: str, bottom: str, front: str = "applied") -> FittedDrawer:
    """An invented drawer whose box is built so."""
    told: dict[str, Any] = {
        "id": "G2",
        "opening": {"width": 562, "height": 168, "depth": 530},
        "side": 16,
        "front": {"style": "overlay", "edging": 1, "handle": {"spacing": 128}},
        "box": {"joint": joint, "bottom": bottom, "front": front},
    }
    return fit_job(job_from_mapping({"title": "Built", "drawer": [told]}), load_families(None)).drawers[0]


def _panel(fitted: FittedDrawer, name: str) -> Scene:
    return dict(panels(fitted))[name]


def _small(scene: Scene) -> Scene:
    return clear_lettering(scale_to_paper(scene, 1 / 3))


SVGS: dict[str, Callable[[], Scene]] = {
    "demo-sheet-both-units": lambda: drawer_sheet(_demo()["K1-2"], 281.0, 190.0, units="both"),
    "demo-bracket-right": lambda: tile(locking_bracket(_demo()["C1-2"], "right"), 194.0, 281.0)[0],
    "demo-row-holes-left-2": lambda: tile(row_holes(_demo()["K1-2"], "left"), 194.0, 281.0)[1],
    "demo-box-back-template": lambda: tile(back_template(_demo()["K1-2"]), 194.0, 281.0)[0],
    "demo-front-fixing": lambda: tile(front_fixing(_demo()["K1-2"]), 281.0, 194.0)[0],
    "side-dovetail": lambda: _small(_panel(_built("dovetail", "groove-4"), "box side left")),
    "side-rabbet": lambda: _small(_panel(_built("rabbet", "groove-3"), "box side right")),
    "sheet-dowel": lambda: drawer_sheet(_built("dowel", "under"), 281.0, 190.0),
}
MACHINED: dict[str, Callable[[], Scene]] = {
    "demo-column": lambda: cabinet_sides(_demo().values())[0].scene,
    "side-dowel": lambda: _panel(_built("dowel", "groove-4"), "box side left"),
    "back-dovetail": lambda: _panel(_built("dovetail", "groove-3"), "box back"),
    "front-from-behind": lambda: _panel(_built("butt", "groove-4"), "front"),
    "bottom-under": lambda: _panel(_built("rabbet", "under"), "bottom"),
}


@pytest.mark.parametrize("name", SVGS)
def test_a_drawing_of_the_demo_is_the_one_that_was_kept(name: str) -> None:
    compare(KEPT / f"{name}.svg", write_svg(SVGS[name]()))


@pytest.mark.parametrize("name", MACHINED)
def test_a_panel_of_the_demo_holds_what_was_kept(name: str) -> None:
    compare(KEPT / f"{name}.txt", entities(MACHINED[name]()))
