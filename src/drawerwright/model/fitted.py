"""A fitted drawer: what was chosen, cut and bored, and how each check came out.

All lengths in mm, masses in kg. Directions as in the public contract: x to the right from the middle
of the opening, y up from its bottom edge, depths counted into the cabinet from its front edge.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal

from drawerwright.model.family import SlideFamily, SlideLength
from drawerwright.model.fitted_column import FittedColumn
from drawerwright.model.job import Cabinet, Drawer
from drawerwright.model.retrofit import Retrofit

State = Literal["ok", "watch", "stop"]
Verdict = Literal["fits", "fits-with-care", "does-not-fit"]
Mount = Literal["side", "packed", "rear-bracket", "shelf"]

MOUNT_WORDS: Final[dict[Mount, str]] = {
    "side": "on the cabinet side",
    "packed": "on packing",
    "rear-bracket": "on rear brackets",
    "shelf": "on a shelf",
}
VERDICT_WORDS: Final[dict[Verdict, str]] = {
    "fits": "fits",
    "fits-with-care": "fits with care",
    "does-not-fit": "does not fit",
}


@dataclass(frozen=True, slots=True)
class Working:
    """How one value came about.

    `formula` names the quantities, `figures` has their values in place and ends in the result;
    `terms` lists each named value with its unit and what it is.
    """

    quantity: str
    unit: str
    value: float
    title: str
    formula: str
    figures: str
    terms: tuple[tuple[str, float, str, str], ...]
    source: str


@dataclass(frozen=True, slots=True)
class Check:
    """One check: its margin [unit] is negative where the rule is broken.

    `says` ends with `cure`, what to do or to watch; it is empty where nothing is to be done.
    """

    id: str
    state: State
    margin: float
    unit: str
    says: str
    working: str
    source: str
    cure: str = ""


@dataclass(frozen=True, slots=True)
class Change:
    """The smallest single change of one input that would make the drawer fit; `by` is added [unit].

    Of an opening's width, `readings` says which: "all", or those that pass a `limit` [mm], the "widest" of
    all or of those at the "front" or at the "back". They are brought to the limit, down where `by` is
    negative, up where it is positive; `by` is then how far the farthest of them moves. `to` is the word that
    a choice is changed to, where it is not a size.
    """

    change: str
    by: float
    unit: str
    says: str
    readings: str = ""
    to: str = ""
    limit: float | None = None


@dataclass(frozen=True, slots=True)
class Rejected:
    """A slide that was tried and stopped: the first check that stopped it, and all of them."""

    family: str
    nominal: float
    mount: Mount
    because: str
    margin: float
    unit: str
    stops: tuple[tuple[str, float, str], ...]


@dataclass(frozen=True, slots=True)
class ChosenSlide:
    """A pair of slides of one family and length, how it is mounted, and its spacers [mm]."""

    family: SlideFamily
    length: SlideLength
    mount: Mount
    side_spacers: tuple[float, ...]
    subfront_spacers: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Latch:
    """How far the locking brackets stand off their seats [mm]: sideways (outboard positive), lengthways."""

    side: float
    along: float


@dataclass(frozen=True, slots=True)
class BoxSizes:
    """The drawer box [mm]; `lower_edge` above the cabinet floor, `front_depth` of the subfront's face."""

    outside_width: float
    inside_width: float
    height: float
    length: float
    side: float
    subfront: float
    back: float
    bottom: float
    groove_depth: float
    bottom_recess: float
    side_gap: float
    lower_edge: float
    front_depth: float


@dataclass(frozen=True, slots=True)
class Mounting:
    """Where the cabinet members go [mm].

    `holes` and `slots` are depths from the front of the cabinet (or of the face frame);
    `..._from_side_edge` the same from the front edge of the cabinet side. `screw_line` is above the
    cabinet floor (None on a shelf). Rear brackets: bracket centre from the inside of each cabinet side.
    `rear_packing_...`: under the rear end of the member alone, where the opening is wider at the back.
    """

    front_end: float
    member: float
    holes: tuple[float, ...]
    holes_from_side_edge: tuple[float, ...]
    slots: tuple[float, ...]
    slots_from_side_edge: tuple[float, ...]
    shelf_holes: tuple[float, ...]
    screw_line: float | None
    moved_up: float
    rear_bracket_left: float | None
    rear_bracket_right: float | None
    rear_bracket_height: float | None
    reach: float | None
    packing_left: float
    packing_right: float
    rear_packing_left: float = 0.0
    rear_packing_right: float = 0.0


