"""How the server is set up: where it listens, who may ask, how much is read at most."""

from __future__ import annotations

import ipaddress
import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final, Self

from platformdirs import user_cache_path

LOOPBACK_NAMES: Final = ("localhost", "127.0.0.1", "[::1]", "::1")

JOB_UPLOAD_CAP: Final = 20 * 1024 * 1024
"""Largest body that is read [bytes]: a workbook of 5,000 drawers is a tenth of it. Own choice."""

_PREFIX: Final = "DRAWERWRIGHT_SERVE_"


@dataclass(frozen=True, slots=True)
class Settings:
    """The server's settings; `open` means that it was told to listen beyond this machine.

    `store` is the address of the job store, None for the one in the user's data folder. `hosts`: the names
    under which the server answers; without `open` only those of this machine. `cache`: the folder for packs
    that are built, None for `DRAWERWRIGHT_CACHE` or the user's cache folder; workers share it. `slides`:
    files and folders of families that are offered instead of the shipped ones.
    """

    host: str = "127.0.0.1"
    port: int = 8757
    store: str | None = None
    open: bool = False
    body_cap: int = JOB_UPLOAD_CAP
    hosts: tuple[str, ...] = LOOPBACK_NAMES
    cache: str | None = None
    slides: tuple[str, ...] = ()

    @property
    def cache_folder(self) -> Path:
        """The folder for what is built once and kept for a while. It need not be there yet."""
        told = self.cache or os.environ.get("DRAWERWRIGHT_CACHE")
        return Path(told) if told else user_cache_path("drawerwright", appauthor=False)

    @property
    def on_loopback(self) -> bool:
        """Whether only this machine can reach the server."""
        return is_loopback(self.host)

    def as_environment(self) -> dict[str, str]:
        """The settings as variables for worker processes, which start from the environment alone."""
        told = {
            "HOST": self.host,
            "PORT": str(self.port),
            "OPEN": "1" if self.open else "",
            "BODY_CAP": str(self.body_cap),
            "HOSTS": " ".join(self.hosts),
            "STORE": self.store or "",
            "CACHE": self.cache or "",
            "SLIDES": os.pathsep.join(self.slides),
        }
        return {_PREFIX + key: value for key, value in told.items()}

    @classmethod
    def from_environment(cls, environment: Mapping[str, str] | None = None) -> Self:
        """What `as_environment` wrote; the defaults where nothing was."""
        told = os.environ if environment is None else environment
        plain = cls()
        return cls(
            host=told.get(_PREFIX + "HOST") or plain.host,
            port=int(told.get(_PREFIX + "PORT") or plain.port),
            store=told.get(_PREFIX + "STORE") or None,
            open=bool(told.get(_PREFIX + "OPEN")),
            body_cap=int(told.get(_PREFIX + "BODY_CAP") or plain.body_cap),
            hosts=tuple((told.get(_PREFIX + "HOSTS") or "").split()) or plain.hosts,
            cache=told.get(_PREFIX + "CACHE") or None,
            slides=tuple(filter(None, (told.get(_PREFIX + "SLIDES") or "").split(os.pathsep))),
        )


def is_loopback(host: str) -> bool:
    """Whether a host name or address means this machine alone."""
    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host.strip("[]")).is_loopback
    except ValueError:
        return False
