"""What a killed writer leaves beside a pack: removed by the next one, never while its writer lives."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

import pytest

from drawerwright.pack.archive import put_in_archive
from drawerwright.pack.folder import put_in_place
from drawerwright.pack.manifest import Manifest
from drawerwright.pack.working import UNPACKED, WRITING, beside, working_folder

Put = Callable[[Iterable[tuple[str, bytes]], str, Path], Manifest]
KINDS = [(put_in_place, "kp"), (put_in_archive, "kp.zip")]

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="there are no such locks")

WRITES_FOR_EVER = """
import sys, time
from pathlib import Path
from drawerwright.pack.archive import put_in_archive
from drawerwright.pack.folder import put_in_place

def contents():
    yield "a.txt", b"a"
    print("begun", flush=True)
    time.sleep(60)

put = put_in_archive if sys.argv[1].endswith(".zip") else put_in_place
put(contents(), "t", Path(sys.argv[1]))
"""


def names_in(folder: Path) -> list[str]:
    return sorted(one.name for one in folder.iterdir())


@pytest.mark.parametrize(("put", "name"), KINDS)
def test_what_a_killed_writer_left_is_removed_by_the_next_pack(put: Put, name: str, tmp_path: Path) -> None:
    target = tmp_path / name
    with subprocess.Popen(
        [sys.executable, "-c", WRITES_FOR_EVER, str(target)], stdout=subprocess.PIPE
    ) as writer:
        assert writer.stdout is not None
        assert writer.stdout.readline() == b"begun\n"
        (left,) = names_in(tmp_path)
        put([("b.txt", b"b")], "t", target)
        assert names_in(tmp_path) == sorted([left, name])
        os.kill(writer.pid, signal.SIGKILL)
    put([("b.txt", b"b")], "t", target)
    assert names_in(tmp_path) == [name]


WRITES_AGAIN_AND_AGAIN = """
import sys
from pathlib import Path
from drawerwright.pack.archive import put_in_archive
from drawerwright.pack.folder import put_in_place

put = put_in_archive if sys.argv[1].endswith(".zip") else put_in_place
sys.stdin.readline()
for turn in range(int(sys.argv[3])):
    told = f"{sys.argv[2]} {turn}"
    put([(f"sheets/{one}.txt", told.encode()) for one in range(3)], told, Path(sys.argv[1]))
"""


@pytest.mark.parametrize("writers", [2, 5])
@pytest.mark.parametrize(("put", "name"), KINDS)
def test_writers_for_the_same_place_wait_for_each_other_and_one_of_them_is_whole_at_the_end(
    put: Put, name: str, writers: int, tmp_path: Path
) -> None:
    command = [sys.executable, "-c", WRITES_AGAIN_AND_AGAIN, str(tmp_path / name)]
    started = [
        subprocess.Popen([*command, str(number), "15"], stdin=subprocess.PIPE, stderr=subprocess.PIPE)
        for number in range(writers)
    ]
    for one in started:  # all have begun before the first writes
        assert one.stdin is not None
        one.stdin.write(b"\n")
        one.stdin.flush()
    assert [(one.communicate(timeout=60)[1], one.returncode) for one in started] == [(b"", 0)] * writers
    assert names_in(tmp_path) == [name]
    put([("b.txt", b"b")], "t", tmp_path / name)
    assert names_in(tmp_path) == [name]


def test_a_working_folder_that_another_pack_removes_at_once_is_made_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real, removed = Path.mkdir, []

    def made_and_removed(self: Path, *given: Any, **named: Any) -> None:
        real(self, *given, **named)
        if self.name.endswith(WRITING) and len(removed) < 3:
            self.rmdir()
            removed.append(self)

    monkeypatch.setattr(Path, "mkdir", made_and_removed)
    put_in_place([("b.txt", b"b")], "t", tmp_path / "kp")
    assert len(removed) == 3
    assert names_in(tmp_path) == ["kp"]


def test_an_archive_begun_and_left_goes_with_its_folder(tmp_path: Path) -> None:
    folder = tmp_path / f".kp.zip.0a1b2c3d{UNPACKED}"
    (folder / "sheets").mkdir(parents=True)
    beside(folder, WRITING).write_bytes(b"half")
    (tmp_path / f".kp.zip.deadbeef{WRITING}").write_bytes(b"its folder is gone")
    put_in_archive([("b.txt", b"b")], "t", tmp_path / "kp.zip")
    assert names_in(tmp_path) == ["kp.zip"]


def test_a_living_writers_archive_and_folder_stay(tmp_path: Path) -> None:
    target = tmp_path / "kp.zip"
    with working_folder(target, UNPACKED) as folder:
        beside(folder, WRITING).write_bytes(b"half")
        put_in_archive([("b.txt", b"b")], "t", target)
        assert folder.is_dir()
        assert beside(folder, WRITING).read_bytes() == b"half"
    assert names_in(tmp_path) == sorted([beside(folder, WRITING).name, "kp.zip"])


@pytest.mark.parametrize(
    "other",
    [".kp.writing", ".kp.0a1b2c3.writing", ".kq.0a1b2c3d.writing", "kp.0a1b2c3d.writing", ".kp.before"],
)
def test_what_bears_another_name_is_left_alone(other: str, tmp_path: Path) -> None:
    (tmp_path / other).mkdir()
    put_in_place([("b.txt", b"b")], "t", tmp_path / "kp")
    assert names_in(tmp_path) == sorted([other, "kp"])


def test_a_link_is_never_followed(tmp_path: Path) -> None:
    (tmp_path / "theirs").mkdir()
    (tmp_path / "theirs" / "a.txt").write_text("a")
    (tmp_path / f".kp.0a1b2c3d{WRITING}").symlink_to(tmp_path / "theirs", target_is_directory=True)
    put_in_place([("b.txt", b"b")], "t", tmp_path / "kp")
    assert (tmp_path / "theirs" / "a.txt").read_text() == "a"
