"""`drawerwright align` and `drawerwright season` on the command line."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

JOB = """title = "Invented: one front"
[[drawer]]
id = "A"
opening = { width = 562, height = 168, depth = 530 }
side = 16
front = { style = "inset" }
slide = "house-16"
"""
HEAD = "drawer,left_top,left_bottom,right_top,right_bottom,top_left,top_right,bottom_left,bottom_right"


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """One inset front."""
    path = tmp_path / "job.toml"
    path.write_text(JOB, encoding="utf-8")
    return path


@pytest.fixture
def gaps(tmp_path: Path) -> Path:
    """A front that stands right and low."""
    path = tmp_path / "gaps.csv"
    path.write_text(f"{HEAD}\nA,4,4,2,2,4,4,2,2\n", encoding="utf-8")
    return path


def test_align_tells_steps_with_the_gaps_to_expect(command, job: Path, gaps: Path) -> None:  # type: ignore[no-untyped-def]
    ran = command("align", job, "--gaps", gaps)
    assert (ran.code, ran.err) == (0, "")
    stands = "stands 1 mm right (sure within 0.05 mm), 1 mm low (sure within 0.05 mm)"
    assert f"A  {stands}; the readings do not tell z, yaw, pitch" in ran.out
    assert "1. both brackets: raise 4 marks (1 mm)" in ran.out
    assert "then left 3 | 3, right 3 | 3, top 3 | 3, bottom 3 | 3" in ran.out


def test_align_tells_lengths_in_the_units_wanted(command, job: Path, gaps: Path) -> None:  # type: ignore[no-untyped-def]
    inches = " ".join(command("align", job, "--gaps", gaps, "--units", "in").out.split())
    assert "stands 3/64 in (1 mm) right" in inches
    assert "raise 4 marks (3/64 in, 1 mm)" in inches
    assert "then left 1/8 in (3 mm) | 1/8 in (3 mm)" in inches
    both = " ".join(command("align", job, "--gaps", gaps, "--units", "both").out.split())
    assert "stands 1 mm (3/64 in) right" in both
    assert " in " not in command("align", job, "--gaps", gaps).out.split("Note")[0]


def test_what_holds_for_several_fronts_is_noted_once(command, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    path, told = tmp_path / "two.toml", tmp_path / "gaps.csv"
    path.write_text(JOB + JOB.partition("\n")[2].replace('"A"', '"B"'), encoding="utf-8")
    told.write_text(f"{HEAD}\nA,3,3,3,3,3,3,3,3\nB,3,3,3,3,3,3,3,3\n", encoding="utf-8")
    ran = command("align", path, "--gaps", told)
    assert ran.out.count("was not told: all are taken as delivered") == 1
    assert "Note (all fronts): where the adjusters stand" in ran.out
    assert "next: the moves" not in ran.out


def test_align_in_json_is_the_document_alone(command, job: Path, gaps: Path) -> None:  # type: ignore[no-untyped-def]
    ran = command("align", job, "--gaps", gaps, "--json")
    told = json.loads(ran.out)
    assert told["schema"] == "drawerwright/align/1"
    assert [move["marks"] for move in told["fronts"][0]["moves"]] == [4, -4]


def test_a_line_is_met_and_a_wrong_one_refused(command, job: Path, gaps: Path) -> None:  # type: ignore[no-untyped-def]
    told = json.loads(command("align", job, "--gaps", gaps, "--line", "A.left_top=3.5 mm", "--json").out)
    assert told["target"] == "line"
    assert told["fronts"][0]["expected"]["left_top"] == pytest.approx(3.5, abs=0.15)
    for word, says in (
        ("A.left_tip=3", "left_top"),
        ("A.left_top", "is not a reading"),
        ("B.left_top=3", "was not measured"),
        ("A.out_top_left=0", "was not measured"),
        ("A.left_top=x", "cannot be read"),
    ):
        ran = command("align", job, "--gaps", gaps, "--line", word)
        assert ran.code == 2, word
        assert says in ran.err, word
    assert command("align", job, "--gaps", gaps, "--target", "line").code == 2
    assert command("align", job, "--gaps", gaps, "--target", "house", "--line", "A.left_top=3").code == 2


def test_a_second_round_tells_the_true_mark(command, job: Path, gaps: Path, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    again = tmp_path / "again.csv"
    again.write_text(f"{HEAD}\nA,3,3,3,3,2.8,2.8,3.2,3.2\n", encoding="utf-8")
    ran = command("align", job, "--gaps", again, "--first-round", gaps, "--json")
    travel = {(one["side"], one["adjuster"]): one["mm"] for one in json.loads(ran.out)["travel"]}
    assert travel["left", "height"] == pytest.approx(0.3, abs=0.02)
    shown = command("align", job, "--gaps", again, "--first-round", gaps).out
    assert re.search(r"A left height: a mark is 0\.\d+ mm \(± 0\.\d+ mm\), by the family 0\.25 mm", shown)


def test_faults_of_gaps_are_told_with_file_and_cell(command, job: Path, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    path = tmp_path / "gaps.csv"
    path.write_text(f"{HEAD}\nA,-1,,,,,,,\n", encoding="utf-8")
    ran = command("align", job, "--gaps", path)
    assert ran.code == 2
    assert "gaps.csv:2 left_top" in ran.err
    assert command("align", job, "--gaps", tmp_path / "none.csv").code == 2


def test_drawings_are_written_once(command, job: Path, gaps: Path, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    out = tmp_path / "out"
    ran = command("align", job, "--gaps", gaps, "--out", out)
    assert ran.code == 0
    assert {path.name for path in out.iterdir()} == {"A-gaps.svg", "A-moves.svg"}
    again = command("align", job, "--gaps", gaps, "--out", out)
    assert again.code == 2
    assert "is there already" in again.err


def test_season_tells_what_to_set_today(command, job: Path, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    out = tmp_path / "charts"
    ran = command("season", job, "--species", "cherry", "--out", out)
    assert ran.code == 0
    assert "black cherry, flat-sawn, height across the grain" in ran.out
    assert [path.name for path in out.iterdir()] == ["A-season.svg"]
    told = json.loads(command("season", job, "--species", "cherry", "--wet", "75F/60", "--json").out)
    assert told["moisture"]["wet"]["humidity"] == 0.6


def test_season_says_all_that_it_cannot_read(command, job: Path) -> None:  # type: ignore[no-untyped-def]
    ran = command("season", job, "--species", "iron", "--now", "hot", "--limit", "x")
    assert ran.code == 2
    assert all(option in ran.err for option in ("--species", "--now", "--limit"))


def test_season_reads_a_bare_limit_as_the_job_does_and_tells_gaps_in_its_units(  # type: ignore[no-untyped-def]
    command, job: Path, tmp_path: Path
) -> None:
    inches = tmp_path / "inches.toml"
    text = JOB.replace("[[drawer]]", 'units = "in"\n[[drawer]]', 1).replace("side = 16", 'side = "16 mm"')
    text = text.replace("562, height = 168, depth = 530", '"562 mm", height = "168 mm", depth = "530 mm"')
    inches.write_text(text, encoding="utf-8")
    told = json.loads(command("season", inches, "--species", "red oak", "--limit", "0.0625", "--json").out)
    assert told["limit"] == pytest.approx(25.4 / 16)
    assert "1/16 in" in command("season", inches, "--species", "red oak", "--limit", "1/16").out
    assert " in " not in command("season", job, "--species", "red oak").out.split("Movement:")[0]
    both = command("season", job, "--species", "red oak", "--units", "both").out
    assert re.search(r"[\d.]+ mm \(\d+/\d+ in\)", both)


def test_season_tells_what_to_plane_off_a_front_that_is_too_tight(command, job: Path) -> None:  # type: ignore[no-untyped-def]
    ran = command("season", job, "--species", "red oak", "--limit", "4")
    told = json.loads(command("season", job, "--species", "red oak", "--limit", "4", "--json").out)
    (front,) = told["fronts"]
    lacks = sum(gap["set_today"] - gap["as_cut"] for gap in front["gaps"])
    says = f"A: cut to the job's size it has too little room in the wet season: plane {round(lacks, 1):g} mm"
    assert says in " ".join(ran.out.split())
    assert "plane" not in command("season", job, "--species", "red oak", "--limit", "0").out
