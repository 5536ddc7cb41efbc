"""What the commands answer: JSON alone where it is asked for, tables that cut nothing where not."""

from __future__ import annotations

import hashlib
import io
import json
import re
from pathlib import Path

import pytest
from rich.console import Console

from drawerwright.catalogue.families import load_families
from drawerwright.cli.verdicts import show_job
from drawerwright.files import read_job
from drawerwright.fit import fit_document, fit_job
from drawerwright.model.check_names import says_yes_or_no

FITS = 'opening = { width = 562, height = 168, depth = 530 }\nside = 16\ncontents = "20 kg"\n'

SCHEMAS = {
    "fit": "drawerwright/fit/1",
    "job check": "drawerwright/job-check/1",
    "job new": "drawerwright/job-new/1",
    "slides list": "drawerwright/slides/1",
    "slides show": "drawerwright/slides-show/1",
    "slides check": "drawerwright/slides-check/1",
}


@pytest.mark.parametrize("name", SCHEMAS)
def test_json_is_one_document_and_nothing_else(command, template_job, name: str) -> None:
    last = {"fit": [template_job], "job check": [template_job], "slides show": ["house-16"]}.get(name, [])
    ran = command(*name.split(), *last, "--json")
    assert (ran.code, ran.err) == (0, "")
    assert json.loads(ran.out)["schema"] == SCHEMAS[name]


def test_the_json_of_fit_is_the_document_of_fit(command, mixed_job) -> None:
    fitted = fit_job(read_job(mixed_job), load_families())
    assert json.loads(command("fit", mixed_job, "--json").out) == fit_document(fitted)


def test_the_same_job_gives_the_same_output_twice(command, mixed_job) -> None:
    for options in ([], ["--json"], ["--explain", "--units", "both"]):
        assert command("fit", mixed_job, *options).out == command("fit", mixed_job, *options).out


def test_a_row_has_mark_and_word_slide_box_first_hole_and_front(command, template_job) -> None:
    row = next(line for line in command("fit", template_job).out.splitlines() if "A-2" in line)
    fitted = json.loads(command("fit", template_job, "--json").out)["drawers"][1]
    assert "✓ fits" in row
    assert f"{fitted['slide']['family']}/{fitted['slide']['nominal']:g}" in row
    box, front = fitted["box"], fitted["front"]
    assert f"{box['outside_width']:g} × {box['height']:g} × {box['length']:g} mm" in row
    assert f"{fitted['mounting']['holes'][0]:g} mm" in row
    assert f"{front['width']:g} × {front['height']:g} mm" in row


def test_a_drawer_that_does_not_fit_says_what_stopped_it_by_how_much_and_the_cure(command, mixed_job) -> None:
    out = command("fit", mixed_job).out
    shallow = json.loads(command("fit", mixed_job, "--json").out)["drawers"][1]
    (change,) = [one for one in shallow["changes"] if one["change"] == "opening.depth"]
    assert "✗ does not fit" in out
    nearest = shallow["nearest"]
    assert f"Nearest: {nearest['family']}/{nearest['nominal']:g} on the cabinet side." in out
    assert f"cabinet-depth −{change['by']:g} mm" in out
    assert f"Cure: {change['says']}" in out
    assert "3 drawers: 2 fit, 1 does not fit." in out


def test_explain_shows_every_check_with_its_working_and_once_its_source(command, template_job) -> None:
    lines = command("fit", template_job, "--explain").out
    out, (checks_part, sources) = " ".join(lines.split()), lines.split("On whose word the checks stand:")
    found = [
        one
        for drawer in json.loads(command("fit", template_job, "--json").out)["drawers"]
        for one in drawer["checks"]
    ]
    assert len(found) > 20
    for check in found:
        yes_or_no = says_yes_or_no(check["id"], check["margin"], check["unit"])
        assert (f"{check['id']} margin " in out) is not yes_or_no or not check["unit"]
        assert " ".join(check["says"].split()) in out
        worked_out = " = " in check["working"] and not yes_or_no
        assert (f"working: {check['working']}" in out) or not worked_out
        assert not yes_or_no or f"working: {check['working']} " not in out
        assert check["source"] in sources
        assert check["id"] in sources
    assert "source: " not in checks_part
    assert not re.search(r"working: [−\d. /]+ (mm|in)$", lines, re.MULTILINE)


