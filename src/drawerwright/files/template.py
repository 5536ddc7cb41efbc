"""The commented job file that a new job starts from."""

from __future__ import annotations

from importlib.resources import files


def job_template() -> str:
    """A valid example of a job file, with comments; what it describes is invented."""
    return files(__package__).joinpath("template.toml").read_text(encoding="utf-8")
