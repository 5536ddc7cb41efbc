"""The words of each key of a slide-family file, in step with the page that explains them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from drawerwright.catalogue.family_words import KeyWords, family_words, sections_of_family

TEXT = (Path(__file__).resolve().parents[3] / "docs" / "slides.md").read_text(encoding="utf-8")


def explained() -> dict[str, tuple[str, str, str, str]]:
    """Section, what it is, how it is measured and what a wrong one does, by key."""
    found = {}
    section = ""
    parts = re.split(r"^(##+ .+)$", TEXT, flags=re.MULTILINE)
    for head, body in zip(parts[1::2], parts[2::2], strict=True):
        if head.startswith("## "):
            section = head.removeprefix("## ")
            continue
        told = re.match(r"- Is: (.*?) - Measure: (.*?) - Wrong: (.*)$", " ".join(body.split()))
        assert told is not None, head
        for key in re.findall(r"`([^`]+)`", head):
            found[key] = (section, *told.groups())
    return found


EXPLAINED = explained()


def test_the_page_and_the_program_explain_the_same_keys_in_the_same_order() -> None:
    assert list(family_words()) == list(EXPLAINED)


@pytest.mark.parametrize("words", family_words().values(), ids=lambda words: words.key)
def test_a_key_is_explained_in_the_same_words_on_the_page(words: KeyWords) -> None:
    assert (words.section, words.what, words.measure, words.wrong) == EXPLAINED[words.key]


def test_no_two_keys_bear_the_same_name_within_their_subject() -> None:
    for keys in sections_of_family().values():
        assert len({words.label for words in keys}) == len(keys)
