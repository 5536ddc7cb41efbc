"""Slides side by side on the console: one table a drawer, then the checks that come out differently."""

from __future__ import annotations

from collections.abc import Sequence

from rich.console import Console
from rich.text import Text

from drawerwright.cli.explaining import verdict_text
from drawerwright.cli.tables import new_table, print_indented
from drawerwright.cli.wording import MARKS, NOTHING, box_sizes, count, foot, hardware, margin_alone, named
from drawerwright.fit.compare import ComparedDrawer, Comparison, Differing, price_of, shown_slide
from drawerwright.model.fitted import MOUNT_WORDS, FittedDrawer
from drawerwright.units import ShownUnits, format_mass

HEADS = ("Slide", "Verdict", "Length", "Box W × H × L", "Gap each side", "Spacers", "Carries", "Price")


def show_comparison(out: Console, comparison: Comparison, units: ShownUnits) -> None:
    """Every drawer on every slide, and how many fit on each, for how much."""
    if comparison.title:
        out.print(Text(comparison.title, style="bold"))
        out.print()
    for one in comparison.drawers:
        _show_drawer(out, one, comparison.slides, units)
    for place, slide in enumerate(comparison.slides):
        fitting, cost = comparison.fitting(place), comparison.cost(place)
        price = "" if cost is None or not fitting else f", the slides for {cost:.2f}"
        print_indented(out, f"{slide}: {count(fitting, 'drawer fits', 'drawers fit')}{price}.", by=0)
    for line in foot(units):
        print_indented(out, line, by=0)


def _show_drawer(out: Console, one: ComparedDrawer, slides: Sequence[str], units: ShownUnits) -> None:
    table = new_table(named(one.drawer), HEADS, unbroken=HEADS[:2], lines=False)
    for slide, answer in zip(slides, one.answers, strict=True):
        table.add_row(*_cells(slide, answer, units))
    out.print(table)
    for differing in one.differing:
        print_indented(out, _differing_words(differing, slides, units), by=2)
    out.print()


def _cells(slide: str, answer: FittedDrawer, units: ShownUnits) -> list[str | Text]:
    taken, box = shown_slide(answer), answer.box
    length = NOTHING if taken is None else f"{taken.length.nominal:g} {MOUNT_WORDS[taken.mount]}"
    head: list[str | Text] = [slide, verdict_text(answer.verdict)]
    if answer.slide is None or box is None or answer.capacity is None:
        nearest = NOTHING if taken is None else f"nearest: {length}"
        return [*head, nearest, NOTHING, NOTHING, NOTHING, NOTHING, NOTHING]
    price = price_of(answer)
    return [
        *head,
        length,
        box_sizes(box.outside_width, box.height, box.length, units),
        hardware(box.side_gap, units),
        _spacers(answer),
        format_mass(answer.capacity, units),
        NOTHING if price is None else f"{price:.2f}",
    ]


def _spacers(answer: FittedDrawer) -> str:
    slide = answer.slide
    assert slide is not None
    told = [
        f"{'+'.join(f'{one:g}' for one in stack)} mm {where}"
        for stack, where in ((slide.side_spacers, "side"), (slide.subfront_spacers, "subfront"))
        if stack
    ]
    return ", ".join(told) or NOTHING


def _differing_words(one: Differing, slides: Sequence[str], units: ShownUnits) -> str:
    """A check and its margin on each slide: "latch-side: house-16 ✓ 0.8 mm, house-19 △ 0.3 mm"."""
    told = []
    for slide, margin, state in zip(slides, one.margins, one.states, strict=True):
        if margin is None or state is None:
            told.append(f"{slide} {NOTHING}")
        else:
            told.append(f"{slide} {MARKS[state]} {margin_alone(one.id, margin, one.unit, units)}".rstrip())
    return f"{one.id}: {', '.join(told)}"
