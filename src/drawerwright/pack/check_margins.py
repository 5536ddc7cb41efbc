"""A check's margin as people read it: none where it says no more than yes or no."""

from __future__ import annotations

from drawerwright.model.check_names import check_name, says_yes_or_no
from drawerwright.model.fitted import Check
from drawerwright.pack.figures import margin_text
from drawerwright.pack.shown import Shown


def check_margin_text(check_id: str, margin: float, unit: str, shown: Shown) -> str:
    """The margin with its unit; empty where mark and word say all."""
    return "" if says_yes_or_no(check_id, margin, unit) else margin_text(margin, unit, shown)


def check_working_text(check: Check) -> str:
    """The working of a check's margin; empty where there is none to work out."""
    return "" if says_yes_or_no(check.id, check.margin, check.unit) else check.working


def named_margin(check_id: str, margin: float, unit: str, shown: Shown) -> str:
    """A check's name, and its margin where it has one."""
    return f"{check_name(check_id)} {check_margin_text(check_id, margin, unit, shown)}".rstrip()
