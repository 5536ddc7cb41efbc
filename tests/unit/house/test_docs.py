"""Docs are tests: a command, an option or a check without an entry fails one."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import typer

from drawerwright.cli.commands import app
from drawerwright.equations.trade import CHECK_ORDER, SHEET

DOCS = Path(__file__).resolve().parents[3] / "docs"


def sections(document: str) -> dict[str, str]:
    """Text of each second-level section of a document, by its heading without the code marks."""
    text = (DOCS / document).read_text(encoding="utf-8")
    parts = re.split(r"^## (.+)$", text, flags=re.MULTILINE)
    return {head.strip("` "): body for head, body in zip(parts[1::2], parts[2::2], strict=True)}


def leaves(command: Any, name: str) -> Iterator[tuple[str, Any]]:
    """Every command that does something, with its full name."""
    below = getattr(command, "commands", None)
    if not below:
        yield name, command
        return
    for key, one in below.items():
        yield from leaves(one, f"{name} {key}")


COMMANDS = dict(leaves(typer.main.get_command(app), "drawerwright"))
COMMON = "Options of every command"


def options_of(command: Any) -> set[str]:
    return {name for one in command.params for name in one.opts if name.startswith("--")}


def section_of(command: str) -> str:
    heads = sections("commands.md")
    found = [head for head in heads if re.sub(r" [\[A-Z].*$", "", head) == command]
    assert len(found) == 1, f"{command} has {len(found)} entries in docs/commands.md"
    return heads[found[0]]


def test_there_are_commands_to_look_up() -> None:
    assert {"drawerwright fit", "drawerwright job new", "drawerwright slides check"} <= COMMANDS.keys()


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_and_each_of_its_options_has_an_entry(name: str) -> None:
    told = section_of(name) + sections("commands.md")[COMMON]
    assert [option for option in sorted(options_of(COMMANDS[name])) if f"`{option}" not in told] == []


@pytest.mark.parametrize("name", COMMANDS)
def test_the_entry_names_no_option_that_the_command_lacks(name: str) -> None:
    listed = set(re.findall(r"^\| `(--[a-z-]+)", section_of(name), re.MULTILINE))
    assert listed - options_of(COMMANDS[name]) == set()


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_takes_the_options_of_every_command(name: str) -> None:
    common = set(re.findall(r"^\| `(--[a-z-]+)", sections("commands.md")[COMMON], re.MULTILINE))
    assert common - {"--help"} <= options_of(COMMANDS[name])


def test_no_entry_is_about_a_command_that_is_not_there() -> None:
    told = {
        re.sub(r" [\[A-Z].*$", "", head)
        for head in sections("commands.md")
        if head.startswith("drawerwright")
    }
    assert told == COMMANDS.keys()


def test_every_check_has_an_entry_in_the_order_in_which_checks_are_told() -> None:
    assert tuple(sections("checks.md")) == CHECK_ORDER


def test_every_check_of_the_sheet_stands_in_the_order_of_checks() -> None:
    on_the_sheet = {item.check.id for items in SHEET.variants.values() for item in items if item.check}
    assert on_the_sheet == set(CHECK_ORDER)


@pytest.mark.parametrize("check_id", CHECK_ORDER)
def test_an_entry_of_a_check_says_its_margin_its_state_and_its_source(check_id: str) -> None:
    told = sections("checks.md")[check_id]
    assert [word for word in ("margin:", "says:", "state:", "source:") if word not in told] == []
