"""A job as it was measured: cabinets and drawers. Keys as in the job file; lengths mm, masses kg.

A file in inches is converted while it is read (see `quantities`), so nothing here is ever in inches.
Numbers that a file leaves out are the public contract's, which are common practice without a source.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cached_property
from typing import Annotated, Any, Literal

from pydantic import (
    BeforeValidator,
    Field,
    PlainValidator,
    ValidationInfo,
    WithJsonSchema,
    model_validator,
)

from drawerwright.errors import Problem, Problems, ReadingError
from drawerwright.model.cabinet import Cabinet as Cabinet
from drawerwright.model.cabinet import CabinetSize as CabinetSize
from drawerwright.model.columns import settle_openings
from drawerwright.model.job_rules import drawer_problems, job_problems
from drawerwright.model.quantities import (
    Clearance,
    Count,
    Mass,
    Name,
    Record,
    Size,
    Sizes,
    Text,
    Thickness,
    Truth,
    TwoSizes,
    Units,
    bare_unit_of,
)
from drawerwright.model.readings import NOT_TOLD, Measured
from drawerwright.model.readings import Readings as Readings
from drawerwright.model.spelling import nearest
from drawerwright.model.surroundings import CutOut, Door, InTheWay
from drawerwright.units import parse_clearance, parse_mass, parse_size, show_value


class Opening(Record):
    """A clear opening [mm]. `depth`: to the first thing behind. `floor`: its bottom above the cabinet's.

    `diagonals`: the one that rises to the right first, then the one that rises to the left.
    """

    width: Measured
    height: Measured
    depth: Measured
    floor: Clearance = 0.0
    diagonals: TwoSizes | None = None


class Lost(Record):
    """Width taken by hinges and door edges on each side [mm]."""

    left: Clearance = 0.0
    right: Clearance = 0.0


class Frame(Record):
    """A face frame [mm]: overhang beyond each cabinet side, thickness, how far the side is let in (`lap`)."""

    left: Clearance
    right: Clearance
    thickness: Thickness
    lap: Clearance = 0.0


class Overlay(Record):
    """How far an overlay front covers beyond each edge of the opening [mm]."""

    left: Clearance = 16.0
    right: Clearance = 16.0
    top: Clearance = 16.0
    bottom: Clearance = 16.0


def _one_for_all(value: object, info: ValidationInfo) -> object:
    if isinstance(value, (int, float, str)):
        one = parse_clearance(value, bare_unit_of(info))
        return Overlay(left=one, right=one, top=one, bottom=one)
    return value


class Handle(Record):
    """Handle borings in the front [mm]: `spacing` between the two (0: one, a knob), `bore` their diameter.

    `up` above the front's lower edge; None: half way up.
    """

    spacing: Clearance = 0.0
    up: Size | None = None
    bore: Thickness = 5.0


class Front(Record):
    """The applied front [mm]; `gap` between fronts of a column and around an inset one.

    `height` None: what its opening makes it; told, it may stand for the opening's height, which then follows.
    `edging`: thickness of the banding on its four edges; `screw`: length of the screws that fix it.
    """

    style: Literal["overlay", "inset", "none"] = "none"
    thickness: Thickness = 19.0
    overlay: Annotated[
        Overlay, BeforeValidator(_one_for_all, json_schema_input_type=float | str | Overlay)
    ] = Overlay()
    gap: Clearance = 3.0
    height: Size | None = None
    edging: Clearance = 0.0
    screw: Size | None = None
    handle: Handle | None = None


class Box(Record):
    """How the shop builds its boxes [mm]; `heights` are those it keeps, ascending; empty: any.

    `back`: thickness of the back, None: as the sides; `joint_depth`: how deep a corner joint is let in, None:
    by the joint; `edging`: banding on top edges; `bracket_screw`: length of the locking bracket's screws.
    """

    joint: Literal["butt", "rabbet", "dowel", "dovetail"] = "butt"
    bottom: Literal["groove-4", "groove-3", "under"] = "groove-4"
    bottom_thickness: Thickness = 6.0
    groove_depth: Clearance = 6.0
    front: Literal["applied", "integral"] = "applied"
    heights: Sizes = ()
    back: Thickness | None = None
    joint_depth: Clearance | None = None
    edging: Clearance = 0.0
    bracket_screw: Size | None = None


class ExistingBox(Record):
    """A box that is already made [mm]: what is told of it is checked, the rest taken as it would be cut.

    `bore_in`: hook bores from the inside faces of its sides, `bore_up` above its bottom's underside.
    """

    inside_width: Size | None = None
    outside_width: Size | None = None
    length: Size | None = None
    height: Size | None = None
    bottom_recess: Clearance | None = None
    bore_in: Clearance | None = None
    bore_up: Clearance | None = None
    notch_width: Size | None = None
    notch_height: Size | None = None

    @property
    def is_wide_as_told(self) -> bool:
        """Whether a width is told: of the other the sides' thickness tells."""
        return self.inside_width is not None or self.outside_width is not None

    @property
    def unmeasured(self) -> tuple[str, ...]:
        """The sizes of the box that are not told, in words."""
        told = {"width": self.is_wide_as_told, "length": self.length, "height": self.height}
        return tuple(size for size, is_told in told.items() if not is_told)


