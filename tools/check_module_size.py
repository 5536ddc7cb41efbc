"""Fail when a module of the package is longer than 400 lines: one module, one subject.

Also a module that the house would not find by its name: no `utils`, `helpers` or `manager`.
"""

from __future__ import annotations

import sys
from pathlib import Path

MOST_LINES = 400
VAGUE_NAMES = frozenset({"utils", "util", "helpers", "helper", "manager", "misc", "common"})
ROOT = Path(__file__).resolve().parent.parent


def faults(source: Path) -> list[str]:
    """What is wrong with the modules under `source`, one line each, in the order of their paths."""
    found = []
    for path in sorted(source.rglob("*.py")):
        lines = len(path.read_text(encoding="utf-8").splitlines())
        if lines > MOST_LINES:
            found.append(
                f"{path.relative_to(source)}: {lines} lines, {MOST_LINES} at most: split it by subject"
            )
        if path.stem in VAGUE_NAMES:
            found.append(f"{path.relative_to(source)}: the name says nothing; name it after its subject")
    return found


def main() -> int:
    """Print the faults of `src`; 1 when there are any."""
    found = faults(ROOT / "src")
    print("\n".join(found) if found else f"every module under src has {MOST_LINES} lines or fewer")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
