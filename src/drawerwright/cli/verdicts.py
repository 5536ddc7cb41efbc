"""Fitted drawers as tables on the console: one row a drawer, then what to watch and what would help."""

from __future__ import annotations

from collections import Counter

from rich.console import Console
from rich.measure import Measurement
from rich.table import Table
from rich.text import Text

from drawerwright.cli.columns import show_columns
from drawerwright.cli.explaining import explain_drawer, explain_sources, slide_words, verdict_text
from drawerwright.cli.retrofits import retrofit_notes
from drawerwright.cli.tables import new_table, print_indented
from drawerwright.cli.wording import (
    MARKS,
    NOTHING,
    STATE_STYLES,
    box_sizes,
    check_margin,
    clause,
    count,
    foot,
    front_sizes,
    hardware,
    named,
)
from drawerwright.model.fitted import MOUNT_WORDS, Check, FittedDrawer, FittedJob, Mounting, Verdict
from drawerwright.model.standing_free import free_cabinets
from drawerwright.units import ShownUnits

HEADS = ("Drawer", "Verdict", "Slide", "Box W × H × L", "First hole", "Front W × H", "To watch")
LONG_ID = 24
UNBOUNDED = 10_000
WATCH_WIDTH = 32


def show_job(out: Console, job: FittedJob, units: ShownUnits, *, explain: bool = False) -> None:
    """The whole job: a table, what is to be watched or cured (or every check, explained), and a count."""
    table = job_table(job, units)
    wanted = Measurement.get(out, out.options.update(max_width=UNBOUNDED), table).maximum
    if wanted <= out.width:
        out.print(table)
    else:
        _show_listed(out, job, units)
    out.print()
    for drawer in job.drawers:
        if explain:
            explain_drawer(out, drawer, units)
        else:
            _show_notes(out, drawer)
    show_columns(out, job, units)
    told = free_words(job)
    if told:
        print_indented(out, told, by=0, style=STATE_STYLES["watch"])
    if explain:
        explain_sources(out, job.drawers)
    for line in foot(units):
        print_indented(out, line, by=0)
    out.print(count_words(job))
    if any(drawer.slide is not None and drawer.slide.family.invented for drawer in job.drawers):
        out.print("The slides chosen are invented examples; read your own with --slides before you cut.")


def free_words(job: FittedJob) -> str:
    """What is said of cabinets that stand free, which another command weighs; empty without one."""
    free = free_cabinets(job.drawers)
    if not free:
        return ""
    who, they, them = (
        (f"Cabinet {free[0]} stands", "it tips", "it")
        if len(free) == 1
        else (f"Cabinets {', '.join(free)} stand", "they tip", "them")
    )
    return (
        f"{MARKS['watch']} {who} free: drawerwright carry says whether {they}. Anchor {them} to the wall "
        "whatever it says; local codes and the maker's own instructions come first."
    )


def job_table(job: FittedJob, units: ShownUnits) -> Table:
    """One row a drawer: verdict, slide, box, first hole, front, and the check to watch."""
    short = all(len(drawer.id) <= LONG_ID for drawer in job.drawers)
    table = new_table(job.title, HEADS, unbroken=HEADS[:2] if short else HEADS[1:2])
    table.columns[-1].max_width = WATCH_WIDTH
    for drawer in job.drawers:
        table.add_row(*_row(drawer, units))
    return table


def _show_listed(out: Console, job: FittedJob, units: ShownUnits) -> None:
    """The table's cells one below the other, where the console is too narrow to have them side by side."""
    if job.title:
        out.print(Text(job.title, style="bold"))
    for drawer in job.drawers:
        name, _, *cells = _row(drawer, units)
        out.print(Text(f"{name}  ", style="bold") + verdict_text(drawer.verdict))
        for head, cell in zip(HEADS[2:], cells, strict=True):
            if cell != NOTHING:
                print_indented(out, f"{head}: {cell}".replace("\n", ", "), by=2)


