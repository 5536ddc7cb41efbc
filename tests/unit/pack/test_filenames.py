"""File names made from ids."""

from __future__ import annotations

import re

from hypothesis import given
from hypothesis import strategies as st

from drawerwright.pack.filenames import LONGEST, TakenStems, safe_stem

ANY_TEXT = st.text(max_size=120)


def test_a_plain_id_stays_as_it_is() -> None:
    assert safe_stem("B1-2") == "B1-2"


def test_a_path_cannot_leave_the_folder() -> None:
    assert safe_stem("../../etc/passwd") == "etc-passwd"
    assert safe_stem("C:\\boot.ini") == "C-boot.ini"


def test_accents_go_and_other_letters_become_a_dash() -> None:
    assert safe_stem("Küche 1") == "Kuche-1"
    assert safe_stem("抽屉") == "unnamed"


def test_device_names_get_a_tail_whatever_their_case_and_ending() -> None:
    assert safe_stem("con") == "con_"
    assert safe_stem("LPT1.back") == "LPT1.back_"
    assert safe_stem("console") == "console"


def test_names_alike_but_for_capitals_are_told_apart_in_their_order() -> None:
    stems = TakenStems()
    told = [stems.take(text) for text in ("b1", "B1", "b1", "b1-2")]
    assert told == ["b1", "B1-2", "b1-3", "b1-2-2"]


def test_a_long_id_keeps_the_panel_s_name_and_its_number() -> None:
    stems = TakenStems()
    long = "base-cabinet-under-the-north-window-" * 4
    first, second = stems.take(long, "box back"), stems.take(long, "box back")
    assert first.endswith("-box-back")
    assert second.endswith("-box-back-2")
    assert first.startswith("base-cabinet-under")
    assert max(len(first), len(second)) <= LONGEST
    assert safe_stem("A", "box back") == "A-box-back"


@given(st.lists(ANY_TEXT, max_size=20))
def test_stems_are_safe_and_distinct_on_every_file_system(texts: list[str]) -> None:
    taken = TakenStems()
    stems = [taken.take(text) for text in texts]
    assert len({stem.casefold() for stem in stems}) == len(texts)
    for stem in stems:
        assert re.fullmatch(r"[A-Za-z0-9_]([A-Za-z0-9_.-]*[A-Za-z0-9_])?", stem)
        assert len(stem) <= LONGEST + 1
        assert ".." not in stem
        assert not re.fullmatch(r"(?i)(con|prn|aux|nul|com\d|lpt\d)(\..*)?", stem)
