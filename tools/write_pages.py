"""Write the pages of docs that are made from the equations; `--check` only says whether they are current."""

from __future__ import annotations

import sys
from pathlib import Path

from drawerwright.equations.listing import checks_page, equations_page

DOCS = Path(__file__).resolve().parent.parent / "docs"
PAGES = {"equations.md": equations_page, "checks.md": checks_page}


def stale() -> list[str]:
    """Names of the pages that are not what the equations say."""
    return [name for name, page in PAGES.items() if _read(DOCS / name) != page()]


def main(arguments: list[str]) -> int:
    """Write the pages, or with `--check` return 1 where one is stale."""
    old = stale()
    if "--check" in arguments:
        print(
            "\n".join(f"docs/{name} is stale: run tools/write_pages.py" for name in old)
            or "pages are current"
        )
        return 1 if old else 0
    for name in old:
        (DOCS / name).write_text(PAGES[name](), encoding="utf-8")
        print(f"wrote docs/{name}")
    return 0


def _read(path: Path) -> str:
    return path.read_text(encoding="utf-8") if path.exists() else ""


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
