"""Words of a sheet are a cabinetmaker's: no words of the file, and what a change comes to."""

from __future__ import annotations

from drawerwright.catalogue import load_families
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.web.sheet.asked import Asked
from drawerwright.web.sheet.changes import change_rows


def test_a_change_that_is_a_choice_is_said_in_words_not_by_the_word_of_the_file() -> None:
    drawer = {
        "id": "D",
        "opening": {"width": 562, "height": 168, "depth": 530},
        "side": 16,
        "mount": "side",
        "slide": "house-16/600",
    }
    one = fit_job(job_from_mapping({"drawer": [drawer]}), load_families(None)).drawers[0]
    rows = change_rows(one, Asked("/", {}), {})
    chosen = [row for row, change in zip(rows, one.changes, strict=True) if change.to]
    assert chosen
    assert {row.by for row in chosen} == {""}
    assert all(row.says for row in chosen)


def test_a_subfront_that_is_too_thick_says_what_seats_it_and_what_only_latches() -> None:
    drawer = {
        "id": "D",
        "opening": {"width": 562, "height": 168, "depth": 530},
        "side": 16,
        "subfront": 18,
        "slide": "house-16/500",
    }
    one = fit_job(job_from_mapping({"drawer": [drawer]}), load_families(None)).drawers[0]
    along = next(check for check in one.checks if check.id == "latch-along")
    assert "a subfront 2 mm thinner seats them" in along.says
    least = next(change for change in one.changes if change.change == "subfront")
    assert least.says == "Take a subfront at least 1 mm thinner."
