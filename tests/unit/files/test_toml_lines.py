from __future__ import annotations

import tomllib
from collections.abc import Iterator
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from drawerwright.files.toml_lines import line_of, lines_of_keys

TEXT = '''# a comment with [brackets] and = signs
title = "a \\" = # title"     # a comment
many = """
line = 1
[not.a.table]
"""
raw = \'\'\'
x = 3 \'\'\'
[defaults]
"a key" = 1
dotted . "b.c" . d = { e = 1, f = { g = 2 } }
list = [
  1,  # one
  [2, 3],

  { x = 4 },
]

[[drawer]]
id = "a"
opening.width = [562,
  563]
[drawer.front]
style = "none"
[[drawer]]
id = 'b # not a comment'
[[drawer.inner]]
k = 1
[[drawer.inner]]
k = 2
'''


def test_every_kind_of_key_is_found_on_its_line() -> None:
    lines = lines_of_keys(TEXT)
    assert {path: line for path, line in lines.items() if path[0] in ("title", "many", "raw")} == {
        ("title",): 2,
        ("many",): 3,
        ("raw",): 7,
    }
    assert lines["defaults",] == 9
    assert lines["defaults", "a key"] == 10
    assert lines["defaults", "dotted", "b.c", "d", "f", "g"] == 11
    assert lines["defaults", "list"] == 12
    assert lines["defaults", "list", 0] == 13
    assert lines["defaults", "list", 1, 1] == 14
    assert lines["defaults", "list", 2, "x"] == 16
    assert lines["drawer", 0] == 19
    assert lines["drawer", 0, "id"] == 20
    assert lines["drawer", 0, "opening", "width", 1] == 22
    assert lines["drawer", 0, "front", "style"] == 24
    assert lines["drawer", 1, "id"] == 26
    assert lines["drawer", 1, "inner", 0, "k"] == 28
    assert lines["drawer", 1, "inner", 1, "k"] == 30


def test_an_unknown_place_takes_the_line_of_what_holds_it() -> None:
    lines = lines_of_keys(TEXT)
    assert line_of(lines, ("drawer", 1, "side")) == 25
    assert line_of(lines, ("drawer", 0, "opening", "depth")) == 21
    assert line_of(lines, ("nothing", "here")) is None
    assert line_of(lines, ()) is None


def places(value: Any, above: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    if isinstance(value, dict):
        for key, one in value.items():
            yield (*above, key)
            yield from places(one, (*above, key))
    elif isinstance(value, list):
        for at, one in enumerate(value):
            yield (*above, at)
            yield from places(one, (*above, at))


def test_exactly_the_places_of_the_values_are_found() -> None:
    assert set(lines_of_keys(TEXT)) == set(places(tomllib.loads(TEXT)))


def text_of(value: Any, multi: bool) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{quoted(key)} = {text_of(one, multi)}" for key, one in value.items()) + "}"
    if isinstance(value, list):
        separator = ",\n# x ] }\n" if multi else ", "
        return "[" + separator.join(text_of(one, multi) for one in value) + "]"
    return quoted(value) if isinstance(value, str) else str(value).lower()


def quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


STRINGS = st.text(alphabet="ab \\\"'#[]{}=,.é", max_size=6)
VALUES = st.recursive(
    st.integers(-9, 9) | st.booleans() | STRINGS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(STRINGS, inner, max_size=3),
    max_leaves=8,
)


@given(st.dictionaries(STRINGS, VALUES, max_size=4), st.booleans())
def test_any_written_values_have_all_their_places_found(values: dict[str, Any], multi: bool) -> None:
    inline = dict(values)
    text = "\n".join(f"{quoted(key)} = {text_of(value, False)}" for key, value in inline.items())
    if multi:
        lists = {key: value for key, value in inline.items() if isinstance(value, list)}
        text = "\n".join(
            f"{quoted(key)} = {text_of(value, not holds_table(value))}" for key, value in lists.items()
        )
        inline = lists
    assert tomllib.loads(text) == inline
    assert set(lines_of_keys(text)) == set(places(inline))


def holds_table(value: Any) -> bool:
    return isinstance(value, dict) or (isinstance(value, list) and any(holds_table(one) for one in value))
