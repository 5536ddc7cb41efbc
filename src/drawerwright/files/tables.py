"""Tables of any columns (parts, stock, gaps, a test log) from CSV, XLSX, TOML, or a list of row objects.

In CSV and XLSX the first line names the columns, in any order; blank rows and rows that begin with `#` are
passed over, and a line `units,in` may stand above the heading. In TOML every row is a table under the entry's
name.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final, Literal

from drawerwright.errors import Fault, InputError, ReadingError
from drawerwright.files.cells import CellKind, value_of
from drawerwright.files.column_names import ColumnNames
from drawerwright.files.columns import Column
from drawerwright.files.csv_text import read_csv
from drawerwright.files.grid import Grid, Progress, is_blank
from drawerwright.files.heading import Heading, is_heading, no_rows, read_heading
from drawerwright.files.merged import MergedCells, remarks_on_merged
from drawerwright.files.remarks import FileRemark
from drawerwright.files.table_values import ValueKind, read_value
from drawerwright.files.text import is_folder
from drawerwright.files.toml_text import read_toml
from drawerwright.files.workbook import Workbook
from drawerwright.model.spelling import nearest
from drawerwright.units import BareUnit, show_value

_STEP: Final = 500
_ENDINGS: Final = (".csv", ".xlsx", ".toml")
_CELLS: Final[Mapping[ValueKind, CellKind]] = {
    "text": "text",
    "reading": "text",
    "name": "word",
    "choice": "word",
    "count": "count",
    "truth": "truth",
}
"""How a cell of each kind is read; all others hold numbers."""

Place = Callable[[str | None], tuple[int, str]]
"""Where a column of a row stands, or the row itself: a number to sort by, and the place in words."""


@dataclass(frozen=True, slots=True)
class TableColumn:
    """One column: its name, what it holds, the words it takes if it is a choice, and whether it may be empty.

    Lengths and masses are told in mm and kg; a `length` has either sign, a `clearance` is 0 or more, a `size`
    above 0.
    """

    name: str
    kind: ValueKind = "text"
    choices: tuple[str, ...] = ()
    required: bool = False


@dataclass(frozen=True)
class TableRow:
    """One row: its values by column, None where a cell is empty, and where they stand."""

    values: Mapping[str, Any]
    place: Place

    def __getitem__(self, name: str) -> Any:
        return self.values[name]

    def fault(self, name: str | None, value: object, says: str, try_: str) -> Fault:
        """A fault of this row, or of one of its columns, for those who look at what rows mean."""
        where = f"{self.place(name)[1]} {name or ''}".rstrip()
        return Fault(where, "" if value is None else show_value(value), says, try_)


@dataclass(frozen=True)
class Table:
    """The rows of a file, what its reader remarked on it, and what a bare length in it means."""

    rows: tuple[TableRow, ...]
    remarks: tuple[FileRemark, ...] = ()
    units: BareUnit = "mm"


@dataclass(frozen=True)
class _Raw:
    """A row as it was written, and the faults of its cells by column."""

    values: Mapping[str, Any]
    place: Place
    faults: tuple[tuple[str, ReadingError], ...] = ()


def read_table(
    path: Path,
    columns: Sequence[TableColumn],
    *,
    entry: str,
    units: BareUnit = "mm",
    progress: Progress | None = None,
) -> Table:
    """Read a table from a .csv, .xlsx or .toml file; `entry` is the name of a row ("part"), as in [[part]].

    `units`: what a bare length or mass means unless the file says. Raises InputError with all its faults.
    """
    _check_there(path, entry)
    ending = path.suffix.lower()
    if ending == ".toml":
        return _from_toml(path, columns, entry, units)
    known = ColumnNames({column.name: _column(column) for column in columns})
    if ending == ".csv":
        grid, remarks = read_csv(path, lambda cell: is_heading(cell, known))
    elif ending == ".xlsx":
        grid, remarks = _from_workbook(path, entry)
    else:
        says = f'has the ending "{path.suffix}": a table of {entry}s ends in .csv, .xlsx or .toml'
        raise InputError([Fault(path.name or str(path), "", says, f"{path.stem or entry}.csv")])
    return _from_grid(grid, columns, known, units, remarks, progress)


def _check_there(path: Path, entry: str) -> None:
    """Raise InputError where there is no such file or nothing in it, with what would do for a table."""
    try:
        found = path.stat()
    except (FileNotFoundError, NotADirectoryError):
        found = None
    except (OSError, ValueError):
        return  # whoever opens it says why it cannot be opened
    says, near = "is empty", ""
    if found is None:
        says, near = "does not exist", nearest(path.name, _tables_in(path.parent, (path.suffix.lower(),)))
    elif is_folder(path):
        inside = _tables_in(path, _ENDINGS)
        says, near = "is a folder: a file is wanted", f"{path.name}/{inside[0]}" if len(inside) == 1 else ""
    elif found.st_size:
        return
    try_ = near or f"a table of {entry}s that ends in .csv, .xlsx or .toml"
    raise InputError([Fault(path.name or str(path), "", says, try_)])


def _tables_in(folder: Path, endings: Sequence[str]) -> list[str]:
    try:
        return [one.name for one in folder.iterdir() if one.suffix.lower() in endings and one.is_file()]
    except OSError:
        return []


def table_of_mappings(
    rows: object, columns: Sequence[TableColumn], *, entry: str, units: BareUnit = "mm", where: str = ""
) -> Table:
    """A table from a list of row objects, as a request holds it. Raises InputError with all its faults."""
    where = where or f"{entry}s"
    if not isinstance(rows, (list, tuple)):
        says = f"is not a list of {entry}s, each with its columns"
        raise InputError([Fault(where, show_value(rows), says, f'[{{"{columns[0].name}": …}}]')])
    return _of_entries(rows, columns, units, lambda at: _numbered(at, where))


def _numbered(at: int, where: str) -> Place:
    return lambda name: (at, f"{where} {at + 1}")


def _column(column: TableColumn) -> Column:
    return Column(column.name, _CELLS.get(column.kind, "number"), column.choices, column.required)


def _from_workbook(path: Path, entry: str) -> tuple[Grid, list[FileRemark]]:
    """The sheet that bears the entry's name, or the first that is not hidden."""
    book = Workbook(path)
    named = [sheet for sheet in book.sheets if sheet.strip().casefold() in (entry, f"{entry}s")]
    shown = [sheet for sheet in book.sheets if sheet not in book.hidden]
    if not named and not shown:
        raise InputError([Fault(book.name, "", f"has no sheet of {entry}s", f'a sheet named "{entry}s"')])
    main = (named or shown)[0]
    grid, remarks = book.read(main)
    for sheet in book.sheets:
        if sheet != main:
            hidden = "is hidden and " if sheet in book.hidden else ""
            remarks.append(FileRemark(f"{book.name}:{sheet}", f"{hidden}was not read"))
    return grid, remarks


