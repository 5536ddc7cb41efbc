"""A drawer's own cautions, odd parts and numbers with their datum stand at its steps on the bench."""

from __future__ import annotations

from typing import Any

import pytest
from fastapi.testclient import TestClient

from drawerwright.catalogue import load_families
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.mounting_sheet import rows_of
from drawerwright.pack.shown import Shown
from drawerwright.store import Store
from drawerwright.web.bench.steps import BenchStep, bench_steps
from drawerwright.web.fitting import read_values

FRAMED = {
    "id": "F1",
    "construction": "face-frame",
    "opening": {"width": "21 3/4 in", "height": "7 1/4 in", "depth": "22 1/2 in"},
    "frame": {"left": "1 1/2 in", "right": "1 1/2 in", "thickness": "3/4 in"},
    "front": {"style": "inset", "thickness": "3/4 in", "gap": "3/32 in"},
    "side": "1/2 in",
    "contents": "30 lb",
}
ON_SHELF = {
    "id": "T1",
    "opening": {"width": 562, "height": 168, "depth": 530},
    "side": 16,
    "mount": "shelf",
    "contents": "10 kg",
}
PLAIN = {"id": "A1", "opening": {"width": 562, "height": 168, "depth": 530, "floor": 18}, "side": 16}
"""Drawers of an invented job."""


def fitted(drawer: dict[str, Any]) -> FittedDrawer:
    return fit_job(read_values({"drawer": [drawer]}), load_families()).drawers[0]


def steps_of(drawer: dict[str, Any]) -> dict[str, BenchStep]:
    return {step.key: step for step in bench_steps(fitted(drawer), Shown())}


@pytest.mark.parametrize("drawer", [FRAMED, ON_SHELF])
def test_every_check_to_watch_of_a_drawer_is_said_at_some_step_before_it_is_loaded(
    drawer: dict[str, Any],
) -> None:
    watched = [one.says for one in fitted(drawer).checks if one.state == "watch"]
    assert watched
    said = [says for step in steps_of(drawer).values() for _, says in step.cautions]
    assert set(watched) <= set(said)


def test_a_loose_shelf_is_told_where_it_is_marked_and_where_it_is_screwed() -> None:
    steps = steps_of(ON_SHELF)
    for key in ("measure-and-mark", "lock-them"):
        assert any("never on loose pins" in says for _, says in steps[key].cautions)
    assert "through the bottom of each member into the shelf, 62, 402 behind" in steps["lock-them"].says
    assert "front hole, 62 behind the cabinet's front edge" in steps["slots-first"].says
    assert not any("slot" in (step.says + step.title).lower() for step in steps.values())


def test_behind_a_frame_the_front_screw_and_its_blocks_have_a_place() -> None:
    steps = steps_of(FRAMED)
    told = fitted(FRAMED)
    assert told.slide is not None
    assert told.mounting is not None
    screw = f"{told.mounting.front_end + told.slide.family.front_fix:.1f}"  # behind the face of the frame
    figures = dict(steps["slots-first"].figures)
    assert figures["Front screw, mm behind the face of the frame"] == screw
    block = dict(steps["packing-and-rear-brackets"].figures)["Blocks behind the stiles, mm"]
    assert block.startswith("L 38.1, R 38.1 thick, from the cabinet side")
    assert "middle 30 up" in block
    assert f"past the screw at {screw} behind the face of the frame" in block
    assert "round hole" not in steps["lock-them"].says
    assert any("depth stop" in says for _, says in steps["hang-the-drawer"].cautions)


def test_figures_say_what_they_are_counted_from() -> None:
    names = {name for step in steps_of(PLAIN).values() for name, _ in step.figures}
    assert "Screw line, mm above the cabinet floor" in names
    assert "Front end, mm behind the cabinet's front edge" in names
    assert "Round holes, mm behind the cabinet's front edge" in names
    named = {name for step in steps_of(FRAMED).values() for name, _ in step.figures}
    assert "Screw line, mm above the opening's lower edge" in named
    assert "Front end, mm behind the face of the frame" in named


def test_the_first_drawer_has_no_dead_button(client: TestClient, store: Store) -> None:
    job = store.create_job({"drawer": [PLAIN]}).id
    html = client.get(f"/jobs/{job}/bench/A1").text
    assert ">–</span>" not in html
    assert "button big none" not in html


def test_the_mounting_table_tells_where_the_blocks_go_and_only_where_they_are_wanted() -> None:
    headings, rows = rows_of([fitted(FRAMED)], Shown())
    cells = dict(zip((one["name"] for one in headings), rows[0]["cells"], strict=True))
    told = cells["Packing, rear brackets, spacers"]
    assert "blocks L 38.1, R 38.1 thick, middle 30 up, 19.1 to past 30.1 deep" in told
    overlay = {**FRAMED, "front": {"style": "overlay"}}
    assert all("block" not in cell for row in rows_of([fitted(overlay)], Shown())[1] for cell in row["cells"])
