"""Carried drawers on the console: per drawer what moves, what it may, how far it sags, and the checks."""

from __future__ import annotations

from rich.console import Console
from rich.text import Text

from drawerwright.carry import CarriedDrawer, CarriedJob
from drawerwright.carry.capacities import spare_words
from drawerwright.carry.carried import Slide
from drawerwright.carry.closing_words import let_go_words, pushed_words
from drawerwright.carry.sagging import sag_words
from drawerwright.carry.sides import sides_words
from drawerwright.carry.words import Words
from drawerwright.cli.explaining import slide_words
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
    told: dict[str, str] = {}
    for one in carried.drawers:
        _show_drawer(out, one, words, told)
    stopped = sum(any(check.state == "stop" for check in one.checks) for one in carried.drawers)
    nothing = sum(one.slide is None for one in carried.drawers)
    out.print(
        f"{count(len(carried.drawers), 'drawer', 'drawers')}, "
        + (f"{nothing} that {'fits' if nothing == 1 else 'fit'} nothing, " if nothing else "")
        + f"{stopped or 'none'} with a check that stops."
    )
    cautions = [one.tipping.cautions for one in carried.drawers if one.tipping is not None]
    for caution in cautions[0] if cautions else ():
        print_indented(out, caution, by=0)


def _show_drawer(out: Console, one: CarriedDrawer, words: Words, balances: dict[str, str]) -> None:
    """One drawer; the balance of its cabinet at the first drawer of it, kept in `balances` by cabinet."""
    slide = one.slide
    on = "fits nothing"
    if slide is not None:
        chosen = slide.chosen
        on = f"on {chosen.family.id}/{chosen.length.nominal:g}, {MOUNT_WORDS[chosen.mount]}"
    out.print(Text(named(one.fitted.drawer), style="bold") + Text(f"  {on}"))
    for line in _why_nothing(one):
        print_indented(out, line, by=2, style=STATE_STYLES["stop"])
    for line in told_lines(one, words):
        print_indented(out, line, by=2)
    for check in one.checks:
        if check.id == "tipping" and check.state != "ok" and one.tipping is not None:
            first = balances.setdefault(one.tipping.cabinet.id, one.id)
            if first != one.id:
                told = (
                    f"{MARKS[check.state]} {check.id}: cabinet {one.tipping.cabinet.id}, as told at {first}."
                )
                print_indented(out, told, by=2, style=STATE_STYLES[check.state])
                continue
        if check.state != "ok":
            told = f"{MARKS[check.state]} {check.id}: {check.says}"
            print_indented(out, told, by=2, style=STATE_STYLES[check.state])
    out.print()


def _why_nothing(one: CarriedDrawer) -> list[str]:
    """Why a drawer fits nothing: what stops the slide that came nearest."""
    nearest = one.fitted.nearest
    if one.slide is not None:
        return []
    if nearest is None:
        return ["No slide was there to be tried."]
    told = {check.id for check in one.checks if check.state == "stop"}
    skipped = {"capacity"} if "load" in told else set()
    stops = [
        f"{MARKS['stop']} {check.id}: {check.says}"
        for check in one.fitted.checks
        if check.state == "stop" and check.id not in skipped
    ]
    return [f"Nearest: {slide_words(nearest)}, which does not fit.", *stops]


def told_lines(one: CarriedDrawer, words: Words) -> list[str]:
    """The drawer's figures in sentences; those of nothing known are left out."""
    lines: list[str] = []
    limit = one.limit
    if one.load is not None and limit is not None:
        spare = limit.moving - one.load
        left = spare_words(spare, words)
        if one.slide is None and spare >= 0:
            left = "the load is not what stops it"
        modified = " (modified test)" if limit.modified and "modified" not in limit.says else ""
        lines.append(f"Capacity {limit.says}{modified}; {words.mass(one.load)} moving: {left}.")
    if one.slide is not None:
        lines += _slide_lines(one.slide, words)
    elif one.nearest is not None:
        told = " ".join(_forces(one.nearest, words))
        lines += [f"On the nearest slide, which does not fit: {told}"] if told else []
    if one.missing:
        lines.append(f"The slide family does not tell: {', '.join(one.missing)}.")
    return lines


def _slide_lines(slide: Slide, words: Words) -> list[str]:
    lines, closing = _forces(slide, words), slide.closing
    if closing is not None:
        lines += [f"{let_go_words(closing, words)}.", f"{pushed_words(closing, words)}."]
    return lines


def _forces(slide: Slide, words: Words) -> list[str]:
    """Sag, load off the middle, forces and stresses."""
    lines: list[str] = []
    rollers, data = slide.rollers, slide.data
    if data.has_sag:
        front = "Front" if slide.sides is None else "With the load in the middle the front"
        lines.append(f"{front} {sag_words(slide.drawn, words)}.")
    if slide.sides is not None:
        lines.append(f"{sides_words(slide.sides, words)}.")
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
    return lines
