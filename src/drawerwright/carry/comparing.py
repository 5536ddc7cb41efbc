"""Slides side by side: what each drawer's slides carry, one answer a slide, and the figures that differ."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Final, Unpack

from drawerwright.carry.carried import CarriedDrawer
from drawerwright.carry.document import drawer_document
from drawerwright.carry.parts_document import maybe
from drawerwright.carry.study import Asking, carry_job
from drawerwright.carry.words import Words
from drawerwright.fit.compare import Comparison
from drawerwright.model.fitted import FittedJob

SCHEMA: Final = "drawerwright/carry-compare/1"
_SAME: Final = 1e-6


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of a drawer on each slide compared [unit]; None where it is not known."""

    name: str
    title: str
    unit: str
    values: tuple[float | None, ...]

    @property
    def differs(self) -> bool:
        """Whether the slides do not all come to the same."""
        known = [value for value in self.values if value is not None]
        return len(known) < len(self.values) or max(known) - min(known) > _SAME

    def texts(self, words: Words, nothing: str) -> tuple[str, ...]:
        """Each slide's value as people read it; `nothing` where it is not known."""
        return tuple(nothing if value is None else _text(value, self.unit, words) for value in self.values)


def _text(value: float, unit: str, words: Words) -> str:
    match unit:
        case "mm":
            return words.length(value)
        case "kg":
            return words.mass(value)
        case "N":
            return words.force(value)
        case "":
            return f"{100 * value:.0f} %"
    return f"{value:.2f} {unit}".replace(" °", "°").replace("-", "−")


@dataclass(frozen=True, slots=True)
class ComparedLoad:
    """One drawer on each slide compared, in their order."""

    id: str
    answers: tuple[CarriedDrawer, ...]

    @property
    def figures(self) -> tuple[Figure, ...]:
        """What is told of every slide, where any of them knows it."""
        told = (
            Figure(name, title, unit, tuple(of(answer) for answer in self.answers))
            for name, title, unit, of in FIGURES
        )
        return tuple(one for one in told if any(value is not None for value in one.values))


@dataclass(frozen=True, slots=True)
class CarriedComparison:
    """A job's drawers on each of the `slides`, named as asked."""

    title: str
    slides: tuple[str, ...]
    drawers: tuple[ComparedLoad, ...]


def carry_comparison(comparison: Comparison, **asking: Unpack[Asking]) -> CarriedComparison:
    """What the slides of a fitted comparison carry, asked as `carry_job`. Raises InputError."""
    total = len(comparison.slides) * len(comparison.drawers)
    progress = asking.get("progress")
    columns: list[tuple[CarriedDrawer, ...]] = []
    for place in range(len(comparison.slides)):
        fitted = FittedJob(comparison.title, tuple(one.answers[place] for one in comparison.drawers))

        def tell(done: int, _: int, before: int = place * len(comparison.drawers)) -> None:
            if progress is not None:
                progress(before + done, total)

        told: Asking = {**asking, "progress": tell}
        columns.append(carry_job(fitted, **told).drawers)
    rows: Sequence[tuple[CarriedDrawer, ...]] = list(zip(*columns, strict=True))
    return CarriedComparison(
        comparison.title, comparison.slides, tuple(ComparedLoad(row[0].id, row) for row in rows)
    )


def carry_comparison_document(compared: CarriedComparison) -> dict[str, Any]:
    """`drawerwright/carry-compare/1`: per drawer the figures side by side, and each slide's whole answer."""
    return {
        "schema": SCHEMA,
        "title": compared.title,
        "slides": list(compared.slides),
        "drawers": [
            {
                "id": one.id,
                "figures": [
                    {
                        "figure": figure.name,
                        "title": figure.title,
                        "unit": figure.unit,
                        "values": [maybe(value) for value in figure.values],
                        "differs": figure.differs,
                    }
                    for figure in one.figures
                ],
                "answers": [
                    {"asked": slide, **drawer_document(answer)}
                    for slide, answer in zip(compared.slides, one.answers, strict=True)
                ],
            }
            for one in compared.drawers
        ],
    }


def _capacity(one: CarriedDrawer) -> float | None:
    return None if one.limit is None else one.limit.moving


def _spare(one: CarriedDrawer) -> float | None:
    return None if one.limit is None or one.load is None else one.limit.moving - one.load


def _travel(one: CarriedDrawer) -> float | None:
    return None if one.slide is None else one.slide.data.travel


def _sag(one: CarriedDrawer) -> float | None:
    return float(one.slide.drawn.sag[-1]) if one.slide is not None and one.slide.data.has_sag else None


def _members(one: CarriedDrawer) -> float | None:
    if one.slide is None:
        return None
    share = float(one.slide.drawn.members_sag[-1])
    return share if share == share else None


def _roller(one: CarriedDrawer) -> float | None:
    return None if one.slide is None or one.slide.rollers is None else one.slide.rollers.largest


def _steel(one: CarriedDrawer) -> float | None:
    stresses = () if one.slide is None else one.slide.stresses
    return max((stress.share for stress in stresses), default=None)


def _yaw(one: CarriedDrawer) -> float | None:
    return None if one.slide is None or one.slide.racking is None else one.slide.racking.yaw_deg


def _pulled(one: CarriedDrawer) -> float | None:
    fixings = () if one.slide is None else one.slide.fixings
    return next((fixing.pull for fixing in fixings if fixing.id == "screw-mount"), None)


def _closes(one: CarriedDrawer) -> float | None:
    return None if one.slide is None or one.slide.closing is None else one.slide.closing.time


FIGURES: Final[tuple[tuple[str, str, str, Callable[[CarriedDrawer], float | None]], ...]] = (
    ("capacity", "May move", "kg", _capacity),
    ("spare", "To spare", "kg", _spare),
    ("travel", "Travel", "mm", _travel),
    ("sag", "Sag at full out", "mm", _sag),
    ("members", "… of it, members", "mm", _members),
    ("roller", "Most in a roller group", "N", _roller),
    ("steel", "Stress over yield", "", _steel),
    ("yaw", "Racking by play", "°", _yaw),
    ("pull", "Rearmost fixing pulled", "N", _pulled),
    ("closing", "Closes by itself in", "s", _closes),
)
"""Figures in the order in which they are told: name, words, unit, and where an answer has it."""
