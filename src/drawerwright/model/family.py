"""A family of concealed slides. Keys as in the slide-family file; lengths mm, masses kg, forces N.

What a file leaves out takes the public contract's value, which is common practice without a source:
typical, not universal, so a maker's own numbers belong in the file.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import Field, PlainValidator, WithJsonSchema, model_validator

from drawerwright.errors import Problems, ReadingError
from drawerwright.model.family_rules import family_problems, length_problems
from drawerwright.model.quantities import (
    Band,
    Clearance,
    Count,
    Mass,
    NotNegative,
    Places,
    Points,
    Positive,
    Radii,
    Record,
    Size,
    Sizes,
    Text,
    Truth,
    Units,
)
from drawerwright.units import show_value


class LatchTolerance(Record):
    """How far a locking bracket may sit off its seat and still latch, sideways and lengthways [mm]."""

    side: Clearance = 0.8
    along: Clearance = 1.0


class FamilyClearance(Record):
    """Room the slide wants under, over and behind [mm]."""

    under: Clearance = 14.0
    over: Clearance = 7.0
    rear: Clearance = 3.0


class Heights(Record):
    """Screw line and rear bracket above the box side's lower edge; that edge above a shelf [mm]."""

    screw_line: Clearance = 10.0
    rear_bracket: Clearance = 10.0
    on_shelf: Clearance = 12.0


class Rear(Record):
    """Notch and hook bore in the box back [mm]; `bore` is a diameter.

    `bore_in` from the seat of the inside face, `bore_up` above the bottom's underside.
    """

    notch_width: Size = 35.0
    notch_height: Size = 13.0
    bore: Size = 6.0
    bore_depth: Size = 10.0
    bore_in: Clearance = 7.0
    bore_up: Clearance = 11.0


class RearBracket(Record):
    """Centre inside the frame's inside edge; how far behind the member the cabinet back may be [mm].

    `screws`: how many fix one bracket; None: not told.
    """

    centre: Clearance = 14.0
    reach: Band = (0.0, 45.0)
    screws: Count | None = None


class Adjust(Record):
    """Travel of the adjusters, each (low, high) [mm]: side to the right, height up, depth out positive."""

    side: Band = (-1.5, 1.5)
    height: Band = (0.0, 3.0)
    depth: Band = (0.0, 4.0)


class AdjustStep(Record):
    """One mark or part turn of each adjuster [mm]."""

    side: Size = 0.25
    height: Size = 0.25
    depth: Size = 0.25


class Tilt(Record):
    """An adjuster at the rear hooks, where there is one [mm]: travel up positive, and the move of one mark.

    It brings the front's top out.
    """

    travel: Band
    step: Size


class Carriages(Record):
    """Roller groups of the lower and upper carriage, from the rear end, drawer closed [mm]."""

    lower: Band
    upper: Band


class Stiffness(Record):
    """Bending stiffness EI of each member [N mm²]."""

    cabinet: Positive
    intermediate: Positive
    drawer: Positive


class Steel(Record):
    """What a member is rolled from [N/mm²]: modulus of elasticity, yield and ultimate strength.

    The modulus is by default 29,500 ksi for cold-formed steel (AISI S100, from memory). Without a yield
    strength nothing is said about stress; without an ultimate one nothing is gained by cold work.
    """

    modulus: Positive = 203_400.0
    yields: Positive | None = Field(default=None, alias="yield")
    ultimate: Positive | None = None


class Profile(Record):
    """A rolled section of one member: middle line through its corners (n, 2) [mm], thickness [mm].

    x to the right and y up, as the member hangs in a cabinet. `radii`: inside radius of the bends [mm], one
    for all or one a corner.
    """

    member: Literal["cabinet", "intermediate", "drawer"]
    thickness: Size
    points: Points
    radii: Radii = (0.0,)
    steel: Steel = Steel()


class Roller(Record):
    """One roller group: stiffness [N/mm], play [mm], what it may carry [N], and of how many rollers it is."""

    stiffness: Positive
    play: Clearance
    carries: Positive | None = None
    count: Count | None = None


class Evidence(Record):
    """A capacity test that was passed: by which standard, at which load of the pair [kg], how often.

    `modified`: the load, or something else, was not the standard's own. `nominal`: the length tested [mm],
    None: told of all.
    """

    standard: Text
    load: Mass
    modified: Truth = False
    cycles: Count | None = None
    nominal: Size | None = None
    source: Text = ""


class SoftClose(Record):
    """The closing unit: capture [mm], pull-in [N], spring [N/mm], damping [N s/mm], rolling drag [1]."""

    capture: Size
    pull_in: NotNegative
    spring: NotNegative
    damping: NotNegative
    drag: NotNegative


