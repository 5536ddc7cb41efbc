"""Room on paper: headings above their sentences, long ids in narrow columns, words beside many numbers."""

from __future__ import annotations

import io
from typing import Any

import pdfplumber
from pack_builders import fitting, job_of, not_fitting

from drawerwright.catalogue import families_from_mappings
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedJob
from drawerwright.pack import pack_contents
from drawerwright.pack.cut_list import cut_list
from drawerwright.pack.labels import label_files
from drawerwright.pack.mounting_sheet import mounting_files
from drawerwright.pack.papers import papers
from drawerwright.pack.printed_lists import printed_lists
from drawerwright.pack.shown import Shown

FAMILY = {
    "id": "plain-16",
    "invented": True,
    "capacity": "45 kg",
    "inside_width_deduction": 42,
    "length": [{"nominal": 500, "holes": [0, 32, 224]}],
}
LONG = "Workshop-north-wall-base-cabinet-3-second-drawer-from-the-top"


def words_of(content: bytes, page: int = 0) -> list[dict[str, Any]]:
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        return pdf.pages[page].extract_words()


def test_with_nothing_to_label_the_heading_stands_clear_of_the_sentence() -> None:
    ((_, content),) = label_files(job_of(not_fitting())[1], "a4", Shown())
    words = words_of(content)
    sentence = next(word for word in words if word["text"] == "No")
    heading = [word for word in words if word["top"] < sentence["top"]]
    assert heading
    assert max(word["bottom"] for word in heading) < sentence["top"]


def test_a_long_id_leaves_the_other_columns_of_the_mounting_sheet_their_room() -> None:
    def first_column(name: str) -> float:
        ((_, content),) = mounting_files(job_of(fitting(name))[1], papers()["a4"], Shown())
        words = words_of(content, 1)
        return float(next(word["x0"] for word in words if word["text"] == "Slide"))

    wider_by = first_column(LONG) - first_column("A")
    assert 0 < wider_by < 35 * 72 / 25.4


def test_work_has_a_line_of_its_own_where_inches_and_banding_stand_beside_it() -> None:
    told = {
        "id": LONG,
        "opening": {"width": 562, "height": 168, "depth": 530},
        "side": 16,
        "front": {"style": "overlay", "edging": 1},
    }
    fitted: FittedJob = fit_job(job_from_mapping({"drawer": [told]}), families_from_mappings([FAMILY]))
    shown = Shown("both")
    ((_, content),) = printed_lists("Job", (cut_list(fitted, shown),), papers()["a4"], shown)
    lines = words_of(content)
    groove = next(word for word in lines if word["text"] == "groove")
    beside = [word for word in lines if abs(word["top"] - groove["top"]) < 2]
    assert len(beside) > 10
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        width = pdf.pages[0].width
    assert max(word["x1"] for word in lines) < width
    part = next(word for word in lines if word["text"] == "side")
    assert part["top"] < groove["top"]


def test_the_cure_is_set_larger_than_what_was_refused() -> None:
    job, answer = job_of(not_fitting())
    content = pack_contents(job, answer, only=["sheets"])["sheets.pdf"]
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        (page,) = (page for page in pdf.pages if "What was tried" in page.extract_text())
        words = page.extract_words(extra_attrs=["size"])
    cures = [word["size"] for word in words if word["text"] == "+65.0"]
    refused = [word["size"] for word in words if word["text"] == "−65.0"]
    assert cures
    assert refused
    assert min(cures) > 1.4 * refused[-1]