def _from_grid(
    grid: Grid,
    columns: Sequence[TableColumn],
    known: ColumnNames,
    units: BareUnit,
    remarks: Sequence[FileRemark],
    progress: Progress | None,
) -> Table:
    filled = list(grid.filled())
    if filled and _first_cell(grid, filled[0]) == "units":
        units = _units_of(grid, filled.pop(0))
    if not filled:
        raise no_rows(grid, known.known)
    heading = read_heading(grid, filled[0], known)
    faults = list(heading.faults)
    there = {column.key for column in heading.columns.values()}
    missing = [one for one in columns if one.required and one.name not in there]
    for column in missing:
        order, place = grid.place(heading.row)
        says = f"has no column {column.name}, which every row needs"
        faults.append((order, Fault(f"{place} heading", "", says, f"a column {column.name}")))
    at_column = {column.key: at for at, column in heading.columns.items()}
    merged = MergedCells(grid)
    raw: list[_Raw] = []
    for done, row in enumerate(filled[1:]):
        if progress is not None and done % _STEP == 0:
            progress(done, len(filled) - 1)
        raw.append(_raw_of_cells(grid, row, heading, at_column, merged))
    remarks = [*remarks_on_merged(grid, (heading.row,)), *remarks]
    table = _read(raw, [one for one in columns if one not in missing], units, faults, remarks)
    if progress is not None:
        progress(len(raw), len(raw))
    return table


def _first_cell(grid: Grid, row: int) -> str:
    cell = next(cell for cell in grid.rows[row] if not is_blank(cell))
    return cell.strip().casefold() if isinstance(cell, str) else ""


