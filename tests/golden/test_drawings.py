"""Drawings compared with kept ones, byte for byte.

After a change that is meant, look at the new drawings and keep them: set KEEP_GOLDEN=1 for one run.
"""

from __future__ import annotations

import io
import os
from pathlib import Path

import ezdxf
import pytest

from drawerwright.drawing.dxf import write_dxf
from drawerwright.drawing.scene import Scene, scale_to_paper
from drawerwright.drawing.sheet import drawer_sheet
from drawerwright.drawing.svg import write_svg
from drawerwright.drawing.views.cabinet_side import cabinet_side
from drawerwright.drawing.views.cross_pieces import box_back
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import (
    BoxSizes,
    ChosenSlide,
    FittedDrawer,
    FrontSizes,
    Latch,
    Mounting,
    Part,
    ReadOpening,
    Rejected,
)
from drawerwright.model.job import Drawer

KEPT = Path(__file__).parent / "drawings"

FAMILY = SlideFamily.model_validate(
    {
        "id": "plain-16",
        "invented": True,
        "capacity": 45.0,
        "inside_width_deduction": 42.0,
        "length": [{"nominal": 500.0, "holes": [0, 32, 224, 256, 416], "slots": [16]}],
    }
)
HOLES = (37.0, 69.0, 261.0, 293.0, 453.0)


def _told(depth: float) -> Drawer:
    return Drawer.model_validate(
        {
            "id": "G1",
            "opening": {"width": [562, 561.5], "height": 168, "depth": depth},
            "side": 16,
            "front": {"style": "overlay"},
        }
    )


FITTING = FittedDrawer(
    drawer=_told(530),
    cabinet=None,
    opening=ReadOpening(561.5, 562.0, 168.0, 530.0, 0.0, (562.0, 561.5)),
    verdict="fits",
    slide=ChosenSlide(FAMILY, FAMILY.lengths[0], "side", (), ()),
    latch=Latch(0.0, 0.0),
    box=BoxSizes(551.5, 519.5, 140.0, 500.0, 16.0, 16.0, 16.0, 6.0, 6.0, 13.0, 5.0, 14.0, -1.0),
    mounting=Mounting(
        2.0, 500.0, HOLES, HOLES, (53.0,), (53.0,), (), 24.0, 0.0, None, None, None, None, 0.0, 0.0
    ),
    front=FrontSizes("overlay", 594.0, 182.5, 19.0, 16.0, 16.0, -1.5, 16.0, 1.0),
    parts=(
        Part("side", 2, 500.0, 140.0, 16.0, "length"),
        Part("back", 1, 519.5, 140.0, 16.0, "length"),
    ),
    mass=None,
    capacity=45.0,
    checks=(),
    changes=(),
    rejected=(Rejected("plain-16", 550.0, "side", "cabinet-depth", -25.0, "mm", ()),),
)
STOPPED = FittedDrawer(
    drawer=_told(240),
    cabinet=None,
    opening=ReadOpening(561.5, 562.0, 168.0, 240.0, 0.0, (562.0, 561.5)),
    verdict="does-not-fit",
    slide=None,
    latch=None,
    box=None,
    mounting=None,
    front=None,
    parts=(),
    mass=None,
    capacity=None,
    checks=(),
    changes=(),
    rejected=(
        Rejected("plain-16", 300.0, "side", "cabinet-depth", -65.0, "mm", (("cabinet-depth", -65.0, "mm"),)),
    ),
    nearest=ChosenSlide(FAMILY, FAMILY.lengths[0].model_copy(update={"nominal": 300.0}), "side", (), ()),
)

SVGS: dict[str, Scene] = {
    "sheet-fits": drawer_sheet(FITTING, 281.0, 190.0),
    "sheet-does-not-fit": drawer_sheet(STOPPED, 281.0, 190.0),
    "box-back": scale_to_paper(box_back(FITTING), 0.2),
}
PANELS: dict[str, Scene] = {
    "cabinet-side-right": cabinet_side(FITTING, "right"),
    "box-back": box_back(FITTING),
}


def compare(path: Path, made: str) -> None:
    if os.environ.get("KEEP_GOLDEN"):
        path.write_text(made, encoding="utf-8")
    assert path.read_text(encoding="utf-8") == made, f"{path.name} is drawn otherwise now: look at it"


@pytest.mark.parametrize("name", SVGS)
def test_a_drawing_is_the_one_that_was_kept(name: str) -> None:
    compare(KEPT / f"{name}.svg", write_svg(SVGS[name]))


@pytest.mark.parametrize("name", PANELS)
def test_a_panel_for_the_machine_holds_what_was_kept(name: str) -> None:
    compare(KEPT / f"{name}.txt", entities(PANELS[name]))


def entities(scene: Scene) -> str:
    """A DXF as a list of entities: its frame changes with the version of the library that makes it."""
    document = ezdxf.read(io.StringIO(write_dxf(scene).decode("utf-8")))  # type: ignore[attr-defined]
    lines = []
    for entity in document.modelspace():
        kind, layer = entity.dxftype(), entity.dxf.layer
        if layer in ("dimensions", "drawing hatching"):
            continue
        if kind == "CIRCLE":
            says = f"{entity.dxf.center.x:.3f} {entity.dxf.center.y:.3f} r {entity.dxf.radius:.3f}"
        elif kind == "LWPOLYLINE":
            says = " ".join(f"({x:.3f} {y:.3f} {b:.3f})" for x, y, b in entity.get_points("xyb"))
        elif kind == "LINE":
            a, b = entity.dxf.start, entity.dxf.end
            says = f"({a.x:.3f} {a.y:.3f}) ({b.x:.3f} {b.y:.3f})"
        else:
            says = f"{entity.dxf.insert.x:.3f} {entity.dxf.insert.y:.3f} {entity.dxf.text}"
        lines.append(f"{layer}: {kind} {says}\n")
    return "".join(lines)
