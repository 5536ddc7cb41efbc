"""The guide for the first job is carried out as it stands: every command runs, every quoted line is told."""

from __future__ import annotations

import re
from pathlib import Path

GUIDE = Path(__file__).resolve().parents[3] / "docs" / "first-job.md"
STEP = re.compile(
    r"^    (?P<command>drawerwright [^\n]+)$|^```(?P<kind>toml|text)\n(?P<block>.*?)^```$", re.M | re.S
)


def with_openings(job: str, changed: str) -> str:
    """A job with its openings, in their order, replaced by those of a block."""
    openings = iter(re.findall(r"^opening = .+$", changed, re.MULTILINE))
    return re.sub(r"^opening = .+$", lambda _: next(openings), job, flags=re.MULTILINE)


def test_every_command_of_the_guide_runs_and_tells_what_the_guide_says(
    command, tmp_path: Path, monkeypatch
) -> None:
    monkeypatch.chdir(tmp_path)
    ran, told = [], ""
    for step in STEP.finditer(GUIDE.read_text(encoding="utf-8")):
        if step["command"]:
            answer = command(*step["command"].split()[1:])
            assert (step["command"], answer.code, answer.err) == (step["command"], 0, "")
            told = " ".join(answer.out.split())
            ran.append(step["command"])
        elif step["kind"] == "text":
            assert [line for line in step["block"].splitlines() if " ".join(line.split()) not in told] == []
        else:
            name, _, changed = step["block"].splitlines()[0].removeprefix("# ").partition(", ")
            path = tmp_path / name
            assert path.exists() == bool(changed)
            text = with_openings(path.read_text(), step["block"]) if changed else step["block"]
            path.write_text(text, encoding="utf-8")
    assert {words.split()[1] for words in ran} == {"job", "fit", "slides", "pack"}
    assert len(ran) >= 9
    assert (tmp_path / "washstand-pack" / "manifest.json").is_file()


def test_what_the_guide_says_of_the_marks_is_what_the_table_shows() -> None:
    from drawerwright.cli.wording import VERDICT_MARKS
    from drawerwright.model.fitted import VERDICT_WORDS

    text = GUIDE.read_text(encoding="utf-8")
    assert [f"**{VERDICT_MARKS[one]} {VERDICT_WORDS[one]}**" in text for one in VERDICT_MARKS] == [True] * 3


def test_the_readme_leads_to_the_guide() -> None:
    readme = (GUIDE.parents[1] / "README.md").read_text(encoding="utf-8")
    assert "(docs/first-job.md)" in readme
