"""A job from tables of cells: one row a drawer, its dotted keys as columns in any order.

Lines above the heading, or a sheet `job`, tell what the whole job shares, a key and a value each: `title`,
`units`, and `defaults.` before the key of a drawer. A cabinet is described in a sheet `cabinets`, in a row
that has `cabinet` and `cabinet.` columns alone, or beside its drawers in such columns, where rows must agree.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any, Final

from drawerwright.errors import Fault, Problem, ReadingError
from drawerwright.files.cabinet_rows import CabinetRows
from drawerwright.files.cells import shown, value_of
from drawerwright.files.column_names import ColumnNames
from drawerwright.files.columns import Column, put
from drawerwright.files.grid import Cell, Grid, Progress, is_blank
from drawerwright.files.heading import Heading, Placed, no_rows, read_heading
from drawerwright.files.job_columns import cabinet_columns, drawer_columns, job_groups, job_settings
from drawerwright.files.job_heading import find_heading, read_job_heading
from drawerwright.files.merged import MergedCells, remarks_on_merged
from drawerwright.files.remarks import FileRemark
from drawerwright.files.table_job import Refused, Spot, TableJob
from drawerwright.model.faults import Loc, named_place
from drawerwright.units import show_value

_STEP: Final = 250
_LIKE: Final = 0.7
"""How like a key a word must be to be taken for it mistyped, of 1. Own choice."""

_LONGEST_EXAMPLE: Final = 80
"""Most characters of a cell in an example of what would do, as many as are shown of a value. Own choice."""

_TABLES_NEEDED: Final = ("opening",)
"""Tables that every drawer has: what they lack is told key by key."""


def job_of_tables(
    drawers: Grid,
    *,
    settings: Grid | None = None,
    cabinets: Grid | None = None,
    remarks: Sequence[FileRemark] = (),
    progress: Progress | None = None,
) -> TableJob:
    """A job from a table of drawers, and where the file has them one of settings and one of cabinets.

    Raises InputError when there is no table of drawers in it.
    """
    return _Reader(TableJob(drawers.file, remarks=list(remarks)), progress).read(drawers, settings, cabinets)


@dataclass(frozen=True, slots=True)
class _Table:
    """The heading of a grid, and its merged cells."""

    grid: Grid
    heading: Heading
    merged: MergedCells

    def is_empty(self, row: int, at: int) -> bool:
        """Whether a cell is blank, and shows no value of a row above that it is merged with."""
        cells, merge = self.grid.rows[row], self.merged.at(row, at)
        return (at >= len(cells) or is_blank(cells[at])) and (merge is None or merge.top == row)

    def cell(self, row: int, at: int, column: Column) -> Cell:
        """A cell, its numbers in the unit of the heading where they carry none."""
        cells = self.grid.rows[row]
        cell = cells[at] if at < len(cells) else ""
        return self.heading.cell(at, cell) if column.kind in ("number", "list") and cell != "" else cell


class _Reader:
    def __init__(self, job: TableJob, progress: Progress | None) -> None:
        self.job = job
        self.progress = progress
        self.pending: list[tuple[Loc, Problem]] = []
        self.cabinets = CabinetRows()

    def read(self, drawers: Grid, settings: Grid | None, cabinets: Grid | None) -> TableJob:
        rows = list(drawers.filled())
        merged = MergedCells(drawers)
        at, taken = find_heading(drawers, rows, merged)
        for row in rows[:at]:
            self._setting(drawers, row)
        if settings is not None:
            for row in settings.filled():
                self._setting(settings, row)
        if at == len(rows):
            raise no_rows(drawers, drawer_columns())
        heading, told = read_job_heading(drawers, rows[at : at + taken], merged)
        self.job.remarks[:0] = [*told, *remarks_on_merged(drawers, rows[: at + taken])]
        self._keep(heading.faults)
        if cabinets is not None:
            self._cabinet_table(cabinets)
        self._drawers(_Table(drawers, heading, merged), rows[at + taken :])
        self._missing(drawers, heading)
        self._finish()
        return self.job

    def _keep(self, faults: Sequence[Placed]) -> None:
        self.job.refused += [Refused(None, order, fault) for order, fault in faults]

    def _setting(self, grid: Grid, row: int) -> None:
        """One key of the whole job: its name, then its value."""
        cells = grid.rows[row]
        filled = [at for at, cell in enumerate(cells) if not is_blank(cell)]
        key = shown(cells[filled[0]]).strip('"').strip().casefold()
        column = job_settings().get(key)
        order, place = grid.place(row, filled[0])
        if column is None:
            text = shown(cells[filled[0]]).strip('"').strip()
            self._keep([(order, _no_setting(grid, place, text, alone=len(filled) == 1))])
            return
        if len(filled) > 2:
            says = "has more than one value beside it: several readings go into one cell, with ; between them"
            self._keep([(order, Fault(place, f'"{key}"', says, f"{key},562; 561.5"))])
        at = next((at for at in range(filled[0] + 1, len(cells)) if cells[at] != ""), None)
        if at is None or (is_blank(cells[at]) and column.kind != "text"):
            return
        self.job.spots.setdefault(column.path, Spot(grid, row, {(): at}))
        self._put(self.job.values, column, cells[at], before=(), at=column.path)

    def _cabinet_table(self, grid: Grid) -> None:
        rows = list(grid.filled())
        if not rows:
            return
        table = _Table(grid, read_heading(grid, rows[0], ColumnNames(cabinet_columns())), MergedCells(grid))
        self._keep(table.heading.faults)
        self.job.remarks += remarks_on_merged(grid, rows[:1])
        places = {column.path: at for at, column in table.heading.columns.items()}
        for row in rows[1:]:
            entry = self.cabinets.add(Spot(grid, row, places))
            for at, column in table.heading.columns.items():
                self._cell(entry.values, column, table, row, at, ("cabinet", entry.number))
            self.cabinets.name(entry)

    def _drawers(self, table: _Table, rows: Sequence[int]) -> None:
        """Every row of the table: a drawer, or a cabinet alone."""
        grid, columns = table.grid, table.heading.columns
        own = {at: one for at, one in columns.items() if one.path[0] != "cabinet"}
        beside = {at: one for at, one in columns.items() if one.path[0] == "cabinet"}
        drawer_places = {one.path: at for at, one in own.items()}
        cabinet_places = {one.path[1:]: at for at, one in beside.items() if len(one.path) > 1}
        named = next((at for at, one in beside.items() if one.path == ("cabinet",)), None)
        if named is not None:
            drawer_places["cabinet",] = cabinet_places["id",] = named
        by_default = {loc[1:] for loc in self.job.spots if loc[0] == "defaults"}
        needed = [at for at, one in own.items() if one.required and one.key != "id"]
        if any(own[at].path in by_default for at in needed):
            needed = []
        for done, row in enumerate(rows):
            if self.progress is not None and done % _STEP == 0:
                self.progress(done, len(rows))
            cells = grid.rows[row]
            told: dict[str, Any] = {key: {} for key in _TABLES_NEEDED}
            is_drawer = any(at < len(cells) and not is_blank(cells[at]) for at in own)
            if is_drawer:
                loc: Loc = ("drawer", len(self.job.values["drawer"]))
                self.job.values["drawer"].append(told)
                self.job.spots[loc] = Spot(grid, row, drawer_places)
                if needed and all(table.is_empty(row, at) for at in needed):
                    self._no_drawer(grid, row, loc)
                    continue
                for at, column in own.items():
                    self._cell(told, column, table, row, at, loc)
                if named is not None:
                    self._cell(told, beside[named], table, row, named, loc)
            spot = Spot(grid, row, cabinet_places)
            self._cabinet_of(spot, table, beside, told.get("cabinet"), is_drawer=is_drawer)
        if self.progress is not None:
            self.progress(len(rows), len(rows))

    def _no_drawer(self, grid: Grid, row: int, loc: Loc) -> None:
        """A row without any size: a heading among the drawers, a sum under them, or a drawer not measured."""
        at, first = next((at, one) for at, one in enumerate(grid.rows[row]) if not is_blank(one))
        order, place = grid.place(row, at)
        says = "begins a row without any size of a drawer: a row that is none begins with #"
        self.job.refused.append(Refused(loc, order, Fault(place, shown(first), says, f"# {_bare(first)}")))

    def _missing(self, grid: Grid, heading: Heading) -> None:
        """Columns that every drawer needs and the table lacks: told once, not for every row."""
        order, place = grid.place(heading.row)
        there: list[Loc] = [column.path for column in heading.columns.values()]
        there += [loc[1:] for loc in self.job.spots if loc[0] == "defaults"]
        follows = {"opening.height"} if ("front", "height") in there else set()
        for column in drawer_columns().values():
            if column.key in follows:
                continue
            if column.required and not any(path[: len(column.path)] == column.path for path in there):
                says = f"has no column {column.key}, which every drawer needs"
                fault = Fault(f"{place} heading", "", says, f"a column {column.key}")
                drawers = range(len(self.job.values["drawer"]))
                self.job.refused += [Refused(("drawer", at, *column.path), order, fault) for at in drawers]

    def _cabinet_of(
        self,
        spot: Spot,
        table: _Table,
        beside: Mapping[int, Column],
        cabinet: str | None,
        *,
        is_drawer: bool,
    ) -> None:
        """What a row tells of a cabinet: its own row, or cells beside a drawer."""
        cells = spot.grid.rows[spot.row]
        inner = {
            at: Column(column.key.partition(".")[2], column.kind)
            for at, column in beside.items()
            if column.key != "cabinet" and at < len(cells) and not is_blank(cells[at])
        }
        if not is_drawer:
            entry = self.cabinets.add(spot)
            at = spot.columns.get(("id",))
            if at is not None:
                self._cell(entry.values, Column("id", "word"), table, spot.row, at, ("cabinet", entry.number))
                self.cabinets.name(entry)
        elif cabinet is None:
            for at, column in inner.items():
                order, place = spot.grid.place(spot.row, at)
                says = "describes a cabinet, and the row names none"
                where, try_ = f"{place} cabinet.{column.key}", "its id in the column cabinet"
                fault = Fault(where, shown(cells[at]), says, try_)
                self._keep([(order, fault)])
            return
        else:
            entry = self.cabinets.beside(cabinet, spot)
        for at, column in inner.items():
            entry.told = True
            same = self._same(entry.values, column, table.cell(spot.row, at, column))
            if same is None:
                self._cell(entry.values, column, table, spot.row, at, ("cabinet", entry.number))
            elif not same:
                order, place = spot.grid.place(spot.row, at)
                first = entry.spot.place(column.path)[1]
                says = f"is not what {first} tells of cabinet {entry.values.get('id', '')}"
                where, try_ = f"{place} cabinet.{column.key}", "the same in each of its rows"
                fault = Fault(where, shown(cells[at]), says, try_)
                self._keep([(order, fault)])

    @staticmethod
    def _same(values: Mapping[str, Any], column: Column, cell: Cell) -> bool | None:
        """Whether a cell repeats what is told already; None when nothing is."""
        here: Any = values
        for key in column.path:
            if not isinstance(here, Mapping) or key not in here:
                return None
            here = here[key]
        try:
            return _plain(value_of(cell, column.kind)) == _plain(here)
        except ReadingError:
            return False

    def _cell(
        self, values: dict[str, Any], column: Column, table: _Table, row: int, at: int, before: Loc
    ) -> None:
        cell = table.cell(row, at, column)
        if cell == "" or (column.kind != "text" and is_blank(cell)):
            hidden = table.merged.hidden_value(row, at) if column.kind != "text" else None
            if hidden is not None:
                loc = (*before, *column.path)
                self.pending.append((loc, Problem(loc, hidden.value, hidden.says, hidden.try_)))
            return
        self._put(values, column, cell, before=before, at=column.path)

    def _put(
        self, values: dict[str, Any], column: Column, cell: Cell, *, before: Loc, at: tuple[str, ...]
    ) -> None:
        loc = (*before, *at)
        try:
            value = value_of(cell, column.kind)
        except ReadingError as error:
            self.pending.append((loc, Problem(loc, error.value, error.says, error.try_)))
            return
        if not put(values, column.path, value):
            says = "is told twice: by this cell and by another of the same key"
            self.pending.append((loc, Problem(loc, shown(cell), says, "one of them")))

    def _finish(self) -> None:
        """Cabinets into their list, then a place and a name for every cell that could not be used."""
        job = self.job
        entries = self.cabinets.described()
        if entries:
            job.values["cabinet"] = [entry.values for entry in entries]
        numbers = {entry.number: at for at, entry in enumerate(entries)}
        for at, entry in enumerate(entries):
            job.spots["cabinet", at] = entry.spot
        for loc, problem in self.pending:
            if loc[0] == "cabinet" and isinstance(loc[1], int):
                if loc[1] not in numbers:
                    continue
                loc = ("cabinet", numbers[loc[1]], *loc[2:])
            order, place = job.place(loc)
            where = f"{place} {named_place(loc, job.values)}"
            job.refused.append(Refused(loc, order, Fault(where, problem.value, problem.says, problem.try_)))


def _no_setting(grid: Grid, place: str, text: str, *, alone: bool) -> Fault:
    """The fault of a line above the headings that is no key of the job."""
    told = show_value(text)
    if alone:  # words above a table are what the job is called
        says = "stands alone above the headings and is not a key of the job"
        titled = f"title,{_briefly(text)}" if grid.sheet is None else f"title | {_briefly(text)}"
        group = get_close_matches(text.casefold(), job_groups(), n=1, cutoff=_LIKE)
        if group:
            return Fault(place, told, f'{says} or a group of columns: the nearest is "{group[0]}"', group[0])
        return Fault(place, told, says, titled)
    key = text.casefold()
    near = get_close_matches(key, [*job_settings(), *drawer_columns()], n=1, cutoff=_LIKE)
    if not near:
        says = "stands above the headings and is not a key of the job: those are title, units and defaults. …"
        return Fault(place, told, says, f"# {_briefly(text)}, to have the line passed over")
    close = near[0] if near[0] in job_settings() else f"defaults.{near[0]}"
    return Fault(place, told, f'is not a key of the job: the nearest is "{close}"', close)


def _plain(value: object) -> object:
    """A value to compare: a number, however it is written, else the text."""
    text = str(value).strip()
    try:
        return float(text.replace(",", "."))
    except ValueError:
        return text


def _bare(cell: Cell) -> str:
    """A cell as it is typed, for an example of what would do."""
    return _briefly(cell.strip() if isinstance(cell, str) else shown(cell))


def _briefly(text: str) -> str:
    return text if len(text) <= _LONGEST_EXAMPLE else text[: _LONGEST_EXAMPLE - 1] + "…"
