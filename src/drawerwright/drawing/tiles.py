"""A drawing at true size cut into pages that are laid together again: tiles.

Neighbouring pages show the same strip, `overlap` wide. In the middle of it runs the joining line with
diamonds on it, on both pages at the same place of the drawing: one page is cut along it and laid on the
other, diamond on diamond. Joining lines keep clear of holes where there is room. Every page carries its
row and column, what it belongs to, and two bars to lay a rule on: 100 mm and 4 in. Rows count from the top.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from drawerwright.drawing.clipping import clip, contains
from drawerwright.drawing.drawn import drawn, extent
from drawerwright.drawing.geometry import Bounds, Placement, Point
from drawerwright.drawing.pens import CAPTION_SIZE, NOTE_SIZE
from drawerwright.drawing.primitives import Hole, Lines, Plain, Slot, Text, line, polygon
from drawerwright.drawing.scene import Primitive, Scene

STRIP: Final = 22.0
"""Height of the strip at a page's foot that carries its check bars and words [mm]. Own choice."""
LEAST_WIDTH: Final = 150.0
"""Narrowest page that holds the check bars and the words beside them [mm]. Own choice."""
LEAST_HEIGHT: Final = 80.0
"""Lowest page [mm]. Own choice."""
CHECK_BARS: Final[tuple[tuple[str, float, float], ...]] = (("100 mm", 100.0, 11.2), ("4 in", 101.6, 4.0))
"""Words, length and height above the page's lower edge of each check bar [mm]. 1 in = 25.4 mm, exact."""
JOINING_LAYER: Final = "joining lines"
_BAR_LEFT = 2.0
_EDGE = 0.5
_CLEAR_OF_HOLES = 4.0
_DIAMOND = 3.2


@dataclass(frozen=True, slots=True)
class Tile:
    """One page: `window` is what it shows of the drawing, moved by `shift` onto the page [mm].

    `row` counts from the top and `column` from the left, from 1, out of `rows` and `columns`.
    """

    scene: Scene
    window: Bounds
    shift: Point
    row: int
    column: int
    rows: int
    columns: int


def tile(
    scene: Scene, page_width_mm: float, page_height_mm: float, overlap_mm: float = 12.0
) -> tuple[Scene, ...]:
    """The pages of a drawing at true size, row by row from the top; one page where it fits whole.

    The page is what the printer can print on: margins are the caller's. Each page's scene is at true size
    and its `page` goes from (0, 0) to (page_width_mm, page_height_mm).

    Raises:
        ValueError: the scene is not at true size, the page is too small, or the overlap does not fit it.
    """
    return tuple(each.scene for each in tiles(scene, page_width_mm, page_height_mm, overlap_mm))


def page_count(scene: Scene, page_width_mm: float, page_height_mm: float, overlap_mm: float = 12.0) -> int:
    """How many pages `tile` makes: what tells whether paper is better laid across or upright.

    Raises:
        ValueError: as `tile`.
    """
    columns, rows = _joins(scene, page_width_mm, page_height_mm, overlap_mm)
    return (len(columns) - 1) * (len(rows) - 1)


def tiles(
    scene: Scene, page_width_mm: float, page_height_mm: float, overlap_mm: float = 12.0
) -> tuple[Tile, ...]:
    """As `tile`, each page with its window on the drawing and its place among the others.

    Raises:
        ValueError: as `tile`.
    """
    columns, rows = _joins(scene, page_width_mm, page_height_mm, overlap_mm)
    groups = [item for group in drawn(scene) for item in group.items]
    count_across, count_down = len(columns) - 1, len(rows) - 1
    half = overlap_mm / 2
    windows = {
        (row, column): Bounds(
            columns[column] - (half if column else 0.0),
            rows[count_down - row - 1] - (half if row < count_down - 1 else 0.0),
            columns[column + 1] + (half if column < count_across - 1 else 0.0),
            rows[count_down - row] + (half if row else 0.0),
        )
        for row in range(count_down)
        for column in range(count_across)
    }
    lettering = _lettering(groups, windows)
    found = []
    for (row, column), window in windows.items():
        middle, up = window.centre
        shift = (page_width_mm / 2 - middle, STRIP + (page_height_mm - STRIP) / 2 - up)
        seen: list[Primitive] = [*lettering[row, column]]
        seen += [part for item in groups if not isinstance(item, Text) for part in clip(item, window)]
        seen += _joining(window, columns, rows, row, column)
        moved = [each.placed(Placement(dx=shift[0], dy=shift[1])) for each in seen]
        place = _place(row, column, count_down, count_across)
        page = Bounds(0.0, 0.0, page_width_mm, page_height_mm)
        many = count_down * count_across > 1
        made = Scene(
            f"{scene.name}-{row + 1}-{column + 1}" if many else scene.name,
            f"{scene.title}, {place}" if many else scene.title,
            f"{scene.alt}. {place.capitalize()}" if many else scene.alt,
            (*moved, *_strip(scene.title, place, page_width_mm)),
            page=page,
        )
        found.append(Tile(made, window, shift, row + 1, column + 1, count_down, count_across))
    return tuple(found)


