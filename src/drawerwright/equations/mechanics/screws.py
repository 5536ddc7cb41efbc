"""What wood screws hold, pulled out of wood or particleboard. N, mm; ultimate loads: no safety factor."""

from __future__ import annotations

from typing import Final, Literal, TypeAlias

Grain: TypeAlias = Literal["side", "end"]
Surface: TypeAlias = Literal["face", "edge"]

SHANKS: Final = {
    4: 2.84, 5: 3.18, 6: 3.51, 7: 3.84, 8: 4.17, 9: 4.50, 10: 4.83, 12: 5.49, 14: 6.15,
}  # fmt: skip
"""Shank diameter [mm] by gauge: Wood Handbook (FPL-GTR-282) Table 8-9, p. 8-12, read in a digitisation."""

END_GRAIN_SHARE: Final = 0.75
"""Of side grain, and erratic, because end grain splits; from memory. A warning, not a figure to design by."""

WOOD_SOURCE: Final = "Wood Handbook (FPL-GTR-282) eq. (8-10), p. 8-10, read in a digitisation; ultimate"
BOARD_SOURCE: Final = (
    "particleboard screw formula K D^½ (L − D/3)^1.25 G², from memory, its units checked; ultimate"
)
_WOOD: Final = 108.25
_BOARD: Final[dict[Surface, float]] = {"face": 41.1, "edge": 31.8}


def withdrawal_from_wood(gravity: float, diameter: float, penetration: float, grain: Grain = "side") -> float:
    """Pull [N] that draws a screw out of wood: 108.25 G² D L; end grain by a share of it.

    `gravity` is the specific gravity G, ovendry weight over volume at 12 % moisture.
    """
    share = END_GRAIN_SHARE if grain == "end" else 1.0
    return share * _WOOD * gravity**2 * diameter * max(penetration, 0.0)


def withdrawal_from_board(
    gravity: float, diameter: float, penetration: float, surface: Surface = "face"
) -> float:
    """Pull [N] that draws a screw out of particleboard: K D^½ (L − D/3)^1.25 G²."""
    held = max(penetration - diameter / 3.0, 0.0)
    return float(_BOARD[surface] * diameter**0.5 * held**1.25 * gravity**2)
