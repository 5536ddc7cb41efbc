"""Moisture that wood takes on from air, and how far it then swells across the grain.

Takes numbers or arrays. Temperatures in °C, relative humidities as shares 0..1, moisture contents in percent
of the dry mass, sizes in mm. W: Wood Handbook, USDA Forest Products Laboratory.
"""

from __future__ import annotations

from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

Q: TypeAlias = NDArray[np.float64] | float

STRAIGHT_FROM: Final = 6.0
STRAIGHT_TO: Final = 14.0
"""Moisture contents between which the change coefficients hold [%]. W eq. 13-2."""
GREEN: Final = 30.0
"""Moisture content above which wood no longer swells [%]. W chapter 13."""


def equilibrium_moisture(temperature_c: Q, humidity: Q) -> NDArray[np.float64]:
    """Moisture content that wood comes to in air [%]. W eq. 4-5 (FPL-GTR-282, page 4-3), constants for °C.

    Within 0.07 of the handbook's table 4-2. For −1 to 55 °C (the table's range) and humidities below 1.
    """
    t, h = np.asarray(temperature_c, dtype=np.float64), np.asarray(humidity, dtype=np.float64)
    return _sorption(
        h,
        w=349.0 + 1.29 * t + 0.0135 * t**2,
        k=0.805 + 0.000736 * t - 0.00000273 * t**2,
        k1=6.27 - 0.00938 * t - 0.000303 * t**2,
        k2=1.91 + 0.0407 * t - 0.000293 * t**2,
    )


def equilibrium_moisture_fahrenheit(temperature_f: Q, humidity: Q) -> NDArray[np.float64]:
    """The same with the handbook's constants for °F: both agree within 0.013 %."""
    t, h = np.asarray(temperature_f, dtype=np.float64), np.asarray(humidity, dtype=np.float64)
    return _sorption(
        h,
        w=330.0 + 0.452 * t + 0.00415 * t**2,
        k=0.791 + 0.000463 * t - 0.000000844 * t**2,
        k1=6.34 + 0.000775 * t - 0.0000935 * t**2,
        k2=1.09 + 0.0284 * t - 0.0000904 * t**2,
    )


def _sorption(
    h: NDArray[np.float64],
    *,
    w: NDArray[np.float64],
    k: NDArray[np.float64],
    k1: NDArray[np.float64],
    k2: NDArray[np.float64],
) -> NDArray[np.float64]:
    kh = k * h
    bound = (k1 * kh + 2.0 * k1 * k2 * kh**2) / (1.0 + k1 * kh + k1 * k2 * kh**2)
    return np.asarray(1800.0 / w * (kh / (1.0 - kh) + bound), dtype=np.float64)


def swelling(size: Q, from_moisture: Q, to_moisture: Q, coefficient: Q, shrinkage: Q) -> NDArray[np.float64]:
    """By how much a size across the grain grows between two moisture contents [mm]; negative: it shrinks.

    `coefficient` is the change a percent of moisture, `shrinkage` that from green to dry [%], both along the
    same direction. Between 6 and 14 % W eq. 13-2, beyond them eq. 13-3; nothing changes above 30 %.
    The handbook says of the straight line that it may be off by about 5 % of the true change.
    """
    size_ = np.asarray(size, dtype=np.float64)
    start = np.minimum(np.asarray(from_moisture, dtype=np.float64), GREEN)
    end = np.minimum(np.asarray(to_moisture, dtype=np.float64), GREEN)
    straight = size_ * coefficient * (end - start)
    bent = size_ * (end - start) / (GREEN * 100.0 / shrinkage - GREEN + start)
    low, high = np.minimum(start, end), np.maximum(start, end)
    inside = (low >= STRAIGHT_FROM) & (high <= STRAIGHT_TO)
    return np.asarray(np.where(inside, straight, bent), dtype=np.float64)
