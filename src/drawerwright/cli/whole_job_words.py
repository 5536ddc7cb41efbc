"""What the choice for a whole job came to, what it costs and what is to be ordered, in words."""

from __future__ import annotations

from typing import Final

from rich.console import Console

from drawerwright.cli.tables import print_indented
from drawerwright.cli.wording import count
from drawerwright.fit.whole_job import Aim, Tally, WholeJobChoice
from drawerwright.units import ShownUnits, format_length

_AIM_WORDS: Final[dict[Aim, str]] = {
    "fewest-lengths": "fewest lengths",
    "cheapest": "cheapest slides",
    "fewest-setups": "fewest setups",
}


def show_whole_job(out: Console, choice: WholeJobChoice, units: ShownUnits) -> None:
    """What the aim came to, what it costs against the free choice, and what is to be ordered."""
    out.print()
    for line in whole_job_words(choice, units):
        print_indented(out, line, by=0)


def whole_job_words(choice: WholeJobChoice, units: ShownUnits) -> list[str]:
    """The same as lines of text."""
    chosen, free = choice.chosen, choice.free
    lines = [f"Whole job, {_AIM_WORDS[choice.aim]}: {_compared(choice)}; {_proof(choice)}."]
    rest = [_lost(choice, units)]
    if choice.aim != "fewest-lengths":
        lengths = count(len(chosen.pairs), "length", "lengths")
        rest.append(f"{lengths} to order instead of {len(free.pairs)}")
    if choice.aim != "cheapest" and chosen.cost is not None and free.cost is not None:
        rest.append(f"slides for {chosen.cost:.2f} instead of {free.cost:.2f}")
    if choice.aim != "fewest-setups":
        rest.append(f"{_setups(chosen)} instead of {_setups(free)}")
    lines.append(f"Against choosing for each drawer alone: {'; '.join(rest)}.")
    ordered = ", ".join(f"{family}/{nominal:g} × {pairs}" for (family, nominal), pairs in chosen.pairs)
    return [*lines, f"Pairs of slides to order: {ordered or 'none'}."]


def _compared(choice: WholeJobChoice) -> str:
    if choice.aim == "fewest-lengths":
        return f"{choice.value:.0f} to order instead of {len(choice.free.pairs)}"
    if choice.aim == "cheapest":
        return f"{choice.value:.2f} instead of {choice.free.cost or 0:.2f}"
    return f"{_setups(choice.chosen)} instead of {_setups(choice.free)}"


def _proof(choice: WholeJobChoice) -> str:
    if choice.proven:
        return "proven best"
    return f"the search was cut off: {choice.bound:g} is the least that could be"


def _setups(tally: Tally) -> str:
    bored = count(tally.boring_patterns, "boring pattern", "boring patterns")
    return f"{bored} and {count(tally.fence_settings, 'fence setting', 'fence settings')}"


def _lost(choice: WholeJobChoice, units: ShownUnits) -> str:
    shorter = sum(one.count for one in choice.moved if one.lost > 0)
    if not shorter:
        told = "no box gets shorter"
    else:
        most, total = (format_length(mm, units) for mm in (choice.most_lost, choice.lost))
        told = f"{count(shorter, 'box gets', 'boxes get')} shorter, by {most} at most and {total} together"
    pulled = sum(one.count for one in choice.moved if one.travel_lost > 0)
    if not pulled:
        return told
    less = format_length(choice.most_travel_lost, units)
    return f"{told}; {count(pulled, 'drawer pulls', 'drawers pull')} out less far, by {less} at most"
