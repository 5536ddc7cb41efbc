"""Fronts over the seasons, on the console."""

from __future__ import annotations

from typing import Final

from rich.console import Console

from drawerwright.align.season_room import HARDLY
from drawerwright.align.seasons import SeasonedFront, Seasons
from drawerwright.cli.tables import new_table, print_indented
from drawerwright.units import ShownUnits, format_length

_FRACTION = 64
"""Gaps are told finer than sizes: to 1/64 inch. Own choice."""

SLOTS: Final = (
    "Slots: the wood moves past the screws by so much. Slots or oversize holes through the subfront, along "
    "that way, washers under the heads, no glue (common practice, no source)."
)


def show_seasons(out: Console, seasons: Seasons, units: ShownUnits) -> None:
    """What moisture the wood takes on in each air, then each gap with what to set today."""
    found = seasons.moistures
    cut = "flat-sawn" if seasons.cut == "flat" else "quarter-sawn"
    print_indented(
        out,
        f"{seasons.species.id}, {cut}, {seasons.across} across the grain. Moisture: workshop "
        f"{found.workshop:.1f} %, now {found.now:.1f} %, dry {found.dry:.1f} %, wet {found.wet:.1f} %.",
        by=0,
    )
    table = new_table("", ["Drawer", "Gap", "Set today", "Smallest", "Largest", "As cut today"])
    for front in seasons.fronts:
        for gap in front.gaps:
            sizes = (gap.set_today, gap.smallest, gap.largest, gap.as_cut)
            table.add_row(front.drawer, gap.edge, *(gap_length(size, units) for size in sizes))
    out.print(table)
    for front in seasons.fronts:
        if does := cure_words(seasons, front, units):
            why = f"cut to the job's size it has too little room in the wet season: {does}"
            says = why if front.lacks else f"{does}, so that each gap has its room"
            print_indented(out, f"{front.drawer}: {says}.", by=0)
        if screws := screw_words(front, units):
            print_indented(out, f"{front.drawer}: {screws}.", by=0)
    if any(front.wants_slots for front in seasons.fronts):
        print_indented(out, SLOTS, by=0)
    print_indented(out, f"Movement: {seasons.species.source}. Of a straight line about 5 % sure.", by=0)


def gap_length(size: float, units: ShownUnits) -> str:
    """A gap [mm] as people read it."""
    return format_length(size, units, denominator=_FRACTION)


def screw_words(front: SeasonedFront, units: ShownUnits) -> str:
    """How far the wood moves past a front's screws; empty where usual holes do."""
    return f"slots for its screws, {gap_length(front.screw_play, units)}" if front.wants_slots else ""


def cure_words(seasons: Seasons, front: SeasonedFront, units: ShownUnits) -> str:
    """What is to be done about a front whose gaps are too tight; empty where nothing is."""
    if front.lacks:
        return f"plane {gap_length(front.lacks, units)} off its {seasons.across}"
    if abs(front.shift) < HARDLY:
        return ""
    ways = ("higher", "lower") if seasons.across == "height" else ("further right", "further left")
    return f"hang it {gap_length(abs(front.shift), units)} {ways[0] if front.shift > 0.0 else ways[1]}"