def _joins(
    scene: Scene, page_width: float, page_height: float, overlap: float
) -> tuple[list[float], list[float]]:
    """Where the pages join, the drawing's own edges first and last: along x, then along y."""
    if not math.isclose(scene.scale, 1.0, rel_tol=1e-12):
        raise ValueError(f"pages are cut at true size, and {scene.name!r} is at scale {scene.scale:g}")
    if page_width < LEAST_WIDTH or page_height < LEAST_HEIGHT:
        raise ValueError(
            f"a page of {page_width:g} × {page_height:g} mm is too small: "
            f"{LEAST_WIDTH:g} × {LEAST_HEIGHT:g} is the least"
        )
    if not 0.0 < overlap <= (min(page_width, page_height) - STRIP) / 3:
        raise ValueError(f"an overlap lies above 0 and within a third of the page, not {overlap:g} mm")
    around = extent(scene).grown(_EDGE)
    holes = [each for each in scene.primitives if isinstance(each, Hole | Slot)]
    across = [(min(x for x, _ in h.points), max(x for x, _ in h.points)) for h in holes]
    up = [(min(y for _, y in h.points), max(y for _, y in h.points)) for h in holes]
    return (
        _join_places(around.left, around.right, page_width, overlap, across),
        _join_places(around.bottom, around.top, page_height - STRIP, overlap, up),
    )


def _join_places(
    low: float, high: float, room: float, overlap: float, holes: Sequence[tuple[float, float]]
) -> list[float]:
    """Edges of equal parts that fit the room, moved aside by whole mm to keep clear of holes."""
    if high - low <= room + 1e-9:
        return [low, high]
    count = math.ceil((high - low - overlap) / (room - overlap) - 1e-9)
    places = [low]
    for left_over in range(count - 1, 0, -1):
        farthest = places[-1] + room - overlap / 2 - (overlap / 2 if len(places) > 1 else 0.0)
        nearest = high - left_over * (room - overlap) - overlap / 2
        even = places[-1] + (high - places[-1]) / (left_over + 1)
        wanted = min(max(even, nearest), farthest)
        tries = [wanted, *(wanted + way * by for by in range(1, 60) for way in (-1, 1))]
        clear = (
            at
            for at in tries
            if nearest <= at <= farthest
            and all(at < a - _CLEAR_OF_HOLES or at > b + _CLEAR_OF_HOLES for a, b in holes)
        )
        places.append(next(clear, wanted))
    return [*places, high]


def _lettering(
    items: Iterable[Plain], windows: dict[tuple[int, int], Bounds]
) -> dict[tuple[int, int], list[Text]]:
    """Lettering by page: on every page that holds the whole of it, else moved into the one that it is on."""
    found: dict[tuple[int, int], list[Text]] = {place: [] for place in windows}
    for text in items:
        if not isinstance(text, Text):
            continue
        area = text.extent
        whole = [place for place, window in windows.items() if contains(window, area)]
        for place in whole:
            found[place].append(text)
        if not whole:
            place, window = max(windows.items(), key=lambda pair: _shared(pair[1], area))
            across = max(window.left - area.left, 0.0) - max(area.right - window.right, 0.0)
            up = max(window.bottom - area.bottom, 0.0) - max(area.top - window.top, 0.0)
            found[place].append(text.placed(Placement(dx=across, dy=up)))
    return found


