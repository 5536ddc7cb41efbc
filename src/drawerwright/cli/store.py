"""`drawerwright store backup|restore`: the whole store as one file, and back."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from drawerwright.cli.options import AsJson, SlidePaths, UnitsWanted
from drawerwright.cli.serve import StoreAddress

if TYPE_CHECKING:
    from drawerwright.store import Backup

app = typer.Typer(help="The store of jobs: to one file, and back.", rich_markup_mode=None)


@app.callback(invoke_without_command=True)
def _store(context: typer.Context) -> None:
    if context.invoked_subcommand is None:
        typer.echo(context.get_help())


@app.command("backup")
def backup(
    out: Annotated[
        Path,
        typer.Argument(metavar="OUT", help="The file to write; nothing is overwritten.", show_default=False),
    ],
    store: StoreAddress = None,
    as_json: AsJson = False,
    slides: SlidePaths = None,
    units: UnitsWanted = None,
) -> None:
    """Write the whole store to one file, as it is now, while others go on."""
    from drawerwright.store import backup as write_backup
    from drawerwright.store import open_store

    with open_store(store, make=False) as opened:
        written = write_backup(opened, out)
    _tell("drawerwright/backup/1", f"{out} holds", written, as_json=as_json)


@app.command("restore")
def restore(
    file: Annotated[
        Path, typer.Argument(metavar="FILE", help="What `store backup` wrote.", show_default=False)
    ],
    store: StoreAddress = None,
    replace: Annotated[
        bool, typer.Option("--replace", help="Take away what the store holds; without, it must be empty.")
    ] = False,
    as_json: AsJson = False,
    slides: SlidePaths = None,
    units: UnitsWanted = None,
) -> None:
    """Fill a store from a backup: all of it, or nothing is changed."""
    from drawerwright.store import restore as put_back

    restored = put_back(file, store, replace=replace)
    _tell("drawerwright/restore/1", "The store now holds", restored, as_json=as_json)


def _tell(schema: str, what: str, told: Backup, *, as_json: bool) -> None:
    from drawerwright.cli.answers import console, write_json
    from drawerwright.cli.wording import count

    if as_json:
        counted = {"jobs": told.jobs, "families": told.families}
        write_json({"schema": schema, **counted, "rows": told.rows, "size": told.size})
        return
    families = count(told.families, "slide family", "slide families")
    logs = count(told.rows["test_log"], "test log", "test logs")
    revisions = count(told.rows["revision"], "revision", "revisions")
    console().print(f"{what} {count(told.jobs, 'job', 'jobs')}, {families} and {logs}, with {revisions}.")
