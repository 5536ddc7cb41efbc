"""The README's commands are there, and say what they do."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[3]
README = (ROOT / "README.md").read_text(encoding="utf-8")
MAKEFILE = (ROOT / "Makefile").read_text(encoding="utf-8")
DOCS = [
    ROOT / "README.md",
    ROOT / "CONTRIBUTING.md",
    ROOT / "CHANGELOG.md",
    *sorted((ROOT / "docs").rglob("*.md")),
]


@pytest.mark.parametrize("task", ["demo", "test"])
def test_the_readme_shows_a_task_in_both_its_forms(task: str) -> None:
    assert re.search(rf"^    make {task}\b.*python3 bootstrap\.py {task}\b", README, re.MULTILINE)


@pytest.mark.parametrize("path", DOCS, ids=lambda path: path.name)
def test_every_make_target_that_is_spoken_of_stands_in_the_makefile(path: Path) -> None:
    targets = set(re.findall(r"^([a-z ]+):", MAKEFILE, re.MULTILINE))
    known = {name for line in targets for name in line.split()}
    spoken = set(re.findall(r"(?:^    |`)make ([a-z]+)", path.read_text(encoding="utf-8"), re.MULTILINE))
    assert spoken - known == set()


@pytest.mark.parametrize("task", ["demo", "test", "check"])
def test_a_make_target_calls_the_task_of_bootstrap(task: str) -> None:
    assert re.search(rf"^{task}:\n\t\$\(PYTHON\) bootstrap\.py {task}\b", MAKEFILE, re.MULTILINE)


@pytest.mark.parametrize("path", DOCS, ids=lambda path: path.name)
def test_every_link_between_the_documents_leads_somewhere(path: Path) -> None:
    links = re.findall(r"\]\(([^)#]+)\)", path.read_text(encoding="utf-8"))
    ours = [link for link in links if "://" not in link]
    assert [link for link in ours if not (path.parent / link).exists()] == []


def test_continuous_integration_runs_the_readme_test_command() -> None:
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert re.search(r"^make test\b", script, re.MULTILINE)
    assert "set -euo pipefail" in script


@pytest.mark.parametrize(
    "path", sorted((ROOT / "docs" / "decisions").glob("*.md")), ids=lambda path: path.name
)
def test_a_decision_says_context_options_choice_and_when_to_look_again(path: Path) -> None:
    heads = re.findall(r"^## (.+)$", path.read_text(encoding="utf-8"), re.MULTILINE)
    assert heads == ["Context", "Options", "Choice", "When to look again"]
