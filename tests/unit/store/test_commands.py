"""`drawerwright store backup|restore` on the command line."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from drawerwright.cli.main import run
from drawerwright.store import open_store


def ran(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    """Exit code, standard output and standard error of a command."""
    code = run(words)
    told = capsys.readouterr()
    return code, told.out, told.err


def test_a_store_goes_to_a_file_and_comes_back(
    sqlite_address: str, tmp_path: Path, two_drawers: dict[str, Any], capsys: pytest.CaptureFixture[str]
) -> None:
    with open_store(sqlite_address) as store:
        job = store.create_job(two_drawers)
    out, other = str(tmp_path / "store.zip"), f"sqlite:///{tmp_path / 'other.sqlite3'}"
    assert ran(capsys, "store", "backup", out, "--store", sqlite_address) == (
        0,
        f"{out} holds 1 job, 0 slide families and 0 test logs, with 1 revision.\n",
        "",
    )
    code, said, _ = ran(capsys, "store", "restore", out, "--store", other, "--json")
    told = json.loads(said)
    assert (code, told["schema"], told["jobs"], told["rows"]["revision"]) == (
        0,
        "drawerwright/restore/1",
        1,
        1,
    )
    with open_store(other) as store:
        assert store.job(job.id).values == two_drawers
    code, said, fault = ran(capsys, "store", "restore", out, "--store", other)
    assert (code, said) == (2, "")
    assert "is not empty: it holds 1 jobs and families" in fault
    code, said, _ = ran(capsys, "store", "restore", out, "--store", other, "--replace")
    assert (code, said) == (
        0,
        "The store now holds 1 job, 0 slide families and 0 test logs, with 1 revision.\n",
    )


def test_a_backup_of_a_store_that_is_not_there_makes_none(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    address = f"sqlite:///{tmp_path / 'missing.sqlite3'}"
    code, said, fault = ran(capsys, "store", "backup", str(tmp_path / "x.zip"), "--store", address, "--json")
    assert code == 2
    assert json.loads(said)["errors"][0]["says"] == "holds no store"
    assert "holds no store" in fault
    assert list(tmp_path.iterdir()) == []
