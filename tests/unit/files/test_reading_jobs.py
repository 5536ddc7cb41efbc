from __future__ import annotations

from pathlib import Path

import pytest

from drawerwright.errors import Fault, InputError
from drawerwright.files import job_from_mapping, read_job

DRAWER = """
[[drawer]]
id = "B1-1"
opening = { width = 562, height = 168, depth = 530 }
side = 16
"""


@pytest.fixture
def faults_of(tmp_path: Path):
    def read(text: str | bytes, name: str = "job.toml") -> tuple[Fault, ...]:
        path = tmp_path / name
        path.write_bytes(text.encode() if isinstance(text, str) else text)
        with pytest.raises(InputError) as refused:
            read_job(path)
        return refused.value.faults

    return read


def written(tmp_path: Path, text: str, name: str = "job.toml") -> Path:
    path = tmp_path / name
    path.write_text(text, encoding="utf-8")
    return path


def test_a_small_job_is_read(tmp_path: Path) -> None:
    job = read_job(written(tmp_path, 'title = "a job"\n' + DRAWER))
    assert job.title == "a job"
    assert [drawer.id for drawer in job.drawers] == ["B1-1"]
    assert job.units == "mm"


def test_an_inch_job_is_converted_and_remembers_its_units(tmp_path: Path) -> None:
    text = """
units = "in"
[[drawer]]
id = "a"
opening = { width = ["22 1/8", 22.125], height = "168 mm", depth = "1' 9\\"" }
side = 0.5
contents = 10
"""
    job = read_job(written(tmp_path, text))
    assert job.units == "in"
    drawer = job.drawers[0]
    assert drawer.opening.width.values == (561.975, 561.975)
    assert drawer.opening.height.values == (168.0,)
    assert drawer.opening.depth.values == (533.4,)
    assert (drawer.side, drawer.contents.mass) == (12.7, 4.5359237)


def test_the_unit_counts_wherever_it_stands_among_the_keys() -> None:
    drawer = {"id": "a", "opening": {"width": 22, "height": 7, "depth": 21}, "side": 0.5}
    first = job_from_mapping({"units": "in", "drawer": [drawer]})
    last = job_from_mapping({"drawer": [drawer], "units": "in"})
    assert first == last
    assert first.drawers[0].side == 12.7


def test_a_drawer_takes_its_keys_over_the_defaults() -> None:
    job = job_from_mapping(
        {
            "defaults": {
                "side": 15.9,
                "front": {"style": "overlay", "overlay": {"left": 10, "top": 5}, "gap": 2},
                "opening": {"depth": 530, "width": {"front": 1, "back": 2}},
                "contents": {"preset": "kcma-drawer"},
                "box": {"bottom_thickness": 9},
            },
            "drawer": [
                {"id": "a", "opening": {"width": 562, "height": 168}},
                {
                    "id": "b",
                    "opening": {"width": {"front_top": 5}, "height": 168, "depth": 400},
                    "side": 12,
                    "front": {"gap": 3, "overlay": {"left": 12}},
                    "contents": 5,
                    "box": {"joint": "dowel"},
                },
                {"id": "c", "opening": {"width": 562, "height": 168}, "front": {"overlay": 7}},
            ],
        }
    )
    a, b, c = job.drawers
    assert (a.side, a.opening.depth.values, a.contents.preset) == (15.9, (530.0,), "kcma-drawer")
    assert (a.front.style, a.front.overlay.left, a.front.overlay.right) == ("overlay", 10.0, 16.0)
    assert (b.side, b.opening.depth.values) == (12.0, (400.0,))
    assert b.opening.width.labelled == {"front_top": 5.0}
    assert (b.front.style, b.front.gap) == ("overlay", 3.0)
    assert (b.front.overlay.left, b.front.overlay.top) == (12.0, 5.0)
    assert (b.contents.mass, b.contents.preset) == (5.0, None)
    assert (b.box.joint, b.box.bottom_thickness) == ("dowel", 9.0)
    assert c.front.overlay.top == c.front.overlay.left == 7.0


def test_an_empty_existing_box_takes_back_the_default_one() -> None:
    opening = {"width": 562, "height": 168, "depth": 530}
    job = job_from_mapping(
        {
            "defaults": {"existing_box": {"inside_width": 520}, "opening": opening, "side": 16},
            "drawer": [
                {"id": "a"},
                {"id": "b", "existing_box": {}},
                {"id": "c", "existing_box": {"length": 400}},
            ],
        }
    )
    a, b, c = (drawer.existing_box for drawer in job.drawers)
    assert a is not None
    assert a.inside_width == 520.0
    assert b is None
    assert c is not None
    assert (c.inside_width, c.length) == (520.0, 400.0)


def test_a_frameless_drawer_leaves_the_default_frame_aside() -> None:
    frame = {"left": 38, "right": 38, "thickness": 19}
    opening = {"width": 562, "height": 168, "depth": 530}
    defaults = {"construction": "face-frame", "frame": frame, "opening": opening, "side": 16}
    drawers = [{"id": "a"}, {"id": "b", "construction": "frameless"}]
    job = job_from_mapping({"defaults": defaults, "drawer": drawers})
    assert job.drawers[0].frame is not None
    assert job.drawers[1].frame is None


