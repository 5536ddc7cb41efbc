"""The papers of what drawers carry: a page a distinct drawer, one a free-standing cabinet, one a family."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Any, Final, TypeAlias

from drawerwright.carry import CarriedDrawer, carry_job
from drawerwright.carry.balance_told import balances_of
from drawerwright.carry.tipping import Tipping
from drawerwright.catalogue.materials import Materials
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer, FittedJob
from drawerwright.pack.carry_cabinet import cabinet_page
from drawerwright.pack.carry_columns import part_groups
from drawerwright.pack.carry_page import carry_page
from drawerwright.pack.carry_pictures import chart_of, diagrams_of
from drawerwright.pack.carry_sections import sections_page
from drawerwright.pack.distinct import AlikeDrawers
from drawerwright.pack.layout import PADDING, Layout
from drawerwright.pack.lettering import for_sheets
from drawerwright.pack.parts import in_parts, part_names
from drawerwright.pack.shown import Shown
from drawerwright.pack.type_sizes import GAPS, SIZES
from drawerwright.pack.typeset import forget_settings, set_document

PAGES: Final = 80
"""Most pages of one document, so that the compiler's memory stays bounded."""
DIAGRAM_SHARE: Final = 0.37
"""Height of the diagrams, of the board. Own choice."""
CHART_SHARE: Final = 0.44
"""Width of the chart, of the room beside the checks. Own choice."""
CAPTION: Final = 5.0
"""Strip under the chart [mm]."""

Thing: TypeAlias = tuple[AlikeDrawers, CarriedDrawer] | Tipping | SlideFamily


def carried_of(
    distinct: Sequence[AlikeDrawers], shown: Shown, materials: Materials | None
) -> tuple[CarriedDrawer, ...]:
    """What the first of each kind of drawers carries; the balance of cabinets is told of all, elsewhere."""
    firsts = tuple(_standing_fast(alike.first) for alike in distinct)
    return carry_job(FittedJob("", firsts), units=shown.units, materials=materials).drawers


def _standing_fast(fitted: FittedDrawer) -> FittedDrawer:
    """The drawer in a cabinet that does not stand free: alike drawers may stand in different cabinets."""
    if fitted.cabinet is None or not fitted.cabinet.freestanding:
        return fitted
    return replace(fitted, cabinet=fitted.cabinet.model_copy(update={"freestanding": False}))


def families_with_sections(fitted: FittedJob) -> tuple[SlideFamily, ...]:
    """Families on whose slides drawers of the job run and that tell rolled sections, each once."""
    found = {one.slide.family.id: one.slide.family for one in fitted.drawers if one.slide is not None}
    return tuple(family for family in found.values() if family.profiles)


def carrying_pages(fitted: FittedJob) -> int:
    """How many pages cabinets that stand free and families with rolled sections take."""
    free = {one.cabinet.id for one in fitted.drawers if one.cabinet is not None and one.cabinet.freestanding}
    return len(free) + len(families_with_sections(fitted))


def carrying_data(
    things: Sequence[Thing], title: str, layout: Layout, shown: Shown, tell: Callable[[str], None]
) -> dict[str, Any]:
    """Everything on the pages of some drawers, cabinets and families, in words, with the drawings."""
    drawers, cabinets, families = [], [], []
    for thing in things:
        if isinstance(thing, Tipping):
            cabinets.append(cabinet_page(thing, layout.paper, shown))
            tell(f"balance of {thing.cabinet.id}")
        elif isinstance(thing, SlideFamily):
            families.append(sections_page(thing, layout.paper, shown))
            tell(f"sections of {thing.id}")
        else:
            drawers.append(_drawer_page(*thing, layout, shown))
            tell(f"what {thing[1].id} carries")
    return {
        "document_title": f"{title}: what the drawers carry",
        "job": title,
        "paper": layout.document(),
        "inches": shown.with_inches,
        "caption": CAPTION,
        "type": {"sizes": [list(one) for one in SIZES], "gaps": dict(GAPS)},
        "drawers": drawers,
        "cabinets": cabinets,
        "families": families,
    }


def _drawer_page(alike: AlikeDrawers, one: CarriedDrawer, layout: Layout, shown: Shown) -> dict[str, Any]:
    """The page of one kind of drawers: words, and drawings in the rooms that the page has for them."""
    page = carry_page(alike, one, shown)
    width, top = layout.drawing_width + PADDING, layout.board * DIAGRAM_SHARE
    under = layout.board - top - PADDING
    chart_width = width * CHART_SHARE if one.slide is not None else 0.0
    column = (width - chart_width - 2 * PADDING) / 2 - PADDING
    parted = part_groups(page["figures"], page["beside"], (column, under), layout)
    return {
        **page,
        **parted,
        "diagrams": diagrams_of(one, width / 2 - 2 * PADDING, top - PADDING, shown),
        "chart": chart_of(one, chart_width - 2 * PADDING, under - PADDING - CAPTION, shown),
        "top": top,
        "chart_width": chart_width,
        "column": column,
    }


def carrying_files(
    fitted: FittedJob,
    distinct: Sequence[AlikeDrawers],
    layout: Layout,
    shown: Shown,
    materials: Materials | None = None,
    tell: Callable[[str], None] = lambda _: None,
) -> Iterator[tuple[str, bytes]]:
    """`carrying.pdf`; of very many drawers `carrying-01.pdf` and so on.

    Raises:
        InputError: a drawer is heavier than anything that is computed.
    """
    carried = carried_of(distinct, shown, materials)
    things: list[Thing] = [
        *zip(distinct, carried, strict=True),
        *balances_of(fitted.drawers, shown.units),
        *families_with_sections(fitted),
    ]
    parts = in_parts(things, PAGES)
    title = for_sheets(fitted.title) or "Drawers"
    for name, members in zip(part_names("carrying", len(parts)), parts, strict=True):
        yield f"{name}.pdf", set_document("carrying", carrying_data(members, title, layout, shown, tell))
        tell(name)
        if len(parts) > 1:
            forget_settings()
