"""One module, one subject: at most 400 lines, and a name that says what it is about."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).resolve().parents[3]


@pytest.fixture(scope="module")
def tool() -> ModuleType:
    spec = importlib.util.spec_from_file_location(
        "check_module_size", ROOT / "tools" / "check_module_size.py"
    )
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_no_module_of_the_package_is_too_long_or_vaguely_named(tool: ModuleType) -> None:
    assert tool.faults(ROOT / "src") == []


def test_a_module_of_401_lines_is_a_fault_and_one_of_400_is_none(tool: ModuleType, tmp_path: Path) -> None:
    (tmp_path / "long.py").write_text("x = 1\n" * 401)
    (tmp_path / "whole.py").write_text("x = 1\n" * 400)
    assert tool.faults(tmp_path) == ["long.py: 401 lines, 400 at most: split it by subject"]


def test_a_module_named_utils_is_a_fault(tool: ModuleType, tmp_path: Path) -> None:
    (tmp_path / "utils.py").write_text("")
    assert tool.faults(tmp_path) == ["utils.py: the name says nothing; name it after its subject"]
