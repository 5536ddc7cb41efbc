"""A thousand slides over two hundred positions, against the same arithmetic written out in bare numpy."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import cycle

import numpy as np
from numpy.typing import NDArray

from benchmarks.measuring import Figure, pairwise_ratio, seconds
from drawerwright.carry import carry_job
from drawerwright.carry.slide_data import SlideData, together
from drawerwright.carry.telescope import Slides, draw_out, positions_of
from drawerwright.catalogue.families import load_families
from drawerwright.fit import fit_job
from drawerwright.model.job import Job

Q = NDArray[np.float64]

SLIDES = 1000
POSITIONS = 200
ROWS = 80
_HOUSE = "house-16"


def figures() -> Iterator[Figure]:
    """All slides together over hand-written numpy; then the whole study of one drawer, checks and all."""
    slides = random_slides(SLIDES)
    out = positions_of(slides.travel, POSITIONS)
    if not np.allclose(draw_out(slides, out).sag, sag_by_hand(slides, out), rtol=1e-9, atol=1e-12):
        raise AssertionError("the study and the hand-written numpy find other sags")
    ratio = pairwise_ratio(lambda: draw_out(slides, out), lambda: sag_by_hand(slides, out), times=15)
    yield Figure(f"{SLIDES} drawers × {POSITIONS} positions, over hand-written numpy", ratio, "×", 2.0)
    whole = seconds(lambda: draw_out(slides, out), times=9)
    yield Figure("… all of them drawn out", whole * 1e3, "ms", 500.0)
    families = [one for one in load_families(None) if one.id == _HOUSE]
    opening = {"width": 562, "height": 168, "depth": 530}
    # Drawers alike share their closing runs: none is alike here.
    drawers = [{"id": "A", "opening": opening, "side": 16, "contents": 20 + 1e-6 * g} for g in range(64)]
    fitted = cycle([fit_job(Job.model_validate({"drawer": [one]}), families) for one in drawers])
    yield Figure(
        "one drawer carried, closing and all checks",
        seconds(lambda: carry_job(next(fitted)), times=30) * 1e3,
        "ms",
        50.0,
    )


def random_slides(count: int, seed: int = 1) -> Slides:
    """Slides of an invented make, no two alike; all rollers on their rails."""
    draw = np.random.default_rng(seed)
    data = []
    for member, weight in zip(draw.uniform(300, 600, count), draw.uniform(50, 300, count), strict=True):
        rear, front = 0.26 * member, 0.74 * member
        data.append(
            SlideData(
                member=member,
                travel=member,
                weight=weight,
                lower=(rear, front),
                upper=(rear, front),
                screws=(0.06 * member, 0.92 * member),
                bending=(1.2e9, 1.0e9, 1.6e9),
                roller_give=1 / 4000,
                play=0.1,
                mount_give=1e-5,
                missing=(),
            )
        )
    return together(data)


def sag_by_hand(slides: Slides, out: Q) -> Q:
    """The same forces, moments and shares of the sag, in chunks of as many rows."""
    parts = [_chunk(slides.rows(low, low + ROWS), out[low : low + ROWS]) for low in range(0, len(out), ROWS)]
    return np.concatenate(parts)


def _chunk(s: Slides, e: Q) -> Q:
    length, w = s.member, s.weight
    x1, x2, x3, x4 = (
        s.lower_rear + e / 4,
        s.lower_front + e / 4,
        s.upper_rear + 0.75 * e,
        s.upper_front + 0.75 * e,
    )
    tip, s2, s1, ss = (
        e + length,
        s.upper_front - s.upper_rear,
        s.lower_front - s.lower_rear,
        s.screw_front - s.screw_rear,
    )
    r4 = w * (length / 2 - s.upper_rear + e / 4) / s2
    r3 = w - r4
    r2 = w * (length / 2 - s.lower_rear + 0.75 * e) / s1
    r1 = w - r2
    p2 = w * (length / 2 + e - s.screw_rear) / ss
    p1 = w - p2
    cabinet = _bent(s.screw_rear, s.screw_front, x1, x2, r1, r2, p1, p2)
    middle = _bent(x1, x2, x3, x4, r3, r4, r1, r2)
    ahead, behind, q = tip - x4, x3 - e, w / length
    drawer = q * (ahead**4 / 8 + ahead * s2 * (ahead**2 / 6 + behind**2 / 12 - s2**2 / 24)) / s.drawer_bending
    lean1, lean2 = (tip - x1) / s1, (tip - x3) / s2
    sag = drawer
    sag = sag - (cabinet[0] + (cabinet[1] - cabinet[0]) * lean1) / s.cabinet_bending
    sag = sag - (middle[0] + (middle[1] - middle[0]) * lean2) / s.intermediate_bending
    give = s.roller_give
    sag = sag + give * (r1 + (r2 - r1) * lean1 + r3 + (r4 - r3) * lean2)
    up1, up2, up3, up4 = (s.play * (force < 0) for force in (r1, r2, r3, r4))
    sag = sag - (up1 + (up2 - up1) * lean1 + up3 + (up4 - up3) * lean2)
    sag = sag + s.mount_give * (p1 + (p2 - p1) * (tip - s.screw_rear) / ss)
    moments = [
        _moment(s.screw_rear, s.screw_front, x1, x2, r1, r2, p1, p2),
        _moment(x1, x2, x3, x4, r3, r4, r1, r2),
    ]
    span = q * length * (s2 + behind - ahead) / 2 / s2
    at = np.clip(span / q - behind, 0, s2)
    moments.append(
        np.maximum(
            np.maximum(q * ahead**2, q * behind**2) / 2, np.abs(span * at - q * (at + behind) ** 2 / 2)
        )
    )
    assert all(np.isfinite(moment).all() for moment in moments)
    assert np.allclose(r1 + r2, w)
    return sag


def _bent(p: Q, q: Q, u: Q, v: Q, at_u: Q, at_v: Q, force_p: Q, force_q: Q) -> tuple[Q, Q]:
    def cubed(length: Q) -> Q:
        return np.maximum(length, 0) ** 3

    lift = (at_u * cubed(p - u) + at_v * cubed(p - v)) / 6
    far = (force_p * (q - p) ** 3 - at_u * cubed(q - u) - at_v * cubed(q - v)) / 6
    slope = (-lift - far) / (q - p)
    first = (force_p * cubed(u - p) + force_q * cubed(u - q)) / 6 + slope * (u - p) + lift
    second = (
        (force_p * cubed(v - p) + force_q * cubed(v - q) - at_u * (v - u) ** 3) / 6 + slope * (v - p) + lift
    )
    return first, second


def _moment(p: Q, q: Q, u: Q, v: Q, at_u: Q, at_v: Q, force_p: Q, force_q: Q) -> Q:
    found = np.zeros_like(u)
    for x in (p, q, u, v):
        moment = force_p * np.maximum(x - p, 0) + force_q * np.maximum(x - q, 0)
        moment = moment - at_u * np.maximum(x - u, 0) - at_v * np.maximum(x - v, 0)
        found = np.maximum(found, np.abs(moment))
    return found
