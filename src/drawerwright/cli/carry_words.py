"""Carried drawers on the console: per drawer what moves, what it may, how far it sags, and the checks."""

from __future__ import annotations

from rich.console import Console
from rich.text import Text

from drawerwright.carry import CarriedDrawer, CarriedJob
from drawerwright.carry.carried import Slide
from drawerwright.carry.closing_words import let_go_words, pushed_words
from drawerwright.carry.sagging import sag_words
from drawerwright.carry.words import Words
from drawerwright.cli.tables import print_indented
from drawerwright.cli.wording import MARKS, STATE_STYLES, count, named
from drawerwright.model.fitted import MOUNT_WORDS
from drawerwright.units import ShownUnits


def show_carried(out: Console, carried: CarriedJob, units: ShownUnits) -> None:
    """Every drawer in a few lines, then how many hold; the cautions of cabinets that stand free once."""
    words = Words(units)
    if carried.title:
        out.print(Text(carried.title, style="bold"))
        out.print()
    for one in carried.drawers:
        _show_drawer(out, one, words)
    stopped = sum(any(check.state == "stop" for check in one.checks) for one in carried.drawers)
    out.print(
        f"{count(len(carried.drawers), 'drawer', 'drawers')}, {stopped or 'none'} with a check that stops."
    )
    cautions = [one.tipping.cautions for one in carried.drawers if one.tipping is not None]
    for caution in cautions[0] if cautions else ():
        print_indented(out, caution, by=0)


def _show_drawer(out: Console, one: CarriedDrawer, words: Words) -> None:
    slide = one.slide
    on = "fits nothing"
    if slide is not None:
        chosen = slide.chosen
        on = f"on {chosen.family.id}/{chosen.length.nominal:g}, {MOUNT_WORDS[chosen.mount]}"
    out.print(Text(named(one.fitted.drawer), style="bold") + Text(f"  {on}"))
    for line in told_lines(one, words):
        print_indented(out, line, by=2)
    for check in one.checks:
        if check.state != "ok":
            told = f"{MARKS[check.state]} {check.id}: {check.says}"
            print_indented(out, told, by=2, style=STATE_STYLES[check.state])
    out.print()


def told_lines(one: CarriedDrawer, words: Words) -> list[str]:
    """The drawer's figures in sentences; those of nothing known are left out."""
    lines: list[str] = []
    limit = one.limit
    if one.load is not None and limit is not None:
        spare = limit.moving - one.load
        left = f"{words.mass(spare)} to spare" if spare >= 0 else f"{words.mass(-spare)} too much"
        modified = " (modified test)" if limit.modified and "modified" not in limit.says else ""
        lines.append(f"Capacity {limit.says}{modified}; {words.mass(one.load)} moving: {left}.")
    if one.slide is not None:
        lines += _slide_lines(one.slide, words)
    if one.missing:
        lines.append(f"The slide family does not tell: {', '.join(one.missing)}.")
    return lines


def _slide_lines(slide: Slide, words: Words) -> list[str]:
    lines: list[str] = []
    rollers, data = slide.rollers, slide.data
    if data.has_sag:
        lines.append(f"Front {sag_words(slide.drawn, words)}.")
    if rollers is not None:
        told = (
            f"Most in a roller group: {words.force(rollers.largest)}, {rollers.group.replace('_', ' ')}, "
            f"{words.length(rollers.at)} out"
        )
        if rollers.lifts_lower is not None:
            told += (
                f"; the rear rollers of the lower carriage lift beyond {words.length(rollers.lifts_lower)}"
            )
        lines.append(f"{told}.")
    lines += [
        f"{stress.section.member.capitalize()} member: {stress.stress:.0f} of {stress.yields:.0f} N/mm² "
        f"at {words.length(stress.at)} out."
        for stress in slide.stresses
    ]
    closing = slide.closing
    if closing is not None:
        lines += [f"{let_go_words(closing, words)}.", f"{pushed_words(closing, words)}."]
    return lines
