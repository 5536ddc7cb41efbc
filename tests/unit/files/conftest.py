"""Job tables read from text (CSV) or from a workbook's bytes."""

from __future__ import annotations

from pathlib import Path

import pytest

from drawerwright.errors import Fault, InputError
from drawerwright.files import JobFile, read_job_file


@pytest.fixture
def read(tmp_path: Path):
    def read(content: bytes | str) -> JobFile:
        path = tmp_path / ("job.csv" if isinstance(content, str) else "job.xlsx")
        path.write_bytes(content.encode() if isinstance(content, str) else content)
        return read_job_file(path)

    return read


@pytest.fixture
def faults_of(read):
    def faults_of(content: bytes | str) -> tuple[Fault, ...]:
        with pytest.raises(InputError) as refused:
            read(content)
        return refused.value.faults

    return faults_of
