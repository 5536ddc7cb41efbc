"""A whole pack: what is in it, that it is the same every time, and that it is told as it grows."""

from __future__ import annotations

import csv
import hashlib
import io
import json
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import ezdxf
import pytest
from pack_builders import fitting, job_of, not_fitting

from drawerwright.files import read_job
from drawerwright.fit import fit_document
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack import pack_contents, write_pack
from drawerwright.pack.distinct import distinct_drawers
from drawerwright.pack.panels import panel_files

SOURCE = Path(__file__).parents[3] / "src"


def example() -> tuple:  # type: ignore[type-arg]
    return job_of(
        fitting("B1-1", quantity=2),
        fitting("b1-1", note="the twin"),
        fitting("../con", side=12.7),
        not_fitting("Too shallow"),
    )


def tree(path: Path) -> dict[str, bytes]:
    return {p.relative_to(path).as_posix(): p.read_bytes() for p in sorted(path.rglob("*")) if p.is_file()}


@pytest.fixture(scope="module")
def contents() -> dict[str, bytes]:
    job, fitted = example()
    return pack_contents(job, fitted)


def test_a_pack_holds_papers_lists_panels_job_and_answer(contents: dict[str, bytes]) -> None:
    plain = {path for path in contents if not path.startswith("dxf/")}
    assert plain == {
        "job.toml",
        "fit.json",
        "sheets.pdf",
        "mounting.pdf",
        "lining-up.pdf",
        "pictures.pdf",
        "templates.pdf",
        "labels.pdf",
        "lists.pdf",
        "cut-list.csv",
        "cut-list.xlsx",
        "hardware-list.csv",
        "hardware-list.xlsx",
    }
    panels = {path for path in contents if path.endswith(".dxf")}
    assert {
        "dxf/B1-1-cabinet-side-left.dxf",
        "dxf/B1-1-cabinet-side-right.dxf",
        "dxf/B1-1-box-back.dxf",
        "dxf/B1-1-box-side-left.dxf",
        "dxf/B1-1-box-side-right.dxf",
        "dxf/B1-1-subfront.dxf",
        "dxf/B1-1-bottom.dxf",
    } <= panels
    assert not any("Too" in path for path in panels)


def test_the_manifest_on_disk_agrees_with_every_file(tmp_path: Path) -> None:
    job, fitted = example()
    manifest = write_pack(job, fitted, tmp_path / "pack")
    written = tree(tmp_path / "pack")
    listed = json.loads(written.pop("manifest.json"))
    assert listed == manifest.document()
    assert [entry["path"] for entry in listed["files"]] == sorted(written)
    for entry in listed["files"]:
        content = written[entry["path"]]
        assert (entry["bytes"], entry["sha256"]) == (len(content), hashlib.sha256(content).hexdigest())


def test_the_job_in_the_pack_is_the_job_and_the_answer_the_answer(tmp_path: Path) -> None:
    job, fitted = example()
    write_pack(job, fitted, tmp_path / "pack")
    assert read_job(tmp_path / "pack" / "job.toml") == job
    assert json.loads((tmp_path / "pack" / "fit.json").read_text(encoding="utf-8")) == fit_document(fitted)


def test_every_panel_opens_clean_and_the_list_names_it(contents: dict[str, bytes], tmp_path: Path) -> None:
    names = {path.removeprefix("dxf/") for path in contents if path.endswith(".dxf")}
    for name in names:
        (tmp_path / name).write_bytes(contents[f"dxf/{name}"])
        document = ezdxf.readfile(tmp_path / name)
        assert not document.audit().has_errors
        assert document.units == ezdxf.units.MM
        assert len(document.modelspace()) > 0
    rows = contents["dxf/panels.csv"].decode("utf-8").splitlines()
    assert {row.split(",")[0] for row in rows[1:]} == names


def test_row_holes_in_the_panel_lie_where_the_answer_says(contents: dict[str, bytes], tmp_path: Path) -> None:
    (tmp_path / "side.dxf").write_bytes(contents["dxf/B1-1-cabinet-side-left.dxf"])
    space = ezdxf.readfile(tmp_path / "side.dxf").modelspace()
    rows = [one for one in space.query("CIRCLE") if one.dxf.layer.startswith("row holes")]
    mounting = example()[1].drawers[0].mounting
    assert mounting is not None
    assert len(rows) == len(mounting.holes_from_side_edge)
    for depth, x in zip(
        mounting.holes_from_side_edge, sorted(abs(one.dxf.center.x) for one in rows), strict=True
    ):
        assert x == pytest.approx(depth, abs=0.001)
    assert {round(one.dxf.center.y, 3) for one in rows} == {mounting.screw_line}


