"""A rectangular plate under an even load: deflection and bending moments, its edges supported or clamped.

`ratio` is the long side over the short one, at least 1. Deflection = α q a⁴/D, moment a width = β q a², a
the short side [mm], q the load [N/mm²], D the rigidity [N mm]. Poisson's ratio 0.3, as in the tables. Source:
thin-plate theory; supported edges by single series (Lévy; Timoshenko and Woinowsky-Krieger, Theory of Plates
and Shells, from memory), clamped ones by the Ritz method. Checked against printed tables.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.polynomial import Legendre, Polynomial
from numpy.typing import NDArray

POISSON: Final = 0.3
_TERMS: Final = 60
_SHAPES: Final = 7
_LONGEST: Final = 30.0
_LONGEST_CLAMPED: Final = 4.0
"""Beyond these ratios a plate is a strip: the coefficients stand still."""


@dataclass(frozen=True, slots=True)
class PlateFactors:
    """α of the deflection in the middle; β there across the short and the long span; β at the long edge.

    The edge's is negative where edges are clamped, and 0 where they are supported.
    """

    deflection: float
    across_short: float
    across_long: float
    long_edge: float


def rigidity(modulus: float, thickness: float) -> float:
    """D = E t³/(12 (1 − ν²)) [N mm], of N/mm² and mm."""
    return modulus * thickness**3 / (12.0 * (1.0 - POISSON**2))


@lru_cache(maxsize=4096)
def supported_plate(ratio: float) -> PlateFactors:
    """A plate whose four edges are held down and may turn."""
    deflection = short = long = 0.0
    for term in range(1, 2 * _TERMS, 2):
        wave, sign = term * math.pi, 1.0 if term % 4 == 1 else -1.0
        steady, curved = _across(wave, min(ratio, _LONGEST), 0.0)
        share = sign * 4.0 / (math.pi**5 * term**5)
        deflection += share * steady
        short += share * wave**2 * (steady - POISSON * curved)
        long += share * wave**2 * (POISSON * steady - curved)
    return PlateFactors(deflection, short, long, 0.0)


@lru_cache(maxsize=4096)
def supported_deflection_at(ratio: float, from_long_edge: float) -> float:
    """α at a place half way along the long edge, that share of the short side away from it."""
    total = 0.0
    for term in range(1, 2 * _TERMS, 2):
        steady, _ = _across(term * math.pi, min(ratio, _LONGEST), 0.0)
        total += 4.0 / (math.pi**5 * term**5) * steady * math.sin(term * math.pi * from_long_edge)
    return total


@lru_cache(maxsize=4096)
def clamped_plate(ratio: float) -> PlateFactors:
    """A plate whose four edges can neither move nor turn."""
    ratio = min(ratio, _LONGEST_CLAMPED)
    value, slope2, corner = _shape_integrals()
    # x over the short side and y over the long one, each from −1 to 1; the plate is `ratio` as long as wide.
    k = 1.0 / ratio**2
    stiffness = (
        np.kron(slope2, value) + k * (np.kron(corner, corner.T) + np.kron(corner.T, corner))
    ) + k**2 * np.kron(value, slope2)
    load, middle, bend, edge = _shape_values()
    answer = np.linalg.solve(stiffness, np.kron(load, load)).reshape(_SHAPES, _SHAPES)
    # With x = 2 X/a the equation is 16 D/a⁴ times the stiffness, curvature 4/a² times the second slope.
    deflection = float(middle @ answer @ middle) / 16.0
    along_x = -float(bend @ answer @ middle) / 4.0
    along_y = -float(middle @ answer @ bend) * k / 4.0
    return PlateFactors(
        deflection,
        along_x + POISSON * along_y,
        along_y + POISSON * along_x,
        -float(edge @ answer @ middle) / 4.0,
    )


def _across(wave: float, ratio: float, along: float) -> tuple[float, float]:
    """One term's course along the long side, and its second slope over the wave number squared.

    `along` from the middle as a share of half the long side; computed with falling exponentials alone.
    """
    half = wave * ratio / 2.0
    fall = math.exp(-2.0 * half)
    # 1/cosh(half) and tanh(half) without overflow.
    inverse = 2.0 * math.exp(-half) / (1.0 + fall)
    tangent = (1.0 - fall) / (1.0 + fall)
    place = half * along
    even, odd = math.cosh(place) * inverse, math.sinh(place) * inverse
    even_share = (half * tangent + 2.0) / 2.0
    steady = 1.0 - even_share * even + place * odd / 2.0
    curved = -even_share * even + even + place * odd / 2.0
    return steady, curved


@lru_cache(maxsize=1)
def _shapes() -> tuple[Polynomial, ...]:
    """Shapes that neither move nor turn at −1 and 1, even ones alone: the plate sags evenly to both sides."""
    held = Polynomial([1.0, 0.0, -1.0]) ** 2
    return tuple(held * Legendre.basis(2 * order).convert(kind=Polynomial) for order in range(_SHAPES))


@lru_cache(maxsize=1)
def _shape_integrals() -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    """Integrals over −1 to 1 of the shapes' products: value × value, slope″ × slope″, slope″ × value."""
    places, weights = np.polynomial.legendre.leggauss(32)
    value = np.array([shape(places) for shape in _shapes()])
    second = np.array([shape.deriv(2)(places) for shape in _shapes()])
    return (value * weights) @ value.T, (second * weights) @ second.T, (second * weights) @ value.T


@lru_cache(maxsize=1)
def _shape_values() -> tuple[
    NDArray[np.float64], NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]
]:
    """The shapes' integrals, values and second slopes in the middle, second slopes at the edge."""
    places, weights = np.polynomial.legendre.leggauss(32)
    shapes = _shapes()
    return (
        np.array([float(weights @ shape(places)) for shape in shapes]),
        np.array([float(shape(0.0)) for shape in shapes]),
        np.array([float(shape.deriv(2)(0.0)) for shape in shapes]),
        np.array([float(shape.deriv(2)(1.0)) for shape in shapes]),
    )
