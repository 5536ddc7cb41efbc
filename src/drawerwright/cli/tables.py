"""How tables and indented text stand on the console, whoever reads it."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Sequence
from typing import Any, Final, TextIO

from rich.box import HORIZONTALS
from rich.console import Console
from rich.table import Table
from rich.text import Text

_TRAILING: Final = re.compile(r" +(?=\n)")


class Trimmed:
    """An output that leaves out blanks at the ends of lines, for whoever reads it from a pipe or a file."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream

    def write(self, text: str) -> int:
        """Write whole lines without their last blanks."""
        return self._stream.write(_TRAILING.sub("", text))

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)


class Page(Console):
    """A console that leaves a reader who went away to the caller, in place of ending the process."""

    def on_broken_pipe(self) -> None:
        """Raise BrokenPipeError, which the command line ends quietly on."""
        raise BrokenPipeError


def new_table(title: str, heads: Sequence[str], *, unbroken: Sequence[str] = (), lines: bool = True) -> Table:
    """An empty table, with a line between rows where told; `unbroken` columns stay on one line."""
    table = Table(box=HORIZONTALS, show_lines=lines, title_justify="left", title_style="bold")
    table.title = title or None
    for head in heads:
        table.add_column(head, overflow="fold", no_wrap=head in unbroken)
    return table


def print_indented(out: Console, text: str, *, by: int, style: str = "") -> None:
    """Text wrapped to the console, each line moved in; nothing is cut."""
    room = max(out.width - by, 20)
    for line in textwrap.wrap(text, room, break_long_words=False, break_on_hyphens=False) or [""]:
        out.print(Text(" " * by + line, style=style), soft_wrap=True)
