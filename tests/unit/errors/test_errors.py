from __future__ import annotations

import inspect
import pickle

import pytest

from drawerwright import errors
from drawerwright.errors import DrawerwrightError, Fault, InputError, Problem, Problems, ReadingError


def test_a_fault_says_place_value_what_is_allowed_and_what_would_do() -> None:
    fault = Fault("job.toml:12 drawer B1-2 opening.width", "-3", "is out of range", '"552.5 mm"')
    assert str(fault) == 'job.toml:12 drawer B1-2 opening.width: -3 is out of range; try "552.5 mm"'
    assert fault.as_json() == {
        "where": "job.toml:12 drawer B1-2 opening.width",
        "value": "-3",
        "says": "is out of range",
        "try": '"552.5 mm"',
    }


def test_a_fault_without_value_or_example_reads_well() -> None:
    assert str(Fault("job.toml", "", "is empty", "")) == "job.toml: is empty"


@pytest.mark.parametrize("part", range(4), ids=["where", "value", "says", "try"])
def test_no_part_of_a_fault_holds_a_sign_that_a_terminal_obeys_or_a_second_line(part: int) -> None:
    parts = ["drawer A", "562", "is wrong", "563"]
    parts[part] = "A\x1b[31mRED\x07\u202e\r\nB\tÄ\u00a0\u6728"
    told = list(Fault(*parts).as_json().values())
    assert told[part] == "A�[31mRED��  B Ä\u00a0\u6728"
    assert told[:part] + told[part + 1 :] == parts[:part] + parts[part + 1 :]


def test_an_input_error_shows_all_its_faults_in_order() -> None:
    faults = [Fault(f"job.toml:{line}", "", "is wrong", "") for line in (1, 2, 3)]
    error = InputError(faults)
    assert str(error).splitlines() == [str(fault) for fault in faults]
    assert [one["where"] for one in error.as_json()["errors"]] == ["job.toml:1", "job.toml:2", "job.toml:3"]


def test_an_input_error_without_a_fault_is_a_mistake_of_the_code() -> None:
    with pytest.raises(ValueError, match="at least one fault"):
        InputError([])


def test_errors_survive_the_way_to_another_process() -> None:
    for error in (
        InputError([Fault("a", "b", "c", "d")]),
        ReadingError("1", "is wrong", "2"),
        Problems([Problem(("a", 0), "1", "is wrong", "2")]),
    ):
        again = pickle.loads(pickle.dumps(error))
        assert type(again) is type(error)
        assert str(again) == str(error)
        assert vars(again) == vars(error)


def test_every_error_has_the_one_root_and_stands_in_the_tree() -> None:
    tree = inspect.getdoc(errors) or ""
    for name, kind in inspect.getmembers(errors, inspect.isclass):
        if issubclass(kind, Exception) and kind.__module__ == errors.__name__:
            assert issubclass(kind, DrawerwrightError)
            assert name in tree


def test_what_a_field_refuses_is_also_a_value_error() -> None:
    assert issubclass(ReadingError, ValueError)
    assert issubclass(Problems, ValueError)
    assert ReadingError("x", "is not a length", "3").fault("here") == Fault(
        "here", "x", "is not a length", "3"
    )
