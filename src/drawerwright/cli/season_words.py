"""Fronts over the seasons, on the console."""

from __future__ import annotations

from rich.console import Console

from drawerwright.align.seasons import Seasons
from drawerwright.cli.tables import new_table, print_indented
from drawerwright.units import format_length


def show_seasons(out: Console, seasons: Seasons) -> None:
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
            table.add_row(front.drawer, gap.edge, *(format_length(size, decimals=1) for size in sizes))
    out.print(table)
    tight = [
        front for front in seasons.fronts if any(gap.as_cut < gap.set_today - 0.05 for gap in front.gaps)
    ]
    for front in tight:
        lacks = sum(max(gap.set_today - gap.as_cut, 0.0) for gap in front.gaps)
        print_indented(
            out,
            f"{front.drawer}: cut to the job's size it has too little room in the wet season; "
            f"plane {format_length(lacks, decimals=1)} off its {seasons.across} in all.",
            by=0,
        )
    print_indented(out, f"Movement: {seasons.species.source}. Of a straight line about 5 % sure.", by=0)