def test_explain_shows_every_rejected_length_with_what_it_lacks_in_a_line_a_family_and_reason(
    command, mixed_job
) -> None:
    out = command("fit", mixed_job, "--explain").out
    rejected = json.loads(command("fit", mixed_job, "--json").out)["drawers"][1]["rejected"]
    assert len(rejected) > 40
    tried = " ".join(out.rsplit("Tried and rejected", 1)[1].split())
    reasons = {(one["family"], one["mount"], one["because"]) for one in rejected}
    assert tried.count(", cabinet-depth: ") == sum(reason[2] == "cabinet-depth" for reason in reasons)
    for one in rejected:
        if one["because"] == "cabinet-depth":
            assert re.search(rf"\b{one['nominal']:g} −{-one['margin']:g} mm", tried)


def test_inches_are_shown_to_a_32nd_and_both_units_side_by_side(command, template_job) -> None:
    inches, both = (command("fit", template_job, "--units", units).out for units in ("in", "both"))
    assert "19 11/16 in" in inches  # 500 mm is 19.685 in; 19 22/32 is the nearest 32nd
    assert "500 mm" not in inches
    assert "500 mm" in both
    assert "19 11/16 in" in both


def test_a_job_in_inches_is_shown_in_inches_unless_told(command, tmp_path) -> None:
    command("job", "new", "--units", "in", "--out", tmp_path / "inch.toml")
    assert "19 11/16 in" in command("fit", tmp_path / "inch.toml").out
    assert "500 mm" in command("fit", tmp_path / "inch.toml", "--units", "mm").out


def test_a_long_id_is_never_cut_when_piped(command, tmp_path) -> None:
    long_id = "the-drawer-under-the-stairs-beside-the-boiler-that-nobody-ever-opens"
    job = tmp_path / "job.toml"
    job.write_text(
        f'[[drawer]]\nid = "{long_id}"\nopening = {{ width = 562, height = 168, depth = 530 }}\nside = 16\n'
    )
    out = command("fit", job).out
    assert long_id in out
    assert "…" not in out
    assert "fits" in out


@pytest.mark.parametrize("width", [40, 80, 100, 200])
def test_no_console_is_too_narrow_for_any_word_of_the_answer(mixed_job: Path, width: int) -> None:
    fitted = fit_job(read_job(mixed_job), load_families())
    page = io.StringIO()
    show_job(Console(file=page, width=width, markup=False, highlight=False, emoji=False), fitted, "mm")
    told = page.getvalue()
    box = fitted.drawers[0].box
    assert box is not None
    assert "…" not in told
    for word in (
        "good ×2",
        "shallow",
        "house-16/500",
        f"{box.outside_width:g}",
        "✗ does not fit",
        "3 drawers",
    ):
        assert word in told


def test_markup_in_a_title_or_an_id_is_shown_as_it_stands(command, tmp_path) -> None:
    job = tmp_path / "job.toml"
    job.write_text(
        'title = "[bold]x[/bold] :smile:"\n[[drawer]]\nid = "[red]a[/]"\n'
        "opening = { width = 562, height = 168, depth = 530 }\nside = 16\n"
    )
    out = command("fit", job).out
    assert "[bold]x[/bold] :smile:" in out
    assert "[red]a[/]" in out


def test_slides_given_replace_the_shipped_ones(command, tmp_path, template_job) -> None:
    family = tmp_path / "mine.toml"
    family.write_text(
        'id = "mine"\ninvented = true\ncapacity = "40 kg"\ninside_width_deduction = 42\n'
        "[[length]]\nnominal = 400\nholes = [0, 32, 224]\nrear_slot = true\n"
    )
    listed = json.loads(command("slides", "list", "--slides", family, "--json").out)
    assert [one["id"] for one in listed["families"]] == ["mine"]
    fitted = json.loads(command("fit", template_job, "--slides", family, "--json").out)
    assert {one["slide"]["family"] for one in fitted["drawers"] if one["slide"]} == {"mine"}


