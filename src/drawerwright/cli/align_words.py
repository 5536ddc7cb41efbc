"""How fronts are lined up, on the console: what was found, what to turn in which order, what is left."""

from __future__ import annotations

from rich.console import Console
from rich.text import Text

from drawerwright.align.aligned import AlignedFront, AlignedJob, Gaps
from drawerwright.cli.tables import print_indented
from drawerwright.model.gaps import GAP_NAMES
from drawerwright.units import format_length


def show_aligned(out: Console, aligned: AlignedJob) -> None:
    """Each front: its pose, the steps with the gaps to expect, what is left and what to measure next."""
    for front in aligned.fronts:
        _show_front(out, front)
    for found in aligned.travel:
        who = "both" if len(found.hands) > 1 else found.hands[0]
        move = format_length(found.mm, decimals=2)
        sure = format_length(found.uncertainty, decimals=2)
        family = format_length(found.family, decimals=2)
        out.print(
            f"{found.drawer} {who} {found.adjuster}: a mark is {move} (± {sure}), by the family {family}"
        )


def _show_front(out: Console, front: AlignedFront) -> None:
    out.print(Text(front.drawer, style="bold") + Text(f"  {pose_words(front)}"))
    for number, step in enumerate(front.steps, 1):
        print_indented(out, f"{number}. {step.move.says}", by=2)
        print_indented(out, f"then {gaps_words(step.expected)}", by=5)
    if not front.moves:
        out.print("  Nothing to turn.")
    for left in front.left_over:
        print_indented(out, f"Left: {left.what}, {format_length(left.size, decimals=2)}. {left.cure}", by=2)
    if front.next_reading is not None:
        print_indented(out, front.next_reading.says, by=2)
    for warning in front.warnings:
        print_indented(out, f"Note: {warning}", by=2)
    out.print()


def pose_words(front: AlignedFront) -> str:
    """Where a front stands, what cannot be told named at the end."""
    found = front.pose
    ways = (
        (found.x, "right", "left"),
        (found.y, "high", "low"),
        (found.z, "out", "in"),
    )
    said = [
        f"{format_length(abs(value), decimals=2)} {more if value > 0 else less}"
        for value, more, less in ways
        if value is not None and abs(value) >= 0.005
    ]
    turns = (("roll", found.roll), ("yaw", found.yaw), ("pitch", found.pitch))
    said += [f"{name} {value:+.2f}°" for name, value in turns if value is not None and abs(value) >= 0.005]
    unknown = [name for name in ("x", "y", "z", "roll", "yaw", "pitch") if getattr(found, name) is None]
    told = "stands " + ", ".join(said) if said else "stands centred, square and flush"
    if unknown:
        told += f"; the readings do not tell {', '.join(unknown)}"
    return told


def gaps_words(gaps: Gaps) -> str:
    """Each edge with its two ends, "left 3 | 3, right 3 | 3"; unknown ones are a dash."""
    edges: dict[str, list[str]] = {}
    for name in GAP_NAMES:
        edge = "out " + name.split("_")[1] if name.startswith("out") else name.split("_")[0]
        value = gaps[name]
        edges.setdefault(edge, []).append("–" if value is None else f"{round(value, 2) + 0.0:g}")
    return ", ".join(
        f"{edge} {' | '.join(ends)}" for edge, ends in edges.items() if any(end != "–" for end in ends)
    )
