"""The page on carrying tells every key of the JSON, every check and every capacity."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from drawerwright.carry import CarriedJob, carry_document, carry_drawer
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer

PAGE = (Path(__file__).resolve().parents[3] / "docs" / "carry.md").read_text(encoding="utf-8")


@pytest.fixture
def told(
    fit_one: Callable[..., FittedDrawer], family: Callable[..., SlideFamily]
) -> tuple[dict[str, Any], list[str]]:
    """One drawer of which everything is known, and the checks that are this page's."""
    sections = [
        {
            "member": member,
            "points": [[20, 12], [0, 12], [0, 0], [20, 0]],
            "thickness": 1.2,
            "steel": {"yield": 280},
        }
        for member in ("cabinet", "intermediate", "drawer")
    ]
    whole = family(
        carriages={"lower": [130, 370], "upper": [130, 370]},
        carriages_for=500,
        roller={"stiffness": 4000, "play": 0.1, "carries": 500},
        profile=sections,
        sag_limit=5,
        evidence=[{"standard": "a test", "load": 50}],
    )
    one = carry_drawer(fit_one([whole], contents=20, front={"style": "overlay"}), off_centre=10.0)
    return carry_document(CarriedJob("", (one,)))["drawers"][0], [check.id for check in one.checks]


def test_every_key_stands_on_the_page(told: tuple[dict[str, Any], list[str]]) -> None:
    document, _ = told
    keys = [
        *document,
        *document["sag_shares"],
        *document["rollers"],
        *(one["name"] for one in document["capacities"]),
    ]
    assert [key for key in keys if f"`{key}`" not in PAGE] == []


def test_every_check_stands_on_the_page_and_no_other(told: tuple[dict[str, Any], list[str]]) -> None:
    _, checks = told
    table = PAGE.split("## Checks")[1].split("\n## ")[0]
    named = [
        name
        for row in re.findall(r"^\| (`.*?) \|", table, re.MULTILINE)
        for name in re.findall(r"`([^`]+)`", row)
    ]
    assert named == checks
