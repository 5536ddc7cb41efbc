"""Set up `.venv` from the hash-locked requirements, then run what was asked.

    python3 bootstrap.py                set up only
    python3 bootstrap.py demo [...]     set up, then run the demo job
    python3 bootstrap.py test [...]     set up, then run the tests (arguments go to pytest)
    python3 bootstrap.py check [...]    set up, then every check, or those named
                                        (format lint types imports size docs test)

Needs Python 3.11 or newer with `venv`, and nothing else. Set-up is skipped while the lock and the project's
description are unchanged; one that was cut short is made anew.
"""

import contextlib
import hashlib
import importlib.util
import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = BIN / ("python.exe" if os.name == "nt" else "python")
LOCK = ROOT / "requirements.lock"
STAMP = VENV / "made-from"
UNDER_WAY = VENV / "being-made"
OLDEST = (3, 11)

CHECKS = {
    "format": ["ruff", "format", "--check", "."],
    "lint": ["ruff", "check", "."],
    "types": ["mypy"],
    "imports": ["lint-imports", "--no-logo", "--no-cache"],
    "size": ["python", "tools/check_module_size.py"],
    "docs": ["pytest", "tests/unit/house"],
    "test": ["pytest"],
}
USAGE = "usage: bootstrap.py [demo [option ...] | test [pytest option ...] | check [name ...]]"


def say(text):
    """Tell the person at the console; standard output belongs to the command that is run."""
    print(f"bootstrap: {text}", file=sys.stderr, flush=True)


def stop(text, code=1):
    """End with a message instead of a traceback."""
    say(text)
    sys.exit(code)


def place():
    """Which Python the environment is for, and where it stands: its scripts hold that path."""
    return f"{sys.implementation.cache_tag} {VENV}"


def fingerprint():
    """What the environment is made from: the lock, the project's description, then its place."""
    digest = hashlib.sha256()
    for path in (LOCK, ROOT / "pyproject.toml"):
        digest.update(path.read_bytes())
    return f"{digest.hexdigest()}\n{place()}"


@contextlib.contextmanager
def alone():
    """Hold others off while the environment is made; without file locks (Windows) it only yields."""
    try:
        import fcntl
    except ImportError:
        yield
        return
    handle = os.open(ROOT, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def stamp():
    """What the environment that stands was made from; empty without one."""
    return STAMP.read_text(encoding="utf-8") if PYTHON.exists() and STAMP.is_file() else ""


def usable():
    """Whether what stands can be brought up to date; else it is made anew."""
    moved = stamp() and not stamp().endswith(place())
    return has_pip() and not UNDER_WAY.exists() and not moved


def pip(*arguments):
    """Run the environment's own pip, its talk on standard error; True when it went well."""
    command = [str(PYTHON), "-m", "pip", "--disable-pip-version-check", *arguments]
    return subprocess.run(command, cwd=ROOT, stdout=sys.stderr, check=False).returncode == 0


def has_pip():
    """Whether the environment's Python starts and has pip; an upgrade of the system can take both."""
    if not PYTHON.exists():
        return False
    command = [str(PYTHON), "-c", "import pip"]
    return subprocess.run(command, stderr=subprocess.DEVNULL, check=False).returncode == 0


def make_environment():
    """Make an empty `.venv`, after clearing away what an interrupted run left."""
    if importlib.util.find_spec("ensurepip") is None:
        stop(
            "this Python cannot make an environment (its `ensurepip` is missing).\n"
            "  On Debian or Ubuntu: apt install python3-venv\n"
            "  Elsewhere: install a full Python 3.11 or newer, then run this again."
        )
    if VENV.exists():
        say("clearing away a .venv that is unfinished or was moved")
        shutil.rmtree(VENV)
    say("making .venv")
    made_it = subprocess.run([sys.executable, "-m", "venv", str(VENV)], stdout=sys.stderr, check=False)
    if made_it.returncode != 0:
        stop("`python -m venv` failed; its message is above. On Debian or Ubuntu: apt install python3-venv")


def set_up():
    """Bring `.venv` to what the lock says; the stamp comes last, so that half a set-up is seen."""
    wanted = fingerprint()
    if stamp() == wanted:
        return
    with alone():
        if stamp() == wanted:  # another run made it while this one waited
            return
        if not usable():
            make_environment()
        UNDER_WAY.write_text("", encoding="utf-8")
        STAMP.unlink(missing_ok=True)
        say("installing the locked packages (a minute or so the first time)")
        if not pip("install", "--quiet", "--no-compile", "--require-hashes", "--requirement", str(LOCK)):
            stop(
                "the packages could not be installed; pip's message is above.\n"
                "  Without a network: connect, or point pip at a folder of the packages (PIP_FIND_LINKS).\n"
                "  Then run this again; it starts afresh."
            )
        if not pip("install", "--quiet", "--no-deps", "--no-build-isolation", "--editable", str(ROOT)):
            stop("Drawerwright itself could not be installed; pip's message is above.")
        UNDER_WAY.unlink()
        STAMP.write_text(wanted, encoding="utf-8")
    say(f"ready: {BIN.relative_to(ROOT) / 'drawerwright'}")


def become(arguments):
    """Run the environment's Python in this process's place, with its exit code."""
    command = [str(PYTHON), *arguments]
    sys.stdout.flush()
    if os.name == "nt":
        sys.exit(subprocess.run(command, check=False).returncode)
    os.execv(command[0], command)


def check(names):
    """Run the named checks, or all of them, every one even after a failure; exit 1 if any failed."""
    failed = []
    for name in names or [name for name in CHECKS if name != "docs"]:  # `test` runs the docs tests too
        say(f"check {name}")
        program, *arguments = CHECKS[name]
        if subprocess.run([str(BIN / program), *arguments], cwd=ROOT, check=False).returncode != 0:
            failed.append(name)
    if failed:
        stop(f"failed: {' '.join(failed)}")
    say("all checks passed")


def main(arguments):
    """Read the task, set up, run it."""
    if sys.version_info < OLDEST:
        newer = next(
            (name for name in ("python3.13", "python3.12", "python3.11") if shutil.which(name)), None
        )
        found = f"{sys.version_info[0]}.{sys.version_info[1]}"
        hint = f"Run: {newer} bootstrap.py" if newer else "Install Python 3.11 or newer and run this with it."
        stop(f"Python {found} is too old; 3.11 is the oldest that will do. {hint}")
    task, rest = (arguments[0], arguments[1:]) if arguments else (None, [])
    if task in ("-h", "--help"):
        print(__doc__.strip())
        return
    if task not in (None, "demo", "test", "check"):
        stop(f"no task is called {task!r}\n  {USAGE}", code=2)
    if task is None and rest:
        stop(USAGE, code=2)
    unknown = [name for name in rest if task == "check" and name not in CHECKS]
    if unknown:
        stop(f"no check is called {unknown[0]!r}; there are: {' '.join(CHECKS)}", code=2)
    set_up()
    if task == "demo":
        become(["-m", "drawerwright.cli.main", "demo", *rest])
    elif task == "test":
        os.chdir(ROOT)
        become(["-m", "pytest", *rest])
    elif task == "check":
        check(rest)


if __name__ == "__main__":
    try:
        main(sys.argv[1:])
    except KeyboardInterrupt:
        stop("stopped", code=130)
