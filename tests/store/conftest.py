"""A drawer for each test, on SQLite and on a PostgreSQL of the tests' own."""

import os
import shutil
import signal
import subprocess
import tempfile
import time
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path

import pytest

from hollowright.store.store import Store, open_store
from tests.conftest import IN_CI

READY = 30.0
"""A cluster that takes longer to start has failed [s]."""


def programs() -> Path | None:
    """The folder of PostgreSQL's programs."""
    found = shutil.which("initdb")
    kept = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"))
    return Path(found).parent if found else kept[-1].parent if kept else None


def servant() -> dict[str, str | int]:
    """Whom it runs as: it refuses to be run by root."""
    if os.geteuid() != 0:
        return {}
    import pwd

    names = {entry.pw_name for entry in pwd.getpwall()}
    name = "postgres" if "postgres" in names else "nobody"
    return {"user": name, "group": pwd.getpwnam(name).pw_gid}


@pytest.fixture(scope="session")
def cluster() -> Iterator[str]:
    """Start a PostgreSQL of the tests' own, reached by a socket in its folder; give the folder."""
    bin = programs()
    if bin is None:
        reason = "needs PostgreSQL's programs (Debian: postgresql)"
        pytest.fail(reason, pytrace=False) if IN_CI else pytest.skip(reason)
    folder = Path(tempfile.mkdtemp(prefix="hw-pg-"))
    whom = servant()
    if whom:
        shutil.chown(folder, whom["user"], whom["group"])
    data = folder / "data"
    make = [bin / "initdb", "-D", data, "-A", "trust", "-U", "hollowright", "--no-sync"]
    how = {"cwd": folder, "stdout": subprocess.DEVNULL, **whom}
    subprocess.run([*make, "-E", "UTF8", "--locale=C"], check=True, **how)
    run = [bin / "postgres", "-D", data, "-k", folder, "-c", "listen_addresses="]
    with (folder / "log").open("wb") as log:
        running = subprocess.Popen([*run, "-c", "fsync=off"], stderr=log, **how)
    try:
        wait_for(folder, running)
        yield str(folder)
    finally:
        running.send_signal(signal.SIGQUIT)  # at once: nothing of it is kept
        running.wait(timeout=READY)
        shutil.rmtree(folder)


def wait_for(folder: Path, running: subprocess.Popen[bytes]) -> None:
    """Wait until the cluster answers; its log when it doesn't."""
    import psycopg

    until = time.monotonic() + READY
    while time.monotonic() < until and running.poll() is None:
        try:
            psycopg.connect(host=str(folder), user="hollowright", dbname="postgres").close()
        except psycopg.OperationalError:
            time.sleep(0.05)
        else:
            return
    pytest.fail((folder / "log").read_text(errors="replace"), pytrace=False)


_number = count(1)


@pytest.fixture(params=["sqlite", "postgresql"])
def new_url(request: pytest.FixtureRequest, tmp_path: Path) -> Callable[[], str]:
    """Give addresses of new, empty drawers."""
    if request.param == "sqlite":
        return lambda: str(tmp_path / f"drawer-{next(_number)}.sqlite3")
    folder = request.getfixturevalue("cluster")

    def made() -> str:
        import psycopg

        name = f"drawer_{next(_number)}"
        with psycopg.connect(
            host=folder, user="hollowright", dbname="postgres", autocommit=True
        ) as server:
            server.execute(f"CREATE DATABASE {name} TEMPLATE template0")
        return f"postgresql://hollowright@/{name}?host={folder}"

    return made


@pytest.fixture
def url(new_url: Callable[[], str]) -> str:
    """Give the address of a new drawer."""
    return new_url()


@pytest.fixture
def store(url: str) -> Iterator[Store]:
    """Give an open, empty drawer."""
    with open_store(url) as opened:
        yield opened
