"""What a command ends with, and that nothing that goes wrong shows a traceback."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.cli import main as command_line

OPENING = "opening = { width = 562, height = 168, depth = 530 }\n"
DRAWER = f'[[drawer]]\nid = "a"\nside = 16\n{OPENING}'


def with_width(width: str) -> bytes:
    return DRAWER.replace("562", width).encode()


BAD_JOBS = {
    "nothing in it": b"",
    "not text": b"\x89PNG\r\n\x1a\n\0\0\0",
    "not TOML": b"[[drawer]\nid = ",
    "no drawer": b'title = "x"\n',
    "an unknown key": DRAWER.replace("width", "widht").encode(),
    "a negative width": with_width("-5"),
    "a width of nothing": with_width("0"),
    "a width of ten km": with_width("1e7"),
    "a width not a number": with_width("nan"),
    "a width of true": with_width("true"),
    "an id twice": DRAWER.encode() * 2,
    "a frame missing": f'{DRAWER}construction = "face-frame"\n'.encode(),
    "a slide that nobody has": f'{DRAWER}slide = "hose-16"\n'.encode(),
    "a preset that nobody has": f'{DRAWER}contents = {{ preset = "anvils" }}\n'.encode(),
}


@pytest.mark.parametrize("content", BAD_JOBS.values(), ids=BAD_JOBS)
@pytest.mark.parametrize(
    "name", [("fit",), ("pack", "--out", "pack"), ("job", "check")], ids=lambda name: name[0]
)
def test_a_bad_job_ends_with_2_and_a_message_and_writes_nothing(
    command, tmp_path, monkeypatch, name, content
) -> None:
    monkeypatch.chdir(tmp_path)
    job = tmp_path / "bad.toml"
    job.write_bytes(content)
    ran = command(*name, job)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith("drawerwright: ")
    assert "bad.toml" in ran.err or "drawer a slide" in ran.err
    assert "Traceback" not in ran.err
    assert list(tmp_path.iterdir()) == [job]


@pytest.mark.parametrize("content", BAD_JOBS.values(), ids=BAD_JOBS)
def test_a_bad_job_with_json_gives_its_errors_as_one_document(command, tmp_path, content) -> None:
    job = tmp_path / "bad.toml"
    job.write_bytes(content)
    ran = command("fit", job, "--json")
    errors = json.loads(ran.out)["errors"]
    assert ran.code == 2
    assert errors
    assert all(one.keys() == {"where", "value", "says", "try"} for one in errors)
    assert all(one["where"] and one["says"] for one in errors)
    assert ran.err


def test_faults_of_the_job_and_of_the_slides_are_told_together(command, tmp_path) -> None:
    (tmp_path / "bad.toml").write_text("side = 16\n")
    (tmp_path / "slides.toml").write_text('id = "x"\n')
    ran = command("fit", tmp_path / "bad.toml", "--slides", tmp_path / "slides.toml")
    assert ran.code == 2
    assert "bad.toml" in ran.err
    assert "slides.toml" in ran.err


@pytest.mark.parametrize("options", [(), ("--json",)], ids=["table", "json"])
def test_a_name_with_signs_that_a_terminal_obeys_is_told_without_them(command, tmp_path, options) -> None:
    job = tmp_path / "bad\u202e.toml"
    job.write_text(DRAWER.replace('"a"', '"A\\u001b[31mRED\\u0007\\u202e"'), encoding="utf-8")
    ran = command("fit", job, *options)
    assert ran.code == 2
    assert "bad�.toml:2 drawer A�[31mRED�� id" in ran.err
    for told in (ran.err, ran.out):
        assert [sign for sign in told if not sign.isprintable() and sign != "\n"] == []


def test_several_faults_are_counted_and_each_has_its_line(command, tmp_path) -> None:
    job = tmp_path / "bad.toml"
    job.write_text('[[drawer]]\nid = "a"\nopening = { width = -1, height = 0, depth = "deep" }\nside = 16\n')
    ran = command("fit", job)
    first, *lines = ran.err.splitlines()
    assert first == "drawerwright: 3 faults"
    assert [key in line for key, line in zip(("width", "height", "depth"), lines, strict=True)] == [True] * 3


@pytest.mark.parametrize(
    "arguments",
    [
        ("fit",),
        ("fit", "--nonsense", "job.toml"),
        ("fit", "a.toml", "b.toml"),
        ("pack", "job.toml"),
        ("nonsense",),
        ("slides", "nonsense"),
        ("slides", "list", "--units", "furlongs"),
        ("slides", "show"),
        ("slides", "show", "hose-16"),
        ("slides", "check", "nowhere.toml"),
        ("slides", "list", "--slides", "nowhere"),
        ("fit", "nowhere.toml"),
        ("fit", "."),
        ("job", "new", "--slides", "nowhere"),
    ],
    ids=" ".join,
)
def test_what_cannot_be_meant_ends_with_2_and_says_what_would_do(
    command, tmp_path, monkeypatch, arguments
) -> None:
    monkeypatch.chdir(tmp_path)
    plain = command(*arguments)
    assert (plain.code, plain.out) == (2, "")
    assert "; try " in plain.err
    with_json = command(*arguments, "--json")
    (error,) = json.loads(with_json.out)["errors"]
    assert with_json.code == 2
    assert error["says"]
    assert error["try"]


def test_a_drawer_that_does_not_fit_is_an_answer_unless_strict(command, mixed_job, template_job) -> None:
    assert command("fit", mixed_job).code == 0
    assert command("fit", mixed_job, "--strict").code == 3
    assert command("fit", template_job, "--strict").code == 0


def test_strict_still_gives_the_whole_answer(command, mixed_job) -> None:
    strict, plain = command("fit", mixed_job, "--json", "--strict"), command("fit", mixed_job, "--json")
    assert strict.out == plain.out


@pytest.mark.parametrize(
    "arguments", [(), ("job",), ("slides",), ("--help",), ("fit", "--help")], ids=" ".join
)
def test_help_is_an_answer(command, arguments) -> None:
    ran = command(*arguments)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.startswith("Usage: drawerwright")


@pytest.mark.parametrize("as_json", [False, True])
def test_a_fault_of_the_program_ends_with_1_and_a_short_message(
    command, template_job, monkeypatch, as_json: bool
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError("division by zero")

    monkeypatch.setattr("drawerwright.fit.fit_job", broken)
    ran = command("fit", template_job, *(["--json"] if as_json else []))
    assert ran.code == 1
    assert "internal error" in ran.err
    assert "ZeroDivisionError: division by zero" in ran.err
    assert "Traceback" not in ran.err
    assert ("errors" in json.loads(ran.out)) if as_json else ran.out == ""


def test_a_fault_of_the_program_is_shown_in_full_to_whoever_asks(command, template_job, monkeypatch) -> None:
    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError("division by zero")

    monkeypatch.setattr("drawerwright.fit.fit_job", broken)
    monkeypatch.setenv(command_line.DEBUG, "1")
    assert "Traceback" in command("fit", template_job).err


def test_a_stop_from_the_keyboard_is_quiet(command, template_job, monkeypatch) -> None:
    def stopped(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("drawerwright.fit.fit_job", stopped)
    ran = command("fit", template_job)
    assert (ran.code, ran.out, ran.err) == (130, "", "")


def test_a_file_that_the_system_refuses_is_bad_input(command, template_job, monkeypatch) -> None:
    def refused(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied", "locked.toml")

    monkeypatch.setattr("drawerwright.fit.fit_job", refused)
    ran = command("fit", template_job)
    assert ran.code == 2
    assert "locked.toml" in ran.err
    assert "Permission denied" in ran.err


WORDS = st.sampled_from(
    ["fit", "job", "new", "check", "slides", "list", "show", "--json", "--units", "in", "--slides"]
)
ANY_WORD = st.one_of(WORDS, st.text(alphabet=st.characters(blacklist_characters="/\\.~"), max_size=12))


@given(arguments=st.lists(ANY_WORD, max_size=5))
def test_no_command_line_shows_a_traceback(arguments: list[str]) -> None:
    if any(word.startswith("--o") for word in arguments):  # would write a file
        return
    assert command_line.run(arguments) in (0, 2)
