"""One slide for every drawer, chosen for the whole job."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from collections.abc import Iterator
from functools import partial
from pathlib import Path

import numpy as np

from benchmarks.measuring import Figure, seconds
from drawerwright.catalogue.families import load_families
from drawerwright.files import write_job_toml
from drawerwright.fit.whole_job import Aim, fit_whole_job
from drawerwright.model.job import Job

DRAWERS = 200
AIMS: tuple[Aim, ...] = ("fewest-lengths", "cheapest", "fewest-setups")
GOAL = 3.0


def figures() -> Iterator[Figure]:
    """Each aim with a limit of what to lose, which is the harder search; then the command from its start."""
    families, job = load_families(None), mixed_job(DRAWERS)
    for aim in AIMS:
        work = partial(fit_whole_job, job, families, aim=aim, lose_at_most=100.0)
        yield Figure(f"{aim} of {DRAWERS} drawers", seconds(work, times=3), "s", GOAL)
    yield _command(job)


def mixed_job(count: int, seed: int = 1) -> Job:
    """Drawers of an invented fit-out, no two openings alike."""
    draw = np.random.default_rng(seed)
    sizes = zip(
        draw.uniform(350, 900, count),
        draw.uniform(110, 320, count),
        draw.uniform(300, 620, count),
        draw.choice([12.7, 16.0, 16.0, 19.0], count),
        draw.choice([5.0, 20.0, 35.0], count),
        strict=True,
    )
    return Job.model_validate(
        {
            "drawer": [
                {
                    "id": f"D{number}",
                    "opening": {
                        "width": round(float(width), 1),
                        "height": round(float(height), 1),
                        "depth": round(float(depth), 1),
                    },
                    "side": float(side),
                    "contents": float(contents),
                    "front": {"style": "overlay", "thickness": 19},
                }
                for number, (width, height, depth, side, contents) in enumerate(sizes)
            ]
        }
    )


def _command(job: Job) -> Figure:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "job.toml"
        path.write_text(write_job_toml(job), encoding="utf-8")
        tool = str(Path(sys.executable).with_name("drawerwright"))
        command = [tool, "fit", str(path), "--fewest-lengths", "--json"]
        taken = seconds(lambda: subprocess.run(command, check=True, capture_output=True), times=3)
    return Figure(f"drawerwright fit --fewest-lengths --json, {DRAWERS} drawers", taken, "s", GOAL)
