"""The tree of errors atop `errors.py` shows every error that the package raises on purpose."""

from __future__ import annotations

import ast
import re
from pathlib import Path

SOURCE = Path(__file__).resolve().parents[3] / "src" / "drawerwright"


def parents() -> dict[str, str]:
    """Every class that descends from the one root, with the class it is made of."""
    classes: dict[str, list[str]] = {}
    for path in sorted(SOURCE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ClassDef):
                classes[node.name] = [base.id for base in node.bases if isinstance(base, ast.Name)]
    found = {"DrawerwrightError": ""}
    while True:
        more = {
            name: next(base for base in bases if base in found)
            for name, bases in classes.items()
            if name not in found and any(base in found for base in bases)
        }
        if not more:
            return found
        found |= more


def drawn() -> dict[str, str]:
    """The same as the tree has it: a level is four characters to the right."""
    text = ast.get_docstring(ast.parse((SOURCE / "errors.py").read_text(encoding="utf-8"))) or ""
    above: list[str] = []
    found = {}
    for line in text.splitlines():
        told = re.match(r"((?:│   )*)(?:[├└]── )?([A-Z]\w+)  ", line)
        if told:
            depth = 0 if line[0] not in "│├└" else len(told[1]) // 4 + 1
            above[depth:] = [told[2]]
            found[told[2]] = above[depth - 1] if depth else ""
    return found


def test_the_tree_of_errors_shows_every_error_below_the_one_it_is_made_of() -> None:
    assert len(parents()) > 5
    assert drawn() == parents()
