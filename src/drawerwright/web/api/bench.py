"""What comes from the bench: gaps measured around fronts, ticks of the steps that are done."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any, Final

from fastapi import APIRouter, Request
from starlette.responses import Response

from drawerwright.errors import Fault, InputError
from drawerwright.files.gaps import SETTING_COLUMNS, gaps_of_mappings
from drawerwright.model.gaps import GAP_NAMES
from drawerwright.units import BareUnit, show_value
from drawerwright.web.api.answering import answer
from drawerwright.web.api.body import check_keys
from drawerwright.web.api.describing import described
from drawerwright.web.api.jobs import Body, Kept
from drawerwright.web.api.saving import read_saving
from drawerwright.web.api.stored import gaps_values, tick_values
from drawerwright.web.bench.gaps import with_inches
from drawerwright.web.bench.rounds import FOR_BOTH
from drawerwright.web.device_name import name_told

router = APIRouter(prefix="/jobs/{job}", tags=["bench"])

MOST_TICKS: Final = 1_000
"""Ticks of one request: more than a bench without a connection makes in a day. Own choice."""

TICK_KEYS: Final = ("drawer", "step", "done", "at")
_AT: Final = "2026-03-02T10:15:00Z"


@router.get("/gaps", **described("gaps", answer="StoredGaps", also=(404,)))
def gaps(store: Kept, job: str, drawer: str | None = None) -> Response:
    """All gap readings of a job, or of one drawer, in the order in which they came."""
    listed = [gaps_values(one) for one in store.gaps(job, drawer)]
    return answer({"schema": "drawerwright/gaps/1", "gaps": listed})


@router.post(
    "/gaps", **described("add_gaps", body="MeasuredGaps", answer="StoredGap", makes=True, also=(404,))
)
def add_gaps(request: Request, store: Kept, job: str, body: Body) -> Response:
    """Keep one measuring of a front. Readings have the columns of the gaps file; earlier ones stay.

    Readings of `set_…` columns alone tell where the adjusters stand since the front was turned. `for_both`:
    the gaps shared with neighbours hold in place of what was measured there.
    201; 200 for what was kept already under its `token`, which goes with one reading alone.
    """
    told = read_saving(body, "drawer", "readings", based=False, may=("token", "units", FOR_BOTH))
    drawer, readings = _word(told.parts, "drawer"), told.parts["readings"]
    token = _word(told.parts, "token") if "token" in told.parts else None
    unit: BareUnit = "in" if told.parts.get("units") == "in" else "mm"
    if not isinstance(readings, dict):
        says = "is not an object of readings by column"
        raise InputError([Fault("readings", show_value(readings), says, '{"left_top": 3}')])
    row = gaps_of_mappings([{"drawer": drawer, **readings}], unit, "readings")[0]
    kept = {name: reading for name, reading in readings.items() if reading not in (None, "")}
    if unit == "in":  # what is kept carries its unit
        kept = {name: _in_inches(one) if name in GAP_NAMES else one for name, one in kept.items()}
    if not any(name in kept for name in (*GAP_NAMES, *SETTING_COLUMNS)):
        says = "hold no gap: at least one is wanted"
        raise InputError([Fault("readings", show_value(readings), says, '{"left_top": 3}')])
    both = told.parts.get(FOR_BOTH, False)
    if not isinstance(both, bool):
        raise InputError([Fault(FOR_BOTH, show_value(both), "is neither true nor false", "true")])
    if both:
        kept[FOR_BOTH] = True
    assert row.drawer
    stored = store.add_gaps(job, row.drawer, kept, by=told.by or name_told(request), token=token)
    return answer(gaps_values(stored), 200 if stored.again else 201)


def _in_inches(reading: Any) -> Any:
    return with_inches(reading) if isinstance(reading, str) else f"{reading} in"


@router.get("/ticks", **described("ticks", answer="Ticks", also=(404,)))
def ticks(store: Kept, job: str, drawer: str | None = None) -> Response:
    """Which steps are done, drawer by drawer."""
    return answer(
        {"schema": "drawerwright/ticks/1", "ticks": [tick_values(one) for one in store.ticks(job, drawer)]}
    )


@router.post("/ticks", **described("set_ticks", body="SetTicks", answer="Ticks", also=(404,)))
def set_ticks(request: Request, store: Kept, job: str, body: Body) -> Response:
    """Tick steps, or take ticks away; several at once from a bench that had no connection.

    `at` is the bench's own clock: what was said last holds, in whatever order it comes in. What was sent
    already may be sent again. The answer holds the ticks that stand now.
    """
    told = read_saving(body, "ticks", based=False)
    said = [_tick(one, at) for at, one in enumerate(_listed(told.parts["ticks"]))]
    by = told.by or name_told(request)
    stand = [store.set_tick(job, drawer, step, done, at=when, by=by) for drawer, step, done, when in said]
    return answer({"schema": "drawerwright/ticks/1", "ticks": [tick_values(one) for one in stand]})


def _listed(told: Any) -> list[Any]:
    if isinstance(told, list) and 0 < len(told) <= MOST_TICKS:
        return told
    says = f"is not a list of 1 to {MOST_TICKS} ticks"
    raise InputError(
        [
            Fault(
                "ticks",
                show_value(told),
                says,
                f'[{{"drawer": "A", "step": "bore", "done": true, "at": "{_AT}"}}]',
            )
        ]
    )


def _tick(told: Any, at: int) -> tuple[str, str, bool, datetime]:
    where = f"ticks[{at}]"
    if not isinstance(told, dict):
        raise InputError([Fault(where, show_value(told), "is not an object", ", ".join(TICK_KEYS))])
    faults: list[Fault] = []
    check_keys(told, TICK_KEYS, faults)
    done = told.get("done")
    if not isinstance(done, bool):
        faults.append(Fault(f"{where} done", show_value(done), "is neither true nor false", "true"))
    when = _moment(told.get("at"))
    if when is None:
        says = "is not a moment with its zone (RFC 3339)"
        faults.append(Fault(f"{where} at", show_value(told.get("at")), says, _AT))
    if faults or when is None:
        raise InputError(faults)
    return _word(told, "drawer", f"{where} "), _word(told, "step", f"{where} "), bool(done), when


def _moment(told: Any) -> datetime | None:
    """A moment with its zone; None for anything else."""
    try:
        when = datetime.fromisoformat(told) if isinstance(told, str) else None
        # Far years have no place left for a zone.
        return when if when is not None and when.tzinfo is not None and 1970 <= when.year <= 9000 else None
    except ValueError:
        return None


def _word(parts: Mapping[str, Any], key: str, before: str = "") -> str:
    told = parts.get(key)
    if isinstance(told, str):
        return told
    raise InputError([Fault(f"{before}{key}", show_value(told), "is not text", '"A"')])
