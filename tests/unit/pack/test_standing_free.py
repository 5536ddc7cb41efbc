"""A cabinet that stands free says on its drawers' papers whether it tips, though the study is not made."""

from __future__ import annotations

import io
import subprocess
import sys
from typing import Any

import pdfplumber
import pytest

from drawerwright.carry import carry_job
from drawerwright.catalogue import load_families
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedJob
from drawerwright.model.job import Job
from drawerwright.model.standing_free import free_cabinets
from drawerwright.pack import pack_contents
from drawerwright.pack.distinct import distinct_drawers
from drawerwright.pack.job_sheet import job_sheet_data
from drawerwright.pack.shown import Shown
from drawerwright.pack.standing_free import balance_checks, balance_rows, balances_by_cabinet

BANK: dict[str, Any] = {
    "id": "A",
    "inside_width": 564,
    "freestanding": True,
    "size": {"width": 600, "height": 800, "depth": 560},
    "mass": 35,
    "interlock": False,
}
OVERLAY = {"style": "overlay", "thickness": 19, "overlay": 16, "gap": 3}


def drawer(name: str, row: int, height: float, floor: float, contents: float) -> dict[str, Any]:
    opening = {"width": 564, "height": height, "depth": 545, "floor": floor}
    told = {"id": name, "cabinet": "A", "row": row, "opening": opening, "side": 16, "front": OVERLAY}
    return {**told, "contents": contents}


def bank(**cabinet: Any) -> tuple[Job, FittedJob]:
    """Three drawers of an invented bank that stands free, and one in no cabinet."""
    rows = [drawer("A1", 1, 240, 18, 25), drawer("A2", 2, 200, 277, 15), drawer("A3", 3, 160, 496, 8)]
    alone = {"id": "T1", "opening": {"width": 562, "height": 168, "depth": 530}, "side": 16}
    told = {"title": "Bank (invented)", "cabinet": [{**BANK, **cabinet}], "drawer": [*rows, alone]}
    job = job_from_mapping(told)
    return job, fit_job(job, load_families(None))


def pages(content: bytes) -> list[str]:
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        return [page.extract_text() for page in pdf.pages]


def test_a_bank_that_tips_says_so_on_the_job_sheet_and_on_the_sheets_of_its_drawers_and_on_no_other() -> None:
    job, fitted = bank()
    made = pack_contents(job, fitted)
    assert "carrying.pdf" not in made
    cover, *sheets = pages(made["sheets.pdf"])
    told = " ".join(cover.split())
    assert "Cabinet A" in told
    assert "Tips" in told
    margin = balances_by_cabinet(fitted.drawers, "mm")["A"].margin
    assert margin.startswith("−")
    assert margin in told
    for words in ("Anchor it to the wall", "interlock", "ballast", "Local codes", "no standard is said"):
        assert words in told
    for name, text in zip(("A1", "A2", "A3"), sheets, strict=False):
        assert margin in text, name
        assert "Anchor it" in " ".join(text.split())
    assert "Stands free" not in sheets[-1]
    assert "N m" not in sheets[-1]


def test_the_papers_margin_is_that_of_the_study() -> None:
    _, fitted = bank()
    checks = [one for drawer in carry_job(fitted).drawers for one in drawer.checks if one.id == "tipping"]
    told = balances_by_cabinet(fitted.drawers, "mm")["A"]
    assert {one.margin for one in checks} == {checks[0].margin}
    shown = float(told.margin.removesuffix(" N m").replace("−", "-"))
    assert checks[0].margin - 1 < shown <= checks[0].margin
    assert told.state == checks[0].state == "stop"


@pytest.mark.parametrize(
    ("cabinet", "state", "word"),
    [({}, "stop", "Tips"), ({"mass": 60, "interlock": True}, "watch", "Stands, with care")],
)
def test_what_stands_and_what_tips_each_say_anchor_it_and_defer(
    cabinet: dict[str, Any], state: str, word: str
) -> None:
    _, fitted = bank(**cabinet)
    balances = balances_by_cabinet(fitted.drawers, "mm")
    (row,), (check,) = balance_rows(fitted.drawers, balances), balance_checks(fitted.drawers, balances)
    assert (row["state"], row["word"], row["cabinet"]) == (state, word, "A")
    for says in (row["says"], check["says"]):
        assert "Anchor it to the wall" in says
        assert "Local codes and the maker's own instructions come first" in says
    assert row["margin"] == check["margin"]
    assert row["margin"].endswith(" N m")


def test_a_part_of_the_sheets_tells_of_the_cabinets_of_its_drawers_only_and_weighs_all_drawers() -> None:
    _, fitted = bank()
    distinct = distinct_drawers(fitted)
    of_bank = [alike for alike in distinct if alike.first.cabinet is not None]
    keys = [f"sheet-{number}" for number in range(len(distinct))]
    whole = job_sheet_data(fitted, distinct, keys, Shown())["free"]
    first = job_sheet_data(fitted, of_bank[:1], keys[:1], Shown(), (1, 2))["free"]
    others = [alike for alike in distinct if alike.first.cabinet is None]
    last = job_sheet_data(fitted, others, keys[: len(others)], Shown(), (2, 2))["free"]
    assert first == whole
    assert last == []


def test_where_nothing_stands_free_no_balance_is_worked_out_and_none_is_told() -> None:
    _, fitted = bank(freestanding=False)
    assert free_cabinets(fitted.drawers) == ()
    assert balances_by_cabinet(fitted.drawers, "mm") == {}
    distinct = distinct_drawers(fitted)
    data = job_sheet_data(fitted, distinct, [f"sheet-{at}" for at in range(len(distinct))], Shown())
    assert data["free"] == []


def test_papers_bring_in_no_balance_and_a_balance_none_of_the_studys_numerics() -> None:
    code = (
        "import sys, drawerwright.pack, drawerwright.pack.sheets\n"
        "assert 'drawerwright.carry.tipping' not in sys.modules\n"
        "import drawerwright.carry.balance_told\n"
        "assert 'drawerwright.carry.tipping' in sys.modules\n"
        "assert 'scipy.integrate' not in sys.modules, 'the study came in'\n"
        "assert 'drawerwright.carry.study' not in sys.modules\n"
        "from drawerwright.carry import carry_job\n"
        "assert 'drawerwright.carry.study' in sys.modules\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr


def test_the_study_has_no_other_names_than_its_own() -> None:
    import drawerwright.carry as study

    with pytest.raises(AttributeError, match="no attribute 'carries'"):
        _ = study.carries
