"""A pack's folder: all or nothing, and nobody else's files."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
from pathlib import Path
from typing import Any

import pytest

from drawerwright.errors import InputError
from drawerwright.pack.folder import put_in_place

OLD = {"job.toml": b"old", "dxf/B1.dxf": b"old panel"}
NEW = {"job.toml": b"new", "fit.json": b"{}"}


def tree(path: Path) -> dict[str, bytes]:
    return {p.relative_to(path).as_posix(): p.read_bytes() for p in sorted(path.rglob("*")) if p.is_file()}


def test_a_new_folder_gets_every_file_and_a_manifest_of_them(tmp_path: Path) -> None:
    manifest = put_in_place(OLD.items(), "Kitchen", tmp_path / "made" / "pack")
    written = tree(tmp_path / "made" / "pack")
    listed = json.loads(written.pop("manifest.json"))
    assert written == OLD
    assert listed == manifest.document()
    assert listed["schema"] == "drawerwright/pack/1"
    assert [entry["path"] for entry in listed["files"]] == ["dxf/B1.dxf", "job.toml"]
    for entry in listed["files"]:
        assert entry["sha256"] == hashlib.sha256(OLD[entry["path"]]).hexdigest()
        assert entry["bytes"] == len(OLD[entry["path"]])
    assert [p.name for p in (tmp_path / "made").iterdir()] == ["pack"]


def test_an_empty_folder_is_used(tmp_path: Path) -> None:
    (tmp_path / "pack").mkdir()
    put_in_place(NEW.items(), "Kitchen", tmp_path / "pack")
    assert set(tree(tmp_path / "pack")) == {*NEW, "manifest.json"}


def test_an_old_pack_is_replaced_whole_and_leaves_nothing_behind(tmp_path: Path) -> None:
    put_in_place(OLD.items(), "Kitchen", tmp_path / "pack")
    put_in_place(NEW.items(), "Kitchen", tmp_path / "pack")
    assert set(tree(tmp_path / "pack")) == {*NEW, "manifest.json"}
    assert not (tmp_path / "pack" / "dxf").exists()
    assert [p.name for p in tmp_path.iterdir()] == ["pack"]


@pytest.mark.parametrize(
    ("change", "named"),
    [
        (lambda pack: (pack / "photo.jpg").write_bytes(b"mine"), "photo.jpg"),
        (lambda pack: (pack / "job.toml").write_bytes(b"edited"), "job.toml"),
        (lambda pack: (pack / "job.toml").write_bytes(b"OLD"), "job.toml"),
        (lambda pack: (pack / "dxf" / "mine.dxf").write_bytes(b"mine"), "dxf/mine.dxf"),
        (lambda pack: (pack / "link").symlink_to(pack.parent), "link"),
    ],
)
def test_a_file_that_is_not_ours_is_named_and_everything_stays(tmp_path: Path, change, named: str) -> None:  # type: ignore[no-untyped-def]
    pack = tmp_path / "pack"
    put_in_place(OLD.items(), "Kitchen", pack)
    change(pack)
    before = tree(pack)
    with pytest.raises(InputError) as caught:
        put_in_place(NEW.items(), "Kitchen", pack)
    assert named in str(caught.value)
    assert tree(pack) == before
    assert [p.name for p in tmp_path.iterdir()] == ["pack"]


def test_a_folder_with_files_and_no_pack_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "letters").mkdir()
    (tmp_path / "letters" / "one.txt").write_text("dear")
    with pytest.raises(InputError, match="no pack of ours"):
        put_in_place(NEW.items(), "Kitchen", tmp_path / "letters")
    assert tree(tmp_path / "letters") == {"one.txt": b"dear"}


@pytest.mark.parametrize(
    "content", [b"", b"{", b"[]", b"\xff\xfe", b'{"schema": "drawerwright/pack/1", "files": 3}']
)
def test_a_file_that_only_looks_like_a_manifest_protects_nothing(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "pack").mkdir()
    (tmp_path / "pack" / "manifest.json").write_bytes(content)
    with pytest.raises(InputError):
        put_in_place(NEW.items(), "Kitchen", tmp_path / "pack")
    assert tree(tmp_path / "pack") == {"manifest.json": content}


def test_a_forged_manifest_cannot_reach_outside_the_folder(tmp_path: Path) -> None:
    precious = tmp_path / "precious.txt"
    precious.write_bytes(b"precious")
    (tmp_path / "pack").mkdir()
    forged = {
        "schema": "drawerwright/pack/1",
        "title": "",
        "files": [{"path": "../precious.txt", "bytes": 8, "sha256": hashlib.sha256(b"precious").hexdigest()}],
    }
    (tmp_path / "pack" / "manifest.json").write_text(json.dumps(forged))
    put_in_place(NEW.items(), "Kitchen", tmp_path / "pack")
    assert precious.read_bytes() == b"precious"


def test_a_file_in_the_place_of_the_folder_is_named(tmp_path: Path) -> None:
    (tmp_path / "pack").write_text("a file")
    with pytest.raises(InputError, match="is a file"):
        put_in_place(NEW.items(), "Kitchen", tmp_path / "pack")
    assert (tmp_path / "pack").read_text() == "a file"


def test_the_folder_one_works_in_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "here").mkdir()
    monkeypatch.chdir(tmp_path / "here")
    with pytest.raises(InputError, match="working in"):
        put_in_place(NEW.items(), "Kitchen", Path())
    with pytest.raises(InputError, match="working in"):
        put_in_place(NEW.items(), "Kitchen", tmp_path)


def test_a_full_disk_is_an_error_of_ours_and_the_old_pack_stays(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put_in_place(OLD.items(), "Kitchen", tmp_path / "pack")

    def full(self: Path, data: bytes) -> int:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(InputError, match="No space left"):
        put_in_place(NEW.items(), "Kitchen", tmp_path / "pack")
    monkeypatch.undo()
    assert set(tree(tmp_path / "pack")) == {*OLD, "manifest.json"}
    assert [p.name for p in tmp_path.iterdir()] == ["pack"]


def killed_at(step: int, call: str, pack: Path) -> int:
    """Exit code of a child process that writes a pack and drops dead in its `step`-th call of a method."""
    child = os.fork()
    if child:
        return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    try:
        real, calls = getattr(Path, call), 0

        def counted(self: Path, *given: Any, **named: Any) -> Any:
            nonlocal calls
            calls += 1
            if calls == step:
                os._exit(9)
            return real(self, *given, **named)

        setattr(Path, call, counted)
        put_in_place(NEW.items(), "Kitchen", pack)
    finally:
        os._exit(0)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs a child process that shares this one's state")
@pytest.mark.parametrize(
    ("step", "call"),
    [
        (1, "write_bytes"),
        (2, "write_bytes"),
        (3, "write_bytes"),
        (1, "rename"),
        (2, "rename"),
        (1, "unlink"),
        (2, "unlink"),
    ],
)
def test_a_run_that_is_killed_leaves_a_whole_pack_and_the_next_run_mends_the_rest(
    tmp_path: Path, step: int, call: str
) -> None:
    pack = tmp_path / "pack"
    put_in_place(OLD.items(), "Kitchen", pack)
    assert killed_at(step, call, pack) == 9
    beside = tmp_path / ".pack.before"
    found = tree(pack if pack.exists() else beside)
    found.pop("manifest.json")
    assert found in (OLD, NEW)
    put_in_place(OLD.items(), "Kitchen", pack)
    written = tree(pack)
    written.pop("manifest.json")
    assert written == OLD
    assert not beside.exists()


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs a child process that shares this one's state")
@pytest.mark.parametrize("step", [1, 2, 3])
def test_a_run_that_is_killed_while_it_removes_the_emptied_folders_stands_in_no_ones_way(
    tmp_path: Path, step: int
) -> None:
    pack = tmp_path / "pack"
    deep = {"a/b/one.txt": b"1", "c/two.txt": b"2"}
    put_in_place(deep.items(), "Kitchen", pack)
    assert killed_at(step, "rmdir", pack) == 9
    left = [one for one in (tmp_path / ".pack.before").rglob("*") if not one.is_dir()]
    assert left == []
    for _ in range(2):
        put_in_place(OLD.items(), "Kitchen", pack)
        assert set(tree(pack)) == {*OLD, "manifest.json"}
        assert [one.name for one in tmp_path.iterdir()] == ["pack"]


@pytest.mark.parametrize("manifest", [True, False], ids=["pack with an added file", "no pack"])
def test_files_of_others_where_the_old_pack_would_wait_are_named_and_stay(
    tmp_path: Path, manifest: bool
) -> None:
    pack, before = tmp_path / "pack", tmp_path / ".pack.before"
    put_in_place(OLD.items(), "Kitchen", pack)
    if manifest:
        put_in_place(OLD.items(), "Kitchen", before)
    (before / "mine").mkdir(parents=True)
    (before / "mine" / "plan.txt").write_text("mine")
    for _ in range(2):
        with pytest.raises(InputError) as refused:
            put_in_place(NEW.items(), "Kitchen", pack)
        (told,) = refused.value.faults
        assert told.value == str(before)
        assert "mine/plan.txt" in told.says
        assert (before / "mine" / "plan.txt").read_text() == "mine"
        assert set(tree(pack)) == {*OLD, "manifest.json"}
    shutil.rmtree(before / "mine")
    put_in_place(NEW.items(), "Kitchen", pack)
    assert [one.name for one in tmp_path.iterdir()] == ["pack"]


@pytest.mark.parametrize("kind", ["file", "link"])
def test_what_is_no_folder_where_the_old_pack_would_wait_is_named_and_stays(
    tmp_path: Path, kind: str
) -> None:
    pack, before = tmp_path / "pack", tmp_path / ".pack.before"
    put_in_place(OLD.items(), "Kitchen", pack)
    (tmp_path / "theirs").mkdir()
    if kind == "file":
        before.write_text("mine")
    else:
        before.symlink_to(tmp_path / "theirs", target_is_directory=True)
    with pytest.raises(InputError, match=r"pack\.before stands where the old pack is kept"):
        put_in_place(NEW.items(), "Kitchen", pack)
    assert before.is_symlink() == (kind == "link")
    assert (tmp_path / "theirs").is_dir()
    assert set(tree(pack)) == {*OLD, "manifest.json"}


def test_a_home_sign_and_a_link_lead_to_the_real_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("HOME", str(tmp_path))
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "real")
    put_in_place(NEW.items(), "Kitchen", Path("~/link"))
    assert (tmp_path / "link").is_symlink()
    assert set(tree(tmp_path / "real")) == {*NEW, "manifest.json"}
