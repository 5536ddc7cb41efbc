"""The bench step of fixing the front: its place, figures, view and caution; ticks keep names."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.shown import Shown
from drawerwright.web.bench.steps import bench_steps, step_keys

Fit = Callable[..., FittedDrawer]


def test_the_front_is_fixed_after_the_click_and_before_it_is_adjusted(fit_one: Fit) -> None:
    keys = step_keys(fit_one(front={"style": "overlay"}))
    at = keys.index("fix-the-front")
    assert keys[at - 1 : at + 2] == ("click-then-tug-both-sides", "fix-the-front", "adjust")
    without = step_keys(fit_one())
    assert without == tuple(key for key in keys if key != "fix-the-front")


@pytest.mark.parametrize(("gap", "low"), [(1, "0.5 low"), (3, "1.5 low")])
def test_the_step_tells_screws_pilots_and_how_low(fit_one: Fit, gap: float, low: str) -> None:
    steps = {one.key: one for one in bench_steps(fit_one(front={"style": "inset", "gap": gap}), Shown())}
    fixing, adjusting = steps["fix-the-front"], steps["adjust"]
    told = dict(fixing.figures)
    assert told["Front fixed, mm"] == low
    assert told["Screws through the subfront, mm"] == "4, no longer than 31"
    assert any(name.startswith("In the front's back") for name in told)
    assert fixing.drawn == "front"
    assert [title for title, _ in fixing.cautions] == ["Saws and boring"]
    assert "Then the adjusters have, mm" in dict(adjusting.figures)
    assert "screws no longer than told here" in fixing.says


def test_a_front_that_closes_the_box_is_not_fixed(fit_one: Fit) -> None:
    assert "fix-the-front" not in step_keys(fit_one(front={"style": "overlay"}, box={"front": "integral"}))
