"""How fronts are lined up, on the console: what was found, what to turn in which order, what is left."""

from __future__ import annotations

from collections import Counter

from rich.console import Console
from rich.text import Text

from drawerwright.align.aligned import AlignedFront, AlignedJob, Gaps
from drawerwright.align.words import small_length
from drawerwright.cli.tables import print_indented
from drawerwright.model.gaps import GAP_NAMES
from drawerwright.units import ShownUnits, format_length

_LEAST = 0.005
"""What rounds to 0 is not said, mm or degrees."""


def show_aligned(out: Console, aligned: AlignedJob, units: ShownUnits = "mm") -> None:
    """Each front: its pose, the steps with the gaps to expect, what is left and what to measure next.

    What is to be noted of several fronts alike is said once, at the end.
    """
    counts = Counter(warning for front in aligned.fronts for warning in dict.fromkeys(front.warnings))
    common = [warning for warning, count in counts.items() if count > 1]
    for front in aligned.fronts:
        _show_front(out, front, common, units)
    for warning in common:
        who = "all fronts" if counts[warning] == len(aligned.fronts) else f"{counts[warning]} fronts"
        print_indented(out, f"Note ({who}): {warning}", by=0)
    for found in aligned.travel:
        who = "both" if len(found.hands) > 1 else found.hands[0]
        move = format_length(found.mm, decimals=2)
        sure = format_length(found.uncertainty, decimals=2)
        family = format_length(found.family, decimals=2)
        out.print(
            f"{found.drawer} {who} {found.adjuster}: a mark is {move} (± {sure}), by the family {family}"
        )


def _show_front(out: Console, front: AlignedFront, common: list[str], units: ShownUnits) -> None:
    out.print(Text(front.drawer, style="bold") + Text(f"  {pose_words(front, units)}"))
    for number, step in enumerate(front.steps, 1):
        print_indented(out, f"{number}. {step.move.says}", by=2)
        print_indented(out, f"then {gaps_words(step.expected, units)}", by=5)
    if not front.moves:
        out.print("  Nothing to turn.")
    for left in front.left_over:
        print_indented(out, f"Left: {left.what}, {small_length(left.size, units)}. {left.cure}", by=2)
    if front.next_reading is not None and (front.moves or front.left_over):
        print_indented(out, front.next_reading.says, by=2)
    for warning in front.warnings:
        if warning not in common:
            print_indented(out, f"Note: {warning}", by=2)
    out.print()


def pose_words(front: AlignedFront, units: ShownUnits = "mm") -> str:
    """Where a front stands and how sure that is, what cannot be told named at the end."""
    found, unsure = front.pose, front.uncertainty
    said = []
    for name, more, less in (("x", "right", "left"), ("y", "high", "low"), ("z", "out", "in")):
        value, within = getattr(found, name), getattr(unsure, name)
        if value is not None and within is not None and abs(value) >= _LEAST:
            about = "about " if within > abs(value) / 2 else ""
            way = more if value > 0 else less
            sure = format_length(within, decimals=1 if within >= 0.1 else 2)
            said.append(f"{about}{small_length(abs(value), units)} {way} (sure within {sure})")
    for name in ("roll", "yaw", "pitch"):
        value, within = getattr(found, name), getattr(unsure, name)
        if value is not None and within is not None and abs(value) >= _LEAST:
            said.append(f"{name} {value:+.2f}° (sure within {within:.2f}°)")
    unknown = [name for name in ("x", "y", "z", "roll", "yaw", "pitch") if getattr(found, name) is None]
    told = "stands " + ", ".join(said) if said else "stands centred, square and flush"
    if unknown:
        told += f"; the readings do not tell {', '.join(unknown)}"
    return told


def gaps_words(gaps: Gaps, units: ShownUnits = "mm") -> str:
    """Each edge with its two ends, "left 3 | 3, right 3 | 3"; unknown ones are a dash.

    Bare numbers are mm; in inches each is told with its fraction.
    """
    edges: dict[str, list[str]] = {}
    for name in GAP_NAMES:
        edge = "out " + name.split("_")[1] if name.startswith("out") else name.split("_")[0]
        value = gaps[name]
        edges.setdefault(edge, []).append(_gap(value, units))
    return ", ".join(
        f"{edge} {' | '.join(ends)}" for edge, ends in edges.items() if any(end != "–" for end in ends)
    )


def _gap(value: float | None, units: ShownUnits) -> str:
    if value is None:
        return "–"
    return f"{round(value, 2) + 0.0:g}" if units == "mm" else small_length(value, units)
