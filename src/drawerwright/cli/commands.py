"""The commands put together, and one command line carried out."""

from __future__ import annotations

import errno
from collections.abc import Sequence
from typing import Annotated

import typer

from drawerwright import __version__
from drawerwright.cli import align, carry, demo, fit, job, pack, season, serve, slides, store
from drawerwright.cli.answers import write_json
from drawerwright.cli.help_document import command_at, help_document, is_group
from drawerwright.errors import InputError

JSON = "--json"

app = typer.Typer(
    help="Measured cabinet openings in, fitted drawers on concealed slides out.",
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
)


def _show_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"drawerwright {__version__}")
        raise typer.Exit


@app.callback(invoke_without_command=True)
def _drawerwright(
    context: typer.Context,
    version: Annotated[
        bool,
        typer.Option("--version", callback=_show_version, is_eager=True, help="Show the version and end."),
    ] = False,
) -> None:
    """Measured cabinet openings in, fitted drawers on concealed slides out."""
    if context.invoked_subcommand is None:
        typer.echo(context.get_help())


app.command("fit")(fit.fit)
app.command("carry")(carry.carry)
app.command("pack")(pack.pack)
app.command("align")(align.align)
app.command("season")(season.season)
app.command("serve")(serve.serve)
app.add_typer(job.app, name="job")
app.add_typer(slides.app, name="slides")
app.add_typer(store.app, name="store")
app.command("demo")(demo.demo)


def json_is_wanted(arguments: Sequence[str]) -> bool:
    """Whether `--json` stands anywhere before a `--`."""
    return JSON in _before_dashes(arguments)


def call(arguments: Sequence[str]) -> int:
    """Carry out one command line; the exit code. `--json` may stand anywhere among its words.

    Raises InputError for what no command or option is, KeyboardInterrupt where the user stopped,
    BrokenPipeError where the reader of what is written went away.
    """
    head = _before_dashes(arguments)
    rest = arguments[len(head) :]
    as_json = JSON in head
    head = [word for word in head if word != JSON]
    if as_json and _answered_in_json(head):
        return 0
    named = _words_of_command(head)
    takes_json = as_json and not is_group(app, named)
    words = [*named, *([JSON] if takes_json else []), *head[len(named) :], *rest]
    try:
        code = app(args=words, prog_name="drawerwright", standalone_mode=False)
    except typer.Abort:
        raise KeyboardInterrupt from None
    except typer.TyperException as fault:
        from drawerwright.cli.usage import usage_fault

        raise InputError([usage_fault(fault, app, named)]) from None
    except SystemExit as ended:
        # The library ends the process with 1 where a reader went away: that is for our caller to say.
        cause = ended.__context__
        if isinstance(cause, OSError) and cause.errno == errno.EPIPE:
            raise BrokenPipeError from None
        raise
    return code if isinstance(code, int) else 0


def _before_dashes(arguments: Sequence[str]) -> list[str]:
    words = list(arguments)
    return words[: words.index("--")] if "--" in words else words


def _words_of_command(words: Sequence[str]) -> list[str]:
    """The words at the beginning that name a command: `job check` of `job check FILE`."""
    count = 0
    while count < len(words) and command_at(app, words[: count + 1]) is not None:
        count += 1
    return list(words[:count])


def _answered_in_json(words: Sequence[str]) -> bool:
    """Whether help or the version was wanted, and is told as a JSON document."""
    named = _words_of_command(words)
    if not named and "--version" in words:
        write_json({"schema": "drawerwright/version/1", "version": __version__})
    elif "--help" in words or (len(words) == len(named) and is_group(app, named)):
        write_json(help_document(app, named))
    else:
        return False
    return True
