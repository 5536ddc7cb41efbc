"""What is wrong with a command line, in our words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

import typer

from drawerwright.cli.help_document import choices_of, command_at, is_option
from drawerwright.errors import Fault
from drawerwright.units import show_value

PLACE = "command line"


def usage_fault(fault: Any, app: typer.Typer, words: Sequence[str]) -> Fault:
    """An option or argument that is unknown, lacks its value, has one that it does not take, or is missing.

    `words` name the command that was given.
    """
    help_ = " ".join(["drawerwright", *words, "--help"])
    option, parameter = getattr(fault, "option_name", None), getattr(fault, "param", None)
    if option and hasattr(fault, "possibilities"):
        near = next(iter(sorted(fault.possibilities or ())), None)
        return Fault(PLACE, option, "is no option of this command", f"{near}, or {help_}" if near else help_)
    if option:
        return _misused(option, command_at(app, words), help_)
    if parameter is not None and hasattr(fault, "param_type"):
        return _missing(parameter, help_)
    told = str(getattr(fault, "format_message", lambda: str(fault))()).strip().rstrip(".")
    if parameter is not None and choices_of(parameter) and "is not one of" in told:
        return _not_a_choice(parameter, told)
    extra = re.fullmatch(r"Got unexpected extra arguments?(?:\(s\))? \((.*)\)", told)
    if extra:
        return Fault(PLACE, extra[1], "is more than this command takes", help_)
    unknown = re.fullmatch(r"No such command '(.*?)'\.?(.*)", told)
    if unknown:
        names = getattr(command_at(app, words), "commands", {})
        return Fault(PLACE, show_value(unknown[1]), f"is no command: {', '.join(names)}", help_)
    return Fault(PLACE, "", told.replace("Value error, ", ""), help_)


def _misused(option: str, command: Any, help_: str) -> Fault:
    """An option without the value that it takes, or with one that it does not take."""
    parameter = next((one for one in command.params if option in one.opts), None)
    if parameter is None or parameter.is_flag:
        return Fault(PLACE, option, "takes no value", f"{option}, or {help_}")
    wanted = _wanted(parameter)
    return Fault(PLACE, option, f"lacks its value: {wanted}", f"{option} {wanted.split(', ')[0]}")


def _missing(parameter: Any, help_: str) -> Fault:
    """An option or an argument that the command cannot do without."""
    if is_option(parameter):
        name = f"{parameter.opts[0]} {_wanted(parameter)}"
        return Fault(PLACE, name, "is missing", name)
    return Fault(PLACE, parameter.metavar or parameter.name, "is missing", help_)


def _not_a_choice(parameter: Any, told: str) -> Fault:
    """A word that is not one of those which an option takes."""
    name, choices = parameter.opts[0], choices_of(parameter)
    found = re.search(r"Value error, (['\"])(.*)\1 is not one of ", told)
    value = f"{name} {show_value(found[2])}" if found else name
    return Fault(PLACE, value, f"is not one of {', '.join(choices)}", f"{name} {choices[0]}")


def _wanted(parameter: Any) -> str:
    """The words or the thing that an option takes."""
    return ", ".join(choices_of(parameter)) or parameter.metavar or "VALUE"