class Contents(Record):
    """What the drawer holds: a mass [kg], or the id of a published load."""

    mass: Mass = 0.0
    preset: Name | None = None

    @model_validator(mode="after")
    def _one_of_them(self, info: ValidationInfo) -> Contents:
        if self.preset is None:
            return self
        if self.mass:
            raise ReadingError(
                f'{{ mass = {self.mass:g}, preset = "{self.preset}" }}',
                "has both a mass and a preset: one is wanted",
                f'{{ preset = "{self.preset}" }}',
            )
        known = info.context.get("presets") if info.context else None
        if known is not None and self.preset not in known:
            says = f"is not a known preset: {', '.join(sorted(known))}"
            close = f'"{nearest(self.preset, known)}"'
            raise Problems([Problem(("preset",), show_value(self.preset), says, close)])
        return self


def _mass_alone(value: object, info: ValidationInfo) -> object:
    if isinstance(value, (int, float, str)):
        return Contents(mass=parse_mass(value, bare_unit_of(info)))
    return value


class MaterialNames(Record):
    """What the parts of a drawer are made of, by the id of a material; None: not told.

    A thickness that is told beside a name was measured; else it is the one that the material is bought in.
    """

    side: Name | None = None
    subfront: Name | None = None
    back: Name | None = None
    bottom: Name | None = None
    front: Name | None = None


def _none_when_empty(value: object) -> object:
    return None if isinstance(value, Mapping) and not value else value


def _none_when_auto(value: object) -> object:
    return None if isinstance(value, str) and value.strip().casefold() == "auto" else value


_SLIDE = re.compile(r"(?P<family>[A-Za-z0-9][A-Za-z0-9._-]*)(?:\s*/\s*(?P<nominal>.+))?")


def _read_slide(value: object, info: ValidationInfo) -> str:
    """The word "auto", a family, or a family and a nominal length; the length becomes mm."""
    match = _SLIDE.fullmatch(value.strip()) if isinstance(value, str) else None
    if match is None:
        raise ReadingError(show_value(value), 'is not "auto", "family" or "family/nominal"', '"house-16/500"')
    if match["nominal"] is None:
        return match["family"]
    return f"{match['family']}/{parse_size(match['nominal'], bare_unit_of(info))!r}".removesuffix(".0")


