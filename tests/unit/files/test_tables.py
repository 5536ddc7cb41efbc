from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.errors import Fault, InputError
from drawerwright.files.tables import TableColumn, read_table, table_of_mappings

from .workbooks import workbook

PARTS = (
    TableColumn("id", "name", required=True),
    TableColumn("length", "size", required=True),
    TableColumn("width", "size", required=True),
    TableColumn("thickness", "size"),
    TableColumn("material", "name"),
    TableColumn("quantity", "count"),
    TableColumn("grain", "choice", ("none", "length", "width")),
    TableColumn("price", "number"),
    TableColumn("off", "length"),
    TableColumn("mass", "mass"),
    TableColumn("note", "text"),
    TableColumn("done", "truth"),
)
HEADING = [column.name for column in PARTS]
ROW = ["A", 500, "120,5", 12.7, "1/2 ply", 2, "length", 0.5, -1.5, "2 lb", "left; upper", True]
CSV = "quantity,id,length,width\n2,A,500,120\n"


@pytest.fixture
def read(tmp_path: Path):
    def read(content: str | bytes, name: str = "parts.csv", **options: Any):
        path = tmp_path / name
        path.write_bytes(content.encode() if isinstance(content, str) else content)
        return read_table(path, PARTS, entry="part", **options)

    return read


@pytest.fixture
def faults_of(read):
    def faults_of(content: str | bytes, name: str = "parts.csv", **options: Any) -> tuple[Fault, ...]:
        with pytest.raises(InputError) as refused:
            read(content, name, **options)
        return refused.value.faults

    return faults_of


def test_the_same_table_is_read_from_csv_xlsx_toml_and_row_objects(read) -> None:
    cells = ["true" if cell is True else str(cell) for cell in ROW]
    from_csv = read(";".join(HEADING) + "\n" + ";".join(f'"{cell}"' for cell in cells) + "\n")
    from_xlsx = read(workbook(HEADING, ROW), "parts.xlsx")
    lines = [f'{name} = "{cell}"' for name, cell in zip(HEADING, cells, strict=True)]
    text = "\n".join(lines).replace('"true"', "true").replace('quantity = "2"', "quantity = 2")
    from_toml = read(f"[[part]]\n{text}\n", "parts.toml")
    from_rows = table_of_mappings([dict(zip(HEADING, ROW, strict=True))], PARTS, entry="part")
    rows = [dict(table.rows[0].values) for table in (from_csv, from_xlsx, from_toml, from_rows)]
    assert rows[0] == rows[1] == rows[2] == rows[3]
    assert rows[0] == {
        "id": "A",
        "length": 500.0,
        "width": 120.5,
        "thickness": 12.7,
        "material": "1/2 ply",
        "quantity": 2,
        "grain": "length",
        "price": 0.5,
        "off": -1.5,
        "mass": 0.90718474,
        "note": "left; upper",
        "done": True,
    }


def test_empty_cells_are_none_and_rows_know_their_places(read) -> None:
    table = read("# parts of the kitchen\n" + CSV + "\n,B,300,100\n")
    assert table.rows[0]["grain"] is None
    assert table.rows[1]["quantity"] is None
    assert table.rows[1].place("id")[1] == "parts.csv:5"
    fault = table.rows[1].fault("length", 300, "is longer than any stock", "250")
    assert str(fault) == "parts.csv:5 length: 300 is longer than any stock; try 250"


def test_bare_lengths_are_in_the_units_of_the_file_or_those_asked_for(read) -> None:
    text = CSV.replace("500,120", "20,12")
    assert read(text, units="in").rows[0]["length"] == 508.0
    assert read("units,in\n" + text).rows[0]["length"] == 508.0
    text = 'units = "in"\n[[part]]\nid = "A"\nlength = 20\nwidth = "120 mm"\n'
    (row,) = read(text, "parts.toml").rows
    assert (row["length"], row["width"]) == (508.0, 120.0)


def test_all_faults_come_together_in_the_order_of_the_file(faults_of) -> None:
    text = 'id,lenght,width,quantity,grain,off,price\n,1,120,1.5,along,x,"1,234"\nB,,5001,2,none,,nan\n'
    assert [(fault.where, fault.value) for fault in faults_of(text)] == [
        ("parts.csv:1 heading", ""),
        ("parts.csv:1 heading", '"lenght"'),
        ("parts.csv:2 id", ""),
        ("parts.csv:2 quantity", '"1.5"'),
        ("parts.csv:2 grain", '"along"'),
        ("parts.csv:2 off", '"x"'),
        ("parts.csv:2 price", '"1,234"'),
        ("parts.csv:3 width", '"5001"'),
        ("parts.csv:3 price", "nan"),
    ]


