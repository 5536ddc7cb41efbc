"""`POST /api/v1/align`: measured gaps in, what to turn out; the same of the gaps kept with a stored job."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, Any, Final, Literal, TypeAlias, cast

from fastapi import APIRouter, Query, Request
from starlette.responses import Response

from drawerwright.catalogue.gap_grades import GradeName
from drawerwright.errors import Fault, InputError, ReadingError
from drawerwright.files.gap_text import parse_gap
from drawerwright.files.gaps import gaps_of_mappings
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedDrawer
from drawerwright.model.gaps import GAP_NAMES, FrontGaps, GapName
from drawerwright.model.spelling import nearest
from drawerwright.store import Store
from drawerwright.units import BareUnit, show_value
from drawerwright.web.aims import NO_AIM, fitted_for
from drawerwright.web.api.answering import answer, beside
from drawerwright.web.api.asking import JOB_KEYS, Reader
from drawerwright.web.api.bounds import check_entries
from drawerwright.web.api.describing import described
from drawerwright.web.api.jobs import AtRevision, Kept, Shown
from drawerwright.web.api.saving import revision_told
from drawerwright.web.bench.rounds import fronts_now, round_of
from drawerwright.web.families import families_of

router = APIRouter(tags=["align"])

ALIGN_KEYS: Final = (*JOB_KEYS, "gaps", "target", "line", "first_round", "grade")
TARGETS: Final = ("even", "house", "line")
GRADES: Final = ("premium", "custom", "economy")
Target: TypeAlias = Literal["even", "house", "line"]
Line: TypeAlias = dict[tuple[str, GapName], float]
EXAMPLE: Final = "B1-2.top_left"


@router.post("/align", **described("align", body="AlignRequest", answer="Aligned"))
async def align(request: Request) -> Response:
    """What to turn, on which side, how far: the document of `drawerwright align --json`."""
    raw = await request.body()
    store: Store = request.app.state.store
    return await beside(raw, lambda body: answer(align_answer(body, store)))


@router.get("/jobs/{job}/align", **described("align_job", answer="Aligned", also=(404,)))
def align_stored(
    store: Kept,
    job: str,
    target: Annotated[Target, Query(description="Gaps alike, or as designed.")] = "even",
    grade: Annotated[GradeName | None, Query(description="How uneven a gap may be left.")] = None,
    revision: AtRevision = None,
    units: Shown = None,
) -> Response:
    """The same of the gaps that were measured last at each front of a stored job."""
    from drawerwright.align import align_document, align_job

    stored = store.job(job, revision_told(revision))
    fitted, _ = fitted_for(stored.values, families_of(store), NO_AIM, units)
    shown = units or ("in" if stored.values.get("units") == "in" else "mm")
    gaps, remarks = last_gaps(store, job, fitted.drawers)
    aligned = align_job(fitted, gaps, target=target, grade=grade, units=shown)
    document = align_document(aligned)
    if remarks:
        document["remarks"] = [{"where": f"job {job} gaps {name}", "says": says} for name, says in remarks]
    return answer(document)


def last_gaps(
    store: Store, job: str, fitted: Sequence[FittedDrawer]
) -> tuple[tuple[FrontGaps, ...], tuple[tuple[str, str], ...]]:
    """The gaps that count now at each front of a stored job; remarks by drawer on what is left out, and why.

    Raises InputError where none were measured at a drawer that is there.
    """
    kept = store.gaps_now(job)
    there = {one.id for one in kept}
    gone = dict.fromkeys(one.drawer for one in store.gaps(job) if one.id not in there)
    counted = round_of(fitted, fronts_now(kept))
    remarks = [(name, "is no drawer of this job any more: its gaps are left out") for name in gone]
    remarks += [(name, "was turned since it was measured: measure it again") for name in counted.again]
    for one in counted.stale:
        by = "what was measured there holds for both" if one.replaced else "which was turned since"
        remarks.append((f"{one.drawer} {one.name}", f"is left out for {one.neighbour}: {by}"))
    if not counted.rows:
        says = "has no gaps yet: none were measured"
        if counted.again:
            says = "has no gaps that count: fronts were turned since they were measured"
        raise InputError([Fault(f"job {job} gaps", "", says, f"POST /api/v1/jobs/{job}/gaps")])
    return gaps_of_mappings(list(counted.rows.values()), "mm", "gaps"), tuple(remarks)


def align_answer(body: dict[str, Any], store: Store) -> dict[str, Any]:
    """The document of lining up asked for by a request's body. Raises InputError with all its faults."""
    from drawerwright.align import align_document, align_job

    reader = Reader(body, ALIGN_KEYS)
    unit = reader.bare_unit()
    gaps = reader.read(lambda: _gaps(body, "gaps", unit, needed=True))
    before = reader.read(lambda: _gaps(body, "first_round", unit, needed=False))
    line = reader.read(lambda: _line(body.get("line"), unit))
    target, grade = reader.choice("target", TARGETS), reader.choice("grade", GRADES)
    if line and target not in (None, "line"):
        says = "does not go with line, which names readings to be met"
        reader.faults.append(Fault("target", show_value(target), says, '"line"'))
    asked = reader.asked(store)
    fitted = fit_job(asked.job, asked.families, units=asked.units, materials=asked.materials)
    aligned = align_job(
        fitted,
        gaps or (),
        target=cast(Target, target or "even"),
        line=line or {},
        grade=cast(GradeName | None, grade),
        first_round=before or (),
        units=asked.units,
        where="line",
    )
    return align_document(aligned)


def _gaps(body: dict[str, Any], key: str, unit: BareUnit, *, needed: bool) -> tuple[FrontGaps, ...]:
    if key in body:
        check_entries(body[key], key)
        return gaps_of_mappings(body[key], unit, key)
    if needed:
        raise InputError([Fault(key, "", "is missing", '"gaps": [{"drawer": "B1-2", "left_top": 3}]')])
    return ()


def _line(told: Any, unit: BareUnit) -> Line:
    """Readings to be met, by `drawer.reading`. Raises InputError with all that cannot be read."""
    if told is None:
        return {}
    if not isinstance(told, dict):
        raise InputError([Fault("line", show_value(told), "is not an object", '{"B1-2.top_left": 2.5}')])
    wanted: Line = {}
    faults: list[Fault] = []
    for place, length in told.items():
        drawer, _, name = place.strip().rpartition(".")
        known = next((one for one in GAP_NAMES if one == name), None)
        if not drawer or known is None:
            try_ = f"{drawer}.{nearest(name, GAP_NAMES)}" if drawer else EXAMPLE
            faults.append(Fault("line", show_value(place[:80]), "is not a reading to be met", try_))
            continue
        try:
            reading = parse_gap(length, unit, corner=known.startswith("out_"))
        except ReadingError as error:
            faults.append(error.fault(f"line {place[:80]}"))
            continue
        if reading is None:
            faults.append(Fault(f"line {place[:80]}", show_value(length), "tells no length", "2.5"))
        else:
            wanted[drawer, known] = reading.value
    if faults:
        raise InputError(faults)
    return wanted
