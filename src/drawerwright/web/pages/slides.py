"""The slides: all families as a ruled table, and the data sheet of one."""

from __future__ import annotations

from collections import Counter
from typing import Any, Final

from fastapi import APIRouter, Request
from starlette.responses import Response

from drawerwright.catalogue.families import family_named
from drawerwright.catalogue.family_check import check_family
from drawerwright.catalogue.family_remark import Kind, Remark
from drawerwright.catalogue.family_writer import write_family_toml
from drawerwright.drawing.scene import Scene
from drawerwright.drawing.views.isometric import isometric, travel_of
from drawerwright.drawing.views.plan import plan
from drawerwright.drawing.views.side import side_section
from drawerwright.errors import InputError
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer
from drawerwright.store import NotInStore, Store
from drawerwright.units import ShownUnits, format_mass
from drawerwright.web.families import families_of, own_families, shipped_families
from drawerwright.web.family.example import example_of
from drawerwright.web.family.sheet import (
    LENGTH_HEADS,
    hardware,
    length_rows,
    sheet_sections,
    table_rows,
    thickest_side,
    title_of,
)
from drawerwright.web.quick_job import EXAMPLE
from drawerwright.web.render import page
from drawerwright.web.taken.touched import touched_jobs
from drawerwright.web.views_on_paper import on_paper

router = APIRouter(include_in_schema=False)

DRAWN_OUT: Final = 2 / 3
"""Share of its travel by which the example is drawn out: box, slides and cabinet are all seen. Own choice."""

REMARK_HEADS: Final[dict[Kind, str]] = {
    "implausible": "Odd: look again",
    "missing": "Left out, and nothing is taken in its place",
    "defaulted": "Left out: common practice is taken",
}
"""What remarks of each kind have in common, in the order in which they matter."""


@router.get("/slides")
def slides(request: Request) -> Response:
    """All families that a job may use, to look at, to compare, to add to."""
    store = request.app.state.store
    own = {family.id for family in own_families(store)}
    families = families_of(store)
    rows = [
        {
            "family": family,
            "title": title_of(family),
            "side": thickest_side(family),
            "carries": format_mass(family.capacity),
            "deduction": hardware(family.inside_width_deduction, "mm"),
            "own": family.id in own,
        }
        for family in families
    ]
    return page(
        request,
        "slides.html",
        rows=rows,
        asked=EXAMPLE,
        any_invented=any(family.invented for family in families),
        binned=store.families(binned=True),
    )


@router.get("/slides/{name}")
def family_page(request: Request, name: str, units: ShownUnits = "mm", saved: bool = False) -> Response:
    """The data sheet of a family; `saved` just now: with the jobs that this touches."""
    store = request.app.state.store
    family = family_there(store, name)
    from drawerwright.web.family.carry import family_carry

    values = {**family_sheet(family, units), "carry": family_carry(family, units)}
    touched = touched_jobs(store) if saved else None
    return page(request, "family.html", **values, own=_is_own(store, name), touched=touched)


@router.get("/slides/{name}/file.toml")
def family_file(request: Request, name: str) -> Response:
    """The family as its file, for a job at another place."""
    family = family_there(request.app.state.store, name)
    headers = {"Content-Disposition": f'attachment; filename="{family.id}.toml"'}
    return Response(write_family_toml(family), media_type="application/toml", headers=headers)


def family_there(store: Store, name: str) -> SlideFamily:
    """A family that jobs may use. Raises NotInStore naming the nearest where there is none of that id."""
    try:
        return family_named(families_of(store), name, where="slides")
    except InputError as error:
        raise NotInStore(error.faults) from None


def family_sheet(family: SlideFamily, units: ShownUnits = "mm") -> dict[str, Any]:
    """Everything that the data sheet of a family shows."""
    example = example_of(family)
    remarks = check_family(family, units)
    counts = Counter(remark.kind for remark in remarks)
    return {
        "family": family,
        "title": title_of(family),
        "side": thickest_side(family, units),
        "carries": format_mass(family.capacity, units),
        "units": units,
        "sections": sheet_sections(family, units),
        "tables": table_rows(family, units),
        "length_heads": LENGTH_HEADS,
        "lengths": length_rows(family, units),
        "example": example,
        "scenes": example_scenes(example, units),
        "remarks": _by_kind(remarks),
        "counts": counts,
        "shipped": any(one.id == family.id for one in shipped_families()),
    }


def example_scenes(example: FittedDrawer, units: ShownUnits = "mm") -> dict[str, Scene]:
    """The example in plan, through its left slide, and drawn out."""
    out = isometric(example, travel_of(example) * DRAWN_OUT, units=units)
    return {
        "plan": on_paper(plan(example, units), "example-plan"),
        "side": on_paper(side_section(example, units), "example-side"),
        "out": on_paper(out, "example-out"),
    }


def _by_kind(remarks: list[Remark]) -> dict[str, list[Remark]]:
    """The remarks under what those of a kind have in common; kinds without one are left out."""
    found = {head: [one for one in remarks if one.kind == kind] for kind, head in REMARK_HEADS.items()}
    return {head: those for head, those in found.items() if those}


def _is_own(store: Store, name: str) -> bool:
    return any(family.id == name for family in own_families(store))
