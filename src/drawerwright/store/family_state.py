"""Which slide families a store offers at a moment, in one line of text: equal lines, equal families."""

from __future__ import annotations

import json
from typing import Final, TypeAlias

from sqlalchemy import Connection, select

from drawerwright.store.connections import json_text
from drawerwright.store.tables import document

State: TypeAlias = dict[str, tuple[int, int]]
"""The store's own families by id: the key of the document, which is never given again, and its revision."""

NO_FAMILIES: Final = "[]"
"""The line of a store that has no family of its own."""


def state_now(connection: Connection) -> str:
    """The line of the families that answer now: those in the bin do not."""
    query = select(document.c.name, document.c.key, document.c.head).where(
        document.c.kind == "family", document.c.binned_at.is_(None), document.c.head > 0
    )
    return state_line({row.name: (row.key, row.head) for row in connection.execute(query)})


def state_line(state: State) -> str:
    """A state as text, the same for the same families."""
    return json_text([[name, *of] for name, of in sorted(state.items())])


def read_state(line: str) -> State:
    """A line that `state_line` wrote."""
    return {name: (key, number) for name, key, number in json.loads(line)}
