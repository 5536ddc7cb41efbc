"""`drawerwright serve`: the web app and HTTP API."""

from __future__ import annotations

import os
import signal
import socket
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from drawerwright.cli.options import AsJson, SlidePaths, UnitsWanted
from drawerwright.cli.usage import PLACE
from drawerwright.errors import Fault, InputError

if TYPE_CHECKING:
    from drawerwright.web.settings import Settings

StoreAddress = Annotated[
    str | None,
    typer.Option(
        "--store",
        metavar="URL",
        help="Where jobs are kept: sqlite:///FILE or postgresql://…; a file in your data folder unless told.",
        show_default=False,
    ),
]
OPEN_WARNING: Final = (
    "anyone who can reach {address} can read and change every job: there are no accounts yet. "
    "Keep it inside a network that you trust."
)
GOODBYE_SECONDS: Final = 5
"""How long requests under way may take to end when the server is told to stop. Own choice."""
PATIENCE_SECONDS: Final = 60
"""Silence after which another worker takes its place: a busy machine begins slowly. Own choice."""
WAITING: Final = 200
"""Connections that may wait to be taken, and that are taken at once: more would need more files than
a process may have open, before one too many is turned away. Own choice."""


def serve(
    host: Annotated[
        str,
        typer.Option(
            "--host", metavar="H", help="Address to listen on; another than this machine's needs --open."
        ),
    ] = "127.0.0.1",
    port: Annotated[
        int, typer.Option("--port", metavar="P", min=0, max=65535, help="Port to listen on; 0: any.")
    ] = 8757,
    store: StoreAddress = None,
    beyond: Annotated[
        bool,
        typer.Option(
            "--open", help="Let other machines in. There is no sign-in: only in a network you trust."
        ),
    ] = False,
    name: Annotated[
        list[str] | None,
        typer.Option(
            "--name",
            metavar="NAME",
            help="A further name under which the server may be asked; may be given several times.",
        ),
    ] = None,
    workers: Annotated[
        int, typer.Option("--workers", metavar="N", min=1, max=64, help="Processes that answer.")
    ] = 1,
    as_json: AsJson = False,
    slides: SlidePaths = None,
    units: UnitsWanted = None,
) -> None:
    """Run the web app and HTTP API on this machine."""
    from drawerwright.web.settings import LOOPBACK_NAMES, Settings, is_loopback

    host = host.strip("[]")
    _check_reach(host, beyond=beyond, is_near=is_loopback(host))
    bound = _bind(host, port)
    own_names = _names_of_this_machine() if beyond else ()
    settings = Settings(
        host=host,
        port=bound.getsockname()[1],
        store=store,
        open=beyond,
        hosts=(*LOOPBACK_NAMES, _name_in_host(host), *own_names, *(one.lower() for one in name or ())),
        slides=tuple(str(Path(one).absolute()) for one in slides or ()),
    )
    _try_once(settings)
    # Told to stop, it ends as one that has done its work; the server library hands the signal back to us.
    signal.signal(signal.SIGTERM, _end)
    _tell(settings, as_json=as_json)
    _run(settings, bound, workers)


def _end(_signal: int, _frame: object) -> None:
    raise SystemExit(0)


def _check_reach(host: str, *, beyond: bool, is_near: bool) -> None:
    """Raise InputError where address and `--open` do not go together."""
    if not is_near and not beyond:
        says = "can be reached from other machines, and there is no sign-in yet"
        raise InputError([Fault(f"{PLACE} --host", host, says, f"--host {host} --open, or leave --host out")])
    if is_near and beyond:
        says = f"opens nothing: {host} is this machine alone"
        raise InputError([Fault(f"{PLACE} --open", "", says, "--host 0.0.0.0 --open")])


def _names_of_this_machine() -> tuple[str, ...]:
    """Names by which a network commonly knows this machine; bare addresses are answered without."""
    name = socket.gethostname().lower()
    return (name, f"{name}.local") if name else ()


def _name_in_host(host: str) -> str:
    """An address or name as it stands in an address of the web and in `Host` (RFC 3986 §3.2.2)."""
    return f"[{host}]" if ":" in host else host.lower()


def _bind(host: str, port: int) -> socket.socket:
    """A socket that listens there. Raises InputError where the place is taken or not ours."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    # The protocol is named because the event loop sends small answers at once only where it sees it: without,
    # each answer waits some 40 ms for the other side's acknowledgement.
    made = socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        made.bind((host.strip("[]"), port))
        # From here on who asks is kept waiting, and not turned away, until the server has begun.
        made.listen(WAITING)
    except OSError as fault:
        made.close()
        says = f"cannot be listened on: {fault.strerror or fault}"
        place = f"{PLACE} --{'host' if isinstance(fault, socket.gaierror) else 'port'}"
        raise InputError([Fault(place, f"{host}:{port}", says, "--port 0 for any that is free")]) from None
    made.set_inheritable(True)
    return made


def _try_once(settings: Settings) -> None:
    """Open the store and read the slides before any worker does: what is wrong is told once, here."""
    from drawerwright.store import open_store
    from drawerwright.web.families import offer

    offer(settings.slides)
    open_store(settings.store).close()


def _tell(settings: Settings, *, as_json: bool) -> None:
    from drawerwright.cli.answers import write_json

    address = f"http://{_name_in_host(settings.host)}:{settings.port}/"
    if not settings.on_loopback:
        typer.echo(f"drawerwright: warning: {OPEN_WARNING.format(address=address)}", err=True)
    if as_json:
        write_json({"schema": "drawerwright/serve/1", "address": address})
    else:
        typer.echo(f"Drawerwright answers at {address}  (Ctrl+C ends it)")
    sys.stdout.flush()


def _run(settings: Settings, bound: socket.socket, workers: int) -> None:
    import uvicorn

    os.environ.update(settings.as_environment())
    config = uvicorn.Config(
        "drawerwright.web.app:from_environment",
        factory=True,
        workers=workers,
        log_level="warning",
        server_header=False,
        ws="none",
        http="drawerwright.web.connections:Connection",
        backlog=WAITING,
        timeout_graceful_shutdown=GOODBYE_SECONDS,
        timeout_worker_healthcheck=PATIENCE_SECONDS,
    )
    if workers == 1:
        uvicorn.Server(config).run(sockets=[bound])
        return
    from uvicorn.supervisors import Multiprocess

    Multiprocess(config, sockets=[bound]).run()
