"""How a front is set, as the pages tell it."""

from __future__ import annotations

import re
from html import unescape
from typing import Any

import pytest
from fastapi.testclient import TestClient


def said(client: TestClient, **query: Any) -> str:
    asked = {"width": 562, "height": 168, "depth": 560, "side": 16, "contents": 10, **query}
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", client.get("/", params=asked).text)).split())


@pytest.mark.parametrize(("slide", "side"), [("auto", 16), ("heavy-19", 19)])
def test_an_inset_front_with_a_small_gap_is_never_set_below_its_opening(
    client: TestClient, slide: str, side: float
) -> None:
    told = said(client, slide=slide, side=side, **{"front.style": "inset", "front.gap": 1})
    assert "1 is kept beside the front; set 0.5 low it clears the opening." in told
    assert "Set the front 0.5 low, on shims of 0.5" in told
    assert "1.5 low" not in told
    assert "2 low" not in told


def test_an_overlay_front_is_not_set_deep_and_nothing_is_offered_inwards(client: TestClient) -> None:
    told = said(client, **{"front.style": "overlay"})
    assert "Set the front 1.5 low; its depth is where the members stand" in told
    assert "1.5 up, 1.5 down, 4 out; nothing inwards" in told
    assert "deep, " not in told.partition("Set the front")[2][:80]


def test_a_page_in_mm_tells_no_length_that_reads_as_inches(client: TestClient) -> None:
    told = said(client, **{"front.style": "inset", "lost.left": 12})
    drawer = told.partition("Bore and mount")[2].partition("Slides tried")[0]
    assert "7 from each end of the back" in drawer
    assert re.findall(r"\d in\b", drawer) == []
