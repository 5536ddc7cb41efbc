"""`drawerwright`: the one place where a fault becomes an exit code.

0 the work was done, 1 a fault of the program, 2 bad input, 3 a drawer does not fit and `--strict` was given,
130 stopped by the user. Nothing of size is imported before `run` watches over it: a stop from the keyboard in
the first tenth of a second, while libraries load, ends as quietly as a later one.
"""

from __future__ import annotations

import os
import sys

TYPE_CHECKING = False
"""As in `typing`, which takes its time to load."""

if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import Any

    from drawerwright.errors import Fault

STOPPED = 130
DEBUG = "DRAWERWRIGHT_DEBUG"

SEEN_BEFORE_COLLECTING = 100_000
"""New objects before the cycle collector walks: libraries that load make many and hardly any garbage."""


def run(arguments: Sequence[str]) -> int:
    """Run one command line; the exit code. Nothing that goes wrong shows a traceback."""
    try:
        return _run(arguments)
    except KeyboardInterrupt:
        return STOPPED


def _run(arguments: Sequence[str]) -> int:
    from drawerwright.errors import InputError

    as_json = False
    try:
        from drawerwright.cli.commands import call, json_is_wanted

        as_json = json_is_wanted(arguments)
        code = call(arguments)
        sys.stdout.flush()
    except BrokenPipeError:  # the reader has seen enough
        _let_go_of_output()
        return 0
    except InputError as fault:
        return _refuse(fault.faults, 2, as_json=as_json)
    except OSError as fault:
        if fault.filename is None:  # nothing more can be said on an output that is full
            _let_go_of_output()
            return _refuse([_output_fault(fault)], 1, as_json=False)
        return _refuse([_file_fault(fault)], 2, as_json=as_json)
    except Exception as fault:  # noqa: BLE001 - the last resort: a short message in place of a traceback
        return _internal(fault, as_json=as_json)
    return code


def _refuse(faults: Sequence[Fault], code: int, *, as_json: bool) -> int:
    """Tell the faults as far as the outputs take it; the exit code."""
    from drawerwright.cli.answers import refuse, refuse_as_json

    try:
        if as_json:
            refuse_as_json(faults)
    except OSError:
        _let_go_of_output()
    try:
        refuse(faults)
        sys.stderr.flush()
    except OSError:  # there is nowhere left to tell it; the exit code does
        _let_go_of(sys.stderr.fileno())
    return code


def _file_fault(fault: OSError) -> Fault:
    """A file that the system does not let us read or write."""
    from drawerwright.errors import Fault

    says = f"cannot be read or written: {fault.strerror or fault}"
    return Fault(str(fault.filename), "", says, "another place, or free its permissions")


def _output_fault(fault: OSError) -> Fault:
    """An output that takes no more."""
    from drawerwright.errors import Fault

    says = f"cannot be written: {fault.strerror or fault}"
    return Fault("the output", "", says, "an output with room left")


def _internal(fault: Exception, *, as_json: bool) -> int:
    from drawerwright.errors import DrawerwrightError, Fault

    if os.environ.get(DEBUG):
        import traceback

        sys.stderr.write("".join(traceback.format_exception(fault)))
    # A reading that no file is to blame for, or a broken sheet: the program's fault as well.
    kind = "" if isinstance(fault, DrawerwrightError) else f"{type(fault).__name__}: "
    says = f"{kind}{fault}".strip() or type(fault).__name__
    told = Fault("internal error", "", says, f"{DEBUG}=1 to see where, and tell us of it")
    return _refuse([told], 1, as_json=as_json)


def _let_go_of_output() -> None:
    """Point standard output elsewhere, so that the interpreter's own last flush says nothing."""
    _let_go_of(sys.stdout.fileno())


def _let_go_of(output: int) -> None:
    elsewhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(elsewhere, output)
    os.close(elsewhere)


def _speak_utf8() -> None:
    """Where the console's encoding lacks our signs, show a question mark for them, never a failure."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            encoding = "utf-8" if not stream.isatty() else None
            stream.reconfigure(encoding=encoding, errors="replace")


def _have_outputs() -> None:
    """An output that was closed before we began swallows what is written, in place of failing."""
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115, PTH123 - ends with us


def _start_soon() -> None:
    """Spare what only costs time at the start: collecting while libraries load, plugins, threads."""
    import gc

    gc.set_threshold(SEEN_BEFORE_COLLECTING)
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    os.environ.setdefault(
        "OPENBLAS_NUM_THREADS", "1"
    )  # our matrices are small: threads would only be started


def _end_soon() -> None:
    """Keep the interpreter from looking for cycles in what it is about to drop: a tenth of a short run."""
    import gc

    gc.freeze()


def _lose_no_stop() -> None:
    """A stop from the keyboard that falls into a callback, where Python only prints it, is sent once more."""
    told = sys.unraisablehook

    def hook(lost: Any) -> None:
        if lost.exc_type is KeyboardInterrupt:
            import _thread

            # From beside: sent from here, it would be lost in this callback as well.
            _thread.start_new_thread(_thread.interrupt_main, ())
        else:
            told(lost)

    sys.unraisablehook = hook


def main() -> None:
    """The console script."""
    try:
        _lose_no_stop()
        _have_outputs()
        _speak_utf8()
        _start_soon()
        code = run(sys.argv[1:])
        _end_soon()
    except KeyboardInterrupt:
        code = STOPPED
    sys.exit(code)


if __name__ == "__main__":
    main()
