"""The command as a process of its own: speed of help, what it imports, pipes."""

from __future__ import annotations

import json
import subprocess
import sys
import time
from pathlib import Path

import pytest

import drawerwright

BIN = Path(sys.executable).parent
COMMAND = [sys.executable, "-m", "drawerwright.cli.main"]
HELP_SECONDS = 0.25
HEAVY = ("scipy", "ezdxf", "typst", "xlsxwriter", "fastapi", "sqlalchemy", "fontTools", "drawerwright.pack")


def imported_by(*arguments: str) -> set[str]:
    """The modules that a command line leaves imported."""
    program = (
        "import io, json, sys\nfrom drawerwright.cli.main import run\n"
        "said, sys.stdout = sys.stdout, io.StringIO()\ncode = run(sys.argv[1:])\n"
        "said.write(json.dumps([code, sorted(sys.modules)]))"
    )
    ran = subprocess.run(
        [sys.executable, "-c", program, *arguments], capture_output=True, text=True, check=True
    )
    code, modules = json.loads(ran.stdout)
    assert code == 0
    return set(modules)


def test_help_is_there_in_a_quarter_of_a_second() -> None:
    def seconds() -> float:
        start = time.perf_counter()
        subprocess.run([*COMMAND, "--help"], capture_output=True, check=True)
        return time.perf_counter() - start

    seconds()  # compiles what was not compiled yet
    assert min(seconds() for _ in range(5)) <= HELP_SECONDS


def test_help_imports_neither_numbers_nor_models_nor_tables() -> None:
    assert imported_by("--help") & {"numpy", "pydantic", "rich", *HEAVY} == set()


def test_fit_imports_no_part_for_papers_drawings_or_the_web(template_job: Path) -> None:
    assert imported_by("fit", str(template_job)) & set(HEAVY) == set()
    assert imported_by("fit", str(template_job), "--json", "--explain") & {"rich", *HEAVY} == set()


def test_the_console_script_says_its_version() -> None:
    ran = subprocess.run([BIN / "drawerwright", "--version"], capture_output=True, text=True, check=True)
    assert ran.stdout == f"drawerwright {drawerwright.__version__}\n"


def test_the_package_itself_starts_as_the_console_script_does(template_job: Path) -> None:
    def answered(*command: str | Path) -> tuple[int, str, str]:
        ran = subprocess.run([*command], capture_output=True, text=True, check=False)
        return ran.returncode, ran.stdout, ran.stderr

    for words in (["--version"], ["fit", str(template_job), "--json"], ["fit", "no-such.toml"]):
        told = answered(sys.executable, "-m", "drawerwright", *words)
        assert told == answered(BIN / "drawerwright", *words)
        assert "".join(told[1:])


LONG = 400
"""Drawers whose document is written in many pieces, more than a pipe holds (64 kB, as Linux has it)."""


@pytest.mark.parametrize(
    "words",
    [
        ["fit", "JOB", "--explain"],
        ["fit", "JOB", "--json"],
        ["fit", "LONG", "--json"],
        ["carry", "JOB", "--json"],
        ["job", "new"],
        ["--help"],
    ],
    ids=" ".join,
)
def test_a_reader_that_goes_away_is_no_error(template_job: Path, words: list[str]) -> None:
    long = template_job.with_name("long.csv")
    rows = "".join(f"D{number},562,168,530,16\n" for number in range(LONG))
    long.write_text("id,opening.width,opening.height,opening.depth,side\n" + rows)
    jobs = {"JOB": str(template_job), "LONG": str(long)}
    process = subprocess.Popen(
        [*COMMAND, *(jobs.get(word, word) for word in words)], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    )
    assert process.stdout is not None
    assert process.stderr is not None
    process.stdout.close()
    told = process.stderr.read()
    assert (process.wait(timeout=60), told) == (0, b"")


FULL = Path("/dev/full")


@pytest.mark.skipif(not FULL.exists(), reason="this system has no device that is always full")
@pytest.mark.parametrize("options", [[], ["--json"]], ids=["table", "json"])
@pytest.mark.parametrize("job", ["template.toml", "nowhere.toml"])
def test_an_output_that_is_full_gets_a_short_message(
    template_job: Path, job: str, options: list[str]
) -> None:
    with FULL.open("w") as full:
        ran = subprocess.run(
            [*COMMAND, "fit", str(template_job.with_name(job)), *options],
            stdout=full,
            stderr=subprocess.PIPE,
            check=False,
            text=True,
        )
    assert ran.returncode == (1 if job == template_job.name else 2)
    assert ran.stderr.startswith("drawerwright: ")
    assert len(ran.stderr.splitlines()) == 1
    assert "internal error" not in ran.stderr


@pytest.mark.skipif(not FULL.exists(), reason="this system has no device that is always full")
def test_faults_that_find_no_room_at_all_still_end_with_2(tmp_path: Path) -> None:
    with FULL.open("w") as full:
        ran = subprocess.run(
            [*COMMAND, "fit", str(tmp_path / "no.toml")], stdout=full, stderr=full, check=False
        )
    assert ran.returncode == 2


@pytest.mark.skipif(sys.platform == "win32", reason="signals of the keyboard are sent otherwise there")
def test_a_stop_while_libraries_load_shows_no_traceback(template_job: Path) -> None:
    program = (
        "import os, signal, sys\nfrom drawerwright.cli import main\n"
        "library = sys.argv.pop()\nclass Stop:\n"
        "    def find_spec(self, name, path=None, target=None):\n"
        "        if name == library:\n"
        "            os.kill(os.getpid(), signal.SIGINT)\n"
        "sys.meta_path.insert(0, Stop())\nmain.main()\n"
    )
    for library in ("typer", "drawerwright.errors", "numpy", "drawerwright.fit.words"):
        ran = subprocess.run(
            [sys.executable, "-c", program, "fit", str(template_job), library],
            capture_output=True,
            check=False,
        )
        assert (library, ran.returncode, ran.stderr) == (library, 130, b"")


def test_a_stop_that_falls_into_a_callback_still_stops() -> None:
    program = (
        "import sys, time\nfrom drawerwright.cli import main\nimport drawerwright.cli.commands as commands\n"
        "class Stopped:\n"
        "    def __del__(self):\n"
        "        raise KeyboardInterrupt\n"
        "def call(words):\n"
        "    Stopped()\n"
        "    end = time.monotonic() + 10\n"
        "    while time.monotonic() < end:\n"
        "        pass\n"
        "    return 0\n"
        "commands.call = call\nmain.main()\n"
    )
    ran = subprocess.run([sys.executable, "-c", program], capture_output=True, check=False, timeout=15)
    assert (ran.returncode, ran.stderr) == (130, b"")


def test_an_output_in_ascii_still_gets_json_and_marks(template_job: Path) -> None:
    surroundings = {"PYTHONIOENCODING": "ascii", "PATH": ""}
    for options in ([], ["--json"]):
        ran = subprocess.run(
            [*COMMAND, "fit", str(template_job), *options], capture_output=True, env=surroundings, check=True
        )
        assert ran.stderr == b""
        assert "A-1" in ran.stdout.decode("utf-8")


def test_colour_codes_are_kept_out_of_a_pipe(template_job: Path) -> None:
    ran = subprocess.run([*COMMAND, "fit", str(template_job)], capture_output=True, check=True)
    assert b"\x1b" not in ran.stdout
    assert ran.stderr == b""
