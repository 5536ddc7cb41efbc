"""What every test shares: the same property examples each run, unless told otherwise."""

from __future__ import annotations

import importlib
import os
from collections.abc import Callable, Sequence
from typing import Any

import pytest
from hypothesis import settings

from drawerwright.fit import fit_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer, FittedJob
from drawerwright.model.job import Job

settings.register_profile("house", deadline=None, derandomize=True, max_examples=60)
settings.load_profile("house")


def plain_family(**keys: Any) -> SlideFamily:
    """A plain, invented family of the 16 class; common practice, no source. Keys override."""
    lengths = [
        {"nominal": nominal, "holes": [0, 32, 224, nominal - 84], "shelf_holes": [60, nominal - 100]}
        for nominal in (350, 400, 450, 500, 550)
    ]
    shared = {
        "id": "plain-16",
        "invented": True,
        "capacity": 45,
        "inside_width_deduction": 42,
        "rear_bracket": {"centre": 14, "reach": [0, 45]},
        "hardware_mass": 1.0,
        "length": lengths,
    }
    return SlideFamily.model_validate({**shared, **keys})


def plain_drawer(**keys: Any) -> dict[str, Any]:
    """Keys of a drawer in an opening of 562 × 168 × 530 with 16 mm sides. Keys override."""
    opening = {"width": 562, "height": 168, "depth": 530, **keys.pop("opening", {})}
    return {"id": "A", "opening": opening, "side": 16, **keys}


@pytest.fixture(scope="session")
def oracle() -> Callable[[str], Any]:
    """Bring in a module of the oracles' lock, or leave the test out where that lock is not installed.

    Where `DRAWERWRIGHT_ORACLES` is set, nothing may be left out: a missing oracle fails the test.
    """

    def bring(module: str) -> Any:
        try:
            return importlib.import_module(module)
        except ModuleNotFoundError:
            leave = pytest.fail if os.environ.get("DRAWERWRIGHT_ORACLES") else pytest.skip
            return leave(f"oracle lock not installed: pip install -r requirements-oracles.lock ({module})")

    return bring


@pytest.fixture
def family() -> Callable[..., SlideFamily]:
    """Maker of plain families."""
    return plain_family


@pytest.fixture
def fit_one() -> Callable[..., FittedDrawer]:
    """Fit one drawer, by keys of the job file, on the plain family or on `families`."""

    def fit(families: Sequence[SlideFamily] | None = None, **keys: Any) -> FittedDrawer:
        cabinets = [keys.pop("cabinet_keys")] if "cabinet_keys" in keys else []
        job = Job.model_validate({"cabinet": cabinets, "drawer": [plain_drawer(**keys)]})
        return fit_job(job, families or [plain_family()]).drawers[0]

    return fit


@pytest.fixture
def fit_many() -> Callable[..., FittedJob]:
    """Fit several drawers, each by its keys, on the plain family."""

    def fit(*drawers: dict[str, Any], cabinets: Sequence[dict[str, Any]] = ()) -> FittedJob:
        keys = {"cabinet": list(cabinets), "drawer": [plain_drawer(**drawer) for drawer in drawers]}
        return fit_job(Job.model_validate(keys), [plain_family()])

    return fit
