"""The house's own tools: sizes of modules, pages that are made from the equations."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from types import ModuleType

ROOT = Path(__file__).resolve().parents[3]


def tool(name: str) -> ModuleType:
    spec = importlib.util.spec_from_file_location(name, ROOT / "tools" / f"{name}.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


SIZES, PAGES = tool("check_module_size"), tool("write_pages")


def test_no_module_of_the_package_is_too_long_or_vaguely_named() -> None:
    assert SIZES.faults(ROOT / "src") == []


def test_a_module_of_401_lines_is_a_fault_and_one_of_400_is_none(tmp_path: Path) -> None:
    (tmp_path / "long.py").write_text("x = 1\n" * 401)
    (tmp_path / "whole.py").write_text("x = 1\n" * 400)
    assert SIZES.faults(tmp_path) == ["long.py: 401 lines, 400 at most: split it by subject"]


def test_a_module_named_utils_is_a_fault(tmp_path: Path) -> None:
    (tmp_path / "utils.py").write_text("")
    assert SIZES.faults(tmp_path) == ["utils.py: the name says nothing; name it after its subject"]


def test_the_pages_made_from_the_equations_are_current() -> None:
    assert PAGES.stale() == []


def test_a_page_that_was_edited_by_hand_is_stale(tmp_path: Path, monkeypatch) -> None:
    for name in PAGES.PAGES:
        (tmp_path / name).write_text((PAGES.DOCS / name).read_text(encoding="utf-8"), encoding="utf-8")
    (tmp_path / "checks.md").write_text("by hand\n", encoding="utf-8")
    monkeypatch.setattr(PAGES, "DOCS", tmp_path)
    assert PAGES.stale() == ["checks.md"]
