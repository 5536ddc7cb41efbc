"""What slides carry, side by side on the console: one table a drawer, a row a figure, a column a slide."""

from __future__ import annotations

from rich.console import Console
from rich.text import Text

from drawerwright.carry.comparing import CarriedComparison, ComparedLoad
from drawerwright.carry.words import Words
from drawerwright.cli.explaining import verdict_text
from drawerwright.cli.tables import new_table, print_indented
from drawerwright.cli.wording import NOTHING
from drawerwright.units import ShownUnits


def show_carried_comparison(out: Console, compared: CarriedComparison, units: ShownUnits) -> None:
    """Every drawer on every slide, then what is not told of a slide."""
    words = Words(units)
    if compared.title:
        out.print(Text(compared.title, style="bold"))
        out.print()
    for one in compared.drawers:
        table = new_table(one.id, ("", *compared.slides), unbroken=("",), lines=False)
        table.add_row("Verdict", *(verdict_text(answer.fitted.verdict) for answer in one.answers))
        table.add_row("Length", *(_length(one, place) for place in range(len(one.answers))))
        for figure in one.figures:
            table.add_row(figure.title, *figure.texts(words, NOTHING))
        table.add_row("Stops", *(_stops(one, place) for place in range(len(one.answers))))
        out.print(table)
        for slide, answer in zip(compared.slides, one.answers, strict=True):
            if answer.missing:
                print_indented(out, f"{slide} does not tell: {', '.join(answer.missing)}.", by=2)
        out.print()


def _length(one: ComparedLoad, place: int) -> str:
    slide = one.answers[place].slide
    return NOTHING if slide is None else f"{slide.chosen.length.nominal:g}"


def _stops(one: ComparedLoad, place: int) -> str:
    return ", ".join(check.id for check in one.answers[place].checks if check.state == "stop") or NOTHING
