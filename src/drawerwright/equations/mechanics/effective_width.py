"""Effective width of thin flats in compression, and the effective section that is left in bending.

mm, N/mm². A flat that would buckle counts with less than its width. Source of the form: AISI S100, appendix 1
(older B2.1), its clauses from memory; figures checked against worked examples that are printed.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Final, TypeAlias

from drawerwright.equations.mechanics.midlines import Element, Flat, Point
from drawerwright.equations.mechanics.rolled_sections import SectionProperties, section_properties

_StressAt: TypeAlias = Callable[[float], float]

BOTH_EDGES_HELD: Final = 4.0
"""Buckling coefficient of a flat with a bend along both edges, evenly pressed; S100, from memory."""
ONE_EDGE_FREE: Final = 0.43
"""Buckling coefficient of a flat with one free edge; S100, printed in the worked example."""
_ROUNDS: Final = 60
_SETTLED: Final = 1e-9


def web_coefficient(pressed: float, pulled: float) -> float:
    """Buckling coefficient of a flat pressed at one edge and pulled, or pressed less, at the other.

    `pressed` > 0 is the larger compression, `pulled` the stress at the other edge, tension positive.
    """
    ratio = 1.0 + pulled / pressed
    return 2.0 * ratio**3 + 2.0 * ratio + BOTH_EDGES_HELD


def slenderness(width: float, thickness: float, stress: float, modulus: float, coefficient: float) -> float:
    """Slenderness of a flat [1]: λ = 1.052/√k · w/t · √(f/E)."""
    return 1.052 / math.sqrt(coefficient) * width / thickness * math.sqrt(stress / modulus)


def effective_share(slender: float) -> float:
    """Share of a flat's width that counts: 1 up to λ = 0.673, then (1 − 0.22/λ)/λ."""
    return 1.0 if slender <= 0.673 else min((1.0 - 0.22 / slender) / slender, 1.0)


def effective_section(
    elements: Sequence[Element], thickness: float, stress: float, modulus: float, *, top_pressed: bool
) -> SectionProperties:
    """The section [mm] that counts in bending about the horizontal axis.

    `stress` > 0 is that of the outermost fibre on the pressed side, the top or the bottom one. What counts
    moves the neutral axis, and that what counts: stepped until it stands still.
    """
    sign = 1.0 if top_pressed else -1.0
    found = section_properties(elements, thickness)
    for _ in range(_ROUNDS):
        outermost = found.above if top_pressed else found.below

        def stress_at(
            height: float, axis: float = found.y, outermost: float = outermost, sign: float = sign
        ) -> float:
            return stress * sign * (height - axis) / outermost

        left = [
            part
            for one in elements
            for part in (
                [one] if not isinstance(one, Flat) else _counting(one, thickness, modulus, stress_at)
            )
        ]
        before, found = found.y, section_properties(left, thickness)
        if abs(found.y - before) <= _SETTLED:
            break
    return found


def is_fully_effective(
    elements: Sequence[Element], thickness: float, stress: float, modulus: float, *, top_pressed: bool
) -> bool:
    """Whether every flat counts with its whole width at that stress."""
    whole = section_properties(elements, thickness)
    left = effective_section(elements, thickness, stress, modulus, top_pressed=top_pressed)
    return left.area >= whole.area * (1.0 - 1e-9)


def _counting(flat: Flat, thickness: float, modulus: float, stress_at: _StressAt) -> list[Element]:
    """The parts of a flat that count."""
    at_start, at_end = stress_at(flat.start[1]), stress_at(flat.end[1])
    pressed = max(at_start, at_end)
    if pressed <= 0.0:
        return [flat]
    if not (flat.held_at_start and flat.held_at_end):
        share = effective_share(slenderness(flat.length, thickness, pressed, modulus, ONE_EDGE_FREE))
        kept = share * flat.length
        if share >= 1.0 or not (flat.held_at_start or flat.held_at_end):
            return [flat] if share >= 1.0 else [_piece(flat, (flat.length - kept) / 2, kept)]
        return [_piece(flat, 0.0 if flat.held_at_start else flat.length - kept, kept)]
    ratio = -min(at_start, at_end) / pressed
    coefficient = web_coefficient(pressed, -min(at_start, at_end))
    share = effective_share(slenderness(flat.length, thickness, pressed, modulus, coefficient))
    if share >= 1.0:
        return [flat]
    return _both_edges(flat, share * flat.length, ratio, from_start=at_start >= at_end)


def _both_edges(flat: Flat, kept: float, ratio: float, *, from_start: bool) -> list[Element]:
    """What counts of a flat held along both edges, `ratio` the tension over the compression at its edges.

    One piece at the edge that is pressed most, of b/(3 + ψ), and one that ends where compression does.
    """
    length = flat.length
    pressed = length / (1.0 + ratio) if ratio > 0.0 else length
    near = kept / (3.0 + ratio)
    far = kept / 2 if ratio > 0.236 else kept - near
    if near + far >= pressed:
        return [flat]
    pieces = [(0.0, near), (pressed - far, length - pressed + far)]
    if not from_start:
        pieces = [(length - begin - size, size) for begin, size in reversed(pieces)]
    return [_piece(flat, begin, size) for begin, size in pieces if size > 0.0]


def _piece(flat: Flat, begin: float, size: float) -> Flat:
    def at(along: float) -> Point:
        share = along / flat.length
        return (
            flat.start[0] + (flat.end[0] - flat.start[0]) * share,
            flat.start[1] + (flat.end[1] - flat.start[1]) * share,
        )

    return Flat(at(begin), at(begin + size), flat.held_at_start, flat.held_at_end)
