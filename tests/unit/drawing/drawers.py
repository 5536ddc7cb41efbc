"""Drawers of every kind the views must draw, fitted with one plain family; an invented scenario."""

from __future__ import annotations

from functools import cache
from typing import Any

from drawerwright.catalogue import families_from_mappings
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedDrawer

PLAIN: dict[str, Any] = {
    "id": "plain-16",
    "title": "Plain slide for sides up to 16 mm (invented)",
    "units": "mm",
    "invented": True,
    "capacity": "45 kg",
    "inside_width_deduction": 42,
    "rear_bracket": {"centre": 14, "reach": [0, 45]},
    "length": [
        {"nominal": 300, "holes": [0, 32, 128, 160, 224], "slots": [16]},
        {
            "nominal": 500,
            "holes": [0, 32, 224, 256, 416],
            "slots": [16],
            "shelf_holes": [60, 400],
        },
        {"nominal": 550, "holes": [0, 32, 256, 288, 480], "slots": [16]},
    ],
}

OPENING = {"width": 562, "height": 168, "depth": 530}
FRAME = {"left": 38, "right": 41, "thickness": 19}

TOLD: dict[str, dict[str, Any]] = {
    "overlay": {
        "opening": {**OPENING, "width": [562, 561.5]},
        "front": {"style": "overlay"},
        "box": {"heights": [80, 110, 140]},
    },
    "inset": {"opening": OPENING, "front": {"style": "inset"}},
    "none": {"opening": OPENING},
    "thin": {"opening": {**OPENING, "depth": 560}, "side": 12.7, "front": {"style": "overlay"}},
    "thin-outside": {
        "opening": {"width": 300, "height": 90, "depth": 560},
        "side": 12.7,
        "size_from": "outside",
    },
    "frame": {
        "opening": OPENING,
        "construction": "face-frame",
        "frame": FRAME,
        "front": {"style": "overlay", "overlay": 12},
    },
    "frame-packed-inset": {
        "opening": OPENING,
        "construction": "face-frame",
        "frame": {**FRAME, "lap": 6},
        "mount": "packed",
        "front": {"style": "inset"},
    },
    "lost": {"opening": OPENING, "lost": {"left": 20, "right": 5}},
    "high-row": {
        "opening": {**OPENING, "floor": 186},
        "cabinet": "B1",
        "row": 2,
        "front": {"style": "overlay"},
    },
    "low-row": {"opening": OPENING, "cabinet": "B1", "row": 1, "front": {"style": "overlay"}},
    "dovetail": {
        "opening": OPENING,
        "front": {"style": "overlay"},
        "box": {"joint": "dovetail", "bottom": "groove-3"},
    },
    "bottom-under": {"opening": OPENING, "box": {"joint": "rabbet", "bottom": "under"}},
    "integral": {"opening": OPENING, "front": {"style": "inset"}, "box": {"front": "integral"}},
    "existing": {
        "opening": OPENING,
        "existing_box": {"inside_width": 520.0, "outside_width": 552.0, "length": 500, "height": 120},
    },
    "piped": {
        "opening": {**OPENING, "width": 762},
        "front": {"style": "overlay"},
        "box": {"bottom": "groove-3"},
        "cut_out": {"width": 260, "depth": 230, "from_left": 200},
    },
    "piped-under": {
        "opening": {**OPENING, "width": 762},
        "box": {"bottom": "under", "joint": "dovetail"},
        "cut_out": {"width": 580, "depth": 110},
    },
    "too-shallow": {"opening": {**OPENING, "depth": 240}, "front": {"style": "overlay"}},
    "too-low": {"opening": {**OPENING, "height": 40}},
    "too-thick": {"opening": OPENING, "side": 22},
}
FITTING = tuple(name for name in TOLD if not name.startswith("too-"))
NOT_FITTING = tuple(name for name in TOLD if name.startswith("too-"))


def fit(name: str, told: dict[str, Any]) -> FittedDrawer:
    """One drawer, fitted."""
    job = {
        "title": "Views",
        "cabinet": [{"id": "B1", "first_row": 56}],
        "drawer": [{"id": name, "side": 16, **told}],
    }
    return fit_job(job_from_mapping(job), families_from_mappings([PLAIN])).drawers[0]


@cache
def fitted(name: str) -> FittedDrawer:
    """One of the drawers above, fitted."""
    return fit(name, TOLD[name])
