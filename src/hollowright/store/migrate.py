"""Bringing a drawer's tables up to this program's: asked by one query, done in one transaction."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, inspect, text
from sqlalchemy.exc import DBAPIError

from hollowright.errors import shown
from hollowright.store.faults import NoSuchDrawer
from hollowright.store.opening import TABLE, Address, reading, writing

HEAD = "0002"
"""The newest revision; a test holds it to what `migrations` says."""

FOLDERS = (Path(__file__).with_name("migrations") / "versions",)
"""Where the revisions lie."""


def make_current(engine: Engine, address: Address) -> None:
    """Migrate the drawer when it is older than the program; NoSuchDrawer when it is newer."""
    with reading(engine, address) as connection:
        found = version_of(connection)
    if found != HEAD:
        move_to(HEAD, engine, address)


def move_to(revision: str, engine: Engine, address: Address) -> None:
    """Bring the tables up or down to a revision ('base': none), all of it or nothing."""
    with _migrating(engine, address) as connection:
        found = version_of(connection)  # another program may have been quicker
        if found is not None and found not in known():
            raise NoSuchDrawer(
                f"it was made by a newer Hollowright (its tables are {found}, ours {HEAD}).",
                "Install the newer version; nothing was changed.",
            )
        if found is None:
            _check_free(connection, address)
        if found != revision:
            _migrate(connection, found, revision)


def _check_free(connection: Connection, address: Address) -> None:
    """NoSuchDrawer when another program's tables have the names of ours."""
    from hollowright.store.tables import metadata

    there = inspect(connection)
    names = {*there.get_table_names(), *there.get_view_names()} & set(metadata.tables)
    if names:
        named = ", ".join(sorted(names))
        raise NoSuchDrawer(
            f"{shown(address.shown)} has tables of another program, called as ours: {named}.",
            "Give a database, or a schema, of its own; nothing was changed.",
        )


@contextmanager
def _migrating(engine: Engine, address: Address) -> Iterator[Connection]:
    """A transaction to alter tables in.

    SQLite alters a table by making it anew, which its links would forbid: they rest meanwhile, and
    are checked as a whole before anything is kept.
    """
    lite = engine.dialect.name == "sqlite"
    with writing(engine, address, "PRAGMA foreign_keys=OFF" if lite else "") as connection:
        yield connection
        if lite and connection.exec_driver_sql("PRAGMA foreign_key_check").first() is not None:
            raise NoSuchDrawer("its tables don't fit together.", "Nothing was changed.")


def version_of(connection: Connection) -> str | None:
    """The drawer's revision; None where it has no tables yet."""
    try:
        with connection.begin_nested() if connection.in_transaction() else connection.begin():
            found = connection.execute(text(f"SELECT version_num FROM {TABLE}")).scalar()  # noqa: S608
    except DBAPIError as fault:
        reason = str(fault.orig).lower()
        if "no such table" in reason or f'"{TABLE}" does not exist' in reason:
            return None
        if "version_num" in reason:
            raise NoSuchDrawer(
                f"its table {TABLE} is another program's.", "Give another; nothing was changed."
            ) from None
        raise
    return None if found is None else str(found)


def known() -> tuple[str, ...]:
    """Every revision that this program knows."""
    return tuple(script.revision for script in _script().walk_revisions())


def _migrate(connection: Connection, here: str | None, revision: str) -> None:
    from alembic.migration import MigrationContext
    from alembic.operations import Operations

    script = _script()
    down = revision == "base" or (here is not None and revision in _below(here))
    steps: Callable[..., Any] = script._downgrade_revs if down else script._upgrade_revs
    options = {
        "version_table": TABLE,
        "render_as_batch": True,
        "fn": lambda now, _: steps(revision, now),
    }
    context = MigrationContext.configure(connection, opts=options)
    with Operations.context(context):
        context.run_migrations()


def _below(revision: str) -> tuple[str, ...]:
    return tuple(s.revision for s in _script().iterate_revisions(revision, "base"))[1:]


def _script() -> Any:
    from alembic.script import ScriptDirectory

    return ScriptDirectory(
        str(FOLDERS[0].parent), version_locations=[str(folder) for folder in FOLDERS]
    )
