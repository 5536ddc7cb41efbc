"""A store as one file, the same for SQLite and PostgreSQL, and a store made from it.

The file is a zip: one JSON line a row, one entry a table, and a manifest with the schema, the number of rows
and the SHA-256 of each entry. Same store, same bytes: rows go by their keys, and no clock, host or address is
in it.
"""

from __future__ import annotations

import hashlib
import json
import os
import secrets
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any, Final

from sqlalchemy import Connection, Table, delete, func, insert, literal_column, select, text

from drawerwright.errors import Fault, InputError
from drawerwright.store.connections import Connections, json_text
from drawerwright.store.tables import SCHEMA, UtcTime, metadata

FORMAT: Final = "drawerwright/store-backup/1"
MANIFEST: Final = "manifest.json"
LARGEST_MANIFEST: Final = 1_000_000
BATCH: Final = 500
"""Rows read and written at a time: a store of any size is saved in little memory."""

_EARLIEST: Final = (1980, 1, 1, 0, 0, 0)
_OWNER_ALONE: Final = 0o600
_ENTRY_MODE: Final = (0o100000 | _OWNER_ALONE) << 16


@dataclass(frozen=True, slots=True)
class Backup:
    """What a backup holds: rows by table, jobs and families counted, size of the file [bytes]."""

    rows: dict[str, int]
    jobs: int
    families: int
    size: int


def write_backup(connections: Connections, path: Path) -> Backup:
    """Write the whole store as it is at one moment, while others go on; beside `path`, then renamed.

    Raises:
        InputError: something is at `path` already, or it cannot be written.
        StoreUnusable: the store cannot be read.
    """
    if path.exists() or path.is_symlink():
        raise _fault(path, "is there already, and is left alone", "a name that is not taken yet")
    beside = path.with_name(f".{path.name}.{secrets.token_hex(4)}.part")
    try:
        descriptor = os.open(beside, os.O_CREAT | os.O_EXCL | os.O_WRONLY, _OWNER_ALONE)
        try:
            with os.fdopen(descriptor, "wb") as file:
                with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
                    written = _write_all(connections, archive)
                file.flush()
                os.fsync(file.fileno())
            beside.replace(path)
        except BaseException:
            beside.unlink(missing_ok=True)
            raise
    except OSError as error:
        reason = error.strerror or str(error)
        raise _fault(path, f"cannot be written: {reason}", "a file in a folder that is there") from None
    return Backup(*written, path.stat().st_size)


def _write_all(connections: Connections, archive: zipfile.ZipFile) -> tuple[dict[str, int], int, int]:
    told: dict[str, dict[str, Any]] = {}
    kinds = {"job": 0, "family": 0}
    with connections.reading() as connection:
        for table in metadata.sorted_tables:
            digest, count = hashlib.sha256(), 0
            with archive.open(_entry(f"{table.name}.jsonl"), "w", force_zip64=True) as entry:
                for row in _rows_of(connection, table):
                    line = (json_text(row) + "\n").encode()
                    digest.update(line)
                    entry.write(line)
                    count += 1
                    if table.name == "document":
                        kinds[row["kind"]] += 1
            told[table.name] = {"rows": count, "sha256": digest.hexdigest()}
    manifest = {"schema": FORMAT, "store_schema": SCHEMA, "tables": told}
    archive.writestr(_entry(MANIFEST), json.dumps(manifest, indent=2) + "\n")
    return {name: one["rows"] for name, one in told.items()}, kinds["job"], kinds["family"]


def _entry(name: str) -> zipfile.ZipInfo:
    info = zipfile.ZipInfo(name, _EARLIEST)
    info.compress_type = zipfile.ZIP_DEFLATED
    info.external_attr = _ENTRY_MODE
    info.create_system = 3
    return info


def _rows_of(connection: Connection, table: Table) -> Iterator[dict[str, Any]]:
    query = select(table).order_by(*table.primary_key.columns)
    for row in connection.execution_options(yield_per=BATCH).execute(query).mappings():
        yield {key: value.isoformat() if isinstance(value, datetime) else value for key, value in row.items()}


