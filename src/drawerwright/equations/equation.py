"""One equation of the sheet: a function whose parameters name the quantities it needs.

    @equation("mm", source=GEOMETRY, style="inset")
    def front_end__inset(front_thickness: Q, member_inset: Q) -> Q:
        \"\"\"Depth of the member's front end.\"\"\"
        return front_thickness + member_inset

The quantity is the function's name up to a double underscore; what follows names the variant. Keyword
conditions (`style="inset"`, `mount=("side", "packed")`) say in which situations the variant holds. A check
returns its margin, never a bool: negative means the rule is broken.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeAlias, TypeVar

import numpy as np
from numpy.typing import NDArray

Q: TypeAlias = NDArray[np.float64]
Situation: TypeAlias = Mapping[str, str]
F = TypeVar("F", bound=Callable[..., Q])

HANDS = ("left", "right")
_ROUND_OFF = 1e-6


@dataclass(frozen=True, slots=True)
class Cure:
    """A cure for one of the ways in which a check can be broken: where a quantity has this sign, 1 or -1."""

    quantity: str
    sign: Literal[1, -1]
    says: str

    def holds(self, values: Mapping[str, float]) -> bool:
        """Whether the quantity has that sign beyond round-off."""
        return self.sign * values[self.quantity] > _ROUND_OFF


@dataclass(frozen=True, slots=True)
class CheckRule:
    """What a check adds to its margin.

    `only_watches`: never stops. `watch_below`: watches when the margin is under this. `care`: name of a
    second margin that makes the check watch when negative. `says` and `cure` are sentences with
    {quantities}; a cure is added when the check stops or watches: the first of `cures` that holds, else
    `cure`; `care_says` in its place when only the second margin is at fault.
    """

    id: str
    says: str
    cure: str = ""
    cures: tuple[Cure, ...] = ()
    only_watches: bool = False
    watch_below: float | None = None
    care: str | None = None
    care_says: str = ""

    def cure_for(self, values: Mapping[str, float]) -> str:
        """The cure for what is wrong by these values."""
        return next((cure.says for cure in self.cures if cure.holds(values)), self.cure)

    @property
    def sentences(self) -> tuple[str, ...]:
        """All that can be said, each with its {quantities}."""
        told = (f"{{{cure.quantity}}} {cure.says}" for cure in self.cures)
        return (self.says, self.cure, self.care_says, *told)


@dataclass(frozen=True, slots=True)
class Equation:
    """A quantity, how it is computed from others, in which situations, and on whose word."""

    quantity: str
    variant: str
    unit: str
    title: str
    source: str
    layer: str
    parameters: tuple[str, ...]
    function: Callable[..., Q] = field(compare=False)
    conditions: Mapping[str, tuple[str, ...]] = field(compare=False)
    hands: bool = False
    check: CheckRule | None = None

    @property
    def name(self) -> str:
        """Quantity and variant, as the function is called."""
        return f"{self.quantity}__{self.variant}" if self.variant else self.quantity

    def holds(self, situation: Situation) -> bool:
        """Whether this variant applies; a situation that leaves a condition's key open does not meet it."""
        return all(situation.get(key) in allowed for key, allowed in self.conditions.items())


def equation(
    unit: str,
    *,
    source: str,
    hands: bool = False,
    check: CheckRule | None = None,
    **conditions: str | tuple[str, ...],
) -> Callable[[F], F]:
    """Mark a function as an equation; `collect` finds it by the mark.

    `unit` of the result; `source` on whose word it stands; `hands` makes a left and a right quantity of one
    function; `check` makes it a check's margin; `conditions` say in which situations it holds.
    """
    allowed = {key: (value,) if isinstance(value, str) else value for key, value in conditions.items()}

    def mark(function: F) -> F:
        quantity, _, variant = function.__name__.partition("__")
        title = (inspect.getdoc(function) or "").partition("\n")[0].strip().rstrip(".")
        if not title:
            raise TypeError(f"equation {function.__name__} has no docstring; say what it is in one line")
        function.__dict__["equation"] = Equation(
            quantity=quantity,
            variant=variant,
            unit=unit,
            title=title,
            source=source,
            layer=function.__module__.rpartition(".")[2],
            parameters=tuple(inspect.signature(function).parameters),
            function=function,
            conditions=allowed,
            hands=hands,
            check=check,
        )
        return function

    return mark


def collect(module: object) -> tuple[Equation, ...]:
    """The equations of a module, in the order written."""
    found = (getattr(value, "equation", None) for value in vars(module).values())
    return tuple(item for item in found if isinstance(item, Equation))
