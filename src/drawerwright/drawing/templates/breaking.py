"""A long part broken in the middle: what lies far from every feature is left out of the paper."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from drawerwright.drawing.primitives import Polyline
from drawerwright.drawing.scene import Primitive

GAP: Final = 14.0
"""Width of a break on the paper [mm]. Own choice."""
AROUND: Final = 26.0
"""How much is kept on both sides of every feature [mm]. Own choice."""
LEAST_LEFT_OUT: Final = 30.0
"""A break that saves less than this [mm] is not worth it. Own choice."""


@dataclass(frozen=True, slots=True)
class Broken:
    """A length from which pieces are left out: `kept` are its stretches, ascending [mm].

    Within one stretch all distances are true; the whole stands about the same middle as before.
    """

    kept: tuple[tuple[float, float], ...]

    @property
    def _left_out(self) -> list[float]:
        """How much is taken out before each stretch, in all."""
        taken = [0.0]
        for (_, end), (start, _) in pairwise(self.kept):
            taken.append(taken[-1] + start - end - GAP)
        return taken

    def place(self, x: float) -> float:
        """Where an x of a kept stretch lies on the paper [mm].

        Raises:
            ValueError: the x lies in a piece that is left out.
        """
        taken = self._left_out
        for (start, end), before in zip(self.kept, taken, strict=True):
            if start - 1e-9 <= x <= end + 1e-9:
                return x - before + taken[-1] / 2
        raise ValueError(f"{x:g} lies where the template is broken")

    @property
    def edges(self) -> tuple[float, float]:
        """Left and right end on the paper [mm]."""
        return self.place(self.kept[0][0]), self.place(self.kept[-1][1])

    def stretches(self) -> list[tuple[float, float]]:
        """Left and right edge of each stretch on the paper [mm]."""
        return [(self.place(start), self.place(end)) for start, end in self.kept]

    def breaks(self, low: float, high: float) -> list[Primitive]:
        """Zigzag lines at both sides of every break, between two heights [mm]."""
        drawn: list[Primitive] = []
        stretches = self.stretches()
        for (_, before), (after, _) in pairwise(stretches):
            drawn += [_zigzag(before, low, high), _zigzag(after, low, high)]
        return drawn


def broken(left: float, right: float, features: Iterable[float]) -> Broken:
    """A length from `left` to `right` broken where no feature is near; both ends count as features."""
    kept: list[tuple[float, float]] = []
    for feature in sorted({left, right, *features}):
        start, end = max(left, feature - AROUND), min(right, feature + AROUND)
        if kept and start - kept[-1][1] < LEAST_LEFT_OUT + GAP:
            kept[-1] = (kept[-1][0], max(end, kept[-1][1]))
        else:
            kept.append((start, end))
    return Broken(tuple(kept))


def _zigzag(x: float, low: float, high: float) -> Polyline:
    middle = (low + high) / 2
    points = (
        (x, low - 2.0),
        (x, middle - 4.0),
        (x - 2.5, middle - 1.5),
        (x + 2.5, middle + 1.5),
        (x, middle + 4.0),
        (x, high + 2.0),
    )
    return Polyline(points, "fine", "broken off")
