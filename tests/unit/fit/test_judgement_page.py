"""The page on judgement is true: its jobs are read and answered as it says."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

from drawerwright.catalogue import load_families
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedDrawer

PAGE = (Path(__file__).resolve().parents[3] / "docs" / "judgement.md").read_text(encoding="utf-8")
JOBS = [tomllib.loads(block) for block in re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL)]
SPOKEN = " ".join(line.removeprefix("> ") for line in PAGE.splitlines() if line.startswith("> "))


def fitted(at: int) -> FittedDrawer:
    (one,) = fit_job(job_from_mapping(JOBS[at]), load_families(None)).drawers
    return one


def says(one: FittedDrawer, id_: str) -> str:
    return next(check.says for check in one.checks if check.id == id_)


def test_the_tray_hits_what_the_page_says() -> None:
    assert says(fitted(0), "way-out") == SPOKEN


def test_the_tray_runs_with_the_fillers_added_to_what_is_lost() -> None:
    drawer = {**JOBS[0]["drawer"][0], "lost": {"left": 12 + 7, "right": 4}}
    (one,) = fit_job(job_from_mapping({"drawer": [drawer]}), load_families(None)).drawers
    assert one.slide is not None


def test_the_alcove_is_packed_by_two_a_side() -> None:
    one = fitted(1)
    assert one.slide is not None
    assert one.mounting is not None
    assert one.mounting.rear_packing_left == one.mounting.rear_packing_right == 2
    assert {"rear packing left", "rear packing right"} <= {part.part for part in one.parts}
    assert {"opening-lean", "opening-square", "readings-agree"} <= {check.id for check in one.checks}


def test_the_trap_leaves_the_back_its_notches() -> None:
    one = fitted(2)
    assert one.slide is not None
    assert {"inner side", "inner back"} <= {part.part for part in one.parts}