def test_all_faults_come_together_with_line_drawer_key_and_value(faults_of) -> None:
    faults = faults_of(
        """title = "x"
tittle = 3

[[cabinet]]
id = "B1"
freestanding = true

[[drawer]]
id = "B1-1"
cabinet = "B2"
side = true
opening = { width = [562, "abc"],
            height = -3,
            depht = 530 }

[[drawer]]
id = "B1-1"
side = "27 kg"
construction = "face-frame"
[drawer.opening]
width = 562
height = 168
depth = "55.25 cm"
""".replace(",\n           ", ",")
    )
    assert [(fault.where, fault.value) for fault in faults] == [
        ("job.toml:2 tittle", "3"),
        ("job.toml:4 cabinet B1 size", ""),
        ("job.toml:4 cabinet B1 mass", ""),
        ("job.toml:10 drawer B1-1 cabinet", '"B2"'),
        ("job.toml:11 drawer B1-1 side", "true"),
        ("job.toml:12 drawer B1-1 opening.width item 2", '"abc"'),
        ("job.toml:12 drawer B1-1 opening.height", "-3"),
        ("job.toml:12 drawer B1-1 opening.depth", ""),
        ("job.toml:12 drawer B1-1 opening.depht", "530"),
        ("job.toml:14 drawer B1-1 frame", ""),
        ("job.toml:15 drawer B1-1 id", '"B1-1"'),
        ("job.toml:16 drawer B1-1 side", '"27 kg"'),
    ]
    assert all(fault.says and fault.try_ for fault in faults)


def test_a_fault_of_a_default_is_told_once_at_its_own_line(faults_of) -> None:
    faults = faults_of(
        '[defaults]\nfront = { style = "inlaid" }\nsid = 3\n' + DRAWER + DRAWER.replace("B1-1", "B1-2")
    )
    assert [fault.where for fault in faults] == ["job.toml:2 defaults.front.style", "job.toml:3 defaults.sid"]


def test_rules_between_keys_are_checked_though_another_key_is_broken(faults_of) -> None:
    faults = faults_of(DRAWER + 'lost = { left = 300, right = 300 }\nnote = 3\nrow = "one"\n')
    assert [fault.where.split()[-1] for fault in faults] == ["lost", "note", "row"]


def test_a_broken_construction_does_not_cast_doubt_on_the_frame(faults_of) -> None:
    (fault,) = faults_of(
        DRAWER + 'construction = "framed"\nframe = { left = 9, right = 9, thickness = 19 }\n'
    )
    assert fault.where == "job.toml:6 drawer B1-1 construction"


@pytest.mark.parametrize(
    ("text", "where", "says"),
    [
        ("", "job.toml", "is empty"),
        ("\n# nothing yet\n", "job.toml drawer", "is missing: a job has at least one drawer"),
        ('title = "x"', "job.toml drawer", "is missing: a job has at least one drawer"),
        ("drawer = 3", "job.toml:1 drawer", "is not a list of drawers: write [[drawer]]"),
        ("[drawer]\nid = 3", "job.toml:1 drawer", "is not a list of drawers: write [[drawer]]"),
        ("drawer = [3]", "job.toml:1 drawer item 1", "is not a table"),
        ("cabinet = 3" + DRAWER, "job.toml:1 cabinet", "is not a list of cabinets"),
        ("defaults = 3" + DRAWER, "job.toml:1 defaults", "is not a table"),
        ('units = "ft"' + DRAWER, "job.toml:1 units", 'is not one of "mm", "in"'),
        ("title = 3" + DRAWER, "job.toml:1 title", "is not text"),
        ('[defaults]\nid = "x"\n' + DRAWER, "job.toml:2 defaults.id", "it has no default"),
        ('title = "x', "job.toml:1", "a quote is not closed"),
        ('title = "x\nunits = "mm"', "job.toml:1", "a quote is not closed on its line"),
        ("title = \n", "job.toml:1", "a value is missing or lacks its quotes"),
        ("a = 1\n\ntitle = oak\n", "job.toml:3", "a value is missing or lacks its quotes"),
        ("a = 1 2", "job.toml:1", "something follows the value"),
        ('title = "a"\ntitle = "b"\n', "job.toml:2", "a key is given twice"),
        (DRAWER + "opening = [", "job.toml:6", "is not TOML"),
        ("a = " + "[" * 5000, "job.toml:1", "nested too deep"),
        ("a = 1" + "0" * 5000, "job.toml:1", "is not read"),
        (DRAWER + "row = 1979-05-27", "job.toml:6 drawer B1-1 row", "is not a whole number"),
        (DRAWER + "subfront = 07:32:00", "job.toml:6 drawer B1-1 subfront", "is not a length"),
        (DRAWER + "subfront = nan", "job.toml:6 drawer B1-1 subfront", "is not a finite number"),
    ],
)
def test_a_file_that_is_no_job_is_refused_with_its_place(faults_of, text: str, where: str, says: str) -> None:
    (fault,) = faults_of(text)
    assert fault.where == where
    assert says in fault.says
    assert fault.try_


