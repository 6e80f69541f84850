"""From a path or an address to an engine: SQLite made safe and private, PostgreSQL by URL."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from sqlalchemy import URL, Connection, Engine, create_engine, event, make_url
from sqlalchemy.exc import ArgumentError, DBAPIError

from hollowright.errors import HollowrightError, shown
from hollowright.store.faults import DrawerRefused, NoSuchDrawer

VARIABLE = "HOLLOWRIGHT_DRAWER"
"""The environment variable that names the drawer: a path, or the address of a database."""

FILE = "drawer.sqlite3"
POSTGRES = ("postgres", "postgresql", "postgresql+psycopg")
WAIT = 5000
"""How long one that writes waits for another [ms]."""

ONE_WRITER = 0x486F6C6C
"""The lock that lets one at a time write to a PostgreSQL drawer, as SQLite does by itself."""


@dataclass(frozen=True)
class Address:
    """Where a drawer is: as the database library wants it, and as a person may see it."""

    url: URL
    shown: str


def address_of(named: str = "") -> Address:
    """The drawer named, else HOLLOWRIGHT_DRAWER's, else the one in the user's data folder.

    A plain path means SQLite. NoSuchDrawer when it is neither that nor PostgreSQL's address.
    """
    text = named or os.environ.get(VARIABLE, "")
    if not text:
        return _file(_default(), make_folder=True)
    if "://" not in text:
        return _file(_home(text))
    try:
        url = make_url(text)
    except (ArgumentError, ValueError):
        raise _unknown() from None
    if url.drivername in POSTGRES:
        place = f"{url.host or 'this machine'}/{url.database or ''}"
        return Address(url.set(drivername="postgresql+psycopg"), place)
    if url.drivername in ("sqlite", "sqlite+pysqlite") and url.database and not url.query:
        return _file(Path(url.database))
    raise _unknown()


def _unknown() -> NoSuchDrawer:
    """What is given may hold a password: it isn't repeated."""
    return NoSuchDrawer(
        "what is given is neither a path nor an address that can be opened.",
        "Give a file's path, or postgresql://user@host/database.",
    )


def _default() -> Path:
    from platformdirs import user_data_path

    return user_data_path("hollowright", appauthor=False) / FILE


def _home(text: str) -> Path:
    """A path; a leading ~ is the user's home."""
    try:
        return Path(text).expanduser()
    except RuntimeError:  # no such user
        return Path(text)


def _file(path: Path, make_folder: bool = False) -> Address:
    """A SQLite file, made private to the user when it is new."""
    try:
        if make_folder:
            path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        if path.is_dir():
            raise NoSuchDrawer(f"{shown(path)} is a folder.", "Give the path of a file.")
        if not path.parent.is_dir():
            raise NoSuchDrawer(f"there is no folder {shown(path.parent)}.", "Make it first.")
        if not path.exists():
            os.close(os.open(path, os.O_CREAT | os.O_WRONLY, 0o600))
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or "it can't be made"
        raise NoSuchDrawer(f"{shown(path)}: {reason}.", "Give a path you may write to.") from None
    return Address(URL.create("sqlite", database=str(path.absolute())), str(path))


def engine_of(address: Address) -> Engine:
    """An engine whose connections are set up for safety; nothing is connected yet."""
    if address.url.drivername == "sqlite":
        engine = create_engine(address.url, connect_args={"timeout": WAIT / 1000})
        event.listen(engine, "connect", partial(_set_up, address))
        event.listen(engine, "begin", _begin)
        return engine
    arguments = {} if "connect_timeout" in address.url.query else {"connect_timeout": 5}
    try:
        engine = create_engine(address.url, connect_args=arguments)
    except ImportError:
        raise NoSuchDrawer(
            "PostgreSQL wants the package psycopg, which isn't installed here.",
            'Install it: pip install "hollowright[postgresql]".',
        ) from None
    event.listen(engine, "begin", _begin_postgres)
    return engine


TABLE = "store_version"
"""Where a drawer's own revision stands; a database without it isn't a drawer."""


def _set_up(address: Address, raw: sqlite3.Connection, _: object) -> None:
    """What each SQLite connection keeps to: a commit is on the disk, links hold, it waits.

    NoSuchDrawer, before anything is changed, when the file is another program's.
    """
    raw.isolation_level = None  # we begin ourselves
    cursor = raw.cursor()
    cursor.execute(f"PRAGMA busy_timeout={WAIT}")
    names = {name for (name,) in cursor.execute("SELECT name FROM sqlite_master")}
    if names and TABLE not in names:
        raw.close()
        raise not_a_drawer(address)
    for setting in ("journal_mode=WAL", "synchronous=FULL"):
        cursor.execute(f"PRAGMA {setting}")
    cursor.execute("PRAGMA foreign_keys=ON")
    cursor.close()


def _begin(connection: Connection) -> None:
    writing = connection.get_execution_options().get("writing")
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writing else "BEGIN")


def _begin_postgres(connection: Connection) -> None:
    if connection.get_execution_options().get("writing"):
        connection.exec_driver_sql(f"SET LOCAL lock_timeout = {WAIT}")
        connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({ONE_WRITER})")


@contextmanager
def reading(engine: Engine, address: Address) -> Iterator[Connection]:
    """A connection to read by; what goes wrong with the database is told in words."""
    with spoken(address), engine.connect() as connection:
        yield connection


@contextmanager
def writing(engine: Engine, address: Address, before: str = "") -> Iterator[Connection]:
    """One transaction to write by, all of it or nothing; one writer at a time.

    before: a setting made for this connection alone, which is closed afterwards.
    """
    with spoken(address), engine.connect() as connection:
        connection = connection.execution_options(writing=True)  # noqa: PLW2901
        if before:
            connection.connection.cursor().execute(before)
        try:
            with connection.begin():
                yield connection
        finally:
            if before:
                connection.invalidate()


@contextmanager
def spoken(address: Address) -> Iterator[None]:
    """The database library's errors as sentences; a password is never among them."""
    try:
        yield
    except DBAPIError as fault:
        raise _in_words(str(fault.orig), address) from None


def not_a_drawer(address: Address) -> NoSuchDrawer:
    """What is said of a file that holds something else."""
    return NoSuchDrawer(f"{shown(address.shown)} isn't a drawer's file.", "Give another path.")


def _in_words(reason: str, address: Address) -> HollowrightError:
    place, low = shown(address.shown), reason.lower()
    if "locked" in low or "lock timeout" in low:
        return DrawerRefused("drawer", "another program is writing to it.", "Try again.")
    if "not a database" in low:
        return not_a_drawer(address)
    if "readonly" in low or "read-only" in low or "permission denied" in low:
        return NoSuchDrawer(f"{place} can't be written to.", "Give one you may write to.")
    if "full" in low or "no space" in low or "disk i/o" in low:
        return DrawerRefused("drawer", "the disk is full or faulty.", "Nothing was changed.")
    if "malformed" in low:
        return NoSuchDrawer(f"{place} is damaged.", "Bring back a copy of it.")
    if "password authentication" in low or "no password supplied" in low:
        return NoSuchDrawer(f"{place} refuses this user or password.", "Check both.")
    if "does not exist" in low and ("database" in low or "role" in low):
        return NoSuchDrawer(f"{place} has no such database or user.", "Make it first.")
    if "connect" in low or "unable to open" in low or "resolve" in low:
        return NoSuchDrawer(f"{place} can't be reached.", "Does it run, and is the address right?")
    return DrawerRefused("drawer", "the database refused it; nothing was changed.", "Try again.")
