"""What a command takes, as a JSON document: the same that `--help` shows to people."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, get_args

import typer
from typer.main import get_command

SCHEMA = "drawerwright/help/1"


def command_at(app: typer.Typer, words: Sequence[str]) -> Any | None:
    """The command, or group of commands, that the words name; None where there is none."""
    here: Any = get_command(app)
    for word in words:
        here = getattr(here, "commands", {}).get(word)
        if here is None:
            return None
    return here


def is_group(app: typer.Typer, words: Sequence[str]) -> bool:
    """Whether the words name commands that have others under them."""
    return hasattr(command_at(app, words), "commands")


def help_document(app: typer.Typer, words: Sequence[str]) -> dict[str, Any]:
    """What the command that the words name does and takes, and which commands are under it."""
    command = command_at(app, words)
    assert command is not None
    options = [one for one in command.params if is_option(one)]
    return {
        "schema": SCHEMA,
        "command": " ".join(["drawerwright", *words]),
        "does": (command.help or "").strip(),
        "arguments": [_argument(one) for one in command.params if not is_option(one)],
        "options": [_option(one) for one in options],
        "commands": [
            {"command": name, "does": (one.help or "").strip()}
            for name, one in getattr(command, "commands", {}).items()
        ],
    }


def is_option(parameter: Any) -> bool:
    """Whether a parameter is an option, not an argument."""
    return str(parameter.opts[0]).startswith("-")


def choices_of(parameter: Any) -> tuple[str, ...]:
    """The words that a parameter takes; none where it takes any."""
    annotation = parameter.type_descriptor.annotation
    return tuple(one for one in get_args(annotation) if isinstance(one, str))


def _argument(parameter: Any) -> dict[str, Any]:
    return {"argument": parameter.metavar, "required": parameter.required, "says": parameter.help or ""}


def _option(parameter: Any) -> dict[str, Any]:
    told: dict[str, Any] = {"option": parameter.opts[0], "says": parameter.help or ""}
    if not parameter.is_flag:
        told["takes"] = list(choices_of(parameter)) or parameter.metavar
        told["several"] = bool(parameter.multiple)
        told["required"] = parameter.required
        told["default"] = None if parameter.default is None else str(parameter.default)
    return told
