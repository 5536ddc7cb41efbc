"""Each check of a drawer on the console: its margin, what it says, its working and its source."""

from __future__ import annotations

from rich.console import Console
from rich.text import Text

from drawerwright.cli.tables import print_indented
from drawerwright.cli.wording import (
    MARKS,
    STATE_STYLES,
    VERDICT_MARKS,
    VERDICT_STYLES,
    margin,
)
from drawerwright.model.fitted import (
    MOUNT_WORDS,
    VERDICT_WORDS,
    Check,
    ChosenSlide,
    FittedDrawer,
    Rejected,
    Verdict,
)
from drawerwright.units import ShownUnits


def verdict_text(verdict: Verdict) -> Text:
    """A verdict as mark and word; its colour only repeats them."""
    return Text(f"{VERDICT_MARKS[verdict]} {VERDICT_WORDS[verdict]}", style=VERDICT_STYLES[verdict])


def explain_drawer(out: Console, drawer: FittedDrawer, units: ShownUnits) -> None:
    """One drawer: a heading, the checks with working and source, then changes and rejected slides."""
    slide = drawer.slide
    where = (
        "" if slide is None else f" on {slide.family.id}/{slide.length.nominal:g}, {MOUNT_WORDS[slide.mount]}"
    )
    out.print(Text(f"{drawer.id}  ", style="bold") + verdict_text(drawer.verdict) + Text(where))
    for check in drawer.checks:
        _explain_check(out, check, units)
    if drawer.changes:
        out.print("  Any one of these would make it fit:")
        for change in drawer.changes:
            print_indented(out, change.says, by=4)
    if drawer.rejected:
        out.print("  Tried and rejected:")
        for one in drawer.rejected:
            print_indented(out, f"{candidate_words(one)}: {stop_words(one, units)}", by=4)
    out.print()


def slide_words(slide: ChosenSlide) -> str:
    """A slide that was chosen, and how it is mounted."""
    return f"{slide.family.id}/{slide.length.nominal:g} {MOUNT_WORDS[slide.mount]}"


def candidate_words(rejected: Rejected) -> str:
    """A slide that was tried, and how it would have been mounted."""
    return f"{rejected.family}/{rejected.nominal:g} {MOUNT_WORDS[rejected.mount]}"


def stop_words(rejected: Rejected, units: ShownUnits) -> str:
    """What stopped a slide, each check with its margin."""
    return ", ".join(f"{check} {margin(short, unit, units)}" for check, short, unit in rejected.stops)


def _explain_check(out: Console, check: Check, units: ShownUnits) -> None:
    head = Text(f"  {MARKS[check.state]} {check.id}", style=STATE_STYLES[check.state])
    out.print(head + Text(f"  margin {margin(check.margin, check.unit, units)}", style=""))
    print_indented(out, check.says, by=4)
    if check.working:
        print_indented(out, f"working: {check.working}", by=4)
    print_indented(out, f"source: {check.source}", by=4, style="dim")