@dataclass(frozen=True, slots=True)
class FrontSizes:
    """The front [mm]; `left` and `bottom` are its overlap beyond the opening's edges (negative inside it)."""

    style: Literal["overlay", "inset", "none"]
    width: float
    height: float
    thickness: float
    left: float
    right: float
    top: float
    bottom: float
    stands_out: float


Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class FrontFixing:
    """How an applied front is fixed [mm].

    `holes` go through the subfront: x from the middle of the box, y above the lower edge of the box;
    `holes_in_front` are the same places on the back of the front: x from the front's middle (to the right as
    seen from the front), y above its lower edge; `handle` borings likewise. `longest_screw` stays under the
    front's face. The front is fixed `low_by` under its even place. It stands `deep_by` further in than that
    with the members at the depths told: nothing is to be added to them. The adjusters set to bring it to its
    even place then have `room_up`, `room_down`, `room_out`, `room_in`; an overlay front goes in as far as the
    cabinet.
    """

    holes: tuple[Point, ...]
    holes_in_front: tuple[Point, ...]
    handle: tuple[Point, ...]
    handle_bore: float
    longest_screw: float
    low_by: float
    deep_by: float
    room_up: float
    room_down: float
    room_out: float
    room_in: float


@dataclass(frozen=True, slots=True)
class CutOutSizes:
    """Room for pipes in a box [mm]: clear width and depth from the box's rear end.

    `back_left` and `back_right` are the pieces of the back that stay, clear between side and cut-out;
    `bottom_cut` is how far the cut-out goes in from the bottom's rear edge.
    """

    width: float
    depth: float
    back_left: float
    back_right: float
    bottom_cut: float


@dataclass(frozen=True, slots=True)
class Meeting:
    """A thing beside the way out: `lacks` is how much the `body` is too wide for it [mm] (negative: spare).

    `after` is how far the drawer is out when it hits it [mm]; None: it passes.
    """

    what: str
    side: Literal["left", "right"]
    body: str
    after: float | None
    lacks: float


@dataclass(frozen=True, slots=True)
class WayOut:
    """What a drawer meets on its way out, first met first, and the least filler a side that clears [mm]."""

    meetings: tuple[Meeting, ...]
    filler_left: float
    filler_right: float


@dataclass(frozen=True, slots=True)
class Part:
    """A part to cut [mm]: finished sizes, `length` along the grain direction named by `grain`.

    `edged` names the edges that get banding, `edging` thick: "top" and "bottom" run along the length, "left"
    and "right" across. `cut_length` and `cut_width` are what the saw makes before the banding goes on.
    """

    part: str
    count: int
    length: float
    width: float
    thickness: float
    grain: Literal["none", "length", "width"]
    edged: tuple[str, ...] = ()
    edging: float = 0.0

    @property
    def cut_length(self) -> float:
        """Length before banding [mm]."""
        return self.length - self.edging * sum(edge in self.edged for edge in ("left", "right"))

    @property
    def cut_width(self) -> float:
        """Width before banding [mm]."""
        return self.width - self.edging * sum(edge in self.edged for edge in ("top", "bottom"))


@dataclass(frozen=True, slots=True)
class Masses:
    """Masses [kg]; `moving` is their sum."""

    box: float
    front: float
    hardware: float
    contents: float
    moving: float


@dataclass(frozen=True, slots=True)
class NearestSizes:
    """Box, places and masses of a drawer on the slide that came nearest: not to be built, only to be told."""

    box: BoxSizes
    mounting: Mounting
    mass: Masses


@dataclass(frozen=True, slots=True)
class ReadOpening:
    """The opening as it was used [mm]: smallest and largest of the readings, `lost` already taken off."""

    width: float
    widest: float
    height: float
    depth: float
    floor: float
    readings: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class FittedDrawer:
    """The answer for one drawer.

    Where nothing fits, `slide` and what hangs on it are None; `nearest` is the slide that came nearest, and
    `checks` are its checks; `nearest_sizes` what the drawer would be on it.
    """

    drawer: Drawer
    cabinet: Cabinet | None
    opening: ReadOpening
    verdict: Verdict
    slide: ChosenSlide | None
    latch: Latch | None
    box: BoxSizes | None
    mounting: Mounting | None
    front: FrontSizes | None
    parts: tuple[Part, ...]
    mass: Masses | None
    capacity: float | None
    checks: tuple[Check, ...]
    changes: tuple[Change, ...]
    rejected: tuple[Rejected, ...]
    workings: Mapping[str, Working] = field(default_factory=dict)
    nearest: ChosenSlide | None = None
    nearest_sizes: NearestSizes | None = None
    fixing: FrontFixing | None = None
    retrofit: tuple[Retrofit, ...] = ()
    cut_out: CutOutSizes | None = None
    way_out: WayOut | None = None

    @property
    def id(self) -> str:
        """The drawer's id in its job."""
        return self.drawer.id


@dataclass(frozen=True, slots=True)
class FittedJob:
    """All drawers of a job, in the job's order, and its columns."""

    title: str
    drawers: tuple[FittedDrawer, ...]
    columns: tuple[FittedColumn, ...] = ()
