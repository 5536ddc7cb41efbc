"""Answers that a process keeps for whoever asks the same again, as many drawers as fit."""

from __future__ import annotations

from collections import OrderedDict
from threading import Lock
from typing import Final, TypeAlias

from drawerwright.errors import InputError
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedJob

Key: TypeAlias = tuple[bytes, int, str]
"""What was asked: the hash of its values, the number of the families that it is fitted with, the units."""

Answer: TypeAlias = FittedJob | InputError

_FAMILIES: Final = 8
"""Sets of families whose numbers are known: the store's of now and of a few saves before. Own choice."""


class KeptAnswers:
    """Answers of up to `most` drawers in all; what was asked for longest ago goes first. For many threads."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._lock = Lock()
        self._answers: OrderedDict[Key, tuple[Answer, int]] = OrderedDict()
        self._drawers = 0
        self._families: dict[int, tuple[SlideFamily, ...]] = {}
        self._numbered = 0

    @property
    def drawers(self) -> int:
        """How many drawers are kept."""
        return self._drawers

    def number_of(self, families: tuple[SlideFamily, ...]) -> int:
        """A number that equal families have in common, and no others: it stands for them in a key."""
        with self._lock:
            for number, known in self._families.items():
                if known is families:
                    return number
            for number, known in self._families.items():
                if known == families:
                    return number
            self._numbered += 1
            self._families[self._numbered] = families
            while len(self._families) > _FAMILIES:
                del self._families[next(iter(self._families))]
            return self._numbered

    def get(self, key: Key) -> Answer | None:
        """The answer to what was asked, None where it is not kept."""
        with self._lock:
            found = self._answers.get(key)
            if found is None:
                return None
            self._answers.move_to_end(key)
            return found[0]

    def put(self, key: Key, answer: Answer, drawers: int) -> None:
        """Keep an answer of so many drawers; one of more than are kept at all is not kept."""
        if drawers > self._most:
            return
        with self._lock:
            before = self._answers.pop(key, None)
            self._drawers += drawers - (0 if before is None else before[1])
            self._answers[key] = answer, drawers
            while self._drawers > self._most:
                _, (_, fewer) = self._answers.popitem(last=False)
                self._drawers -= fewer
