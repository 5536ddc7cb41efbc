"""Drawers whose slides, or what is cut for them, are not what they were when the job's slides were taken."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from threading import Lock
from typing import Any, Final
from weakref import WeakKeyDictionary

from drawerwright.catalogue.families import families_from_mappings
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import ChosenSlide, FittedDrawer
from drawerwright.store import SlidesSince, Store, StoredJob
from drawerwright.store.parts import id_text
from drawerwright.web.families import families_of, with_shipped
from drawerwright.web.family.sheet import LENGTH_HEADS, length_rows, sheet_sections
from drawerwright.web.fitting import Values, answer_values

KEPT: Final = 64
"""Answers that a process keeps: a page asks the same again and again while nothing is saved. Own choice."""
NOT_CUT: Final = ("What it is", "What it carries", "How it moves")
"""Subjects of a family's data by which nothing is cut, bored or set."""
NOT_CUT_OF_LENGTH: Final = ("Travel", "Carries", "Price")
"""Columns of a length likewise."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure of a slide's data that is another one now, in words."""

    label: str
    before: str
    now: str


@dataclass(frozen=True, slots=True)
class SlideChange:
    """A drawer that comes out otherwise. `row` from 0; `before` as its slides were taken, `now` as they are.

    `figures`: where the slide is the same, what changed in its data.
    """

    row: int
    drawer: str
    before: FittedDrawer
    now: FittedDrawer | None
    figures: tuple[Figure, ...] = ()

    @property
    def other_slide(self) -> bool:
        """Whether it gets another slide, or the same mounted or spaced otherwise, or none."""
        before, now = self.before.slide, None if self.now is None else self.now.slide
        return before is None or now is None or slide_key(before) != slide_key(now)


@dataclass(frozen=True, slots=True)
class Changed:
    """What came of families that were added, changed or thrown away since a job's slides were taken.

    `seen`: stands for the families of now, to be told when the choice is taken. `gone`: ids of families that
    were deleted for good: what was chosen from them cannot be told any more.
    """

    seen: str
    changes: tuple[SlideChange, ...]
    gone: tuple[str, ...]

    @property
    def told(self) -> bool:
        """Whether there is anything to tell."""
        return bool(self.changes or self.gone)


_known: WeakKeyDictionary[Store, OrderedDict[tuple[object, ...], Changed]] = WeakKeyDictionary()
_lock = Lock()


def changed_since(store: Store, job: StoredJob, values: Values, *, only: str | None = None) -> Changed | None:
    """What changed for a job, or for the cabinet of the drawer `only`; None where no family did.

    `values`: those of `job`, its newest revision.
    """
    since = store.slides_since(job.id)
    if since is None:
        return None
    # The families are read after the line that names them: what comes between shows when it is taken.
    families = families_of(store)
    key = (job.id, job.revision, since, only)
    with _lock:
        kept = _known.setdefault(store, OrderedDict())
        if key in kept:
            kept.move_to_end(key)
            return kept[key]
    found = _compared(store, values, since, families, only)
    with _lock:
        kept[key] = found
        while len(kept) > KEPT:
            kept.popitem(last=False)
    return found


def seen_of(line: str) -> str:
    """A line of families as a form hands it on."""
    return sha256(line.encode()).hexdigest()[:32]


def _compared(
    store: Store, values: Values, since: SlidesSince, families: tuple[SlideFamily, ...], only: str | None
) -> Changed:
    rows = {id_text(one.get("id")): at for at, one in enumerate(values["drawer"])}
    answers = answer_values(values, families, only=only).drawers
    now = {rows[one.name]: one.fitted for one in answers if one.name in rows and not one.waits}
    changes: list[SlideChange] = []
    chosen_since: set[int] = set()
    for line, names in since.lines:
        then = _families_in(store, line)
        taken = {rows[name] for name in names if name in rows} & now.keys()
        later = {row for row in taken if _came_later(now[row], then)}
        chosen_since |= later
        changes += _judged(values, then, now, taken - later, only)
    # What somebody chose since is held against the families with which that could first be chosen.
    for line in since.stretches:
        then = families if line == since.now else _families_in(store, line)
        there = {row for row in chosen_since if not _came_later(now[row], then)}
        chosen_since -= there
        changes += _judged(values, then, now, there, only) if line != since.now else []
    return Changed(seen_of(since.now), tuple(sorted(changes, key=lambda one: one.row)), since.gone)


