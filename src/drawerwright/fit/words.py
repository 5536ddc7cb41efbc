"""Sentences and workings of an answer, in the units that people read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

from drawerwright.equations.given import GIVEN
from drawerwright.equations.sheet import Plan, Step
from drawerwright.equations.trade import ERRORS
from drawerwright.equations.working import figures, formula, plain, words_of
from drawerwright.model.fitted import Working
from drawerwright.units import ShownUnits, format_length

_KILOGRAM_DECIMALS = 2


@dataclass(frozen=True)
class Told:
    """The values of one drawer on one slide, by quantity, ready to be put into words.

    `units`: "mm", "in" or "both" for lengths.
    """

    plan: Plan
    values: Mapping[str, float]
    units: ShownUnits = "mm"

    def show(self, quantity: str, value: float) -> str:
        """A value without its unit, as it stands in a working."""
        unit = unit_of(self.plan, quantity)
        if unit == "mm" and self.units == "in":
            return format_length(value, "in").removesuffix(" in").replace("-", "−")
        return plain(value, _KILOGRAM_DECIMALS if unit.startswith("kg") else 3)

    def shown(self, quantity: str) -> str:
        """A value with its unit, as it stands in a sentence."""
        unit, value = unit_of(self.plan, quantity), self.values[quantity]
        if unit == "mm":
            return format_length(value, self.units, decimals=3).replace("-", "−")
        return f"{self.show(quantity, value)} {unit}".rstrip().replace(" °", "°")

    def sentence(self, template: str) -> str:
        """A check's sentence with its quantities filled in."""
        return template.format_map(_Shown(self))

    def working_line(self, quantity: str) -> str:
        """Formula and figures in one line; a given quantity is its value alone."""
        step = self.plan.step(quantity)
        if step is None:
            return self.shown(quantity)
        words, numbers = self._formula(step)
        result = self.shown(quantity)
        if words == numbers:
            return result
        if numbers == self.show(quantity, self.values[quantity]).strip("()"):
            return f"{words} = {result}"
        return f"{words} = {numbers} = {result}"

    def working(self, quantity: str) -> Working:
        """The full working of a quantity."""
        step, value = self.plan.step(quantity), self.values[quantity]
        if step is None:
            given = GIVEN[quantity]
            return Working(
                quantity, given.unit, value, given.title, "", self.shown(quantity), (), given.origin
            )
        words, numbers = self._formula(step)
        terms = tuple(
            (name, self.values[name], unit_of(self.plan, name), title_of(self.plan, name))
            for name in step.arguments
            if name not in ERRORS
        )
        return Working(
            quantity,
            step.equation.unit,
            value,
            step.equation.title,
            words,
            f"{numbers} = {self.shown(quantity)}",
            terms,
            step.equation.source,
        )

    def _formula(self, step: Step) -> tuple[str, str]:
        left_out = _nil_errors(step.arguments)
        return (
            formula(step.equation, step.arguments, left_out),
            figures(step.equation, step.arguments, self.values, self.show, left_out),
        )


class Workings(Mapping[str, Working]):
    """Workings by quantity, made when asked for."""

    def __init__(self, told: Told) -> None:
        self._told = told
        self._names = tuple(step.quantity for step in told.plan.steps)

    def __getitem__(self, quantity: str) -> Working:
        if quantity not in self._told.values:
            raise KeyError(quantity)
        return self._told.working(quantity)

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def __len__(self) -> int:
        return len(self._names)


class _Shown(dict[str, str]):
    def __init__(self, told: Told) -> None:
        super().__init__()
        self._told = told

    def __missing__(self, quantity: str) -> str:
        return self._told.shown(quantity)


def unit_of(plan: Plan, quantity: str) -> str:
    """Unit of a quantity, given or computed."""
    if quantity in GIVEN:
        return GIVEN[quantity].unit
    step = plan.step(quantity)
    return step.equation.unit if step is not None else ""


def title_of(plan: Plan, quantity: str) -> str:
    """What a quantity is."""
    if quantity in GIVEN:
        return GIVEN[quantity].title
    step = plan.step(quantity)
    return step.equation.title if step is not None else words_of(quantity)


@lru_cache(maxsize=4096)
def _nil_errors(arguments: tuple[str, ...]) -> frozenset[str]:
    # A fit runs with errors of 0: they would only stand in the way of reading.
    return frozenset(name for name in arguments if name in ERRORS)
