"""The fields of a sheet's strip: what was measured, and behind it what else may be told of a drawer."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from drawerwright.errors import Fault
from drawerwright.files.job_columns import drawer_columns
from drawerwright.units import MM_PER_INCH, BareUnit
from drawerwright.web.fitting import place_of
from drawerwright.web.reading_places import fault_in_words
from drawerwright.web.schedule.columns import text_of


@dataclass(frozen=True, slots=True)
class Field:
    """One field: `name` in the address, `key` of the job file, unit "length", "mass" or none.

    `usual` is what counts where nothing is written, lengths in mm; `choices` are (word, what people read).
    `hint` stands under the field for all to see, `help` is read out with it.
    """

    name: str
    key: str
    label: str
    unit: str = ""
    help: str = ""
    hint: str = ""
    usual: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    value: str = ""
    fault: Fault | None = None
    width: int = 6

    @property
    def told(self) -> bool:
        """Whether anything is written in it."""
        return bool(self.value.strip())

    def usual_in(self, unit: str) -> str:
        """What counts where nothing is written, as it stands in a blank field that counts in a unit."""
        if unit != "in" or self.unit != "length" or not self.usual.isdecimal() or self.usual == "0":
            return self.usual
        return f"{float(self.usual) / float(MM_PER_INCH):.3f} ({self.usual} mm)"


_STYLES: Final = (("", "no front"), ("overlay", "overlay"), ("inset", "inset"))
_KINDS: Final = (("", "frameless"), ("face-frame", "face frame"))
_MOUNTS: Final = (
    ("", "whichever fits"),
    ("side", "cabinet side"),
    ("packed", "packing"),
    ("rear-bracket", "rear brackets"),
    ("shelf", "shelf"),
)
_JOINTS: Final = (("", "butt"), ("rabbet", "rabbet"), ("dowel", "dowel"), ("dovetail", "dovetail"))
_BOTTOMS: Final = (
    ("", "grooved all round"),
    ("groove-3", "back stands on it"),
    ("under", "under the box"),
)
_FROM: Final = (("", "inside width"), ("outside", "outside width"))

_STANDS_IN: Final = "from the cabinet side to the opening: not the stile's width"
_WIDTHS: Final = "Several readings: commas between. By place: front top …, back top …"
_HEIGHTS: Final = "Clear height. Several readings: commas between. By place: left …, right …"

MEASURED: Final = (
    Field("width", "opening.width", "Opening width", "length", _WIDTHS, width=12),
    Field("height", "opening.height", "Height", "length", _HEIGHTS),
    Field("depth", "opening.depth", "Depth", "length", "To the first thing behind"),
    Field("side", "side", "Sides", "length", "Thickness as measured", width=5),
    Field("contents", "contents", "Contents", "mass", "What will lie in the drawer", usual="0", width=5),
)
MORE: Final[tuple[tuple[str, tuple[Field, ...]], ...]] = (
    (
        "Front",
        (
            Field("front.style", "front.style", "Front", choices=_STYLES),
            Field("front.thickness", "front.thickness", "Thickness", "length", usual="19"),
            Field("front.overlay", "front.overlay", "Overlay", "length", usual="16"),
            Field("front.gap", "front.gap", "Gap", "length", usual="3"),
            Field("subfront", "subfront", "Subfront", "length", usual="as sides"),
        ),
    ),
    (
        "Cabinet",
        (
            Field("construction", "construction", "Built", choices=_KINDS),
            Field("frame.left", "frame.left", "Frame stands in, left", "length", hint=_STANDS_IN),
            Field("frame.right", "frame.right", "Frame stands in, right", "length", hint=_STANDS_IN),
            Field("frame.thickness", "frame.thickness", "Frame thick", "length"),
            Field("opening.floor", "opening.floor", "Floor below", "length", usual="0"),
        ),
    ),
    (
        "Slide",
        (
            Field("mount", "mount", "Mounted on", choices=_MOUNTS),
            Field("slide", "slide", "Slide", usual="any", width=12),
            Field("lost.left", "lost.left", "Lost, left", "length", usual="0"),
            Field("lost.right", "lost.right", "Lost, right", "length", usual="0"),
        ),
    ),
    (
        "Box",
        (
            Field("box.joint", "box.joint", "Joints", choices=_JOINTS),
            Field("box.bottom", "box.bottom", "Bottom", choices=_BOTTOMS),
            Field("box.bottom_thickness", "box.bottom_thickness", "Bottom thick", "length", usual="6"),
            Field("box_height", "box_height", "Box height", "length", usual="all"),
            Field("size_from", "size_from", "Sized by", choices=_FROM),
        ),
    ),
)
STILES: Final = (
    Field("stile.left", "stile.left", "Stile, left", "length", hint="its width, flush outside"),
    Field("stile.right", "stile.right", "Stile, right", "length", hint="its width, flush outside"),
    Field("stile.side", "stile.side", "Cabinet sides", "length", hint="their thickness"),
)
"""What may be told in place of how far a frame stands in: the page reckons it, nothing else of it is kept."""
INSIDE: Final = Field(
    "cabinet.inside_width",
    "cabinet.inside_width",
    "Cabinet inside",
    "length",
    hint="between its sides: opening and frame add up to it",
)
"""What proves a frame; a drawer of a job has it from its cabinet."""
_BY_STILES: Final = "Frame, told by its stiles"
OF_A_JOB: Final[tuple[tuple[str, tuple[Field, ...]], ...]] = (
    (
        "Drawer",
        (
            Field("cabinet", "cabinet", "Cabinet", width=8),
            Field("row", "row", "Row from below", width=4),
            Field("quantity", "quantity", "Pieces", usual="1", width=4),
            Field("note", "note", "Note", width=16),
        ),
    ),
)
"""What only a drawer of a job has."""
FIELDS: Final = (*MEASURED, *(field for _, group in (*MORE, *OF_A_JOB) for field in group))
_BESIDES: Final = (*STILES, INSIDE)
_KEYS: Final = {field.name: field.key for field in FIELDS}
STILE_NAMES: Final = frozenset(field.name for field in STILES)
NAMES: Final = frozenset(_KEYS) | {INSIDE.name}
USUAL_WORDS: Final = {
    "front.style": "none",
    "construction": "frameless",
    "mount": "auto",
    "slide": "auto",
    "box.joint": "butt",
    "box.bottom": "groove-4",
    "size_from": "inside",
    "box_height": "auto",
}
"""Words of the job file that say what a blank field says."""


@dataclass(frozen=True, slots=True)
class Strip:
    """All fields with what is written in them, and faults that belong to none."""

    measured: tuple[Field, ...]
    more: tuple[tuple[str, tuple[Field, ...]], ...]
    faults: tuple[Fault, ...] = ()

    @property
    def fields(self) -> tuple[Field, ...]:
        """Every field."""
        return (*self.measured, *(field for _, group in self.more for field in group))

    @property
    def wrong_more(self) -> bool:
        """Whether anything is wrong beyond the first strip."""
        return any(field.fault for _, group in self.more for field in group)


def strip_of(texts: Mapping[str, str], faults: Iterable[Fault] = (), *, of_a_job: bool = False) -> Strip:
    """The fields with the texts written in them, each fault beside its field."""
    at: dict[str, Fault] = {}
    others = []
    for fault in map(fault_in_words, faults):
        name = field_of(fault)
        if name is None:
            others.append(fault)
        else:
            at.setdefault(name, fault)

    def filled(fields: Sequence[Field]) -> tuple[Field, ...]:
        return tuple(
            replace(field, value=texts.get(field.name, ""), fault=at.get(field.name)) for field in fields
        )

    stiles = (_BY_STILES, STILES if of_a_job else _BESIDES)
    groups = (*MORE, stiles, *(OF_A_JOB if of_a_job else ()))
    return Strip(filled(MEASURED), tuple((name, filled(group)) for name, group in groups), tuple(others))


def key_of(name: str) -> str:
    """The key of the job file that a field holds."""
    return _KEYS[name]


def field_of(fault: Fault) -> str | None:
    """The name of the field that a fault belongs to; None where there is none for it."""
    kind, _, key = place_of(fault)
    if kind != "drawer":
        return None
    key = re.sub(r"\[\d+\]|\s.*", "", key)
    for field in (*_BESIDES, *FIELDS):
        if key == field.key or key.startswith(f"{field.key}."):
            return field.name
    above = [field.name for field in FIELDS if field.key.startswith(f"{key}.")]
    return above[0] if above else None


def texts_of(drawer: Mapping[str, Any]) -> dict[str, str]:
    """What is written in each field for a drawer's stored values."""
    columns = drawer_columns()
    texts = {}
    for field in FIELDS:
        text = text_of(drawer, columns[field.key])
        texts[field.name] = "" if text == USUAL_WORDS.get(field.key) else text
    return texts


def without_own_units(texts: Mapping[str, str], units: BareUnit) -> dict[str, str]:
    """The fields' texts without a unit that the field tells beside them anyway."""
    kinds = {field.name: field.unit for field in (*FIELDS, *_BESIDES)}
    own = {"length": "in" if units == "in" else "mm", "mass": "lb" if units == "in" else "kg"}
    bare = {}
    for name, text in texts.items():
        unit = own.get(kinds.get(name, ""), "")
        bare[name] = re.sub(rf"(?<=\d)\s*{unit}(?=\s*(?:;|,\s|$))", "", text) if unit else text
    return bare