def _families_in(store: Store, line: str) -> tuple[SlideFamily, ...]:
    told = store.families_in(line)
    return with_shipped(families_from_mappings(told) if told else ())


def _judged(
    values: Values,
    then: Sequence[SlideFamily],
    now: Mapping[int, FittedDrawer | None],
    wanted: Collection[int],
    only: str | None,
) -> list[SlideChange]:
    """Of the drawers in these rows, those that came out otherwise with the families of then."""
    if not wanted:
        return []
    asked = _left_open(values, {row for row, fitted in now.items() if _came_later(fitted, then)})
    rows = {id_text(one.get("id")): at for at, one in enumerate(values["drawer"])}
    found = []
    for answer in answer_values(asked, then, only=only).drawers:
        row = rows.get(answer.name, -1)
        if row in wanted and answer.fitted is not None and answer.fitted.slide is not None:
            found.append(_change(row, answer.name, answer.fitted, now[row]))
    return [one for one in found if one is not None]


def _came_later(now: FittedDrawer | None, then: Sequence[SlideFamily]) -> bool:
    """Whether a drawer asks for a slide that was not there then: somebody chose that one since."""
    wanted = None if now is None else now.drawer.slide_family
    if now is None or wanted is None:
        return False
    family = next((one for one in then if one.id == wanted), None)
    nominal = now.drawer.slide_nominal
    return family is None or (nominal is not None and family.length_of(nominal) is None)


def _left_open(values: Values, rows: Collection[int]) -> Values:
    """Values in which these drawers ask for no slide: those of their cabinet are answered nevertheless."""
    if not rows:
        return values
    drawers = [{**one, "slide": "auto"} if at in rows else one for at, one in enumerate(values["drawer"])]
    return {**values, "drawer": drawers}


def _change(row: int, name: str, before: FittedDrawer, now: FittedDrawer | None) -> SlideChange | None:
    found = SlideChange(row, name, before, now)
    if now is None or now.slide is None or before.slide is None or found.other_slide:
        return found
    figures = figures_changed(before.slide, now.slide)
    if figures or _cut(before) != _cut(now):
        return SlideChange(row, name, before, now, figures)
    return None


def slide_key(slide: ChosenSlide) -> tuple[Any, ...]:
    """What is ordered and where it goes: family, length, mount, spacers."""
    return (
        slide.family.id,
        slide.length.nominal,
        slide.mount,
        slide.side_spacers,
        slide.subfront_spacers,
    )


def _cut(fitted: FittedDrawer) -> tuple[object, ...]:
    """All that is cut, bored and set for a drawer."""
    return (fitted.box, fitted.mounting, fitted.front, fitted.parts, fitted.fixing, fitted.verdict)


def figures_changed(before: ChosenSlide, now: ChosenSlide) -> tuple[Figure, ...]:
    """Which figures by which something is cut, bored or set differ between two states of one slide."""
    if before.family == now.family:
        return ()
    return tuple(_differing(_data(before), _data(now)))


def _data(slide: ChosenSlide) -> dict[str, str]:
    data = {
        row.words.label: row.value
        for title, those in sheet_sections(slide.family).items()
        if title not in NOT_CUT
        for row in those
    }
    of_length = length_rows(slide.family)[slide.family.lengths.index(slide.length)]
    for head, value in zip(LENGTH_HEADS, of_length, strict=True):
        if head not in NOT_CUT_OF_LENGTH:
            data[f"{head}, length {slide.length.nominal:g}"] = value
    return data


def _differing(before: Mapping[str, str], now: Mapping[str, str]) -> Iterator[Figure]:
    for label, value in before.items():
        if now.get(label, "") != value:
            yield Figure(label, value, now.get(label, ""))