class BackupFile:
    """A backup, read; every entry is checked against the manifest before anything is believed."""

    def __init__(self, path: Path) -> None:
        self.path = path
        try:
            with zipfile.ZipFile(path) as archive:
                self.tables = self._manifest(archive)
                self._check_names(archive)
                for name in self.tables:
                    self._check(archive, name)
        except FileNotFoundError:
            raise _fault(path, "is not there", "a file that `store backup` wrote") from None
        except OSError as error:
            raise _fault(path, f"cannot be read: {error.strerror or error}") from None
        except (zipfile.BadZipFile, EOFError, RuntimeError, KeyError, TypeError, ValueError) as error:
            raise _fault(path, f"is no backup of a store: {error}") from None

    def _manifest(self, archive: zipfile.ZipFile) -> dict[str, dict[str, Any]]:
        if archive.getinfo(MANIFEST).file_size > LARGEST_MANIFEST:
            raise ValueError("its manifest is too long")
        manifest = json.loads(archive.read(MANIFEST))
        if manifest["schema"] != FORMAT:
            raise ValueError(f"it is {manifest['schema']}, not {FORMAT}")
        if manifest["store_schema"] != SCHEMA:
            says = f"is of the schema {manifest['store_schema']}, ours is {SCHEMA}"
            raise _fault(self.path, says, "the version of the program that wrote it")
        tables: dict[str, dict[str, Any]] = manifest["tables"]
        if tables.keys() != metadata.tables.keys():
            raise ValueError("it does not name the tables of a store")
        return tables

    def _check_names(self, archive: zipfile.ZipFile) -> None:
        known = [MANIFEST, *(f"{name}.jsonl" for name in self.tables)]
        others = [name for name in archive.namelist() if name not in known]
        if others:
            raise ValueError(f"{others[0][:80]!a} in it is no table of a store")
        if len(archive.namelist()) > len(known):
            raise ValueError("an entry stands in it twice")

    def _check(self, archive: zipfile.ZipFile, name: str) -> None:
        digest, count = hashlib.sha256(), 0
        columns = set(metadata.tables[name].columns.keys())
        with archive.open(f"{name}.jsonl") as entry:
            for line in entry:
                digest.update(line)
                count += 1
                row = json.loads(line)
                if not isinstance(row, dict) or row.keys() != columns:
                    raise ValueError(f"row {count} of {name} has other columns")
        if {"rows": count, "sha256": digest.hexdigest()} != self.tables[name]:
            raise ValueError(f"{name} is not as it was written: the file is damaged")

    def batches(self, table: Table) -> Iterator[list[dict[str, Any]]]:
        """The rows of a table, some at a time."""
        times = {column.name for column in table.columns if isinstance(column.type, UtcTime)}
        batch = []
        with zipfile.ZipFile(self.path) as archive, archive.open(f"{table.name}.jsonl") as entry:
            for line in entry:
                row = json.loads(line)
                for name in times:
                    row[name] = None if row[name] is None else datetime.fromisoformat(row[name])
                batch.append(row)
                if len(batch) == BATCH:
                    yield batch
                    batch = []
        if batch:
            yield batch


def put_back(file: BackupFile, connections: Connections, *, replace: bool) -> Backup:
    """Fill a store from a backup, in one transaction: all of it, or nothing is changed.

    Raises:
        InputError: the store is not empty, and it is not said that it may be replaced.
        StoreUnusable: it cannot be written.
    """
    tables = metadata.sorted_tables
    document, log = metadata.tables["document"], metadata.tables["test_log"]
    with connections.writing() as connection:
        if not connections.sqlite:
            # Whoever saves meanwhile waits; SQLite has one writer anyway.
            connection.execute(text("LOCK TABLE document, test_log IN EXCLUSIVE MODE"))
        held = [connection.scalar(select(func.count()).select_from(one)) or 0 for one in (document, log)]
        if any(held) and not replace:
            says = f"is not empty: it holds {held[0]} jobs and families, and {held[1]} test logs"
            try_ = "an empty store, or --replace, which takes away what is there"
            raise InputError([Fault("store", connections.shown, says, try_)])
        for table in reversed(tables):
            connection.execute(delete(table))
        for table in tables:
            for batch in file.batches(table):
                connection.execute(insert(table), batch)
            if not connections.sqlite:
                _count_on(connection, table)
        counted = select(document.c.kind, func.count()).group_by(document.c.kind)
        kinds = {row[0]: int(row[1]) for row in connection.execute(counted)}
    rows = {name: int(one["rows"]) for name, one in file.tables.items()}
    return Backup(rows, kinds.get("job", 0), kinds.get("family", 0), file.path.stat().st_size)


def _count_on(connection: Connection, table: Table) -> None:
    """PostgreSQL counts keys beside the table: from the highest that is there."""
    if "key" in table.columns:
        highest = func.max(table.columns["key"])
        counter = func.pg_get_serial_sequence(table.name, "key")
        # The third says whether the number was given out already.
        query = select(
            func.setval(counter, func.coalesce(highest, 1), highest.is_not(literal_column("NULL")))
        )
        connection.execute(query)


def _fault(path: Path, says: str, try_: str = "a file that `store backup` wrote") -> InputError:
    return InputError([Fault("backup", str(path), says, try_)])
