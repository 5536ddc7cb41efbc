"""Words of a command line: `--json` anywhere, help and version as documents, faults in our words."""

from __future__ import annotations

import json

import pytest

import drawerwright


def only_fault(ran) -> dict[str, str]:
    assert ran.code == 2
    (error,) = json.loads(ran.out)["errors"]
    return error


@pytest.mark.parametrize(
    "arguments", [("demo", "--out"), ("fit", "--slides"), ("fit", "--units")], ids=" ".join
)
def test_an_option_without_its_value_is_said_to_lack_it(command, arguments) -> None:
    told = only_fault(command(*arguments, "--json"))
    assert told["value"] == arguments[-1]
    assert "lacks its value" in told["says"]
    assert told["try"].startswith(f"{arguments[-1]} ")
    assert "is no option" not in command(*arguments).err


def test_an_option_that_takes_no_value_is_said_to_take_none(command) -> None:
    told = only_fault(command("fit", "a.toml", "--strict=3", "--json"))
    assert (told["value"], told["says"]) == ("--strict", "takes no value")


def test_an_unknown_option_names_the_nearest(command) -> None:
    told = only_fault(command("fit", "a.toml", "--slidez", "x", "--json"))
    assert (told["value"], told["says"]) == ("--slidez", "is no option of this command")
    assert "--slides" in told["try"]


@pytest.mark.parametrize("unit", ["furlong", "it's", 'a "b"', ""])
def test_a_word_that_an_option_does_not_take_is_told_plainly(command, unit: str) -> None:
    told = only_fault(command("fit", "a.toml", "--units", unit, "--json"))
    assert told["value"] == f'--units "{unit}"'
    assert told["says"] == "is not one of mm, in, both"
    assert told["try"] == "--units mm"


@pytest.mark.parametrize(
    ("arguments", "value", "says"),
    [
        (("pack", "a.toml"), "--out DIR", "is missing"),
        (("fit",), "JOB", "is missing"),
        (("fit", "a.toml", "b.toml"), "b.toml", "is more than this command takes"),
        (("slides", "lits"), '"lits"', "is no command: list, show, check"),
    ],
    ids=lambda one: one if isinstance(one, str) else " ".join(one),
)
def test_what_is_missing_or_too_much_is_told_plainly(command, arguments, value: str, says: str) -> None:
    told = only_fault(command(*arguments, "--json"))
    assert (told["value"], told["says"]) == (value, says)


def test_json_may_stand_anywhere_on_the_command_line(command, template_job) -> None:
    after = command("job", "check", template_job, "--json")
    assert after.code == 0
    for words in (
        ("--json", "job", "check", template_job),
        ("job", "--json", "check", template_job),
        ("job", "check", "--json", template_job),
    ):
        assert command(*words) == after


def test_what_stands_after_two_dashes_is_no_option(command) -> None:
    ran = command("fit", "--", "--json")
    assert (ran.code, ran.out) == (2, "")
    assert "--json" in ran.err


@pytest.mark.parametrize("arguments", [("--version", "--json"), ("--json", "--version")], ids=" ".join)
def test_the_version_is_told_as_a_document(command, arguments) -> None:
    ran = command(*arguments)
    assert (ran.code, ran.err) == (0, "")
    assert json.loads(ran.out) == {"schema": "drawerwright/version/1", "version": drawerwright.__version__}


def test_help_is_told_as_a_document(command) -> None:
    ran = command("pack", "--help", "--json")
    assert (ran.code, ran.err) == (0, "")
    told = json.loads(ran.out)
    assert (told["schema"], told["command"]) == ("drawerwright/help/1", "drawerwright pack")
    assert [one["argument"] for one in told["arguments"]] == ["JOB"]
    options = {one["option"]: one for one in told["options"]}
    assert options["--out"]["required"] is True
    assert options["--paper"]["takes"] == ["a4", "letter"]
    assert options["--paper"]["default"] == "a4"
    assert "takes" not in options["--strict"]


@pytest.mark.parametrize("arguments", [("--json",), ("--json", "--help")], ids=" ".join)
def test_the_document_of_all_commands_names_each(command, arguments) -> None:
    told = json.loads(command(*arguments).out)
    assert {"fit", "pack", "job", "slides", "demo"} <= {one["command"] for one in told["commands"]}
    below = json.loads(command("job", *arguments).out)
    assert {one["command"] for one in below["commands"]} >= {"new", "check"}