def _show_notes(out: Console, drawer: FittedDrawer) -> None:
    notes = notes_of(drawer)
    if not notes:
        return
    out.print(Text(f"{drawer.id}  ", style="bold") + verdict_text(drawer.verdict))
    for note in notes:
        print_indented(out, note, by=2)
    out.print()


def notes_of(drawer: FittedDrawer) -> list[str]:
    """Checks that stop or watch; for a drawer that does not fit the slide that they speak of, and cures."""
    notes = [
        f"{MARKS[check.state]} {check.id}: {check.says}" for check in drawer.checks if check.state != "ok"
    ]
    if drawer.nearest is not None:
        notes.insert(0, f"Nearest: {slide_words(drawer.nearest)}.")
    return [*notes, *(f"Cure: {change.says}" for change in drawer.changes), *retrofit_notes(drawer)]


def count_words(job: FittedJob) -> str:
    """How many drawers fit, in one line; each counts as many times as it is built."""
    counts: Counter[Verdict] = Counter()
    for drawer in job.drawers:
        counts[drawer.verdict] += drawer.drawer.quantity
    words: tuple[tuple[Verdict, str, str], ...] = (
        ("fits", "fits", "fit"),
        ("fits-with-care", "fits with care", "fit with care"),
        ("does-not-fit", "does not fit", "do not fit"),
    )
    told = [count(counts[verdict], one, many) for verdict, one, many in words if counts[verdict]]
    return f"{count(counts.total(), 'drawer', 'drawers')}: {', '.join(told)}."


def _row(drawer: FittedDrawer, units: ShownUnits) -> list[str | Text]:
    head: list[str | Text] = [named(drawer.drawer), verdict_text(drawer.verdict)]
    slide, box, mounting, front = drawer.slide, drawer.box, drawer.mounting, drawer.front
    if slide is None or box is None or mounting is None:
        return [*head, NOTHING, NOTHING, NOTHING, NOTHING, _watched(drawer, units)]
    has_front = front is not None and front.style != "none"
    return [
        *head,
        f"{slide.family.id}/{slide.length.nominal:g}\n{MOUNT_WORDS[slide.mount]}{_spacers(drawer)}",
        box_sizes(box.outside_width, box.height, box.length, units),
        _first_hole(mounting, units),
        front_sizes(front.width, front.height, units) if front is not None and has_front else NOTHING,
        _watched(drawer, units),
    ]


def _first_hole(mounting: Mounting, units: ShownUnits) -> str:
    """Depth of the first row hole; where a frame stands ahead of the cabinet side, from its edge as well."""
    if not mounting.holes:
        return NOTHING
    first, from_edge = mounting.holes[0], mounting.holes_from_side_edge[0]
    if abs(first - from_edge) < 0.05:
        return hardware(first, units)
    return f"{hardware(first, units)}\n{hardware(from_edge, units)} from the side's edge"


def _spacers(drawer: FittedDrawer) -> str:
    assert drawer.slide is not None
    told = [
        f"{'+'.join(f'{one:g}' for one in thicknesses)} mm {where}"
        for thicknesses, where in (
            (drawer.slide.side_spacers, "at the side"),
            (drawer.slide.subfront_spacers, "at the subfront"),
        )
        if thicknesses
    ]
    return f"\nspacer {', '.join(told)}" if told else ""


def _watched(drawer: FittedDrawer, units: ShownUnits) -> str:
    """The checks that stop, by how much; where none does, those to watch, and in a few words for what."""
    if drawer.verdict == "does-not-fit":
        told = [
            check_margin(check.id, check.margin, check.unit, units)
            for check in drawer.checks
            if check.state == "stop"
        ]
    else:
        told = [_care(check, units) for check in drawer.checks if check.state == "watch"]
    return "\n".join(told) or NOTHING


def _care(check: Check, units: ShownUnits) -> str:
    """A check to watch, and for what; its margin only where it is broken."""
    name = check.id
    if check.margin < 0:
        name = check_margin(check.id, check.margin, check.unit, units)
    return f"{name}: {clause(check.cure)}" if check.cure else name
