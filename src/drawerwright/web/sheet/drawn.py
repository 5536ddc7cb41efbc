"""A sheet's drawings as a page carries them: SVG in sheet units, with the places of words on it.

Sheet units are those of the house's drawing sheet, 1572 across, y downwards: lettering in them is as large
as on a page, so that no browser's least size of letters changes it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from markupsafe import Markup

from drawerwright.drawing.fonts import FAMILY_LIST
from drawerwright.drawing.geometry import Bounds, Point
from drawerwright.drawing.pens import SHEET_UNIT
from drawerwright.drawing.scene import Scene
from drawerwright.drawing.svg import write_svg_inside
from drawerwright.drawing.svg_pieces import write_svg_pieces
from drawerwright.model.fitted import FittedDrawer
from drawerwright.web.sheet.asked import Arrangement, Asked
from drawerwright.web.sheet.board import Board, compose_board
from drawerwright.web.sheet.columns import SetNote
from drawerwright.web.sheet.notes import Note, ViewName, in_order_of_care
from drawerwright.web.sheet.picture import Picture, picture_of
from drawerwright.web.sheet.stack import WIDTHS, Size, stack_views
from drawerwright.web.sheet.views import DrawnViews
from drawerwright.web.sheet.white import line_to, nearest_white
from drawerwright.web.sheet.working import WIDTH as WORKING_WIDTH
from drawerwright.web.sheet.working import Unfolded, height_of, number_of

SCALE: Final = 1.0 / SHEET_UNIT
FONT: Final = FAMILY_LIST
_CAPTION: Final = 7.4
_SLIDER: Final = 9.6
_ALSO: Final = 3.9
_CHANGE: Final = 8.2
_WIDER: Final = (1.0, 0.92, 1.2, 1.5)
"""How wide a working may be set, as a share of its usual width: a wider one is lower. Own choice."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle in sheet units, y downwards."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class NoteBox:
    """A note in its place, with its line."""

    note: Note
    box: Box
    line: str
    dot: tuple[float, float] | None


@dataclass(frozen=True, slots=True)
class PictureBox:
    """The drawn-out picture in a room: what stands inside its SVG, which is `view` large."""

    inside: Markup
    box: Box
    view: str
    alt: str
    out: float
    travel: float


@dataclass(frozen=True, slots=True)
class WorkingBox:
    """The working unfolded: where its words stand, and the line to the number."""

    unfolded: Unfolded
    box: Box
    line: str


@dataclass(frozen=True, slots=True)
class PlacedView:
    """A view on the wide sheet: what stands inside it, and where its own (0, 0) stands [mm, y downwards]."""

    name: ViewName
    inside: Markup
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class DrawnBoard:
    """The wide sheet."""

    views: tuple[PlacedView, ...]
    captions: Markup
    alt: str
    view: str
    notes: tuple[NoteBox, ...]
    also: tuple[Note, ...]
    also_box: Box | None
    picture: PictureBox | None
    slider: Box | None
    working: WorkingBox | None
    scale: float


@dataclass(frozen=True, slots=True)
class DrawnView:
    """One view by itself."""

    name: ViewName
    inside: Markup
    alt: str
    view: str
    working: WorkingBox | None


class Paper:
    """Paper of a page, which turns mm upwards into sheet units downwards."""

    def __init__(self, page: Bounds) -> None:
        self.page = page

    def box(self, room: Bounds) -> Box:
        """A rectangle."""
        return Box(
            _rounded(room.left * SCALE),
            _rounded(-room.top * SCALE),
            _rounded(room.width * SCALE),
            _rounded(room.height * SCALE),
        )

    def points(self, points: Sequence[Point]) -> str:
        """Points of a polyline."""
        return " ".join(f"{_rounded(x * SCALE):g},{_rounded(-y * SCALE):g}" for x, y in points)

    @property
    def view(self) -> str:
        """The view box of the page."""
        box = self.box(self.page)
        return f"{box.x:g} {box.y:g} {box.width:g} {box.height:g}"


def _rounded(value: float) -> float:
    return round(value, 1) + 0.0


def draw_board(
    views: DrawnViews,
    notes: Sequence[Note],
    asked: Asked,
    unfolded: Unfolded | None,
    *,
    out: float,
    changes: int,
    picture: bool,
    address: str,
) -> DrawnBoard:
    """The wide sheet.

    `out`: how far the drawer is drawn out [mm]; `changes`: how many rows of changes it has to carry;
    `picture`: whether the drawn-out view is wanted now; `address`: what its links lead to, "" for nowhere
    yet.
    """
    board = compose_board(views, notes)
    page = board.captions.page
    assert page is not None
    paper = Paper(page)
    room, also_room, slider = _picture_rooms(board, views.fitted, changes)
    shown = _picture_box(views.fitted, asked, room, paper, out if picture else None)
    working = None
    if unfolded is not None:
        taken = [Bounds(one.left, one.top - one.height, one.left + one.width, one.top) for one in board.notes]
        taken += [board.picture]
        working = _working_box(board.scene, page, taken, unfolded, paper)
    return DrawnBoard(
        tuple(
            PlacedView(
                view.name,
                view.set.written(view.name, asked.show, address),
                round(view.origin[0], 3),
                round(-view.origin[1], 3),
            )
            for view in board.views
        ),
        Markup("\n".join(write_svg_pieces(board.captions))),
        board.captions.alt,
        paper.view,
        tuple(_note_box(one, paper) for one in board.notes),
        board.also,
        None if also_room is None else paper.box(also_room),
        shown,
        None if slider is None else paper.box(slider),
        working,
        board.captions.scale,
    )