def test_slides_check_tells_what_was_left_to_common_practice(command, tmp_path) -> None:
    family = tmp_path / "mine.toml"
    family.write_text(
        'id = "mine"\ncapacity = "40 kg"\ninside_width_deduction = 42\n[[length]]\nnominal = 400\n'
    )
    remarks = json.loads(command("slides", "check", family, "--json").out)["families"][0]["remarks"]
    assert {"setback", "source"} <= {one["where"] for one in remarks}
    out = " ".join(command("slides", "check", family).out.split())
    assert [one for one in remarks if f"mine: {one['where']} {one['says']}" not in out] == []
    assert "1 family can be used." in out


def test_slides_show_names_every_length_and_what_it_carries(command) -> None:
    out = command("slides", "show", "heavy-19").out
    family = next(one for one in load_families() if one.id == "heavy-19")
    rows = out[out.index("Lengths") :].splitlines()
    for one in family.lengths:
        assert any(f" {one.nominal:g} " in row and f"{family.capacity_at(one):g} kg" in row for row in rows)


def test_slides_show_keeps_quarters_of_a_millimetre(command) -> None:
    family = next(one for one in load_families() if one.id == "house-16")
    line = next(
        row for row in command("slides", "show", "house-16").out.splitlines() if "adjust_step.side" in row
    )
    assert f"{family.adjust_step.side:g} mm" in line


def test_a_new_job_can_be_checked_and_fitted(command, tmp_path) -> None:
    for units in ("mm", "in"):
        job = tmp_path / f"{units}.toml"
        assert command("job", "new", "--out", job, "--units", units).code == 0
        assert command("job", "check", job).code == 0
        verdicts = [one["verdict"] for one in json.loads(command("fit", job, "--json").out)["drawers"]]
        assert verdicts
        assert "does-not-fit" not in verdicts


def test_a_new_job_never_replaces_a_file(command, tmp_path) -> None:
    job = tmp_path / "kitchen.toml"
    job.write_text("mine")
    ran = command("job", "new", "--out", job)
    assert ran.code == 2
    assert job.read_text() == "mine"
    assert list(tmp_path.iterdir()) == [job]


def test_a_new_job_in_a_folder_that_is_not_there_is_bad_input(command, tmp_path) -> None:
    ran = command("job", "new", "--out", tmp_path / "nowhere" / "kitchen.toml")
    assert ran.code == 2
    assert "kitchen.toml" in ran.err


def test_job_check_computes_nothing_and_shows_what_was_read(command, mixed_job, monkeypatch) -> None:
    def broken(*_: object, **__: object) -> None:
        raise AssertionError("job check fitted")

    monkeypatch.setattr("drawerwright.fit.fit_job", broken)
    ran = command("job", "check", mixed_job)
    assert ran.code == 0
    assert "562 × 168 × 530 mm" in ran.out
    assert "3 drawers" in ran.out


def test_a_pack_is_written_and_its_json_is_its_manifest(command, mixed_job, tmp_path) -> None:
    ran = command("pack", mixed_job, "--out", tmp_path / "pack", "--json")
    assert ran.code == 0
    manifest = json.loads(ran.out)
    assert manifest == json.loads((tmp_path / "pack" / "manifest.json").read_text(encoding="utf-8"))
    for entry in manifest["files"]:
        content = (tmp_path / "pack" / entry["path"]).read_bytes()
        assert hashlib.sha256(content).hexdigest() == entry["sha256"]


def test_a_pack_is_listed_in_a_few_lines_that_count_every_file(command, mixed_job, tmp_path) -> None:
    out = command("pack", mixed_job, "--out", tmp_path / "pack").out
    files = json.loads((tmp_path / "pack" / "manifest.json").read_text(encoding="utf-8"))["files"]
    drawings = [entry for entry in files if entry["path"].startswith("dxf/")]
    assert f"dxf/  {len(drawings)} files" in out
    assert f"{len(files)} files and their manifest are in {tmp_path / 'pack'}." in out
    at_the_top = {entry["path"].partition("/")[0] for entry in files}
    assert len(out.splitlines()) == len(at_the_top) + len(["where they are", "how many drawers fit"])


def test_a_pack_with_strict_is_written_although_a_drawer_does_not_fit(command, mixed_job, tmp_path) -> None:
    ran = command("pack", mixed_job, "--out", tmp_path / "pack", "--strict")
    assert ran.code == 3
    assert (tmp_path / "pack" / "fit.json").is_file()
    assert "sheets.pdf" in ran.out


