"""The seasons of a job: what gap to set today at fronts of solid wood, and the year of one of them drawn."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Final
from urllib.parse import quote, urlencode

from fastapi import APIRouter, Query, Request
from starlette.responses import Response

from drawerwright.align.seasons import Seasons
from drawerwright.catalogue.wood_species import wood_species
from drawerwright.cli.season_words import SLOTS
from drawerwright.drawing.scene import Scene
from drawerwright.drawing.views.season_chart import season_chart
from drawerwright.errors import Fault, InputError
from drawerwright.model.fitted import FittedJob
from drawerwright.model.spelling import nearest
from drawerwright.units import BareUnit, ShownUnits, show_value
from drawerwright.web.families import families_of
from drawerwright.web.faults import UNPROCESSABLE
from drawerwright.web.fitting import JobAnswer, answer_values
from drawerwright.web.pages.forms import store_of
from drawerwright.web.render import page
from drawerwright.web.season.asked import CUTS, SEASON_KEYS, USUAL, WAYS, read_season
from drawerwright.web.season.rows import AIR_WORDS, front_lines, has_front, moisture_words

router = APIRouter(include_in_schema=False)

AT_A_TIME: Final = 200
"""Fronts of one page. Own choice."""
LONGEST: Final = 80
CUT_WORDS: Final = {"flat": "flat-sawn", "quarter": "quarter-sawn"}
ACROSS_WORDS: Final = {"height": "height", "width": "width"}
SHOWN: Final[dict[str, ShownUnits]] = {"mm": "mm", "in": "in"}
"""Units that the page may be asked to show lengths in; a bare limit stays in those of the job."""
YES: Final = ("true", "on", "1")


@dataclass(frozen=True, slots=True)
class _Answer:
    """The year of a job's fronts, that of one of them drawn; or the faults that keep it from being told."""

    seasons: Seasons | None = None
    chosen: str = ""
    chart: Scene | None = None
    faults: tuple[Fault, ...] = ()


@router.get("/jobs/{job_id}/seasons")
def seasons(
    request: Request,
    job_id: str,
    drawer: str = "",
    start: Annotated[int, Query(alias="from", ge=0, le=100_000)] = 0,
) -> Response:
    """The form, and what it comes to: a table of all fronts, the year's chart of the one that is chosen."""
    store = store_of(request)
    job = store.job(job_id)
    unit: BareUnit = "in" if job.values.get("units") == "in" else "mm"
    asked_units = request.query_params.get("units", "")
    shown: ShownUnits = "both" if unit == "in" else "mm"
    shown = SHOWN.get(asked_units, shown)
    told = {key: request.query_params.get(key, "").strip()[:LONGEST] for key in SEASON_KEYS}
    told["species"] = told["species"] or wood_species()[0].id
    told["fresh"] = "true" if told["fresh"] in YES else ""
    found = answer_values(job.values, families_of(store), units=unit)
    answer = _answer(found, told, unit, drawer)
    at_fields = {fault.where: fault for fault in answer.faults}
    pairs = [(key, text) for key, text in told.items() if text]
    units = asked_units if asked_units in SHOWN else ""
    kept = [*pairs, *([("units", units)] if units else [])]
    here = [*pairs, *([("drawer", drawer)] if drawer else []), *([("from", str(start))] if start else [])]
    fronts = answer.seasons.fronts if answer.seasons else ()
    first = start // AT_A_TIME * AT_A_TIME
    return page(
        request,
        "seasons.html",
        status=UNPROCESSABLE if answer.faults else 200,
        job=job,
        unit=unit,
        told={**USUAL, **dict(pairs)},
        fresh=bool(told["fresh"]),
        at_fields=at_fields,
        others=[fault for key, fault in at_fields.items() if key not in SEASON_KEYS],
        species=wood_species(),
        cuts={one: CUT_WORDS[one] for one in CUTS},
        ways={one: ACROSS_WORDS[one] for one in WAYS},
        airs=AIR_WORDS,
        moistures=moisture_words(answer.seasons) if answer.seasons else {},
        seasons=answer.seasons,
        slots=SLOTS if any(one.wants_slots for one in fronts[first : first + AT_A_TIME]) else "",
        lines=front_lines(answer.seasons, fronts[first : first + AT_A_TIME], shown) if answer.seasons else (),
        pieces=[
            (at, fronts[at].drawer, fronts[min(at + AT_A_TIME, len(fronts)) - 1].drawer)
            for at in range(0, len(fronts), AT_A_TIME)
        ],
        first=first,
        asked=urlencode(kept),
        units=units,
        shown=shown,
        unit_addresses={word: f"?{urlencode([*here, ('units', word)])}" for word in SHOWN},
        chosen=answer.chosen,
        chart=answer.chart,
        unread=[one.name for one in found.drawers if one.fitted is None],
        twin=f"/api/v1/jobs/{quote(job.id, safe='')}/season?{urlencode(pairs)}",
    )


def _answer(found: JobAnswer, told: dict[str, str], unit: BareUnit, drawer: str) -> _Answer:
    faults: list[Fault] = []
    asked = read_season(told, unit, faults, settled=not told["fresh"])
    fitted = [one.fitted for one in found.drawers if one.fitted is not None and has_front(one.fitted)]
    names = [one.id for one in fitted]
    if drawer and names and drawer not in names:
        says = "is no drawer of this job with a front"
        faults.append(Fault("drawer", show_value(drawer[:LONGEST]), says, nearest(drawer, names)))
    if asked is None or faults or not fitted:
        return _Answer(faults=tuple(faults))
    try:
        year = asked.seasons(FittedJob("", tuple(fitted), found.columns))
    except InputError as error:
        return _Answer(faults=error.faults)
    chosen = drawer or names[0]
    return _Answer(year, chosen, season_chart(year, chosen, narrow=True))
