"""What stands in the repository's files."""

from __future__ import annotations

import re

# Folders of somebody's machine; a path of ours is always relative.
MACHINE_PATH = re.compile(
    r"(?<![\w.~:/<-])/(?:home|root|Users|work|workspace|mnt|srv|opt|var|tmp)/\w|[A-Z]:\\\\?Users"
)
UNFINISHED = re.compile(r"\b(?:TO" + r"DO|FIX" + r"ME|NotImplemented" + r"Error)\b")


def test_no_file_names_a_path_of_a_machine(our_texts: dict[str, str]) -> None:
    here = "tests/unit/house/test_files.py"
    found = {name: MACHINE_PATH.findall(text) for name, text in our_texts.items() if name != here}
    assert {name: hits for name, hits in found.items() if hits} == {}


def test_the_look_for_machine_paths_sees_one() -> None:
    assert MACHINE_PATH.search('open("/home/somebody/job.toml")')
    assert not MACHINE_PATH.search("docs/home/plan.md and https://example.org/home/page")


def test_nothing_is_left_unfinished(our_texts: dict[str, str]) -> None:
    sources = {
        name: text for name, text in our_texts.items() if name.startswith(("src/", "tests/", "tools/"))
    }
    assert [name for name, text in sources.items() if UNFINISHED.search(text)] == []


def test_every_folder_of_the_package_that_holds_modules_is_a_package(our_texts: dict[str, str]) -> None:
    modules = [name for name in our_texts if name.startswith("src/") and name.endswith(".py")]
    folders = {name.rpartition("/")[0] for name in modules}
    assert [folder for folder in sorted(folders) if f"{folder}/__init__.py" not in our_texts] == []


def test_no_text_file_has_trailing_blanks_or_foreign_line_ends(our_texts: dict[str, str]) -> None:
    texts = {name: text for name, text in our_texts.items() if name.endswith((".py", ".toml", ".md", ".typ"))}
    assert [name for name, text in texts.items() if "\r" in text or re.search(r"[ \t]\n", text)] == []
