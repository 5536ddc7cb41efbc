"""The true travel of a mark, from readings before and after adjusters were turned.

A family's step is of the make; what one pair does differs. Least squares of the change of every reading that
was taken twice, each adjuster's step spread about the family's before.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

import numpy as np

from drawerwright.align.adjusters import TURNED, travel_of
from drawerwright.align.aligned import TravelFound
from drawerwright.align.front_geometry import COLUMNS
from drawerwright.align.stack import Stack
from drawerwright.model.gaps import Setting

STEP_WITHIN: Final = 0.2
"""How far one pair's step may differ from the family's, as a share of it: spread before. Own choice."""


def refine_travel(
    before: Stack, after: Stack, turned: Sequence[Mapping[Setting, float]]
) -> tuple[TravelFound, ...]:
    """True travel of each adjuster that was turned between two rounds of readings of the same fronts.

    `turned`: marks by hand and adjuster, of each front of the stack; both side adjusters are taken as turned
    by their mean.
    """
    first, second = dict(before.readings), dict(after.readings)
    rows = sorted(first.keys() & second.keys())
    columns, marks, steps = [], [], []
    for at, front in enumerate(before.fronts):
        family = front.fitted.slide.family if front.fitted.slide is not None else None
        for column, (adjuster, hands) in enumerate(TURNED):
            by = sum(turned[at].get((hand, adjuster), 0.0) for hand in hands) / len(hands)
            if family is not None and by:
                columns.append(len(COLUMNS) * at + column)
                marks.append(by)
                steps.append(travel_of(family, adjuster)[2])
    if not rows or not columns:
        return ()
    step = np.array(steps)
    changes = before.turning[rows][:, columns] * np.array(marks)
    moved = np.array([second[row].value - first[row].value for row in rows])
    sure = np.array([(first[row].uncertainty ** 2 + second[row].uncertainty ** 2) ** -0.5 for row in rows])
    weighed = changes * sure[:, None]
    information = weighed.T @ weighed + np.diag((STEP_WITHIN * step) ** -2.0)
    covariance = np.linalg.inv(information)
    off = (moved - changes @ step) * sure
    found = step + covariance @ (weighed.T @ off)
    return tuple(
        TravelFound(
            drawer=before.fronts[column // len(COLUMNS)].id,
            hands=TURNED[column % len(COLUMNS)][1],
            adjuster=TURNED[column % len(COLUMNS)][0],
            mm=float(found[place]),
            uncertainty=float(covariance[place, place] ** 0.5),
            family=float(step[place]),
        )
        for place, column in enumerate(columns)
    )
