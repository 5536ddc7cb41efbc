"""What a job is read from, whatever kind of file it is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Protocol

from drawerwright.files.remarks import FileRemark
from drawerwright.files.table_job import Refused


class JobSource(Protocol):
    """A job as it stands in a file: its keys, and where each of them stands."""

    @property
    def values(self) -> Mapping[str, Any]:
        """The job's keys."""

    @property
    def refused(self) -> Sequence[Refused]:
        """What of the file could not be made into keys."""

    @property
    def remarks(self) -> Sequence[FileRemark]:
        """What people may not expect of the file."""

    def place(self, loc: Sequence[str | int]) -> tuple[int, str]:
        """Where a key stands: a number to sort by, and the place in words."""
