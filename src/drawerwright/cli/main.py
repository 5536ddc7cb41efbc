"""`drawerwright`: the commands put together, and the one place where a fault becomes an exit code.

0 the work was done, 1 a fault of the program, 2 bad input, 3 a drawer does not fit and `--strict` was given,
130 stopped by the user. Whatever a command needs beyond its options it imports when it runs.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from typing import Annotated

import typer

from drawerwright import __version__
from drawerwright.cli import demo, fit, job, pack, slides
from drawerwright.cli.answers import refuse
from drawerwright.errors import DrawerwrightError, Fault, InputError

STOPPED = 130
DEBUG = "DRAWERWRIGHT_DEBUG"

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
app.command("pack")(pack.pack)
app.add_typer(job.app, name="job")
app.add_typer(slides.app, name="slides")
app.command("demo")(demo.demo)


def run(arguments: Sequence[str]) -> int:
    """Run one command line; the exit code. Nothing that goes wrong shows a traceback."""
    as_json = "--json" in arguments
    try:
        code = app(args=list(arguments), prog_name="drawerwright", standalone_mode=False)
        sys.stdout.flush()
    except BrokenPipeError:  # the reader has seen enough
        _let_go_of_output()
        return 0
    except (KeyboardInterrupt, typer.Abort):
        return STOPPED
    except typer.TyperException as fault:
        refuse([_usage_fault(fault)], as_json=as_json)
        return 2
    except InputError as fault:
        refuse(fault.faults, as_json=as_json)
        return 2
    except OSError as fault:
        refuse([_file_fault(fault)], as_json=as_json)
        return 2 if fault.filename else 1
    except Exception as fault:  # noqa: BLE001 - the last resort: a short message in place of a traceback
        return _internal(fault, as_json=as_json)
    return code if isinstance(code, int) else 0


def _usage_fault(fault: typer.TyperException) -> Fault:
    """An option or argument that is unknown, missing or unreadable."""
    context = getattr(fault, "ctx", None)
    command = context.command_path if context is not None else "drawerwright"
    told = getattr(fault, "format_message", lambda: str(fault))()
    option = getattr(fault, "option_name", None)
    if option:  # its own message says the option's name over again
        return Fault("command line", option, "is no option of this command", f"{command} --help")
    return Fault("command line", "", told.strip().rstrip("."), f"{command} --help")


def _file_fault(fault: OSError) -> Fault:
    """A file that the system does not let us read or write."""
    place = str(fault.filename) if fault.filename else "the system"
    says = f"cannot be read or written: {fault.strerror or fault}"
    return Fault(place, "", says, "another place, or free its permissions")


def _internal(fault: Exception, *, as_json: bool) -> int:
    if os.environ.get(DEBUG):
        import traceback

        sys.stderr.write("".join(traceback.format_exception(fault)))
    # A reading that no file is to blame for, or a broken sheet: the program's fault as well.
    kind = "" if isinstance(fault, DrawerwrightError) else f"{type(fault).__name__}: "
    says = f"{kind}{fault}".strip() or type(fault).__name__
    refuse([Fault("internal error", "", says, f"{DEBUG}=1 to see where, and tell us of it")], as_json=as_json)
    return 1


def _let_go_of_output() -> None:
    """Point standard output elsewhere, so that the interpreter's own last flush says nothing."""
    elsewhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(elsewhere, sys.stdout.fileno())
    os.close(elsewhere)


def _speak_utf8() -> None:
    """Where the console's encoding lacks our signs, show a question mark for them, never a failure."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            encoding = "utf-8" if not stream.isatty() else None
            stream.reconfigure(encoding=encoding, errors="replace")


def main() -> None:
    """The console script."""
    _speak_utf8()
    sys.exit(run(sys.argv[1:]))


if __name__ == "__main__":
    main()
