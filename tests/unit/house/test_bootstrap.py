"""Set-up from nothing but Python: what it is made from, when it is made anew, what it says when it cannot."""

from __future__ import annotations

import ast
import importlib.util
import subprocess
import sys
from pathlib import Path
from types import ModuleType, SimpleNamespace

import pytest

ROOT = Path(__file__).resolve().parents[3]


@pytest.fixture
def bootstrap(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    """The script, set on an empty project of its own."""
    spec = importlib.util.spec_from_file_location("bootstrap", ROOT / "bootstrap.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    venv = tmp_path / ".venv"
    places = {
        "ROOT": tmp_path,
        "VENV": venv,
        "BIN": venv / "bin",
        "PYTHON": venv / "bin" / "python",
        "LOCK": tmp_path / "requirements.lock",
        "STAMP": venv / "made-from",
        "UNDER_WAY": venv / "being-made",
    }
    for name, path in places.items():
        monkeypatch.setattr(module, name, path)
    (tmp_path / "requirements.lock").write_text("one==1\n")
    (tmp_path / "pyproject.toml").write_text("[project]\n")
    return module


def stand(bootstrap: ModuleType) -> None:
    """Put up something that looks like a whole environment; its Python is this one."""
    bootstrap.BIN.mkdir(parents=True)
    bootstrap.PYTHON.symlink_to(sys.executable)
    bootstrap.STAMP.write_text(bootstrap.fingerprint())


def test_a_whole_environment_is_left_as_it_is(bootstrap: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    stand(bootstrap)
    monkeypatch.setattr(bootstrap, "pip", lambda *_: pytest.fail("nothing was to be installed"))
    bootstrap.set_up()
    assert bootstrap.STAMP.read_text() == bootstrap.fingerprint()


@pytest.mark.parametrize("name", ["requirements.lock", "pyproject.toml"])
def test_a_change_of_the_lock_or_the_project_is_installed_and_stamped_last(
    bootstrap: ModuleType, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    stand(bootstrap)
    (bootstrap.ROOT / name).write_text("changed")
    asked: list[tuple[str, ...]] = []

    def pip(*arguments: str) -> bool:
        assert bootstrap.UNDER_WAY.exists()
        assert not bootstrap.STAMP.exists()
        asked.append(arguments)
        return True

    monkeypatch.setattr(bootstrap, "pip", pip)
    monkeypatch.setattr(bootstrap, "has_pip", lambda: True)
    bootstrap.set_up()
    assert ["--require-hashes" in one for one in asked] == [True, False]
    assert "--no-build-isolation" in asked[1]
    assert bootstrap.STAMP.read_text() == bootstrap.fingerprint()
    assert not bootstrap.UNDER_WAY.exists()


def test_an_environment_is_made_anew_when_its_making_was_cut_short_or_it_was_moved(
    bootstrap: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(bootstrap, "has_pip", lambda: True)
    stand(bootstrap)
    assert bootstrap.usable()
    bootstrap.UNDER_WAY.touch()
    assert not bootstrap.usable()
    bootstrap.UNDER_WAY.unlink()
    bootstrap.STAMP.write_text("digest\ncpython-311 somewhere/else/.venv")
    assert not bootstrap.usable()


def test_an_environment_without_pip_is_made_anew(bootstrap: ModuleType) -> None:
    assert not bootstrap.usable()
    bootstrap.BIN.mkdir(parents=True)
    bootstrap.PYTHON.write_text("#!/bin/sh\nexit 1\n")
    bootstrap.PYTHON.chmod(0o755)
    assert not bootstrap.usable()


def test_packages_that_cannot_be_had_are_told_and_leave_no_stamp(
    bootstrap: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    stand(bootstrap)
    bootstrap.LOCK.write_text("two==2\n")
    monkeypatch.setattr(bootstrap, "pip", lambda *_: False)
    monkeypatch.setattr(bootstrap, "has_pip", lambda: True)
    with pytest.raises(SystemExit) as ended:
        bootstrap.set_up()
    assert ended.value.code == 1
    assert "Without a network" in capsys.readouterr().err
    assert not bootstrap.STAMP.exists()
    assert not bootstrap.usable()


def test_a_python_without_ensurepip_is_told_what_to_install(
    bootstrap: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(bootstrap.importlib.util, "find_spec", lambda _: None)
    with pytest.raises(SystemExit):
        bootstrap.make_environment()
    assert "apt install python3-venv" in capsys.readouterr().err


def test_an_old_python_is_told_that_it_is_too_old(
    bootstrap: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(
        bootstrap, "sys", SimpleNamespace(version_info=(3, 9, 2), exit=sys.exit, stderr=sys.stderr)
    )
    with pytest.raises(SystemExit):
        bootstrap.main([])
    assert "Python 3.9 is too old; 3.11 is the oldest that will do" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["nonsense"], "no task is called 'nonsense'"),
        (["check", "nonsense"], "no check is called 'nonsense'"),
    ],
)
def test_a_task_or_check_that_is_not_there_is_named(arguments: list[str], said: str) -> None:
    command = [sys.executable, str(ROOT / "bootstrap.py"), *arguments]
    ran = subprocess.run(command, capture_output=True, text=True, check=False)
    assert (ran.returncode, ran.stdout) == (2, "")
    assert said in ran.stderr


def test_the_script_can_be_read_by_an_old_python() -> None:
    ast.parse((ROOT / "bootstrap.py").read_text(encoding="utf-8"), feature_version=(3, 7))
