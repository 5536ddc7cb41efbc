"""Where the store is: `sqlite:///file`, `postgresql://server/database`, or a file of the user's own."""

from __future__ import annotations

import os
import re
from pathlib import Path
from typing import Final

from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError

from drawerwright.errors import Fault
from drawerwright.store.faults import StoreUnusable

VARIABLE: Final = "DRAWERWRIGHT_STORE"
FILE_NAME: Final = "store.sqlite3"
EXAMPLES: Final = "sqlite:///shop.sqlite3 or postgresql://user@server/database"
CONNECT_SECONDS: Final = 10
"""How long a server may take to answer the first time; our own choice (invented)."""

_POSTGRES: Final = frozenset({"postgresql", "postgres", "postgresql+psycopg"})
_SECRETS: Final = ("password", "passfile", "sslpassword")


def store_address(url: str | None) -> URL:
    """The address of a store; None: what DRAWERWRIGHT_STORE says, else a file in the user's data folder.

    That folder is made where it is missing; no other is.

    Raises:
        StoreUnusable: it is no address of a kind that is known, or the folder cannot be made.
    """
    told = url if url is not None else os.environ.get(VARIABLE) or None
    if told is None:
        return URL.create("sqlite", database=str(_data_folder() / FILE_NAME))
    try:
        read = make_url(told.strip())
    except (ArgumentError, ValueError):
        raise _no_address(told) from None
    if read.drivername == "sqlite" and not (read.host or read.query):
        if not read.database or read.database == ":memory:":
            says = "names no file: a store in memory would be gone with the program"
            raise StoreUnusable([Fault("store", masked(told), says, "sqlite:///shop.sqlite3")])
        return read
    if read.drivername in _POSTGRES:
        if not read.database:
            says = "names no database on that server"
            raise StoreUnusable([Fault("store", masked(told), says, "postgresql://user@server/database")])
        told_timeout = "connect_timeout" in read.query
        read = read if told_timeout else read.update_query_dict({"connect_timeout": str(CONNECT_SECONDS)})
        return read.set(drivername="postgresql+psycopg")
    raise _no_address(told)


def shown(url: URL) -> str:
    """An address as it may be shown: as a person writes it, the password masked."""
    told = url.set(drivername=url.get_backend_name())
    told = told.difference_update_query(["connect_timeout", *_SECRETS])
    return told.render_as_string(hide_password=True)


def masked(text: str) -> str:
    """A text that was meant as an address, without what may be a password."""
    without = re.sub(r"(://[^/?#:@]*):.*@", r"\1:***@", text)
    return re.sub(rf"((?:{'|'.join(_SECRETS)})=)[^&]*", r"\1***", without)


def _data_folder() -> Path:
    import platformdirs

    folder = platformdirs.user_data_path("drawerwright", appauthor=False)
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        says = f"cannot be made: {error.strerror}"
        try_ = f"{VARIABLE}=sqlite:///shop.sqlite3, or --store"
        raise StoreUnusable([Fault("store", str(folder), says, try_)]) from None
    return folder


def _no_address(told: str) -> StoreUnusable:
    return StoreUnusable([Fault("store", masked(told), "is no address of a store", EXAMPLES)])
