"""`drawerwright serve`: the web app and HTTP API."""

from __future__ import annotations

import os
import socket
import sys
from typing import TYPE_CHECKING, Annotated, Final

import typer

from drawerwright.cli.options import AsJson
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
            help="With --open: a name under which the server may be asked; repeatable.",
        ),
    ] = None,
    workers: Annotated[int, typer.Option("--workers", min=1, max=64, help="Processes that answer.")] = 1,
    as_json: AsJson = False,
) -> None:
    """Run the web app and HTTP API on this machine."""
    from drawerwright.web.settings import LOOPBACK_NAMES, Settings, is_loopback

    if not is_loopback(host) and not beyond:
        says = "can be reached from other machines, and there is no sign-in yet"
        raise InputError([Fault("--host", host, says, f"--host {host} --open, or leave --host out")])
    bound = _bind(host, port)
    real_port = bound.getsockname()[1]
    names = tuple(name) if name else () if not beyond else ("*",)
    settings = Settings(host=host, port=real_port, store=store, open=beyond, hosts=(*LOOPBACK_NAMES, *names))
    _open_once(settings)
    _tell(settings, as_json=as_json)
    _run(settings, bound, workers)


def _bind(host: str, port: int) -> socket.socket:
    """A socket that listens there. Raises InputError where the place is taken or not ours."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    made = socket.socket(family, socket.SOCK_STREAM)
    made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        made.bind((host.strip("[]"), port))
    except OSError as fault:
        made.close()
        says = f"cannot be listened on: {fault.strerror or fault}"
        raise InputError([Fault("--port", f"{host}:{port}", says, "--port 0 for any that is free")]) from None
    made.set_inheritable(True)
    return made


def _open_once(settings: Settings) -> None:
    """Open the store before any worker does: what is wrong with it is told once, here."""
    from drawerwright.store import open_store

    open_store(settings.store).close()


def _tell(settings: Settings, *, as_json: bool) -> None:
    from drawerwright.cli.answers import write_json

    shown = f"[{settings.host}]" if ":" in settings.host else settings.host
    address = f"http://{shown}:{settings.port}/"
    if not settings.on_loopback:
        typer.echo(f"drawerwright: warning: {OPEN_WARNING.format(address=address)}", err=True)
    if as_json:
        write_json({"schema": "drawerwright/serve/1", "address": address})
        sys.stdout.flush()
    else:
        typer.echo(f"Drawerwright answers at {address}  (Ctrl+C ends it)")


def _run(settings: Settings, bound: socket.socket, workers: int) -> None:
    import uvicorn

    told = {
        "factory": True,
        "log_level": "warning",
        "server_header": False,
        "timeout_graceful_shutdown": GOODBYE_SECONDS,
    }
    os.environ.update(settings.as_environment())
    if workers == 1:
        config = uvicorn.Config("drawerwright.web.app:from_environment", **told)  # type: ignore[arg-type]
        uvicorn.Server(config).run(sockets=[bound])
        return
    from uvicorn.supervisors import Multiprocess

    config = uvicorn.Config("drawerwright.web.app:from_environment", workers=workers, **told)  # type: ignore[arg-type]
    Multiprocess(config, sockets=[bound]).run()
