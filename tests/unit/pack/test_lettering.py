"""Text for the sheets: what the lettering lacks is replaced, long words may break."""

from __future__ import annotations

from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.drawing.fonts import font_file
from drawerwright.pack import lettering
from drawerwright.pack.lettering import STAND_IN, for_sheets, lettered


def in_font() -> set[str]:
    both = [set(TTFont(font_file(weight), lazy=True).getBestCmap()) for weight in ("regular", "semibold")]
    return {chr(code) for code in both[0] & both[1]}


def test_characters_taken_for_sure_are_in_the_lettering() -> None:
    assert lettering._SURE - {"\n"} <= in_font()


def test_latin_text_stays_and_other_scripts_get_the_stand_in() -> None:
    assert lettered("Küche, łódź ½ × 3") == "Küche, łódź ½ × 3"
    assert lettered("抽屉 A") == f"{STAND_IN * 2} A"


def test_an_accent_typed_apart_is_put_together() -> None:
    assert lettered("Ku\u0308che") == "Küche"


def test_a_long_word_may_break_and_nothing_is_lost() -> None:
    word = "B" * 40
    assert "\u200b" in for_sheets(word)
    assert for_sheets(word).replace("\u200b", "") == word


@given(st.text(max_size=60))
def test_any_text_can_be_set(text: str) -> None:
    assert set(for_sheets(text)) <= in_font() | {"\u200b"}