def test_a_pack_leaves_a_folder_with_other_files_alone(command, mixed_job, tmp_path) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "letter.txt").write_text("dear")
    ran = command("pack", mixed_job, "--out", tmp_path / "mine")
    assert ran.code == 2
    assert [path.name for path in (tmp_path / "mine").iterdir()] == ["letter.txt"]


def test_the_demo_goes_all_the_way_and_has_one_drawer_that_cannot_fit(command, tmp_path) -> None:
    ran = command("demo", "--out", tmp_path / "demo", "--json")
    assert ran.code == 0
    answer = json.loads(ran.out)
    verdicts = [one["verdict"] for one in answer["fit"]["drawers"]]
    assert verdicts.count("does-not-fit") == 1
    assert {"fits", "fits-with-care"} < set(verdicts)
    kinds = {Path(entry["path"]).suffix for entry in answer["pack"]["files"]}
    assert {".pdf", ".dxf", ".xlsx", ".csv", ".json", ".toml"} <= kinds


WATCHED = (
    '[[drawer]]\nid = "A"\nopening = { width = [562, 561], height = 168, depth = 530 }\nside = 16\n'
    'mount = "shelf"\n'
)


def test_what_to_watch_is_said_in_a_few_words_not_as_a_margin_that_is_left(
    command, tmp_path, monkeypatch
) -> None:
    (tmp_path / "job.toml").write_text(WATCHED)
    monkeypatch.setenv("COLUMNS", "70")  # too narrow for a table: the cells stand one below the other
    watched = " ".join(command("fit", tmp_path / "job.toml").out.split("\n\n")[0].split())
    assert (
        "To watch: opening-taper: say which is front and which is back, shelf-fixed: screw or lock" in watched
    )
    assert "opening-taper 0.5 mm" not in watched


def test_a_count_that_lacks_is_told_in_a_word(command, tmp_path) -> None:
    (tmp_path / "job.toml").write_text(WATCHED.replace("530", "310").replace("[562, 561]", "562"))
    out = command("fit", tmp_path / "job.toml", "--explain").out
    assert "shelf-holes: none" in out.splitlines()[3]
    assert "shelf-holes −1" not in out


@pytest.mark.parametrize("width", [60, 90, 140])
def test_a_pipe_is_as_wide_as_columns_says_and_no_line_ends_in_blanks(
    command, template_job, monkeypatch, width: int
) -> None:
    for arguments in (
        ("fit", template_job),
        ("fit", template_job, "--explain"),
        ("job", "check", template_job),
    ):
        monkeypatch.setenv("COLUMNS", str(width))
        lines = command(*arguments).out.splitlines()
        assert max(len(line) for line in lines) <= width
        assert [line for line in lines if line != line.rstrip()] == []
        monkeypatch.setenv("COLUMNS", "wide")
        wide = command(*arguments).out.splitlines()
        assert max(len(line) for line in wide) >= max(len(line) for line in lines)
        assert [line for line in wide if line != line.rstrip()] == []


def test_inches_are_said_once_to_be_rounded_and_small_margins_stay_in_mm(command, template_job) -> None:
    out = command("fit", template_job, "--units", "in", "--explain").out
    assert out.count("rounded to 1/32 in") == 1
    assert re.search(r"side-thickness  margin [\d.]+ mm", out)
    assert not re.search(r"margin −?(1/8|3/32|1/16|1/32|0) in", out)
    assert re.search(r"capacity  margin [\d.]+ lb", out)
    assert "37 mm (1 15/32 in)" in out
    assert "rounded to 1/32 in" not in command("fit", template_job).out


def test_numbers_of_hardware_keep_their_millimetres_beside_inches(command) -> None:
    out = command("slides", "show", "house-16", "--units", "in").out
    family = next(one for one in load_families() if one.id == "house-16")
    for name, value in (("rear.bore ", family.rear.bore), ("setback", family.setback)):
        line = next(row for row in out.splitlines() if row.strip().startswith(name))
        assert f"{value:g} mm (" in line
    spacers = next(row for row in out.splitlines() if row.strip().startswith("spacers"))
    assert spacers.split()[1:] == ["3", "mm"]


