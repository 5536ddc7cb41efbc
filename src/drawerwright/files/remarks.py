"""What a reader found worth telling although the file can be used."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FileRemark:
    """Something that people may not expect of their file: where it stands and what was made of it."""

    where: str
    says: str

    def __str__(self) -> str:
        return f"{self.where}: {self.says}"
