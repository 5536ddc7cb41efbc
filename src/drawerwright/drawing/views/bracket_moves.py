"""Moves drawn on the two brackets behind a front: an arrow where one turns, numbered in the order of work.

Up and sideways are arrows; out of the cabinet is a ring with a dot, the tip of an arrow that comes at one,
into it a ring with a cross, its feathers. The scene is in millimetres of paper, seen from the front.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from drawerwright.align.aligned import Move
from drawerwright.align.words import marks_words
from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.pens import CAPTION_SIZE, DIMENSION_SIZE, NOTE_SIZE
from drawerwright.drawing.primitives import Circle, Polyline, Text, line, polygon, rectangle
from drawerwright.drawing.scene import Primitive, Scene
from drawerwright.drawing.wording import plain_text
from drawerwright.model.gaps import Hand

WIDTH: Final = 132.0
BRACKET: Final = (16.0, 10.0)
"""Size in which a bracket is drawn [mm]. Own choice."""
_ROW: Final = 13.0
_SHAFT: Final = 9.0
_HEAD: Final = (3.2, 2.2)
_RING: Final = 2.6
_FROM_SIDE: Final = 22.0
_WORDS: Final[dict[tuple[str, bool], str]] = {
    ("side", True): "right",
    ("side", False): "left",
    ("height", True): "raise",
    ("height", False): "lower",
    ("depth", True): "out",
    ("depth", False): "in",
    ("tilt", True): "rear up",
    ("tilt", False): "rear down",
}


def bracket_moves(drawer: str, moves: Sequence[Move]) -> Scene:
    """The moves of one drawer's front on its left and right bracket, the first one on top."""
    tall = _ROW * max(len(moves), 1)
    drawn: list[Primitive] = [rectangle(Bounds(0.0, -BRACKET[1] - 6.0, WIDTH, tall + 6.0), "edge")]
    for hand in ("left", "right"):
        drawn += _bracket(_x(hand), hand)
    for number, move in enumerate(moves, 1):
        drawn += _row(number, move, tall - _ROW * (number - 0.5))
    if not moves:
        drawn.append(Text((WIDTH / 2, tall / 2), "nothing to turn", NOTE_SIZE, "middle"))
    drawn.append(
        Text((0.0, tall + 6.0), plain_text(drawer), CAPTION_SIZE, weight="semibold", shift=(0.0, 2.4))
    )
    drawn.append(
        Text((WIDTH, tall + 6.0), "seen from the front", NOTE_SIZE, "end", tone="mid", shift=(0.0, 2.4))
    )
    said = "; ".join(f"{number}. {move.says}" for number, move in enumerate(moves, 1)) or "nothing to turn"
    return Scene("bracket-moves", f"Moves of {drawer}", f"Brackets of {drawer}: {said}", tuple(drawn))


def _x(hand: Hand) -> float:
    return _FROM_SIDE if hand == "left" else WIDTH - _FROM_SIDE


def _bracket(x: float, hand: Hand) -> Iterator[Primitive]:
    """One bracket with its leg towards its side of the box; handed, as the pair is."""
    wide, high = BRACKET
    out = -1.0 if hand == "left" else 1.0
    yield polygon(
        (
            (x - out * wide / 2, -2.0 - high),
            (x + out * wide / 2, -2.0 - high),
            (x + out * wide / 2, -2.0),
            (x + out * (wide / 2 - 4.0), -2.0),
            (x + out * (wide / 2 - 4.0), -6.0),
            (x - out * wide / 2, -6.0),
        ),
        "outline",
        "metal",
    )
    letter = "L" if hand == "left" else "R"
    yield Text((x, -2.0 - high / 2), letter, DIMENSION_SIZE, "middle", weight="semibold", shift=(0.0, -3.4))


def _row(number: int, move: Move, y: float) -> Iterator[Primitive]:
    yield Circle((WIDTH / 2, y), 3.0, "fine", on_paper=True)
    yield Text((WIDTH / 2, y), str(number), DIMENSION_SIZE, "middle", shift=(0.0, -0.36 * DIMENSION_SIZE))
    hands: tuple[Hand, ...] = ("left", "right") if move.side == "both" else (move.side,)
    forward = move.marks > 0
    for hand in hands:
        x = _x(hand)
        yield from _arrow((x, y), move.adjuster, forward=forward)
        inward = 1.0 if hand == "left" else -1.0
        said = f"{_WORDS[move.adjuster, forward]} {marks_words(abs(move.marks))}"
        yield Text(
            (x + inward * 8.0, y),
            said,
            NOTE_SIZE,
            "start" if inward > 0 else "end",
            shift=(0.0, -0.36 * NOTE_SIZE),
        )


def _arrow(at: Point, adjuster: str, *, forward: bool) -> Iterator[Primitive]:
    x, y = at
    if adjuster == "depth":
        yield Circle(at, _RING, "outline", on_paper=True)
        if forward:
            yield Circle(at, 0.7, "outline", fill="ink", on_paper=True)
        else:
            reach = _RING * 0.7
            yield line((x - reach, y - reach), (x + reach, y + reach), "outline")
            yield line((x - reach, y + reach), (x + reach, y - reach), "outline")
        return
    sign = 1.0 if forward else -1.0
    dx, dy = (sign, 0.0) if adjuster == "side" else (0.0, sign)
    half, (long, wide) = _SHAFT / 2, _HEAD
    tip = (x + dx * half, y + dy * half)
    neck = (tip[0] - dx * long, tip[1] - dy * long)
    yield Polyline(((x - dx * half, y - dy * half), neck), "outline")
    across = (dy * wide / 2, dx * wide / 2)
    wings = ((neck[0] + across[0], neck[1] + across[1]), (neck[0] - across[0], neck[1] - across[1]))
    yield polygon((tip, *wings), "outline", "ink")
