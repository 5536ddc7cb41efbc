"""`drawerwright`: the commands put together, and the one place where a fault becomes an exit code."""

from __future__ import annotations

from typing import Annotated

import typer

from drawerwright import __version__

app = typer.Typer(
    help="Measured cabinet openings in, fitted drawers on concealed slides out.",
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
)


def _show_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"drawerwright {__version__}")
        raise typer.Exit


@app.callback()
def _drawerwright(
    version: Annotated[
        bool,
        typer.Option("--version", callback=_show_version, is_eager=True, help="Show the version and end."),
    ] = False,
) -> None:
    """Measured cabinet openings in, fitted drawers on concealed slides out."""


def main() -> None:
    """Run the command line."""
    app()


if __name__ == "__main__":
    main()
