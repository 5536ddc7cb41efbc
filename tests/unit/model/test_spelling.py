from __future__ import annotations

import pytest

from drawerwright.model.faults import named_place
from drawerwright.model.spelling import nearest


@pytest.mark.parametrize(
    ("name", "close"),
    [("widht", "width"), ("DEPTH", "depth"), ("hight", "height"), ("zzz", "depth"), ("", "depth")],
)
def test_the_nearest_name_is_the_one_most_like_it(name: str, close: str) -> None:
    assert nearest(name, ["width", "height", "depth"]) == close


def test_nothing_is_near_when_nothing_is_known() -> None:
    assert nearest("width", []) == ""


@pytest.mark.parametrize(
    ("loc", "words"),
    [
        (("drawer", 0, "opening", "width"), "drawer B1 opening.width"),
        (("drawer", 0, "opening", "width", 1), "drawer B1 opening.width item 2"),
        (("drawer", 1, "side"), "drawer 2 side"),
        (("drawer", 2), "drawer item 3"),
        (("drawer", 9, "side"), "drawer item 10 side"),
        (("title",), "title"),
        ((), ""),
    ],
)
def test_a_place_is_named_by_ids_and_keys(loc: tuple[str | int, ...], words: str) -> None:
    data = {"drawer": [{"id": "B1", "opening": {"width": [1, 2]}}, {"id": True}, 3], "title": ""}
    assert named_place(loc, data) == words
