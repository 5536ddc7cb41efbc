"""Paper templates at full size, to be laid on the work; those that are alike are printed once."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Final, TypeAlias

from drawerwright.drawing.scene import Primitive, Scene
from drawerwright.drawing.shown import Units
from drawerwright.drawing.svg import write_svg
from drawerwright.drawing.templates import box_back, front_fixing, locking_bracket, row_holes
from drawerwright.drawing.tiles import page_count, tile
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.distinct import AlikeDrawers
from drawerwright.pack.layout import EDGE
from drawerwright.pack.lettering import for_sheets, lettered
from drawerwright.pack.papers import Paper
from drawerwright.pack.parts import in_parts, part_names
from drawerwright.pack.shown import Shown
from drawerwright.pack.typeset import forget_settings, set_document

PAGES: Final = 150
"""Most templates of one document, so that the compiler's memory stays bounded."""

_NOBODY: Final = ("",)
"""Stands for drawers while templates are compared: one paper serves all that agree but for names."""

Draw: TypeAlias = Callable[[FittedDrawer, Sequence[str] | None, Units], Scene]


@dataclass(frozen=True, slots=True)
class Template:
    """One template and all drawers it serves."""

    name: str
    scene: Scene
    ids: tuple[str, ...]


def _wanted(fitted: FittedDrawer) -> Iterator[tuple[str, Draw]]:
    """Names of the templates that a drawer wants, and what draws them; none where it does not fit."""
    slide, mounting = fitted.slide, fitted.mounting
    if slide is None or mounting is None:
        return
    if mounting.screw_line is not None and mounting.holes_from_side_edge:
        yield "Row holes, left", lambda one, ids, units: row_holes(one, "left", ids, units)
        yield "Row holes, right", lambda one, ids, units: row_holes(one, "right", ids, units)
    if slide.family.carriage == "concealed":
        yield "Box back", box_back
        if slide.family.bracket_holes:
            yield "Locking bracket, left", lambda one, ids, units: locking_bracket(one, "left", ids, units)
            yield "Locking bracket, right", lambda one, ids, units: locking_bracket(one, "right", ids, units)
    if fitted.fixing is not None and fitted.fixing.holes:
        yield "Front fixing", front_fixing


def full_size_templates(
    distinct: Sequence[AlikeDrawers], shown: Shown, tell: Callable[[str], None] = lambda _: None
) -> tuple[Template, ...]:
    """Every distinct template of a job, in the order in which each first comes."""
    found: dict[tuple[str, tuple[Primitive, ...]], tuple[Draw, list[AlikeDrawers]]] = {}
    for alike in distinct:
        for name, draw in _wanted(alike.first):
            scene = draw(alike.first, _NOBODY, shown)
            found.setdefault((name, scene.primitives), (draw, []))[1].append(alike)
        tell(f"templates of {alike.first.id}")
    made = []
    for (name, _), (draw, uses) in found.items():
        ids = tuple(one for alike in uses for one in alike.ids)
        made.append(Template(name, draw(uses[0].first, ids, shown), ids))
    return tuple(made)


def template_pages(scene: Scene, paper: Paper) -> tuple[tuple[Scene, ...], bool]:
    """A template cut into pages, and whether they lie across: as the paper takes fewer of them."""
    long, short = paper.width - 2 * EDGE, paper.height - 2 * EDGE
    across = page_count(scene, long, short) <= page_count(scene, short, long)
    return tile(scene, *((long, short) if across else (short, long))), across


def _template_data(template: Template, paper: Paper) -> dict[str, Any]:
    pages, across = template_pages(template.scene, paper)
    return {
        "name": template.name,
        "ids": for_sheets(", ".join(template.ids)),
        "across": across,
        "pages": [
            {"svg": lettered(write_svg(page, paper="print")), "alt": lettered(page.alt)} for page in pages
        ],
    }


def full_size_files(
    fitted_title: str,
    distinct: Sequence[AlikeDrawers],
    paper: Paper,
    shown: Shown,
    tell: Callable[[str], None] = lambda _: None,
) -> Iterator[tuple[str, bytes]]:
    """`templates.pdf`, a page of use first; very many templates go on in further documents."""
    templates = full_size_templates(distinct, shown, tell)
    parts = in_parts(templates, PAGES)
    title = for_sheets(fitted_title) or "Drawers"
    for name, members in zip(part_names("templates", len(parts)), parts, strict=True):
        data = {
            "document_title": f"{title}: templates",
            "job": title,
            "paper": {"width": paper.width, "height": paper.height, "edge": EDGE, "name": paper.name},
            "templates": [_template_data(one, paper) for one in members],
        }
        yield f"{name}.pdf", set_document("full-size", data)
        if len(parts) > 1:
            forget_settings()
    tell("templates")
