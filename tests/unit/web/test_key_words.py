"""Keys and values of a job as its pages word them."""

from __future__ import annotations

from typing import Any

import pytest
from fastapi.testclient import TestClient

from drawerwright.store import Conflict, Store
from drawerwright.web.pages.conflict import conflict_address
from drawerwright.web.schedule.columns import cabinet_keys, schedule_columns
from drawerwright.web.schedule.key_words import key_in_words, part_in_words, saved_in_words, value_in_words


@pytest.mark.parametrize(
    ("kind", "key", "words"),
    [
        ("drawer", "opening.width", "Opening width"),
        ("drawer", "opening.width.back_top", "Opening width, back top"),
        ("drawer", "opening", "Opening"),
        ("drawer", "side", "Sides"),
        ("drawer", "front.gap", "Front gap"),
        ("drawer", "box.joint", "Joints"),
        ("drawer", "box.edging", "Box edging"),
        ("cabinet", "inside_width", "Inside width"),
        ("", "units", "Lengths in"),
    ],
)
def test_a_key_is_called_as_the_field_that_holds_it(kind: str, key: str, words: str) -> None:
    assert key_in_words(kind, key) == words


def test_no_key_of_a_drawer_or_cabinet_is_shown_as_a_file_spells_it() -> None:
    told = [key_in_words("drawer", key) for key in schedule_columns()]
    told += [key_in_words("cabinet", key) for key in cabinet_keys()]
    assert not [words for words in told if "_" in words or "." in words]
    assert all(words[:1].isupper() for words in told)


@pytest.mark.parametrize(
    ("kind", "key", "value", "words"),
    [
        ("drawer", "opening.width", {"front_top": 562, "back_top": 561}, "front top 562, back top 561"),
        ("drawer", "opening.height", [168, 167.5], "168, 167.5"),
        ("drawer", "opening", {"width": 562, "height": 168}, "Opening width 562; Height 168"),
        ("drawer", "box.bottom", "groove-3", "back stands on it"),
        ("drawer", "box.bottom", "groove-4", "grooved all round"),
        ("drawer", "construction", "face-frame", "face frame"),
        ("drawer", "front.overlay", {"left": 16, "right": 8}, "Front overlay left 16; Front overlay right 8"),
        ("drawer", "contents", {"preset": "kitchen"}, "kitchen"),
        ("cabinet", "freestanding", True, "yes"),
        ("drawer", "note", None, ""),
        ("drawer", "note", "<b>oak</b>", "<b>oak</b>"),
        ("", "title", "Kitchen", "Kitchen"),
    ],
)
def test_a_value_is_shown_in_the_words_of_its_field(kind: str, key: str, value: Any, words: str) -> None:
    assert value_in_words(kind, key, value) == words


@pytest.mark.parametrize(
    ("what", "words"),
    [
        ("changed drawer A: opening.width, side", "changed drawer A: opening width, sides"),
        (
            "changed drawer A: front.gap, note, side and 2 more; moved 2 drawers",
            "changed drawer A: front gap, note, sides and 2 more; moved 2 drawers",
        ),
        ("changed defaults.front: gap", "changed for every drawer: front gap"),
        ("changed defaults.side", "changed for every drawer: sides"),
        (
            "added defaults.box; removed defaults.front",
            "added for every drawer: box; removed for every drawer: front",
        ),
        ("changed 3 defaults", "changed 3 values for every drawer"),
        ("changed cabinet B 1: first_row", "changed cabinet B 1: first row"),
        ("added drawer A; changed 2 drawers", "added drawer A; changed 2 drawers"),
        ("measured anew: see note.txt", "measured anew: see note.txt"),
        ("as it was in revision 1", "as it was in revision 1"),
    ],
)
def test_what_a_save_changed_is_told_in_the_same_words(what: str, words: str) -> None:
    assert saved_in_words(what) == words


def test_parts_have_names_that_people_read() -> None:
    assert part_in_words("defaults", "side") == "For every drawer"
    assert part_in_words("", "title") == "Title"
    assert part_in_words("cabinet", "B1") == "Cabinet B1"
    assert part_in_words("order", "drawer") == "Order of the drawers"


def test_a_conflict_and_a_comparison_show_no_key_and_no_table(client: TestClient, store: Store) -> None:
    opening = {"width": {"front_top": 562, "back_top": 561}, "height": 168, "depth": 530}
    base = {"defaults": {"box": {"joint": "dowel"}}, "drawer": [{"id": "A", "opening": opening, "side": 16}]}
    job = store.create_job(base).id

    def changed(top: float, joint: str) -> dict[str, Any]:
        width = {"front_top": top, "back_top": 561}
        drawer = {"id": "A", "opening": {**opening, "width": width}, "side": 16}
        return {"defaults": {"box": {"joint": joint}}, "drawer": [drawer]}

    store.save_job(job, changed(562.5, "dovetail"), based_on=1)
    with pytest.raises(Conflict) as raised:
        store.save_job(job, changed(561.5, "rabbet"), based_on=1)
    html = client.get(conflict_address(job, raised.value)).text
    assert '<th scope="row">Opening width, front top' in html
    assert "For every drawer" in html
    assert '<th scope="row">Joints' in html
    compared = client.get(f"/jobs/{job}/compare?from=1&to=2").text
    assert "Opening width, front top" in compared
    for page in (html, compared):
        assert "front_top" not in page
        assert "opening.width" not in page
        assert "defaults" not in page
    history = client.get(f"/jobs/{job}/history").text
    assert "for every drawer: joints" in history
