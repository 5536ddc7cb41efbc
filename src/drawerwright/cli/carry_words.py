"""Carried drawers on the console: per drawer what moves, what it may, how far it sags, and the checks."""

from __future__ import annotations

from rich.console import Console
from rich.text import Text

from drawerwright.carry import CarriedDrawer, CarriedJob
from drawerwright.carry.words import Words
from drawerwright.cli.tables import print_indented
from drawerwright.cli.wording import MARKS, STATE_STYLES, named
from drawerwright.units import ShownUnits


def show_carried(out: Console, carried: CarriedJob, units: ShownUnits) -> None:
    """Every drawer in a few lines."""
    words = Words(units)
    if carried.title:
        out.print(Text(carried.title, style="bold"))
        out.print()
    for one in carried.drawers:
        _show_drawer(out, one, words)


def _show_drawer(out: Console, one: CarriedDrawer, words: Words) -> None:
    slide = one.slide
    on = "fits nothing" if slide is None else f"on {slide.family.id}/{slide.length.nominal:g}"
    out.print(Text(named(one.fitted.drawer), style="bold") + Text(f"  {on}"))
    for line in told_lines(one, words):
        print_indented(out, line, by=2)
    for check in one.checks:
        if check.state != "ok":
            print_indented(
                out, f"{MARKS[check.state]} {check.id}: {check.says}", by=2, style=STATE_STYLES[check.state]
            )
    out.print()


def told_lines(one: CarriedDrawer, words: Words) -> list[str]:
    """The drawer's figures in sentences that need no table."""
    lines: list[str] = []
    limit = one.limit
    if one.load is not None and limit is not None:
        spare = limit.moving - one.load
        left = f"{words.mass(spare)} to spare" if spare >= 0 else f"{words.mass(-spare)} too much"
        lines.append(f"Capacity {limit.says}; {words.mass(one.load)} moving, {left}.")
    if one.drawn is not None and one.data is not None and one.data.has_sag:
        drawn = one.drawn
        lines.append(
            f"The front sags {words.length(drawn.sag[-1])} at full out ({words.length(one.data.travel)}): "
            f"members {words.length(drawn.members_sag[-1])}, rollers {words.length(drawn.roller_sag[-1])}, "
            f"play {words.length(drawn.play_sag[-1])}."
        )
    if one.missing:
        lines.append(f"Not told by the slide family: {', '.join(one.missing)}.")
    return lines
