"""Where a pack goes, and what is said of it."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from pack_builders import fitting, job_of
from rich.console import Console

from drawerwright.cli.pack import show_files
from drawerwright.errors import InputError
from drawerwright.pack import Manifest, write_pack
from drawerwright.pack.manifest import file_of


@pytest.mark.parametrize("name", ["pack.tar.gz", "pack.TGZ", "pack.7z"])
def test_an_archive_of_another_kind_is_refused_and_nothing_is_written(tmp_path: Path, name: str) -> None:
    job, fitted = job_of(fitting())
    with pytest.raises(InputError) as told:
        write_pack(job, fitted, tmp_path / name, only=["lists"])
    assert "zip" in str(told.value)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("paths", "words"),
    [
        (["lists.pdf"], "1 file and its manifest are in there."),
        (["a.csv", "b.csv"], "2 files and their manifest are in there."),
    ],
)
def test_files_are_counted_in_words(paths: list[str], words: str) -> None:
    out = io.StringIO()
    manifest = Manifest("Job", tuple(file_of(path, b"x") for path in paths))
    show_files(Console(file=out, width=100), manifest, Path("there"))
    assert words in out.getvalue()
    assert "1 files" not in out.getvalue()
