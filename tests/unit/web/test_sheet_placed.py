"""Where a sheet puts lines and words: leaders strike no number, workings hide none, remedies are near."""

from __future__ import annotations

from itertools import pairwise
from urllib.parse import urlencode

import pytest
from fastapi.testclient import TestClient

from drawerwright.drawing.drawn import drawn
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.pens import SHEET_UNIT
from drawerwright.drawing.primitives import Text
from drawerwright.drawing.scene import Dimension
from drawerwright.drawing.shown import Shown
from drawerwright.web.demo_job import demo_cabinet
from drawerwright.web.families import shipped_families
from drawerwright.web.fitting import answer_values
from drawerwright.web.quick_job import quick_values
from drawerwright.web.sheet.asked import Asked
from drawerwright.web.sheet.board import Board, compose_board
from drawerwright.web.sheet.page import told_words
from drawerwright.web.sheet.sheet import Sheet
from drawerwright.web.sheet.views import draw_views
from drawerwright.web.sheet.white import crossed

PLAIN = {"width": "562", "height": "168", "depth": "530", "side": "16", "contents": "20"}
OVERLAY = PLAIN | {"front.style": "overlay"}


def sheet_of(told: dict[str, str], show: str = "") -> Sheet:
    answer = answer_values(quick_values(told.items()), shipped_families())
    fitted = answer.drawers[0].fitted
    assert fitted is not None
    return Sheet(fitted, Asked("/", told, show=show))


def board_of(sheet: Sheet) -> Board:
    return compose_board(sheet.views, sheet.notes)


def numbers_of(board: Board) -> list[Bounds]:
    return [
        item.extent
        for group in drawn(board.scene)
        for item in group.items
        if isinstance(item, Text) and item.tone != "fine"
    ]


@pytest.mark.parametrize(
    "told",
    [
        PLAIN | {"front.style": "inset", "depth": "560"},
        OVERLAY | {"width": "1200", "height": "400", "depth": "800"},
        OVERLAY,
    ],
    ids=["inset", "large", "overlay"],
)
def test_a_leader_to_a_note_at_the_left_strikes_no_number(told: dict[str, str]) -> None:
    board = board_of(sheet_of(told))
    led = [one for one in board.notes if one.line and one.left < 10.0 and one.dot]
    assert led
    for one in led:
        assert not sum(crossed(a, b, numbers_of(board)) for a, b in pairwise(one.line)), one.note.id


@pytest.mark.parametrize("show", ["clearance_under", "box_height", "first_hole", "opening_height"])
def test_a_working_opens_over_no_number(show: str) -> None:
    sheet = sheet_of(OVERLAY, show)
    working = sheet.board.working
    assert working is not None
    box = working.box
    left, top = box.x * SHEET_UNIT, -box.y * SHEET_UNIT
    room = Bounds(left, top - box.height * SHEET_UNIT, left + box.width * SHEET_UNIT, top)
    assert not [one for one in numbers_of(board_of(sheet)) if one.overlaps(room)]


def test_what_stops_it_and_what_would_make_it_fit_stand_beside_the_verdict(client: TestClient) -> None:
    page = client.get(f"/?{urlencode(OVERLAY | {'height': '35'})}", headers={"accept": "text/html"}).text
    beside = page.partition("data-verdict")[2].partition("</div>")[0]
    assert "Box height" in beside
    assert "&amp;height=46" in beside or "height=46" in beside
    fits = client.get(f"/?{urlencode(OVERLAY)}", headers={"accept": "text/html"}).text
    assert 'class="why"' not in fits


def test_readings_longer_than_their_field_stand_under_it_in_full(client: TestClient) -> None:
    told = "front_top=568; front_bottom=561.8; back_top=561; back_bottom=561.2"
    page = client.get(f"/?{urlencode(OVERLAY | {'width': told})}", headers={"accept": "text/html"}).text
    assert f'data-in-full="12">{told}</span>' in page
    assert 'data-in-full="6" hidden>530</span>' in page
    assert f'value="{told}" size="{len(told)}"' in page


def test_unequal_overlays_are_told_with_their_edges() -> None:
    edges = {"left": "10", "right": "30", "top": "2", "bottom": "20"}
    sheet = sheet_of(OVERLAY | {f"front.overlay.{edge}": told for edge, told in edges.items()})
    assert "overlay left 10 right 30 top 2 bottom 20" in told_words(sheet.fitted.drawer, sheet.shown)
    assert told_words(sheet_of(OVERLAY).fitted.drawer, sheet.shown).endswith("overlay 16")


def test_a_front_that_ends_within_the_opening_is_dimensioned_without_a_sign() -> None:
    answer = answer_values(demo_cabinet(), shipped_families(), only="K1-2")
    fitted = answer.drawers[0].fitted
    assert fitted is not None
    assert fitted.front is not None
    assert min(fitted.front.top, fitted.front.bottom) < -0.5
    heights = [
        one
        for one in draw_views(fitted, Shown("mm")).scenes["front"].primitives
        if isinstance(one, Dimension) and one.quantity in ("overlay_top", "overlay_bottom")
    ]
    assert heights
    for one in heights:
        assert one.value == pytest.approx(abs(one.start[1] - one.end[1]))