@pytest.mark.parametrize(
    ("content", "where", "says"),
    [
        ("title = 'x'".encode("utf-16"), "job.toml", "UTF-16"),
        ("title = 'x'".encode("utf-16-le"), "job.toml", "UTF-16"),
        ("title = 'x'".encode("utf-16-be"), "job.toml", "UTF-16"),
        ("a = 1\ntitle = 'Küche'".encode("cp1252"), "job.toml:2", "not UTF-8"),
        (b"\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIHDR", "job.toml", "zero bytes"),
        (bytes(range(128, 256)) * 4, "job.toml:1", "is not"),
        (bytes(range(1, 256)), "job.toml:2", "is not text"),
        (b"title = '\x01'", "job.toml:1", "is not TOML"),
    ],
)
def test_a_file_that_is_no_utf_8_text_is_refused(faults_of, content: bytes, where: str, says: str) -> None:
    (fault,) = faults_of(content)
    assert fault.where == where
    assert says in fault.says
    assert fault.try_


def test_a_byte_order_mark_and_windows_line_ends_are_accepted(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(b"\xef\xbb\xbf" + DRAWER.replace("\n", "\r\n").encode())
    assert read_job(path).drawers[0].id == "B1-1"


def test_lines_are_counted_right_with_windows_line_ends(faults_of) -> None:
    (fault,) = faults_of((DRAWER + "sid = 3\n").replace("\n", "\r\n").encode())
    assert fault.where == "job.toml:6 drawer B1-1 sid"


def test_a_missing_file_names_one_like_it(tmp_path: Path) -> None:
    written(tmp_path, DRAWER, "kitchen.toml")
    with pytest.raises(InputError) as refused:
        read_job(tmp_path / "kitchn.toml")
    (fault,) = refused.value.faults
    assert (fault.where, fault.says, fault.try_) == ("kitchn.toml", "does not exist", "kitchen.toml")


@pytest.mark.parametrize("name", ["none/job.toml", "job.toml/job.toml"])
def test_a_path_through_nothing_does_not_exist(tmp_path: Path, name: str) -> None:
    written(tmp_path, DRAWER)
    with pytest.raises(InputError, match="does not exist"):
        read_job(tmp_path / name)


def test_a_folder_is_no_job_file(tmp_path: Path) -> None:
    (tmp_path / "job.toml").mkdir()
    with pytest.raises(InputError, match="is a folder"):
        read_job(tmp_path / "job.toml")


def test_a_name_that_no_file_can_have_is_refused(tmp_path: Path) -> None:
    for name in ("a\0.toml", "x" * 300 + ".toml"):
        with pytest.raises(InputError, match="cannot be opened"):
            read_job(tmp_path / name)


def test_a_file_that_may_not_be_opened_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def deny(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    path = written(tmp_path, DRAWER)
    monkeypatch.setattr(Path, "open", deny)
    with pytest.raises(InputError, match="permission denied"):
        read_job(path)


def test_a_file_over_20_mb_is_refused(tmp_path: Path) -> None:
    with (tmp_path / "job.toml").open("wb") as stream:
        stream.truncate(20_000_001)
    with pytest.raises(InputError, match="larger than 20 MB"):
        read_job(tmp_path / "job.toml")


@pytest.mark.parametrize("name", ["job.pdf", "job", "job.toml.bak"])
def test_another_ending_is_refused_with_those_that_do(tmp_path: Path, name: str) -> None:
    with pytest.raises(InputError) as refused:
        read_job(written(tmp_path, DRAWER, name))
    (fault,) = refused.value.faults
    assert "a job file ends in .toml" in fault.says
    assert fault.try_.endswith(".toml")


def test_an_ending_in_capitals_is_the_same_ending(tmp_path: Path) -> None:
    assert read_job(written(tmp_path, DRAWER, "JOB.TOML")).drawers[0].side == 16.0


def test_a_preset_that_is_not_known_is_a_fault_of_the_file(tmp_path: Path) -> None:
    path = written(tmp_path, DRAWER + 'contents = { preset = "kcma-drawr" }\n')
    assert read_job(path).drawers[0].contents.preset == "kcma-drawr"
    with pytest.raises(InputError) as refused:
        read_job(path, presets=["kcma-drawer", "clothing-fill"])
    (fault,) = refused.value.faults
    assert fault.where == "job.toml:6 drawer B1-1 contents.preset"
    assert fault.try_ == '"kcma-drawer"'


@pytest.mark.parametrize("values", [None, 3, "job", [], {}, {1: 2}, {"drawer": None}, {"drawer": [None]}])
def test_a_mapping_that_is_no_job_is_refused(values: object) -> None:
    with pytest.raises(InputError) as refused:
        job_from_mapping(values, where="request")
    assert all(fault.where.startswith("request") for fault in refused.value.faults)
