"""A pack as one zip file: all or nothing, the same bytes, and nobody else's file."""

from __future__ import annotations

import hashlib
import json
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from pack_builders import fitting, job_of

from drawerwright.errors import InputError
from drawerwright.pack import write_pack
from drawerwright.pack.archive import is_archive, put_in_archive

OLD = {"job.toml": b"old", "dxf/B1.dxf": b"old panel"}
NEW = {"fit.json": b"{}", "dxf/A1.dxf": b"new panel", "job.toml": b"new"}


def entries(path: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(path) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def test_an_archive_holds_every_file_and_a_manifest_of_them(tmp_path: Path) -> None:
    manifest = put_in_archive(NEW.items(), "Kitchen", tmp_path / "made" / "pack.zip")
    written = entries(tmp_path / "made" / "pack.zip")
    listed = json.loads(written.pop("manifest.json"))
    assert written == NEW
    assert listed == manifest.document()
    for entry in listed["files"]:
        assert entry["sha256"] == hashlib.sha256(NEW[entry["path"]]).hexdigest()
    assert [p.name for p in (tmp_path / "made").iterdir()] == ["pack.zip"]


def test_entries_are_sorted_stored_and_dated_alike(tmp_path: Path) -> None:
    put_in_archive(NEW.items(), "Kitchen", tmp_path / "pack.zip")
    with zipfile.ZipFile(tmp_path / "pack.zip") as archive:
        found = archive.infolist()
    assert [one.filename for one in found] == ["dxf/A1.dxf", "fit.json", "job.toml", "manifest.json"]
    assert {one.date_time for one in found} == {(1980, 1, 1, 0, 0, 0)}
    assert {one.compress_type for one in found} == {zipfile.ZIP_STORED}
    assert {one.external_attr >> 16 for one in found} == {0o100644}


def test_the_same_files_in_another_order_give_the_same_archive(tmp_path: Path) -> None:
    put_in_archive(NEW.items(), "Kitchen", tmp_path / "one.zip")
    put_in_archive(reversed(NEW.items()), "Kitchen", tmp_path / "two.zip")
    assert (tmp_path / "one.zip").read_bytes() == (tmp_path / "two.zip").read_bytes()


def test_an_old_pack_of_ours_is_replaced(tmp_path: Path) -> None:
    put_in_archive(OLD.items(), "Kitchen", tmp_path / "pack.zip")
    put_in_archive(NEW.items(), "Kitchen", tmp_path / "pack.zip")
    assert set(entries(tmp_path / "pack.zip")) == {*NEW, "manifest.json"}
    assert [p.name for p in tmp_path.iterdir()] == ["pack.zip"]


def text_file(path: Path) -> None:
    path.write_text("dear")


def foreign_zip(path: Path) -> None:
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("letter.txt", "dear")


def added_to(path: Path) -> None:
    put_in_archive(OLD.items(), "Kitchen", path)
    with zipfile.ZipFile(path, "a") as archive:
        archive.writestr("mine.txt", "mine")


def changed(path: Path) -> None:
    put_in_archive(OLD.items(), "Kitchen", path)
    path.write_bytes(path.read_bytes().replace(b"old panel", b"my panel!"))


def cut_short(path: Path) -> None:
    put_in_archive(OLD.items(), "Kitchen", path)
    path.write_bytes(path.read_bytes()[:200])


@pytest.mark.parametrize("spoil", [text_file, foreign_zip, added_to, changed, cut_short])
def test_a_file_that_is_no_pack_of_ours_any_more_is_left_alone(
    tmp_path: Path, spoil: Callable[[Path], None]
) -> None:
    path = tmp_path / "pack.zip"
    spoil(path)
    before = path.read_bytes()
    with pytest.raises(InputError, match="no pack of ours"):
        put_in_archive(NEW.items(), "Kitchen", path)
    assert path.read_bytes() == before
    assert [p.name for p in tmp_path.iterdir()] == ["pack.zip"]


def test_a_run_that_breaks_off_leaves_the_old_archive_and_no_traces(tmp_path: Path) -> None:
    path = tmp_path / "pack.zip"
    put_in_archive(OLD.items(), "Kitchen", path)
    before = path.read_bytes()

    def breaks_off():  # type: ignore[no-untyped-def]
        yield "job.toml", b"new"
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        put_in_archive(breaks_off(), "Kitchen", path)
    assert path.read_bytes() == before
    assert [p.name for p in tmp_path.iterdir()] == ["pack.zip"]


def test_the_ending_decides_unless_a_folder_bears_the_name(tmp_path: Path) -> None:
    (tmp_path / "folder.zip").mkdir()
    assert is_archive(tmp_path / "pack.ZIP")
    assert not is_archive(tmp_path / "pack")
    assert not is_archive(tmp_path / "folder.zip")


def test_a_pack_in_an_archive_is_the_pack_in_a_folder(tmp_path: Path) -> None:
    job, fitted = job_of(fitting("B1-1"))
    in_folder = write_pack(job, fitted, tmp_path / "pack", only=["lists", "labels"])
    in_archive = write_pack(job, fitted, tmp_path / "pack.zip", only=["lists", "labels"])
    assert in_folder == in_archive
    on_disk = {
        p.relative_to(tmp_path / "pack").as_posix(): p.read_bytes() for p in (tmp_path / "pack").rglob("*")
    }
    assert entries(tmp_path / "pack.zip") == on_disk
