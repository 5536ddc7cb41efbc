"""What checks are called before people: one name each, from one place."""

from __future__ import annotations

import re
from pathlib import Path

import drawerwright
from drawerwright.equations.trade import CHECK_ORDER
from drawerwright.model.check_names import CHECK_NAMES, check_name, check_name_within

SOURCES = Path(drawerwright.__file__).parent


def test_every_named_check_is_one_that_is_made() -> None:
    made = "\n".join(
        path.read_text() for room in ("fit", "carry", "equations") for path in (SOURCES / room).rglob("*.py")
    )
    assert [one for one in CHECK_NAMES if f'"{one}"' not in made] == []


def test_no_two_checks_share_a_name() -> None:
    names = [check_name(one) for one in {*CHECK_ORDER, *CHECK_NAMES}]
    assert len(names) == len(set(names))


def test_a_name_is_short_and_begins_a_line_with_a_capital_and_a_sentence_holds_it_small() -> None:
    assert check_name("side-thickness") == "Gap each side"
    assert check_name_within("side-thickness") == "gap each side"
    assert check_name("capacity") == "Capacity"
    assert check_name_within("stays-shut") == "stays shut"
    assert max(map(len, CHECK_NAMES.values())) <= 20  # the margin beside a drawing has that much; own choice


def test_no_other_place_makes_names_of_ids() -> None:
    made = re.compile(r"(check|one|miss|first|check_)\.?_?(id|because)\.replace")
    told = [path.name for path in SOURCES.rglob("*.py") if made.search(path.read_text())]
    assert told == ["check_names.py"]