def test_a_slide_that_nobody_has_is_told_with_its_line(command, tmp_path) -> None:
    job = tmp_path / "job.toml"
    job.write_text(f'[[drawer]]\nid = "A"\nslide = "hous-16"\n{FITS}')
    assert command("fit", job).err.startswith(
        'drawerwright: job.toml:3 drawer A slide: "hous-16" is not among'
    )
    assert 'try "house-16"' in command("job", "check", job).err


def test_a_slide_that_nobody_has_among_the_defaults_is_told_once(command, tmp_path) -> None:
    job = tmp_path / "job.toml"
    job.write_text(
        f'[defaults]\nslide = "house-16/501"\n[[drawer]]\nid = "A"\n{FITS}[[drawer]]\nid = "B"\n{FITS}'
    )
    (error,) = json.loads(command("fit", job, "--json").out)["errors"]
    assert error["where"] == "job.toml:2 defaults.slide"
    assert error["try"] == '"house-16/500"'


def test_a_slide_that_nobody_has_is_told_with_its_cell(command, tmp_path) -> None:
    job = tmp_path / "job.csv"
    job.write_text("id,opening.width,opening.height,opening.depth,side,slide\nA,562,168,530,16,hous-16\n")
    (error,) = json.loads(command("fit", job, "--json").out)["errors"]
    assert "job.csv:2" in error["where"] or "F2" in error["where"]


def test_job_check_remarks_a_cabinet_that_nobody_describes(command, tmp_path) -> None:
    job = tmp_path / "job.toml"
    both = "".join(f'[[drawer]]\nid = "{id_}"\ncabinet = "K1"\n{FITS}' for id_ in "AB")
    job.write_text(both)
    out = command("job", "check", job).out
    assert out.count('no [[cabinet]] describes "K1"') == 1
    (remark,) = json.loads(command("job", "check", job, "--json").out)["remarks"]
    assert remark["where"] == "job.toml:3 drawer A cabinet"
    job.write_text(f'[[cabinet]]\nid = "K1"\n{both}')
    assert "[[cabinet]]" not in command("job", "check", job).out
    assert json.loads(command("job", "check", job, "--json").out)["remarks"] == []


def test_job_check_tells_what_the_reader_of_a_table_remarked(command, tmp_path) -> None:
    from openpyxl import Workbook

    book = Workbook()
    sheet = book.active
    sheet.title = "drawers"
    sheet.append(["id", "opening.width", "opening.height", "opening.depth", "side"])
    sheet.append(["A", 562, 168, 530, 16])
    book.create_sheet("prices")
    book.save(tmp_path / "job.xlsx")
    assert "prices: was not read" in command("job", "check", tmp_path / "job.xlsx").out


def test_job_check_counts_in_good_grammar_and_looks_like_fit(
    command, mixed_job, template_job, tmp_path
) -> None:
    one = tmp_path / "one.toml"
    one.write_text(f'[[drawer]]\nid = "A"\n{FITS}')
    assert "1 drawer in 1 entry; the file can be read." in command("job", "check", one).out
    checked = command("job", "check", mixed_job).out
    assert "3 drawers in 2 entries; the file can be read." in checked
    assert not set("┃│┏┗") & set(checked)
    assert (
        checked.splitlines()[1].strip("─ ") == command("fit", mixed_job).out.splitlines()[1].strip("─ ") == ""
    )


def test_the_help_of_a_job_names_every_kind_of_file_that_is_read(command) -> None:
    from drawerwright.files.jobs import SOURCES

    for name in ("fit", "pack", "job check"):
        job, *_ = json.loads(command(*name.split(), "--help", "--json").out)["arguments"]
        assert [ending for ending in SOURCES if ending.removeprefix(".").upper() not in job["says"]] == []


def test_fit_and_job_check_tell_of_a_frame_that_is_left_aside(command, tmp_path) -> None:
    job = tmp_path / "job.toml"
    frame = "frame = { left = 38, right = 41, thickness = 19 }"
    opening = "opening = { width = 562, height = 168, depth = 530 }"
    job.write_text(f'[[drawer]]\nid = "A"\n{opening}\nside = 16\n{frame}\n', encoding="utf-8")
    (remark,) = json.loads(command("job", "check", job, "--json").out)["remarks"]
    assert remark["where"] == "job.toml:5 drawer A frame"
    told = command("fit", job)
    assert told.code == 0
    assert f"drawerwright: {remark['where']}: {remark['says']}" in told.err