def listed(*drawers: FittedDrawer) -> tuple[list[str], dict[str, list[dict[str, str]]]]:
    """Names of the DXF files, and the lines of their list by the panel's name."""
    made = dict(panel_files(distinct_drawers(job_of(*drawers)[1])))
    rows = csv.DictReader(io.StringIO(made.pop("dxf/panels.csv").decode("utf-8"), newline=""))
    by_name: dict[str, list[dict[str, str]]] = {}
    for row in rows:
        by_name.setdefault(row["Panel"], []).append(row)
    return list(made), by_name


def test_panels_drawn_alike_are_one_file_and_counted_for_all() -> None:
    files, rows = listed(fitting("A", quantity=2), fitting("B"), fitting("C", side=12.7))
    (bottom,) = rows["bottom"]
    assert (bottom["File"], bottom["Drawers"], bottom["Count"]) == ("A-bottom.dxf", "A, B, C", "4")
    assert len(files) == sum(len(each) for each in rows.values())


def test_drawers_of_one_cabinet_have_their_holes_on_one_pair_of_sides() -> None:
    low, high = fitting("B1-1", cabinet="B1", row=1), fitting("B1-2", cabinet="B1", row=2)
    assert high.mounting is not None
    high = replace(high, mounting=replace(high.mounting, screw_line=216.0))
    _, rows = listed(low, high, fitting("Alone"))
    sides = [
        (row["File"], row["Cabinets"], row["Drawers"], row["Count"]) for row in rows["cabinet side left"]
    ]
    assert sides == [
        ("Alone-cabinet-side-left.dxf", "", "Alone", "1"),
        ("B1-cabinet-side-left.dxf", "B1", "B1-1, B1-2", "1"),
    ]


def test_the_same_job_gives_the_same_bytes_again(contents: dict[str, bytes]) -> None:
    job, fitted = example()
    again = pack_contents(job, fitted)
    assert [path for path in contents if contents[path] != again[path]] == []
    assert contents.keys() == again.keys()


ELSEWHERE = """
import sys
from pathlib import Path
sys.path.insert(0, sys.argv[1])
from test_write_pack import example
from drawerwright.pack import write_pack
job, fitted = example()
write_pack(job, fitted, Path(sys.argv[2]))
"""


def test_another_process_folder_and_hash_seed_give_the_same_bytes(
    contents: dict[str, bytes], tmp_path: Path
) -> None:
    seed = "4242"
    where = tmp_path / "another folder"
    where.mkdir()
    path = os.pathsep.join([str(SOURCE), str(Path(__file__).parent)])
    subprocess.run(
        [sys.executable, "-c", ELSEWHERE, str(Path(__file__).parent), f"out-{seed}"],
        cwd=where,
        env={**os.environ, "PYTHONPATH": path, "PYTHONHASHSEED": seed, "TZ": "Asia/Tokyo", "LC_ALL": "C"},
        check=True,
    )
    written = tree(where / f"out-{seed}")
    written.pop("manifest.json")
    assert [name for name in contents if contents[name] != written[name]] == []
    assert contents.keys() == written.keys()


def test_nothing_of_the_machine_is_in_any_file(contents: dict[str, bytes]) -> None:
    here, home = str(SOURCE.parent).encode(), str(Path.home()).encode() + b"/"
    for path, content in contents.items():
        assert here not in content, path
        assert home not in content, path


def test_progress_counts_up_to_its_total_and_names_the_drawers() -> None:
    told: list[tuple[int, int, str]] = []
    job, fitted = job_of(fitting("A"), not_fitting("B"))
    pack_contents(job, fitted, progress=lambda done, total, what: told.append((done, total, what)))
    assert [done for done, _, _ in told] == list(range(1, len(told) + 1))
    assert {total for _, total, _ in told} == {len(told)}
    assert any("B" in what for _, _, what in told)


def test_a_pack_can_be_written_over_itself(tmp_path: Path) -> None:
    job, fitted = example()
    first = write_pack(job, fitted, tmp_path / "pack")
    assert write_pack(job, fitted, tmp_path / "pack") == first


def test_a_folder_that_is_not_ours_is_refused_before_any_work(tmp_path: Path) -> None:
    (tmp_path / "letters").mkdir()
    (tmp_path / "letters" / "one.txt").write_text("dear")
    told: list[str] = []
    job, fitted = example()
    with pytest.raises(Exception, match="no pack of ours"):
        write_pack(job, fitted, tmp_path / "letters", progress=lambda done, total, what: told.append(what))
    assert told == []


def test_a_job_in_which_nothing_fits_still_gives_its_papers() -> None:
    job, fitted = job_of(not_fitting("A"))
    contents = pack_contents(job, fitted, paper="letter", units="in")
    assert not [path for path in contents if path.endswith(".dxf")]
    assert contents["cut-list.csv"].count(b"\r\n") == 1
    assert contents["sheets.pdf"].startswith(b"%PDF-")