def _shared(window: Bounds, area: Bounds) -> float:
    across = min(window.right, area.right) - max(window.left, area.left)
    up = min(window.top, area.top) - max(window.bottom, area.bottom)
    return max(across, 0.0) * max(up, 0.0)


def _place(row: int, column: int, rows: int, columns: int) -> str:
    """A page's number in words."""
    if rows * columns == 1:
        return "page 1 of 1"
    number = row * columns + column + 1
    return f"page {number} of {rows * columns}: row {row + 1}, column {column + 1}"


def _joining(
    window: Bounds, columns: Sequence[float], rows: Sequence[float], row: int, column: int
) -> list[Primitive]:
    """Joining lines with their diamonds and what to do at each."""
    drawn_here: list[Primitive] = []
    middle = window.centre[0]
    across, down = len(columns) - 1, len(rows) - 1
    number = row * across + column + 1
    for edge, neighbour in ((column, number - 1), (column + 1, number + 1)):
        if 0 < edge < across:
            x = columns[edge]
            places = tuple((x, window.bottom + window.height * k) for k in (0.2, 0.8))
            drawn_here.append(line((x, window.bottom), (x, window.top), "centre", JOINING_LAYER))
            drawn_here += [_diamond(place) for place in places]
            first = edge == column
            words = "cut along this line" if first else f"page {neighbour} up to this line"
            shift = (1.5, 0.0) if first else (-1.5, 0.0)
            at = (x, window.top - NOTE_SIZE)
            drawn_here.append(
                Text(at, words, NOTE_SIZE, "start" if first else "end", tone="fine", shift=shift, backed=True)
            )
    for edge, neighbour in ((row, number - across), (row + 1, number + across)):
        if 0 < edge < down:
            y = rows[down - edge]
            places = tuple((window.left + window.width * k, y) for k in (0.2, 0.8))
            drawn_here.append(line((window.left, y), (window.right, y), "centre", JOINING_LAYER))
            drawn_here += [_diamond(place) for place in places]
            first = edge == row
            words = "cut along this line" if first else f"page {neighbour} up to this line"
            shift = (0.0, -NOTE_SIZE) if first else (0.0, 1.2)
            drawn_here.append(
                Text((middle, y), words, NOTE_SIZE, "middle", tone="fine", shift=shift, backed=True)
            )
    return drawn_here


def _diamond(at: Point) -> Primitive:
    x, y = at
    corners = ((x - _DIAMOND, y), (x, y - _DIAMOND), (x + _DIAMOND, y), (x, y + _DIAMOND))
    return polygon(corners, "dimension", layer=JOINING_LAYER)


def _strip(title: str, place: str, width: float) -> list[Primitive]:
    """The page's foot: what it belongs to, its place, and the two bars to check the printing by."""
    top = STRIP - 1.0
    words_y = top - 4.2
    name = Text((_BAR_LEFT, words_y), title, CAPTION_SIZE, weight="semibold")
    drawn_here: list[Primitive] = [
        line((0.0, top), (width, top), "fine", "foot of the page"),
        name,
        Text((width - 2.0, words_y), place, CAPTION_SIZE, "end", "semibold"),
    ]
    for words, length, y in CHECK_BARS:
        drawn_here += [
            _bar(words, length, y),
            Text(
                (_BAR_LEFT + length, y), words, NOTE_SIZE, weight="semibold", shift=(3.0, -NOTE_SIZE * 0.35)
            ),
        ]
    says = ("Print at 100 %, not fitted to the page.", "Lay a rule on both bars before use.")
    for row, text in enumerate(says):
        drawn_here.append(Text((width - 2.0, 9.2 - row * 4.4), text, NOTE_SIZE, "end", tone="fine"))
    return drawn_here


def _bar(words: str, length: float, y: float) -> Lines:
    """A bar with a tick at each end and shorter ones at its tenths, or its inches."""
    parts = 4 if words.endswith("in") else 10
    right = _BAR_LEFT + length
    ticks = [(_BAR_LEFT, 2.0), (right, 2.0)]
    ticks += [(_BAR_LEFT + length * k / parts, 0.9) for k in range(1, parts)]
    lines = [((_BAR_LEFT, y), (right, y)), *(((x, y - half), (x, y + half)) for x, half in ticks)]
    return Lines(tuple(lines), "outline", f"check bar {words}")
