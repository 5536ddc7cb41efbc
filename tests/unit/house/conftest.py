"""The files that a clone holds."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[3]
NOT_OURS = {".git", ".venv", "__pycache__", "out", "dist", "build"}


def _walked() -> list[Path]:
    caches = {".mypy_cache", ".ruff_cache", ".pytest_cache", ".hypothesis", ".import_linter_cache"}
    found = []
    for folder, below, names in os.walk(ROOT):
        below[:] = [
            name for name in below if name not in NOT_OURS | caches and not name.endswith(".egg-info")
        ]
        found += [Path(folder) / name for name in names]
    return found


@pytest.fixture(scope="session")
def our_texts() -> dict[str, str]:
    """Text of every tracked file by its path from the root; without git, of every file that is not made."""
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=False)
    names = [name for name in listed.stdout.split("\0") if name] if listed.returncode == 0 else []
    paths = [ROOT / name for name in names] or _walked()
    texts = {}
    for path in paths:
        try:
            texts[path.relative_to(ROOT).as_posix()] = path.read_text(encoding="utf-8")
        except (UnicodeDecodeError, FileNotFoundError):  # a picture, or a file that is just being moved
            continue
    return texts