def _picture_rooms(
    board: Board, fitted: FittedDrawer, changes: int
) -> tuple[Bounds, Bounds | None, Bounds | None]:
    """The picture's room, that of what stands under it, and the slider's between them."""
    room = board.picture
    low = room.bottom
    also = None
    rows = (
        changes * _CHANGE + 5.0
        if changes
        else -(-len(board.also) // 2) * _ALSO + (4.6 if board.also else 0.0)
    )
    if rows:
        also = Bounds(room.left, low, room.right, low + rows)
        low += rows + 2.0
    slider = None
    if fitted.slide is not None:
        slider = Bounds(room.left, low, room.right, low + _SLIDER)
        low += _SLIDER
    return Bounds(room.left, low, room.right, room.top - _CAPTION * 0.4), also, slider


def _picture_box(
    fitted: FittedDrawer, asked: Asked, room: Bounds, paper: Paper, out: float | None
) -> PictureBox | None:
    if room.height < 12.0:
        return None
    if out is None:
        return PictureBox(Markup(""), paper.box(room), "0 0 1 1", "", 0.0, 0.0)
    return boxed_picture(picture_of(fitted, out, room.width, room.height, asked.shown), room, "wide")


def boxed_picture(picture: Picture, room: Bounds, arrangement: Arrangement) -> PictureBox:
    """A picture in its room, for a page; ids in it bear the arrangement's name."""
    scene = replace(picture.scene, name=f"{arrangement}-out")
    inside = Markup(write_svg_inside(scene, set_fractions=True))
    return PictureBox(
        inside, Paper(room).box(room), Paper(picture.room).view, scene.alt, picture.out, picture.travel
    )


def _note_box(one: SetNote, paper: Paper) -> NoteBox:
    room = Bounds(one.left, one.top - one.height - 4.0, one.left + one.width, one.top)
    dot = None
    if one.dot and one.line:
        dot = (_rounded(one.line[0][0] * SCALE), _rounded(-one.line[0][1] * SCALE))
    return NoteBox(one.note, paper.box(room), paper.points(one.line), dot)


def _working_box(
    scene: Scene, page: Bounds, taken: Iterable[Bounds], unfolded: Unfolded, paper: Paper
) -> WorkingBox | None:
    number = number_of(scene, unfolded.quantity)
    if number is None:
        return None
    widths = (min(WORKING_WIDTH * times, page.width * 0.68) for times in _WIDER)
    sizes = ((width, height_of(unfolded, width)) for width in widths)
    room = nearest_white(scene, page, taken, number, sizes)
    return WorkingBox(unfolded, paper.box(room), paper.points(line_to(scene, number, room)))


def draw_stack(
    views: DrawnViews, size: Size, asked: Asked, unfolded: Unfolded | None, address: str
) -> tuple[DrawnView, ...]:
    """Plan, side and front one by one; a working opens in the first view that shows its number.

    `address`: what their links lead to, "" for nowhere yet.
    """
    drawn = []
    open_in: ViewName | None = None
    for stacked in stack_views(views, size):
        scene, paper = stacked.view.set.scene, Paper(stacked.page)
        name = stacked.view.name
        scene = Scene(f"{size}-{name}", scene.title, scene.alt, scene.primitives, scene.scale, stacked.page)
        working = None
        if unfolded is not None and open_in is None:
            working = _working_box(scene, stacked.page, (), unfolded, paper)
            open_in = name if working is not None else None
        inside = stacked.view.set.written(f"{size}-{name}", asked.show, address)
        drawn.append(DrawnView(name, inside, scene.alt, paper.view, working))
    return tuple(drawn)


def stacked_picture(fitted: FittedDrawer, size: Size, out: float, asked: Asked) -> PictureBox:
    """The drawn-out picture by itself."""
    width = WIDTHS[size]
    picture = picture_of(fitted, out, width, width * 0.8, asked.shown)
    return boxed_picture(picture, picture.room, size)


def notes_under(notes: Sequence[Note]) -> Mapping[str, tuple[Note, ...]]:
    """Notes by the view that they stand under where views stand one by one, those that want care first."""
    under: dict[str, list[Note]] = {"plan": [], "side": [], "front": [], "out": []}
    for note in in_order_of_care(tuple(notes)):
        under[note.place.view if note.place is not None else "out"].append(note)
    return {name: tuple(told) for name, told in under.items()}


def picture_alone(
    views: DrawnViews,
    notes: Sequence[Note],
    asked: Asked,
    arrangement: Arrangement,
    *,
    out: float,
    changes: int,
) -> PictureBox | None:
    """The drawn-out picture of an arrangement, without anything else."""
    if arrangement != "wide":
        return stacked_picture(views.fitted, arrangement, out, asked)
    board = compose_board(views, notes)
    room, _, _ = _picture_rooms(board, views.fitted, changes)
    return _picture_box(views.fitted, asked, room, Paper(room), out)
