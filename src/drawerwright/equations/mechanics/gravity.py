"""Weight of a mass."""

from __future__ import annotations

from typing import Final

STANDARD_GRAVITY: Final = 9.80665
"""Acceleration of free fall [m/s² = N/kg], conventional value: 3rd CGPM (1901), ISO 80000-3."""