class SlideLength(Record):
    """One length of a family [mm, kg].

    `holes` and `slots` count from the first row hole, `shelf_holes` from the member's front end.
    `member` and `box` are `nominal` unless told. `price` is of a pair, in the user's money.
    """

    nominal: Size
    member: Size = Field(default_factory=lambda data: data.get("nominal", 0.0))
    box: Size = Field(default_factory=lambda data: data.get("nominal", 0.0))
    travel: Size | None = None
    capacity: Mass | None = None
    price: NotNegative | None = None
    holes: Places = ()
    slots: Places = ()
    shelf_holes: Places = ()
    rear_slot: Truth = True

    @model_validator(mode="after")
    def _holds_together(self) -> SlideLength:
        problems = length_problems(self)
        if problems:
            raise Problems(problems)
        return self


def _read_id(value: object) -> str:
    plain = value.replace("-", "").replace(".", "").replace("_", "") if isinstance(value, str) else ""
    if not isinstance(value, str) or not (plain.isascii() and plain.isalnum()) or not value[0].isalnum():
        raise ReadingError(
            show_value(value), "is not a family id: letters, digits, and - . _ after the first", '"plain-16"'
        )
    if value.casefold() == "auto":
        raise ReadingError(show_value(value), 'is kept for slide = "auto"', '"plain-16"')
    return value


class SlideFamily(Record):
    """A family of slides: what all its lengths share, and the lengths [mm, kg, degrees]."""

    EXAMPLES: ClassVar[Mapping[str, str]] = {"id": '"plain-16"'}

    id: Annotated[str, PlainValidator(_read_id), WithJsonSchema({"type": "string"})]
    title: Text = ""
    units: Units = "mm"
    invented: Truth = False
    source: Text = ""
    extension: Literal["full", "three-quarter", "over"] = "full"
    carriage: Literal["concealed", "side-mounted"] = "concealed"
    capacity: Mass
    capacity_of: Literal["moving", "contents"] = "moving"
    inside_width_deduction: Size
    design_side: Size = 16.0
    design_subfront: Size = 16.0
    min_gap: Clearance = 4.5
    latch_tolerance: LatchTolerance = LatchTolerance()
    width_band: Band = (-1.0, 1.5)
    spacers: Sizes = (3.0,)
    clearance: FamilyClearance = FamilyClearance()
    front_overlay: Clearance = 2.0
    front_inset: Clearance = 3.0
    box_ahead: Clearance = 3.0
    setback: Clearance = 37.0
    heights: Heights = Heights()
    bottom_recess: Clearance = 13.0
    rear: Rear = Rear()
    bracket_holes: Points = ((12.0, 9.0), (28.0, 9.0), (12.0, 25.0))
    bracket_angle: Positive = 75.0
    rear_bracket: RearBracket | None = None
    front_fix: Clearance = 8.0
    adjust: Adjust = Adjust()
    adjust_step: AdjustStep = AdjustStep()
    tilt: Tilt | None = None
    side_strain: Clearance = 0.5
    width_to_length: Positive = 2.5
    hardware_mass: Mass | None = None
    carton: Count | None = None
    carriages: Carriages | None = None
    carriages_for: Size | None = None
    stiffness: Stiffness | None = None
    profiles: tuple[Profile, ...] = Field(default=(), alias="profile")
    roller: Roller | None = None
    mount_stiffness: Positive | None = None
    sag_limit: Size | None = None
    evidence: tuple[Evidence, ...] = ()
    soft_close: SoftClose | None = None
    lengths: tuple[SlideLength, ...] = Field(alias="length", json_schema_extra={"minItems": 1})

    @model_validator(mode="after")
    def _holds_together(self) -> SlideFamily:
        problems = family_problems(self)
        if problems:
            raise Problems(problems)
        return self

    def length_of(self, nominal: float) -> SlideLength | None:
        """The length with that nominal length [mm], within 0.05; None when the family has none."""
        return next((one for one in self.lengths if abs(one.nominal - nominal) < 0.05), None)

    def travel_of(self, length: SlideLength) -> float:
        """Travel [mm]: as told, else the box length at full extension and 0.75 of it at three-quarter."""
        if length.travel is not None:
            return length.travel
        return length.box * (0.75 if self.extension == "three-quarter" else 1.0)

    def carriages_on(self, member: float) -> tuple[tuple[float, float], tuple[float, float]] | None:
        """Lower and upper roller groups on a cabinet member of that length [mm from its rear end], closed.

        They are told for one nominal length; on a longer member they stand further apart in proportion. None
        where they are not told.
        """
        if self.carriages is None or self.carriages_for is None:
            return None
        told_for = self.length_of(self.carriages_for)
        scale = member / (self.carriages_for if told_for is None else told_for.member)
        lower, upper = self.carriages.lower, self.carriages.upper
        return (lower[0] * scale, lower[1] * scale), (upper[0] * scale, upper[1] * scale)

    def capacity_at(self, length: SlideLength) -> float:
        """Capacity of the pair at that length [kg]: the length's own, else the family's."""
        return self.capacity if length.capacity is None else length.capacity
