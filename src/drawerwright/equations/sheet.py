"""A sheet of equations: orders itself for a situation, then computes numbers or arrays alike.

A *plan* is the ordered list of equations that a situation needs for the quantities wanted. Whatever is given
is not computed: giving a quantity that has an equation pins it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import product

from drawerwright.equations.equation import HANDS, Equation, Q, Situation
from drawerwright.errors import DrawerwrightError


class EquationError(DrawerwrightError):
    """A quantity is unknown, has two equations, or hangs on itself."""


@dataclass(frozen=True, slots=True)
class Step:
    """One equation ready to run: its result's name and, in order, the names of its arguments."""

    quantity: str
    equation: Equation
    function: Callable[..., Q]
    arguments: tuple[str, ...]


@dataclass(frozen=True)
class Plan:
    """Ordered steps for one situation."""

    steps: tuple[Step, ...]
    needs: tuple[str, ...]
    _by_quantity: dict[str, Step] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "_by_quantity", {step.quantity: step for step in self.steps})

    def run(self, given: Mapping[str, Q]) -> dict[str, Q]:
        """Values of every step, beside those given.

        Shapes are the caller's: anything that broadcasts, for instance drawers (d, 1) against slides (1, c).
        """
        values = dict(given)
        for step in self.steps:
            values[step.quantity] = step.function(*[values[name] for name in step.arguments])
        return values

    def roots(self) -> dict[str, frozenset[str]]:
        """For every step the given quantities that it hangs on."""
        found: dict[str, frozenset[str]] = {}
        for step in self.steps:
            found[step.quantity] = frozenset().union(
                *(found.get(name, frozenset({name})) for name in step.arguments)
            )
        return found

    def step(self, quantity: str) -> Step | None:
        """The step that computes a quantity, None where it was given."""
        return self._by_quantity.get(quantity)


class Sheet:
    """Equations by quantity, and the quantities that are given from outside."""

    def __init__(self, equations: Iterable[Equation], given: Iterable[str]) -> None:
        """Raise EquationError where two variants hold at once, a parameter is unknown, or a circle closes."""
        self.given = frozenset(given)
        self.variants: dict[str, list[Equation]] = {}
        for item in equations:
            for quantity in _quantities(item):
                self.variants.setdefault(quantity, []).append(item)
        self._plan = lru_cache(maxsize=4096)(self._order)
        self._check_overlaps()
        self._check_parameters()

    def applicable(self, quantity: str, situation: Situation) -> Equation | None:
        """The one variant of a quantity that holds, None where none does."""
        holding = [item for item in self.variants.get(quantity, ()) if item.holds(situation)]
        if len(holding) > 1:
            names = ", ".join(item.name for item in holding)
            raise EquationError(f"{quantity}: {len(holding)} equations hold at once ({names})")
        return holding[0] if holding else None

    def checks(self, situation: Situation) -> tuple[str, ...]:
        """The quantities that are checks in this situation, in the sheet's order."""
        found = ((name, self.applicable(name, situation)) for name in self.variants)
        return tuple(name for name, item in found if item is not None and item.check is not None)

    def plan(self, situation: Situation, wanted: Sequence[str], given: Iterable[str]) -> Plan:
        """Steps for the wanted quantities; `given` are the names that the caller brings.

        Raises EquationError naming a quantity that is neither given nor has an equation in this situation,
        or the circle that the equations close.
        """
        return self._plan(tuple(sorted(situation.items())), tuple(wanted), frozenset(given))

    def _order(
        self, items: tuple[tuple[str, str], ...], wanted: tuple[str, ...], given: frozenset[str]
    ) -> Plan:
        situation = dict(items)
        steps: dict[str, Step] = {}
        needs: dict[str, None] = {}
        path: list[str] = []

        def visit(quantity: str, asked_by: str) -> None:
            if quantity in given:
                needs[quantity] = None
            elif quantity in path:
                circle = " → ".join([*path[path.index(quantity) :], quantity])
                raise EquationError(f"the equations close a circle: {circle}")
            elif quantity not in steps:
                item = self.applicable(quantity, situation)
                if item is None:
                    where = ", ".join(f"{key}={value}" for key, value in items) or "no conditions"
                    raise EquationError(
                        f"{quantity}, needed by {asked_by}, is not given and has no equation ({where})"
                    )
                path.append(quantity)
                arguments = tuple(self._handed(name, quantity, item, given) for name in item.parameters)
                for name in arguments:
                    visit(name, quantity)
                path.pop()
                steps[quantity] = Step(quantity, item, item.function, arguments)

        for quantity in wanted:
            visit(quantity, "the caller")
        return Plan(tuple(steps.values()), tuple(needs))

    def _handed(self, name: str, quantity: str, item: Equation, given: frozenset[str]) -> str:
        """`overhang` means `overhang_left` inside the left one of a handed pair, where such a quantity is."""
        if not item.hands:
            return name
        handed = f"{name}_{quantity.rpartition('_')[2]}"
        known = handed in self.variants or handed in self.given or handed in given
        return handed if known else name

    def _check_overlaps(self) -> None:
        for quantity, items in self.variants.items():
            for situation in spanned_situations(items):
                self.applicable(quantity, situation)

    def _check_parameters(self) -> None:
        known = self.given | self.variants.keys()
        for items in self.variants.values():
            for item in items:
                for name in item.parameters:
                    handed = [f"{name}_{hand}" for hand in HANDS] if item.hands else []
                    if name not in known and not (handed and known.issuperset(handed)):
                        raise EquationError(f"{item.name} needs {name}, which is neither given nor computed")


def _quantities(item: Equation) -> tuple[str, ...]:
    return tuple(f"{item.quantity}_{hand}" for hand in HANDS) if item.hands else (item.quantity,)


def spanned_situations(items: Sequence[Equation]) -> list[dict[str, str]]:
    """Every combination of the condition values that these equations speak of."""
    values: dict[str, dict[str, None]] = {}
    for item in items:
        for key, allowed in item.conditions.items():
            values.setdefault(key, {}).update(dict.fromkeys(allowed))
    return [dict(zip(values, choice, strict=True)) for choice in product(*values.values())]