def _units_of(grid: Grid, row: int) -> BareUnit:
    """What a line `units,in` says."""
    told = [cell.strip() if isinstance(cell, str) else cell for cell in grid.rows[row] if not is_blank(cell)]
    if told[1:] == ["mm"]:
        return "mm"
    if told[1:] == ["in"]:
        return "in"
    shown = show_value(told[1] if len(told) > 1 else "")
    raise InputError([Fault(f"{grid.place(row)[1]} units", shown, 'is not one of "mm", "in"', "units,mm")])


def _raw_of_cells(
    grid: Grid, row: int, heading: Heading, at_column: Mapping[str, int], merged: MergedCells
) -> _Raw:
    values: dict[str, Any] = {}
    faults: list[tuple[str, ReadingError]] = []
    cells = grid.rows[row]
    for at, column in heading.columns.items():
        if at >= len(cells) or is_blank(cells[at]):
            hidden = merged.hidden_value(row, at) if column.kind != "text" else None
            faults += [] if hidden is None else [(column.key, hidden)]
            continue
        try:
            cell = heading.cell(at, cells[at]) if column.kind == "number" else cells[at]
            values[column.key] = value_of(cell, column.kind)
        except ReadingError as error:
            faults.append((column.key, error))
    return _Raw(values, lambda name: grid.place(row, at_column.get(name or "")), tuple(faults))


def _from_toml(path: Path, columns: Sequence[TableColumn], entry: str, units: BareUnit) -> Table:
    file = read_toml(path)
    faults: list[Fault] = []
    for key, value in file.values.items():
        place = f"{file.place((key,))[1]} {key}"
        if key not in ("units", entry):
            close = nearest(key, ("units", entry))
            says = f'is not a known key: the nearest is "{close}"'
            faults.append(Fault(place, show_value(value), says, f"[[{entry}]]"))
        elif key == "units" and value not in ("mm", "in"):
            faults.append(Fault(place, show_value(value), 'is not one of "mm", "in"', 'units = "mm"'))
    rows = file.values.get(entry, [])
    if not isinstance(rows, list):
        says = f"is not a list of {entry}s: write [[{entry}]]"
        faults.append(Fault(file.place((entry,))[1], show_value(rows), says, f"[[{entry}]]"))
    if faults:
        raise InputError(faults)

    def placed(at: int) -> Place:
        def place(name: str | None) -> tuple[int, str]:
            order, words = file.place((entry, at) if name is None else (entry, at, name))
            return order, f"{words} {entry} {at + 1}"

        return place

    told: Literal["mm", "in"] = file.values.get("units", units)
    return _of_entries(rows, columns, told, placed)


def _of_entries(
    rows: Iterable[Any], columns: Sequence[TableColumn], units: BareUnit, placed: Callable[[int], Place]
) -> Table:
    """A table from row objects: unknown keys are faults."""
    names = [column.name for column in columns]
    raw: list[_Raw] = []
    faults: list[tuple[int, Fault]] = []
    for at, row in enumerate(rows):
        place = placed(at)
        if not isinstance(row, Mapping):
            order, words = place(None)
            says = "is not a row: its columns are " + ", ".join(names)
            faults.append((order, Fault(words, show_value(row), says, f"{names[0]} = …")))
            continue
        for key in row:
            if key not in names:
                order, words = place(str(key))
                close = nearest(str(key), names)
                says = f'is not a known column: the nearest is "{close}"'
                faults.append((order, Fault(f"{words} {key}", show_value(row[key]), says, close)))
        told = {key: value for key, value in row.items() if value is not None and value != ""}
        raw.append(_Raw(told, place))
    return _read(raw, columns, units, faults, ())


def _read(
    raw: Sequence[_Raw],
    columns: Sequence[TableColumn],
    units: BareUnit,
    faults: Sequence[tuple[int, Fault]],
    remarks: Sequence[FileRemark],
) -> Table:
    """Every value of every row read. Raises InputError with all faults, in the order of the file."""
    found = list(faults)
    rows: list[TableRow] = []
    for one in raw:
        broken = dict(one.faults)
        values: dict[str, Any] = {}
        for column in columns:
            try:
                if column.name in broken:
                    raise broken[column.name]
                values[column.name] = read_value(
                    one.values.get(column.name), column.kind, column.choices, column.required, units
                )
            except ReadingError as error:
                order, place = one.place(column.name)
                found.append((order, error.fault(f"{place} {column.name}")))
        rows.append(TableRow(values, one.place))
    if found:
        raise InputError(fault for _, fault in sorted(found, key=lambda pair: pair[0]))
    return Table(tuple(rows), tuple(remarks), units)
