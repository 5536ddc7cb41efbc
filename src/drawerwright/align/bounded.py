"""Least squares within bounds and within limits of differences: the convex quadratic programme of the moves.

Minimise ½ uᵀ M u + s u where G u ≥ h. Lawson and Hanson's least distance programming (Solving Least Squares
Problems, chapter 23; from memory): with M = L Lᵀ it is the point nearest to 0 of a polyhedron, which
non-negative least squares find; the limits that hold are then solved for exactly.
"""

from __future__ import annotations

import numpy as np
from scipy.optimize import nnls  # type: ignore[import-untyped]

from drawerwright.align.front_geometry import Array


def bounded_least_squares(matrix: Array, slope: Array, limits: Array, least: Array) -> Array:
    """The u (k,) that is best of all with `limits` (c, k) u ≥ `least` (c,), which 0 must meet.

    `matrix` (k, k) is positive definite.
    """
    lower = np.linalg.cholesky(matrix)
    free = -np.linalg.solve(matrix, slope)
    seen = np.linalg.solve(lower, limits.T).T
    short = least - limits @ free
    size = np.hypot(np.linalg.norm(seen, axis=1), np.abs(short)).clip(1e-12)
    seen, short = seen / size[:, None], short / size
    pushing, _ = nnls(np.vstack([seen.T, short]), np.append(np.zeros(len(slope)), 1.0))
    holds = pushing > 1e-12
    if not holds.any():
        return np.asarray(free, dtype=np.float64)
    held = limits[holds]
    count = len(slope)
    rim = np.zeros((count + len(held), count + len(held)))
    rim[:count, :count] = matrix
    rim[:count, count:] = held.T
    rim[count:, :count] = held
    right = np.append(-slope, least[holds])
    exact: Array = np.linalg.lstsq(rim, right, rcond=1e-14)[0][:count]
    return exact