class Drawer(Record):
    """One drawer to be fitted [mm, kg]. `subfront` None: as `side`; `box_height` None: the tallest.

    `pack_rear`: the shop packs the rear of the members where the opening is wider at the back;
    `stabiliser`: one is fitted between the two slides.
    """

    id: Name
    cabinet: Name | None = None
    row: Count | None = None
    opening: Opening
    lost: Lost = Lost()
    construction: Literal["frameless", "face-frame"] = "frameless"
    frame: Frame | None = None
    mount: Literal["side", "packed", "rear-bracket", "shelf", "auto"] = "auto"
    slide: Annotated[str, PlainValidator(_read_slide), WithJsonSchema({"type": "string"})] = "auto"
    front: Front = Front()
    side: Thickness
    subfront: Thickness | None = None
    size_from: Literal["inside", "outside"] = "inside"
    existing_box: Annotated[ExistingBox | None, BeforeValidator(_none_when_empty)] = None
    box: Box = Box()
    box_height: Annotated[
        Size | None, BeforeValidator(_none_when_auto, json_schema_input_type=float | str | None)
    ] = None
    contents: Annotated[
        Contents, BeforeValidator(_mass_alone, json_schema_input_type=float | str | Contents)
    ] = Contents()
    materials: MaterialNames = MaterialNames()
    door: Door | None = None
    in_the_way: tuple[InTheWay, ...] = ()
    pack_rear: Truth = False
    cut_out: CutOut | None = None
    stabiliser: Truth = False
    quantity: Count = 1
    note: Text = ""

    @model_validator(mode="before")
    @classmethod
    def _height_may_follow(cls, data: Any) -> Any:
        """The opening's height is not asked for where the front's is told."""
        if not isinstance(data, Mapping):
            return data
        opening, front = data.get("opening"), data.get("front")
        told = front.get("height") if isinstance(front, Mapping) else getattr(front, "height", None)
        if told is None or not isinstance(opening, Mapping) or "height" in opening:
            return data
        return {**data, "opening": {**opening, "height": NOT_TOLD}}

    @model_validator(mode="after")
    def _holds_together(self) -> Drawer:
        problems = drawer_problems(self)
        if problems:
            raise Problems(problems)
        return self

    @property
    def frame_in_use(self) -> Frame | None:
        """The face frame; None on a frameless cabinet, whatever frame the file also gives."""
        return self.frame if self.construction == "face-frame" else None

    @property
    def subfront_thickness(self) -> float:
        """Thickness of the box front behind the applied front [mm]."""
        return self.side if self.subfront is None else self.subfront

    @property
    def back_thickness(self) -> float:
        """Thickness of the box back [mm]."""
        return self.side if self.box.back is None else self.box.back

    @property
    def slide_family(self) -> str | None:
        """Id of the wanted slide family; None: any."""
        return None if self.slide == "auto" else self.slide.partition("/")[0]

    @property
    def slide_nominal(self) -> float | None:
        """Wanted nominal length [mm]; None: any."""
        nominal = self.slide.partition("/")[2]
        return float(nominal) if nominal else None


class Job(Record):
    """All cabinets and drawers of one job. `units`: what people read and what its file is written in."""

    title: Text = ""
    units: Units = "mm"
    cabinets: tuple[Cabinet, ...] = Field(default=(), alias="cabinet")
    drawers: tuple[Drawer, ...] = Field(alias="drawer", json_schema_extra={"minItems": 1})

    @model_validator(mode="before")
    @classmethod
    def _unit_is_told(cls, data: Any, info: ValidationInfo) -> Any:
        # Raw inch tables read without their unit would pass as millimetres: stop here instead.
        if isinstance(data, Mapping) and data.get("units") == "in" and not info.context:
            names = ("drawer", "drawers", "cabinet", "cabinets")
            if any(isinstance(one, Mapping) for name in names for one in data.get(name, ())):
                raise ValueError("tables in inches are read by files.job_from_mapping, which tells the unit")
        return data

    @model_validator(mode="after")
    def _holds_together(self) -> Job:
        problems = job_problems(
            [cabinet.id for cabinet in self.cabinets],
            [(drawer.id, drawer.cabinet, drawer.row) for drawer in self.drawers],
        )
        if not problems:
            settled, problems = settle_openings(self.drawers, {one.id: one for one in self.cabinets})
            # The record is frozen for everyone but its own making.
            object.__setattr__(self, "drawers", settled)
        if problems:
            raise Problems(problems)
        return self

    def cabinet_of(self, drawer: Drawer) -> Cabinet | None:
        """The cabinet a drawer names, where the job describes it."""
        return self._cabinet_by_id.get(drawer.cabinet) if drawer.cabinet is not None else None

    @cached_property
    def _cabinet_by_id(self) -> dict[str, Cabinet]:
        return {cabinet.id: cabinet for cabinet in self.cabinets}
