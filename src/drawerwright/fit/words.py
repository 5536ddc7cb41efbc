"""Sentences and workings of an answer, in the units that people read."""

from __future__ import annotations

from array import array
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache

from drawerwright.equations.given import CHOSEN, FAMILY_DATA, GIVEN
from drawerwright.equations.sheet import Plan, Step
from drawerwright.equations.trade import ERRORS
from drawerwright.equations.working import figures, formula, plain, words_of
from drawerwright.model.cut_sizes import rounds_down
from drawerwright.model.fitted import Working
from drawerwright.units import (
    KG_PER_POUND,
    MM_PER_INCH,
    ShownUnits,
    format_length,
    format_mass,
    is_just_inches,
)

_KILOGRAM_DECIMALS = 2
_SMALL = 10.0


@dataclass(frozen=True)
class Told:
    """The values of one drawer on one slide, by quantity, ready to be put into words.

    `units`: "mm", "in" or "both" for lengths; `words` stand in sentences for what no single number says.
    """

    plan: Plan
    values: Mapping[str, float]
    units: ShownUnits = "mm"
    words: Mapping[str, str] = field(default_factory=dict)

    def show(self, quantity: str, value: float) -> str:
        """A value without its unit, as it stands in a working: decimal inches add up, fractions do not."""
        unit = unit_of(self.plan, quantity)
        if self.units == "in" and unit in ("mm", "kg"):
            return plain(
                value / float(MM_PER_INCH if unit == "mm" else KG_PER_POUND), 3 if unit == "mm" else 1
            )
        return plain(value, _KILOGRAM_DECIMALS if unit.startswith("kg") else 3)

    def result(self, quantity: str) -> str:
        """A value with its unit, as it ends a working."""
        unit = unit_of(self.plan, quantity)
        unit = {"mm": "in", "kg": "lb"}.get(unit, unit) if self.units == "in" else unit
        return f"{self.show(quantity, self.values[quantity])} {unit}".rstrip().replace(" °", "°")

    def shown(self, quantity: str, value: float | None = None) -> str:
        """A value with its unit, as it stands in a sentence.

        In inches, what the slide's maker tells and what is small stays in mm, unless it is just so many 1/64
        in: a fraction would hide it. Sizes that are cut are rounded as on the cut list.
        """
        unit, value = unit_of(self.plan, quantity), self.values[quantity] if value is None else value
        if unit == "mm":
            small = abs(value) < _SMALL and not is_just_inches(value)
            units = "mm" if small or _is_hardware(quantity) else self.units
            shown = format_length(value, units, decimals=3, inches_down=rounds_down(quantity))
            return shown.replace("-", "−")
        if unit == "kg":
            return format_mass(value, self.units, decimals=_KILOGRAM_DECIMALS if self.units == "mm" else 1)
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
        result = self.result(quantity)
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
            if name not in ERRORS and name in self.values
        )
        return Working(
            quantity,
            step.equation.unit,
            value,
            step.equation.title,
            words,
            f"{numbers} = {self.result(quantity)}",
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
        self._told = replace(told, values=_Packed(told.values))

    def __getitem__(self, quantity: str) -> Working:
        if quantity not in self._told.values:
            raise KeyError(quantity)
        return self._told.working(quantity)

    def __iter__(self) -> Iterator[str]:
        return (step.quantity for step in self._told.plan.steps)

    def __len__(self) -> int:
        return len(self._told.plan.steps)


class _Packed(Mapping[str, float]):
    """Numbers by name, to be kept for every drawer of a large job: a sixth of the memory of a dict."""

    def __init__(self, values: Mapping[str, float]) -> None:
        self._places = _places(tuple(values))
        self._numbers = array("d", values.values())

    def __getitem__(self, name: str) -> float:
        return self._numbers[self._places[name]]

    def __iter__(self) -> Iterator[str]:
        return iter(self._places)

    def __len__(self) -> int:
        return len(self._places)


@lru_cache(maxsize=256)
def _places(names: tuple[str, ...]) -> Mapping[str, int]:
    """Where each name's number stands, once for all drawers of a situation."""
    return {name: at for at, name in enumerate(names)}


class _Shown(dict[str, str]):
    def __init__(self, told: Told) -> None:
        super().__init__()
        self._told = told

    def __missing__(self, quantity: str) -> str:
        if quantity in self._told.words:
            return self._told.words[quantity]
        return _Spoken(self._told, quantity)


class _Spoken(str):
    """A value in a sentence; `{taper:wider|narrower}` says its size and one word for each sign.

    `{taper:|}` says its size alone.
    """

    _told: Told
    _quantity: str

    def __new__(cls, told: Told, quantity: str) -> _Spoken:
        spoken = super().__new__(cls, told.shown(quantity))
        spoken._told, spoken._quantity = told, quantity
        return spoken

    def __format__(self, words: str) -> str:
        if not words:
            return str(self)
        value = self._told.values[self._quantity]
        positive, _, negative = words.partition("|")
        return (
            f"{self._told.shown(self._quantity, abs(value))} {positive if value >= 0 else negative}".rstrip()
        )


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


def _is_hardware(quantity: str) -> bool:
    return quantity in GIVEN and GIVEN[quantity].origin in (FAMILY_DATA, CHOSEN)


@lru_cache(maxsize=4096)
def _nil_errors(arguments: tuple[str, ...]) -> frozenset[str]:
    # A fit runs with errors of 0: they would only stand in the way of reading.
    return frozenset(name for name in arguments if name in ERRORS)