def test_faults_of_a_workbook_name_sheet_and_cell(faults_of) -> None:
    row = ["A", date(2024, 1, 2), "#REF!", *ROW[3:]]
    assert [(fault.where, fault.value) for fault in faults_of(workbook(HEADING, row), "parts.xlsx")] == [
        ("parts.xlsx:drawers!B2 length", "2024-01-02"),
        ("parts.xlsx:drawers!C2 width", "#REF!"),
    ]


def test_a_date_in_a_column_of_text_is_the_date_as_text(read) -> None:
    row = [*ROW[:10], date(2024, 1, 2), True]
    assert read(workbook(HEADING, row), "parts.xlsx").rows[0]["note"] == "2024-01-02"


def test_the_sheet_of_the_entrys_name_is_read_and_others_are_remarked_on(read) -> None:
    def add(book: Any) -> None:
        book.create_sheet("Parts").append(["id", "length", "width"])
        book["Parts"].append(["Z", 1, 2])

    table = read(workbook(HEADING, ROW, change=add), "parts.xlsx")
    assert [row["id"] for row in table.rows] == ["Z"]
    assert [str(remark) for remark in table.remarks] == ["parts.xlsx:drawers: was not read"]


@pytest.mark.parametrize(
    ("content", "name", "where", "says"),
    [
        ("", "parts.csv", "parts.csv", "is empty"),
        ("# nothing\n", "parts.csv", "parts.csv", "holds no table"),
        ("a,b\n1,2\n", "parts.csv", "parts.csv:1", "none of its cells does"),
        ("units,ft\n" + CSV, "parts.csv", "parts.csv:1 units", 'is not one of "mm", "in"'),
        (CSV, "parts.pdf", "parts.pdf", "ends in .csv, .xlsx or .toml"),
        ("part = 3\n", "parts.toml", "parts.toml:1", "is not a list of parts"),
        ("part = [3]\n", "parts.toml", "parts.toml:1 part 1", "is not a row"),
        ("units = 3\n", "parts.toml", "parts.toml:1 units", "is not one of"),
        ("[[prat]]\nid = 1\n", "parts.toml", "parts.toml:1 prat", 'the nearest is "part"'),
        (
            '[[part]]\nid = "A"\nlenght = 1\nlength = 1\nwidth = 1\n',
            "parts.toml",
            "parts.toml:3 part 1 lenght",
            'the nearest is "length"',
        ),
    ],
)
def test_a_file_that_is_no_such_table_is_refused(faults_of, content, name, where, says) -> None:
    (fault,) = faults_of(content, name)
    assert fault.where == where
    assert says in fault.says


@pytest.mark.parametrize("rows", [None, 3, "parts", {"id": 1}, [3], [None], [{}], [{"id": 1}]])
def test_row_objects_that_are_no_table_are_refused(rows: object) -> None:
    with pytest.raises(InputError) as refused:
        table_of_mappings(rows, PARTS, entry="part")
    assert all(fault.where.startswith("parts") for fault in refused.value.faults)


NUMBERS = st.integers() | st.floats()
ODD = st.none() | st.booleans() | NUMBERS | st.text(max_size=6) | st.lists(NUMBERS, max_size=2)


@given(st.lists(st.dictionaries(st.sampled_from([*HEADING, "other"]), ODD), max_size=3))
def test_any_row_objects_are_a_table_or_refused(rows: list[dict[str, Any]]) -> None:
    try:
        found = len(table_of_mappings(rows, PARTS, entry="part").rows)
    except InputError as error:
        found = len(rows) if all(fault.where and fault.says for fault in error.faults) else -1
    assert found == len(rows)


def test_progress_is_told_up_to_all_rows(read) -> None:
    told: list[tuple[int, int]] = []
    text = "id,length,width\n" + "A,1,2\n" * 1200
    assert len(read(text, progress=lambda done, total: told.append((done, total))).rows) == 1200
    assert (told[0], told[-1]) == ((0, 1200), (1200, 1200))
