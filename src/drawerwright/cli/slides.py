"""`drawerwright slides list|show|check`: the slide families that a job may use."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from drawerwright.cli.options import AsJson, SlidePaths, UnitsWanted

if TYPE_CHECKING:
    from rich.table import Table

    from drawerwright.model.family import SlideFamily
    from drawerwright.units import ShownUnits

app = typer.Typer(help="Slide families: those shipped, or your own.", rich_markup_mode=None)


@app.callback(invoke_without_command=True)
def _slides(context: typer.Context) -> None:
    if context.invoked_subcommand is None:
        typer.echo(context.get_help())


@app.command("list")
def list_families(as_json: AsJson = False, slides: SlidePaths = None, units: UnitsWanted = None) -> None:
    """List the slide families with what they carry and their lengths."""
    from drawerwright.cli.answers import console, write_json
    from drawerwright.cli.reading import read_families

    families = read_families(slides)
    if as_json:
        write_json(
            {"schema": "drawerwright/slides/1", "families": [_document(family) for family in families]}
        )
        return
    page = console()
    page.print(_families_table(families, units or "mm"))
    if any(family.invented for family in families):
        page.print(
            "Invented families are examples: put your slides' own numbers in a file, and give it by --slides."
        )


@app.command("show")
def show(
    family_id: Annotated[str, typer.Argument(metavar="FAMILY", help="Id of the family.", show_default=False)],
    as_json: AsJson = False,
    slides: SlidePaths = None,
    units: UnitsWanted = None,
) -> None:
    """Show every number of one family."""
    from drawerwright.catalogue.families import family_named
    from drawerwright.cli.answers import console, write_json
    from drawerwright.cli.reading import read_families

    family = family_named(read_families(slides), family_id, where="slides show")
    if as_json:
        write_json({"schema": "drawerwright/slides-show/1", "family": _document(family)})
        return
    from drawerwright.cli.families import family_table, lengths_table

    page = console()
    page.print(family_table(family, units or "mm"))
    page.print(lengths_table(family, units or "mm"))


@app.command("check")
def check(
    paths: Annotated[
        list[Path] | None,
        typer.Argument(metavar="[FILE_OR_FOLDER]...", help="Family files to read; the shipped ones without."),
    ] = None,
    as_json: AsJson = False,
    slides: SlidePaths = None,
    units: UnitsWanted = None,
) -> None:
    """Read family files and say whether they can be used, what is odd in them, and why it matters."""
    from drawerwright.catalogue.family_check import check_family
    from drawerwright.cli.answers import console, write_json
    from drawerwright.cli.reading import read_families
    from drawerwright.cli.tables import print_indented
    from drawerwright.cli.wording import count

    families = read_families([*(paths or []), *(slides or [])])
    if as_json:
        told = [
            {"id": family.id, "remarks": [one.as_json() for one in check_family(family, units or "mm")]}
            for family in families
        ]
        write_json({"schema": "drawerwright/slides-check/1", "families": told})
        return
    page = console()
    page.print(_families_table(families, units or "mm"))
    for family in families:
        for remark in check_family(family, units or family.units):
            print_indented(page, f"{family.id}: {remark.where} {remark.says}", by=0)
            print_indented(page, f"Why: {remark.why}", by=4)
            print_indented(page, f"Do: {remark.try_}", by=4)
    page.print(f"{count(len(families), 'family', 'families')} can be used.")


def _document(family: SlideFamily) -> dict[str, object]:
    return family.model_dump(mode="json", by_alias=True)


def _families_table(families: Sequence[SlideFamily], units: ShownUnits) -> Table:
    from drawerwright.cli.tables import new_table
    from drawerwright.cli.wording import hardware
    from drawerwright.units import format_mass

    table = new_table(
        "", ("Family", "What it is", "Extension", "Carries", "Sides up to", "Deduction", "Lengths")
    )
    for family in families:
        table.add_row(
            family.id,
            _title(family),
            family.extension,
            format_mass(family.capacity, units),
            _thickest_side(family, units),
            hardware(family.inside_width_deduction, units),
            " ".join(f"{one.nominal:g}" for one in family.lengths),
        )
    return table


def _title(family: SlideFamily) -> str:
    """What the family is, and that nobody makes it where it is invented."""
    told = not family.invented or "invented" in family.title.casefold()
    return family.title if told else f"{family.title} (invented)".strip()


def _thickest_side(family: SlideFamily, units: ShownUnits) -> str:
    """Sides that leave the family's least gap: half the deduction is gap and side together.

    Beside a side-mounted slide any side will do: the box is sized by its outside.
    """
    from drawerwright.cli.wording import hardware

    if family.carriage == "side-mounted":
        return "any"
    return hardware(family.inside_width_deduction / 2 - family.min_gap, units)
