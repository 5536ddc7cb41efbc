"""Invented drawers, slides and openings that the benchmarks share."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from drawerwright.model.family import SlideFamily
from drawerwright.model.job import Drawer, Job

LENGTHS = (300, 350, 400, 450, 500, 550, 600)


def seven_lengths() -> SlideFamily:
    """One invented family of seven lengths."""
    return SlideFamily.model_validate(
        {
            "id": "plain-16",
            "invented": True,
            "capacity": 45,
            "inside_width_deduction": 42,
            "hardware_mass": 1.0,
            "length": [{"nominal": length, "holes": [0, 32, 224]} for length in LENGTHS],
        }
    )


def one_drawer() -> Drawer:
    """An overlay drawer with contents."""
    return Drawer.model_validate(_keys("A", 562.0))


def job_of(count: int) -> Job:
    """A job of drawers whose widths differ."""
    return Job.model_validate(
        {"drawer": [_keys(f"D{number}", 400 + number * 0.2) for number in range(count)]}
    )


def random_openings(count: int, seed: int = 1) -> tuple[NDArray[np.float64], ...]:
    """Widths, heights and depths [mm]."""
    draw = np.random.default_rng(seed)
    return draw.uniform(300, 900, count), draw.uniform(90, 300, count), draw.uniform(280, 700, count)


def _keys(id_: str, width: float) -> dict[str, object]:
    return {
        "id": id_,
        "opening": {"width": width, "height": 168, "depth": 530},
        "side": 16,
        "front": {"style": "overlay", "thickness": 19, "overlay": 16, "gap": 3},
        "contents": 20,
    }
