"""Jobs to run commands on, and a way to run one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from drawerwright.cli.main import run
from drawerwright.files import job_template

FITS = 'opening = { width = 562, height = 168, depth = 530 }\nside = 16\ncontents = "20 kg"\n'
TOO_SHALLOW = 'opening = { width = 562, height = 168, depth = 150 }\nside = 16\ncontents = "20 kg"\n'


@dataclass(frozen=True)
class Ran:
    """What a command left: exit code, standard output, standard error."""

    code: int
    out: str
    err: str


Command = Callable[..., Ran]


@pytest.fixture
def command(capsys: pytest.CaptureFixture[str]) -> Command:
    """Run a command line in this process."""

    def ran(*arguments: str | Path) -> Ran:
        capsys.readouterr()
        code = run([str(argument) for argument in arguments])
        told = capsys.readouterr()
        return Ran(code, told.out, told.err)

    return ran


@pytest.fixture
def template_job(tmp_path: Path) -> Path:
    """The job file that `job new` writes."""
    path = tmp_path / "template.toml"
    path.write_text(job_template(), encoding="utf-8")
    return path


@pytest.fixture
def mixed_job(tmp_path: Path) -> Path:
    """One drawer that fits, built twice, and one whose opening is too shallow for any slide."""
    path = tmp_path / "mixed.toml"
    path.write_text(
        f'title = "A mixed pair"\n[[drawer]]\nid = "good"\nquantity = 2\n{FITS}'
        f'[[drawer]]\nid = "shallow"\n{TOO_SHALLOW}',
        encoding="utf-8",
    )
    return path
