"""What a whole job is to be good at, asked in an address: its slides chosen for that, or drawer by drawer."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Final

from fastapi import Query

from drawerwright.errors import Fault, InputError, ReadingError
from drawerwright.fit.whole_job import Aim, WholeJobChoice, fit_whole_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedJob
from drawerwright.units import ShownUnits, parse_clearance
from drawerwright.web.fitting import Values, answer_values, read_values

AIMS: Final[dict[str, Aim]] = {
    "fewest_lengths": "fewest-lengths",
    "cheapest": "cheapest",
    "fewest_setups": "fewest-setups",
}
"""Aims by the name of the option that asks for them."""


@dataclass(frozen=True, slots=True)
class AimAsked:
    """An aim of the whole job, or none; with it, how much a drawer may give up, as it was written."""

    aim: Aim | None = None
    lose_at_most: str | None = None

    def query(self) -> list[tuple[str, str]]:
        """The same as keys and values of an address."""
        told = [(key, "true") for key, aim in AIMS.items() if aim == self.aim]
        return told if self.lose_at_most is None else [*told, ("lose_at_most", self.lose_at_most)]


NO_AIM: Final = AimAsked()


def aim_in_query(
    fewest_lengths: Annotated[
        bool, Query(description="Slides chosen so that the job needs the fewest lengths.")
    ] = False,
    cheapest: Annotated[bool, Query(description="Slides chosen so that they cost least.")] = False,
    fewest_setups: Annotated[
        bool, Query(description="Slides chosen so that boring and sawing need the fewest settings.")
    ] = False,
    lose_at_most: Annotated[
        str | None,
        Query(
            description="With one of the three: how much box length or travel a drawer may give up for it."
        ),
    ] = None,
) -> AimAsked:
    """The aim that an address asks for. Raises InputError where it asks for several."""
    told = {"fewest_lengths": fewest_lengths, "cheapest": cheapest, "fewest_setups": fewest_setups}
    asked = [key for key, wanted in told.items() if wanted]
    if len(asked) > 1:
        says = "exclude each other: a job has one aim"
        raise InputError([Fault(" ".join(asked), "true", says, f"{asked[0]}=true")])
    if lose_at_most is not None and not asked:
        says = f"goes with an aim: {', '.join(AIMS)}"
        raise InputError([Fault("lose_at_most", lose_at_most[:80], says, "fewest_lengths=true")])
    return AimAsked(AIMS[asked[0]] if asked else None, lose_at_most)


def fitted_for(
    values: Values, families: Sequence[SlideFamily], asked: AimAsked, units: ShownUnits | None
) -> tuple[FittedJob, WholeJobChoice | None]:
    """A whole job fitted: each drawer for itself, or for an aim. Raises InputError where it does not read."""
    if asked.aim is None:
        title = values.get("title", "")
        found = answer_values(values, families, units=units)
        return found.fitted_job(title if isinstance(title, str) else ""), None
    job = read_values(values)
    most = math.inf
    if asked.lose_at_most is not None:
        try:
            most = parse_clearance(asked.lose_at_most, job.units)
        except ReadingError as error:
            raise InputError([error.fault("lose_at_most")]) from None
    return fit_whole_job(job, families, aim=asked.aim, lose_at_most=most, units=units or job.units)
