"""An XLSX workbook: its sheets as tables of cells, and what of it people may not expect."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Final

from python_calamine import CalamineError, CalamineSheet, CalamineWorkbook, SheetVisibleEnum

from drawerwright.files.grid import Cell, Grid, Merge, Unreadable, reference
from drawerwright.files.merged import listed
from drawerwright.files.remarks import FileRemark
from drawerwright.files.sheet_look import SheetLook, look_through
from drawerwright.files.text import read_bytes
from drawerwright.files.workbook_parts import Parts, damaged, sheet_parts

_UNCOMPUTED: Final = Unreadable(
    "a formula",
    "has no computed value in the file",
    "opening the workbook in the spreadsheet and saving it, or the number itself",
)


class Workbook:
    """A workbook that was looked at part by part; a sheet is read when it is asked for."""

    def __init__(self, path: Path) -> None:
        """Open a workbook. Raises InputError saying why it cannot be used."""
        self.name = path.name
        self._parts = Parts(read_bytes(path), path.name)
        self._sheets = sheet_parts(self._parts)
        self.hidden = frozenset(self._hidden())

    @property
    def sheets(self) -> tuple[str, ...]:
        """Names of the sheets that hold cells, in the workbook's order, hidden ones too."""
        return tuple(self._sheets)

    def _hidden(self) -> Iterator[str]:
        for sheet in self._opened(()).sheets_metadata:
            if sheet.visible != SheetVisibleEnum.Visible:
                yield sheet.name

    def _opened(self, parts: Sequence[str]) -> CalamineWorkbook:
        """The workbook with only those sheets in it. Raises InputError."""
        content = self._parts.repacked(parts)
        with _refusing(self.name):
            return CalamineWorkbook.from_filelike(content)

    def read(self, sheet: str) -> tuple[Grid, list[FileRemark]]:
        """The cells of a sheet, and what people may not expect of it but its merges. Raises InputError."""
        part = self._sheets[sheet]
        look = look_through(self._parts.read(part), self.name, sheet)
        with _refusing(self.name):
            opened = self._opened([part]).get_sheet_by_name(sheet)
            rows: list[list[Cell]] = [list(row) for row in opened.to_python(skip_empty_area=False)]
            merged = _merged(opened)
        for (row, column), shows in look.errors.items():
            _set(rows, row, column, Unreadable(shows, "is an error in the spreadsheet", "mending the cell"))
        for row, column in look.uncomputed:
            _set(rows, row, column, _UNCOMPUTED)
        rank = self.sheets.index(sheet)
        grid = Grid(self.name, sheet, rows, range(1, len(rows) + 1), rank, merged)
        return grid, list(_remarks(grid, look, hidden=sheet in self.hidden))


def _set(rows: list[list[Cell]], row: int, column: int, cell: Cell) -> None:
    """Put a cell where the reader of values saw none."""
    while len(rows) <= row:
        rows.append([])
    rows[row] += [""] * (column + 1 - len(rows[row]))
    rows[row][column] = cell


def _merged(sheet: CalamineSheet) -> tuple[Merge, ...]:
    ranges = sheet.merged_cell_ranges or []
    return tuple(Merge(top, left, low, right) for (top, left), (low, right) in ranges)


@contextmanager
def _refusing(name: str) -> Iterator[None]:
    """Whatever the reader of values stops on is a damaged file, its own panics too."""
    try:
        yield
    except CalamineError:
        raise damaged(name) from None
    except BaseException as error:
        if type(error).__name__ == "PanicException":  # a class that cannot be imported
            raise damaged(name) from None
        raise


def _remarks(grid: Grid, look: SheetLook, *, hidden: bool) -> Iterator[FileRemark]:
    if hidden:
        yield FileRemark(grid.name, "is a hidden sheet, and was read")
    filled = {position for position, row in enumerate(grid.rows) if any(cell != "" for cell in row)}
    rows = [str(row + 1) for row in look.hidden_rows if row in filled]
    if rows:
        yield FileRemark(grid.name, f"hidden rows {listed(rows)} were read")
    wide = max(map(len, grid.rows), default=0)
    columns = [reference(1, one)[:-1] for one in look.hidden_columns if one < wide]
    if columns:
        yield FileRemark(grid.name, f"hidden columns {listed(columns)} were read")
    computed = look.formulas - len(look.uncomputed)
    if computed:
        many = "1 formula" if computed == 1 else f"{computed} formulas"
        yield FileRemark(grid.name, f"{many}: the values last computed by the spreadsheet were read")
