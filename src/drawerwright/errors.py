"""Every error this package raises on purpose.

DrawerwrightError                the one root
├── InputError                   what was given cannot be used: all faults of it together
│   ├── StoreUnusable            the store cannot be opened, read or written (kept in the store)
│   ├── NotInStore               no job, family, revision or log of that name (kept in the store)
│   └── Conflict                 somebody changed the same meanwhile; nothing is lost (kept in the store)
├── ReadingError                 one value cannot be read as a length, a mass or a number (also a ValueError)
├── Problems                     several things wrong inside one value or model (also a ValueError)
├── EquationError                a sheet of equations is unknown, double or circular (kept beside the sheet)
└── TypesettingError             a paper could not be typeset: a fault of this program (kept in the pack)

`ReadingError` and `Problems` are raised where the place in the file is not known yet; the readers turn
them into the faults of one `InputError`, which is what a command or a request shows.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, fields


class DrawerwrightError(Exception):
    """Root of all errors raised on purpose."""


def plainly(text: str) -> str:
    """Text on one line: blanks for line ends and tabs, a replacement character for what cannot be seen."""
    if text.isprintable():
        return text
    return "".join(one if one.isprintable() else _shown(one) for one in text)


def _shown(sign: str) -> str:
    """What stands for a sign that is not printed: a space of any width is left as it is."""
    if unicodedata.category(sign) == "Zs":
        return sign
    return " " if sign.isspace() else "\N{REPLACEMENT CHARACTER}"


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong in what was given.

    `where` is the file, line and key; `value` the text that was found there; `says` what is wrong and
    what is allowed; `try_` an example of what would do. Names of files and entries stand in any of them:
    each is kept on one line, without signs that a terminal obeys.
    """

    where: str
    value: str
    says: str
    try_: str

    def __post_init__(self) -> None:
        for one in fields(self):
            object.__setattr__(self, one.name, plainly(getattr(self, one.name)))

    def as_json(self) -> dict[str, str]:
        """The fault with the keys `where`, `value`, `says`, `try`."""
        return {"where": self.where, "value": self.value, "says": self.says, "try": self.try_}

    def __str__(self) -> str:
        found = f" {self.value}" if self.value else ""
        return f"{self.where}:{found} {self.says}" + (f"; try {self.try_}" if self.try_ else "")


class InputError(DrawerwrightError):
    """What was given cannot be used; `faults` holds every fault found, in the order of the file."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults: tuple[Fault, ...] = tuple(faults)
        if not self.faults:
            raise ValueError("an InputError needs at least one fault")
        super().__init__(self.faults)

    def as_json(self) -> dict[str, list[dict[str, str]]]:
        """`{"errors": [...]}`, as the commands and the HTTP API give it."""
        return {"errors": [fault.as_json() for fault in self.faults]}

    def __str__(self) -> str:
        return "\n".join(str(fault) for fault in self.faults)


class ReadingError(DrawerwrightError, ValueError):
    """One value cannot be read: the value as text, what is wrong, and what would do."""

    def __init__(self, value: str, says: str, try_: str) -> None:
        super().__init__(value, says, try_)
        self.value = value
        self.says = says
        self.try_ = try_

    def fault(self, where: str) -> Fault:
        """The same at a known place."""
        return Fault(where, self.value, self.says, self.try_)

    def __str__(self) -> str:
        return f"{self.value} {self.says}" + (f"; try {self.try_}" if self.try_ else "")


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong at a place `loc` inside a value: keys and list positions (from 0), outermost first."""

    loc: tuple[str | int, ...]
    value: str
    says: str
    try_: str


class Problems(DrawerwrightError, ValueError):
    """Several things wrong inside one value."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(problems)
        super().__init__(self.problems)

    def __str__(self) -> str:
        return "; ".join(
            f"{'.'.join(map(str, one.loc))}: {one.value} {one.says}".lstrip(": ") for one in self.problems
        )
