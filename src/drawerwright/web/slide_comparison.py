"""Slides on the same opening: the question in an address, and the answers row by row in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drawerwright.errors import Fault, InputError
from drawerwright.fit.compare import Comparison, compare_slides, price_of, shown_slide
from drawerwright.model.check_names import check_name
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import MOUNT_WORDS, FittedDrawer, State
from drawerwright.pack.check_margins import check_margin_text
from drawerwright.pack.figures import (
    box_text,
    change_text,
    hardware_text,
    length_text,
    mass_text,
    mass_unit,
)
from drawerwright.pack.shown import Shown
from drawerwright.web.fitting import read_values
from drawerwright.web.quick_job import Pairs, QuickQuestion, read_question

FAMILY = "family"
"""Key of the address that names a slide; it stands once for each."""
NOTHING = "–"


@dataclass(frozen=True, slots=True)
class Cell:
    """One slide's answer in one row; `state` where it is a check's, its margin in `text`."""

    text: str
    state: State | None = None


@dataclass(frozen=True, slots=True)
class Row:
    """What is compared, and each slide's cell, in the order of the slides."""

    name: str
    cells: tuple[Cell, ...]


def read_asked(query: Pairs) -> tuple[tuple[str, ...], QuickQuestion]:
    """The slides named in an address, and the opening told there."""
    pairs = tuple(query)
    wanted = tuple(text.strip() for key, text in pairs if key == FAMILY and text.strip())
    return wanted, read_question(pairs, besides=(FAMILY,))


def compare_asked(
    wanted: Sequence[str], question: QuickQuestion, families: Sequence[SlideFamily]
) -> Comparison:
    """Each slide on the opening. Raises InputError with all faults of the address together."""
    faults: list[Fault] = list(question.faults)
    try:
        job = read_values(question.values)
    except InputError as error:
        raise InputError(dict.fromkeys([*faults, *error.faults])) from None
    if faults:
        raise InputError(faults)
    return compare_slides(job, families, wanted, units=question.units, where=FAMILY)


def rows_of(answers: Sequence[FittedDrawer], shown: Shown) -> tuple[Row, ...]:
    """What each slide makes of the box, and what it carries and costs."""
    told = {
        "Length": [_length(one, shown) for one in answers],
        "Mount": [_mount(one) for one in answers],
        f"Box, {'in' if shown.in_inches else 'mm'}": [
            NOTHING if one.box is None else box_text(one.box, shown) for one in answers
        ],
        "Inside width": [
            NOTHING if one.box is None else length_text(one.box.inside_width, shown) for one in answers
        ],
        "Gap each side": [
            NOTHING if one.box is None else hardware_text(one.box.side_gap, shown) for one in answers
        ],
        "Spacers": [_spacers(one) for one in answers],
        "Comes out": [_travel(one, shown) for one in answers],
        f"Moving, {mass_unit(shown)}": [
            NOTHING if one.mass is None else mass_text(one.mass.moving, shown) for one in answers
        ],
        f"Carries, {mass_unit(shown)}": [
            NOTHING if one.capacity is None else mass_text(one.capacity, shown) for one in answers
        ],
        "Price of a pair": [_price(one) for one in answers],
    }
    return tuple(Row(name, tuple(Cell(text) for text in texts)) for name, texts in told.items())


def margin_rows(comparison: Comparison, shown: Shown) -> tuple[Row, ...]:
    """The checks that come out differently, with each slide's margin."""
    return tuple(
        Row(
            check_name(one.id),
            tuple(
                Cell(NOTHING)
                if margin is None
                else Cell(check_margin_text(one.id, margin, one.unit, shown), state)
                for margin, state in zip(one.margins, one.states, strict=True)
            ),
        )
        for one in comparison.drawers[0].differing
    )


def changes_of(answer: FittedDrawer, shown: Shown) -> tuple[tuple[str, str], ...]:
    """The smallest single changes that would make a slide fit: by how much, and what that means."""
    return tuple((change_text(one.by, one.unit, shown), one.says) for one in answer.changes)


def _length(answer: FittedDrawer, shown: Shown) -> str:
    taken = shown_slide(answer)
    if taken is None:
        return NOTHING
    nominal = length_text(taken.length.nominal, shown)
    return nominal if answer.slide is not None else f"nearest: {nominal}"


def _mount(answer: FittedDrawer) -> str:
    taken = shown_slide(answer)
    return NOTHING if taken is None else MOUNT_WORDS[taken.mount]


def _spacers(answer: FittedDrawer) -> str:
    if answer.slide is None:
        return NOTHING
    told = [
        f"{' + '.join(f'{one:g}' for one in stack)} mm at the {where}"
        for stack, where in (
            (answer.slide.side_spacers, "side"),
            (answer.slide.subfront_spacers, "subfront"),
        )
        if stack
    ]
    return ", ".join(told) or "none"


def _travel(answer: FittedDrawer, shown: Shown) -> str:
    if answer.slide is None:
        return NOTHING
    return length_text(answer.slide.family.travel_of(answer.slide.length), shown)


def _price(answer: FittedDrawer) -> str:
    price = price_of(answer)
    return NOTHING if price is None else f"{price:.2f}"
