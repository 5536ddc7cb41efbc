"""Job files into the store and out of it again, in each format."""

from __future__ import annotations

import re
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any

import pytest

from drawerwright.catalogue import contents_preset_ids
from drawerwright.files import (
    job_from_mapping,
    read_job_file,
    write_job_csv,
    write_job_toml,
    write_job_xlsx,
)
from drawerwright.files.toml_text import parse_toml
from drawerwright.model.job import Job
from drawerwright.store import open_store


def shipped(name: str) -> Job:
    with as_file(files("drawerwright.cli").joinpath(name)) as path:
        return read_job_file(path, presets=contents_preset_ids()).job


def test_the_example_of_the_document_runs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    told = (Path(__file__).resolve().parents[3] / "docs" / "store.md").read_text(encoding="utf-8")
    (example,) = re.findall(r"```python\n(.*?)```", told, re.DOTALL)
    monkeypatch.chdir(tmp_path)
    names: dict[str, Any] = {}
    exec(example, names)
    assert names["job"].values["drawer"] == [{"id": "B1-2", "side": 16}]
    assert (tmp_path / "shop.sqlite3").is_file()


def as_values(job: Job) -> dict[str, Any]:
    """A job with the job file's keys."""
    return dict(parse_toml(write_job_toml(job), "job.toml").values)


@pytest.mark.parametrize("name", ["demo.toml", "inch_job.toml"])
def test_a_job_file_is_the_same_job_after_the_store(sqlite_address: str, name: str) -> None:
    with as_file(files("drawerwright.cli").joinpath(name)) as path:
        told = read_job_file(path, presets=contents_preset_ids())
    with open_store(sqlite_address) as store:
        stored = store.create_job(told.source.values)
        assert job_from_mapping(store.export_job(stored.id)) == told.job


@pytest.mark.parametrize("ending", [".toml", ".csv", ".xlsx"])
@pytest.mark.parametrize("name", ["demo.toml", "inch_job.toml"])
def test_a_job_written_in_any_format_and_read_again_changes_nothing_in_the_store(
    sqlite_address: str, tmp_path: Path, name: str, ending: str
) -> None:
    job = shipped(name)
    with open_store(sqlite_address) as store:
        stored = store.create_job(as_values(job))
        out = job_from_mapping(store.export_job(stored.id, 1))
        path = tmp_path / f"job{ending}"
        if ending == ".xlsx":
            path.write_bytes(write_job_xlsx(out))
        else:
            written = write_job_toml(out) if ending == ".toml" else write_job_csv(out)
            path.write_text(written, encoding="utf-8", newline="")
        again = read_job_file(path, presets=contents_preset_ids()).job
        assert again == job
        assert store.save_job(stored.id, as_values(again), based_on=1).revision == 1
