"""Bringing a drawer's tables up to this program's: asked by one query, done in one transaction."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, text
from sqlalchemy.exc import DBAPIError

from hollowright.store.faults import NoSuchDrawer
from hollowright.store.opening import Address, reading, writing

HEAD = "0001"
"""The newest revision; a test holds it to what `migrations` says."""

TABLE = "store_version"
"""Where a drawer's own revision stands."""


def make_current(engine: Engine, address: Address) -> None:
    """Migrate the drawer when it is older than the program; NoSuchDrawer when it is newer."""
    with reading(engine, address) as connection:
        found = version_of(connection)
    if found == HEAD:
        return
    with writing(engine, address) as connection:
        found = version_of(connection)  # another program may have been quicker
        if found is not None and found not in known():
            raise NoSuchDrawer(
                f"it was made by a newer Hollowright (its tables are {found}, ours {HEAD}).",
                "Install the newer version; nothing was changed.",
            )
        if found != HEAD:
            migrate(connection, HEAD)


def version_of(connection: Connection) -> str | None:
    """The drawer's revision; None where it has no tables yet."""
    try:
        with connection.begin_nested() if connection.in_transaction() else connection.begin():
            found = connection.execute(text(f"SELECT version_num FROM {TABLE}")).scalar()  # noqa: S608
    except DBAPIError as fault:
        reason = str(fault.orig).lower()
        if "no such table" in reason or f'"{TABLE}" does not exist' in reason:
            return None
        raise
    return None if found is None else str(found)


def known() -> tuple[str, ...]:
    """Every revision that this program knows."""
    return tuple(script.revision for script in _script().walk_revisions())


def migrate(connection: Connection, revision: str) -> None:
    """Bring the tables up or down to a revision ('base': none), inside the open transaction."""
    from alembic.migration import MigrationContext
    from alembic.operations import Operations

    script = _script()
    options: dict[str, Any] = {"version_table": TABLE, "render_as_batch": True}
    context = MigrationContext.configure(connection, opts=options)
    here = context.get_current_revision()
    down = revision == "base" or (here is not None and revision in _below(here))
    steps: Callable[..., Any] = script._downgrade_revs if down else script._upgrade_revs
    context = MigrationContext.configure(
        connection, opts=options | {"fn": lambda rev, _: steps(revision, rev)}
    )
    with Operations.context(context):
        context.run_migrations()


def _below(revision: str) -> tuple[str, ...]:
    return tuple(s.revision for s in _script().iterate_revisions(revision, "base"))[1:]


def _script() -> Any:
    from alembic.script import ScriptDirectory

    return ScriptDirectory(str(Path(__file__).with_name("migrations")))
