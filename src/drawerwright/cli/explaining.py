"""Each check of a drawer on the console: margin, sentence and working; the sources once at the end."""

from __future__ import annotations

from collections.abc import Iterable

from rich.console import Console
from rich.text import Text

from drawerwright.cli.tables import print_indented
from drawerwright.cli.wording import (
    MARKS,
    STATE_STYLES,
    VERDICT_MARKS,
    VERDICT_STYLES,
    margin_alone,
)
from drawerwright.model.check_names import says_yes_or_no
from drawerwright.model.fitted import (
    MOUNT_WORDS,
    VERDICT_WORDS,
    Check,
    ChosenSlide,
    FittedDrawer,
    Verdict,
)
from drawerwright.model.rejections import RejectedAlike, rejected_alike
from drawerwright.units import ShownUnits


def verdict_text(verdict: Verdict) -> Text:
    """A verdict as mark and word; its colour only repeats them."""
    return Text(f"{VERDICT_MARKS[verdict]} {VERDICT_WORDS[verdict]}", style=VERDICT_STYLES[verdict])


def explain_drawer(out: Console, drawer: FittedDrawer, units: ShownUnits) -> None:
    """One drawer: a heading, the checks with their workings, then changes and rejected slides."""
    slide = drawer.slide
    where = (
        "" if slide is None else f" on {slide.family.id}/{slide.length.nominal:g}, {MOUNT_WORDS[slide.mount]}"
    )
    out.print(Text(f"{drawer.id}  ", style="bold") + verdict_text(drawer.verdict) + Text(where))
    if drawer.nearest is not None:
        out.print(f"  Nearest: {slide_words(drawer.nearest)}. Its checks:")
    for check in drawer.checks:
        _explain_check(out, check, units)
    if drawer.changes:
        out.print("  Any one of these would make it fit:")
        for change in drawer.changes:
            print_indented(out, change.says, by=4)
    if drawer.rejected:
        out.print("  Tried and rejected, each length with what it lacks:")
        for group in rejected_alike(drawer.rejected):
            print_indented(out, rejected_words(group, units), by=4)
    out.print()


def explain_sources(out: Console, drawers: Iterable[FittedDrawer]) -> None:
    """On whose word the checks stand, each source once."""
    by_source: dict[str, dict[str, None]] = {}
    for drawer in drawers:
        for check in drawer.checks:
            by_source.setdefault(check.source, {})[check.id] = None
    if by_source:
        out.print("On whose word the checks stand:")
        for source, checks in by_source.items():
            print_indented(out, f"{source}: {', '.join(checks)}", by=2)
        out.print()


def slide_words(slide: ChosenSlide) -> str:
    """A slide that was chosen, and how it is mounted."""
    return f"{slide.family.id}/{slide.length.nominal:g} {MOUNT_WORDS[slide.mount]}"


def rejected_words(group: RejectedAlike, units: ShownUnits) -> str:
    """Lengths that one check stopped: "house-16 on a shelf, cabinet-depth: 550 −25 mm, 600 −75 mm"."""
    lengths: dict[str, list[str]] = {}
    for one in group.members:
        lengths.setdefault(margin_alone(group.because, one.margin, one.unit, units), []).append(
            f"{one.nominal:g}"
        )
    told = ", ".join(f"{' '.join(nominals)} {lacks}".rstrip() for lacks, nominals in lengths.items())
    return f"{group.family} {MOUNT_WORDS[group.mount]}, {group.because}: {told}{_stopped_as_well(group)}"


def _stopped_as_well(group: RejectedAlike) -> str:
    """Further checks that stop all or some of the lengths."""
    others = [{stop[0] for stop in one.stops} - {group.because} for one in group.members]
    names = dict.fromkeys(stop[0] for one in group.members for stop in one.stops if stop[0] != group.because)
    if not names:
        return ""
    who = "" if all(other == names.keys() for other in others) else "some "
    return f"; {who}also {', '.join(names)}"


def _explain_check(out: Console, check: Check, units: ShownUnits) -> None:
    head = Text(f"  {MARKS[check.state]} {check.id}", style=STATE_STYLES[check.state])
    told = margin_alone(check.id, check.margin, check.unit, units)
    out.print(head + Text(f"  margin {told}" if told else "", style=""))
    print_indented(out, check.says, by=4)
    # A value alone is the margin once more, and a mere yes or no has none.
    if " = " in check.working and not says_yes_or_no(check.id, check.margin, check.unit):
        print_indented(out, f"working: {check.working}", by=4)
