"""How a command answers: one JSON document, or pages for people; faults on standard error."""

from __future__ import annotations

import contextlib
import json
import os
import sys
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any, Protocol, TextIO, cast

from drawerwright.errors import Fault

if TYPE_CHECKING:
    from rich.console import Console

# Wide enough for every table of ours: what is piped is read by programs or scrolled, never cut.
PIPED_WIDTH = 200
LEAST_WIDTH = 20


def write_json(document: Mapping[str, Any]) -> None:
    """Write the one JSON document of a command on standard output; a number that is none is an error.

    The last value may be an iterator: it is written as a list, item by item, so that no more than one item is
    kept. All before it is told first, and an item that cannot be told leaves the document without its end.
    """
    *_, last = document
    items = document[last]
    if not isinstance(items, Iterator):
        sys.stdout.write(_as_json(document) + "\n")
        return
    sys.stdout.write(_as_json({**document, last: []}).removesuffix("]\n}"))
    before = "\n    "
    for item in items:
        sys.stdout.write(before + _as_json(item).replace("\n", "\n    "))
        before = ",\n    "
    sys.stdout.write(("]" if before[0] == "\n" else "\n  ]") + "\n}\n")


def _as_json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, indent=2, allow_nan=False)


def console(stream: TextIO | None = None) -> Console:
    """A console on standard output, or on the stream given; the same text whoever reads it, piped or not.

    A terminal is as wide as it is; a pipe as COLUMNS says, and wide without it.
    """
    from drawerwright.cli.tables import Page, Trimmed

    stream = sys.stdout if stream is None else stream
    piped = not stream.isatty()
    return Page(
        file=cast(TextIO, Trimmed(stream)) if piped else stream,
        width=_piped_width() if piped else None,
        highlight=False,
        markup=False,
        emoji=False,
        soft_wrap=False,
    )


def _piped_width() -> int:
    told = os.environ.get("COLUMNS", "")
    return max(int(told), LEAST_WIDTH) if told.isdecimal() else PIPED_WIDTH


class StepsTold(Protocol):
    """Takes news of long work: steps done, steps in all, and what was done last."""

    def __call__(self, done: int, total: int, what: str = "") -> None:
        """Show it."""


@contextlib.contextmanager
def steps_shown(doing: str, *, writing: bool = False) -> Iterator[StepsTold | None]:
    """A bar on standard error while long work lasts, where somebody watches; else nothing.

    `writing`: the answer is written meanwhile; on a terminal it is seen to go on, and a bar would cut it up.
    """
    if not sys.stderr.isatty() or (writing and sys.stdout.isatty()):
        yield None
        return
    from rich.progress import Progress

    # Else it would take what is written on standard output to standard error as well.
    with Progress(console=console(sys.stderr), transient=True, redirect_stdout=False) as bar:
        task = bar.add_task(doing, total=None)

        def tell(done: int, total: int, what: str = "") -> None:
            bar.update(task, completed=done, total=total, description=f"{doing} {what}".rstrip())

        yield tell


def refuse(faults: Sequence[Fault]) -> None:
    """Tell what cannot be used, on standard error."""
    head = "drawerwright: " if len(faults) == 1 else f"drawerwright: {len(faults)} faults\n  "
    sys.stderr.write(head + "\n  ".join(str(fault) for fault in faults) + "\n")


def refuse_as_json(faults: Sequence[Fault]) -> None:
    """Tell what cannot be used as the one JSON document on standard output."""
    write_json({"errors": [fault.as_json() for fault in faults]})
    sys.stdout.flush()
