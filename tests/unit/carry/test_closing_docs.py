"""The pages on closing and tipping tell every key and every check."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from drawerwright.carry.closing import closing_document, closing_of
from drawerwright.carry.tipping import tipping_of
from drawerwright.carry.tipping_document import tipping_document
from drawerwright.model.cabinet import Cabinet
from drawerwright.model.family import SoftClose

DOCS = Path(__file__).resolve().parents[3] / "docs"
UNIT = SoftClose(capture=50, pull_in=8, spring=0.2, damping=0.1, drag=0.008)
CABINET = Cabinet.model_validate(
    {"id": "C", "freestanding": True, "size": {"width": 600, "height": 800, "depth": 550}, "mass": 40}
)


def closing_told() -> tuple[dict[str, Any], list[str]]:
    closing = closing_of(20, UNIT, travel=500)
    assert closing is not None
    return closing_document(closing), [check.id for check in closing.checks]


def tipping_told() -> tuple[dict[str, Any], list[str]]:
    tipping = tipping_of(CABINET, [])
    assert tipping is not None
    return tipping_document(tipping), [check.id for check in tipping.checks]


@pytest.mark.parametrize(("page", "told"), [("closing.md", closing_told), ("tipping.md", tipping_told)])
def test_every_key_and_check_stands_on_its_page(
    page: str, told: Callable[[], tuple[dict[str, Any], list[str]]]
) -> None:
    text = (DOCS / page).read_text(encoding="utf-8")
    document, checks = told()
    assert checks
    assert [name for name in [*document, *checks] if f"`{name}`" not in text] == []
