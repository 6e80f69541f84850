"""The page for its tests: asked in process, or served to a real browser by its own process."""

import asyncio
import subprocess
import sys
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import httpx
import pytest

from hollowright.web.app import make_app
from hollowright.web.form import Values, first_values

HOME = "http://127.0.0.1:8765"


@pytest.fixture(scope="session")
def run() -> Iterator[Callable[..., Any]]:
    """Run a coroutine function in a thread of its own: the browser's driver holds this loop."""
    with ThreadPoolExecutor(1) as thread:
        yield lambda function, *given: thread.submit(lambda: asyncio.run(function(*given))).result()


@pytest.fixture(scope="session")
def ask(run: Callable[..., Any]) -> Callable[..., httpx.Response]:
    """Ask the page in process: ``ask("POST", "/plan", data={...}, headers={...})``."""
    app = make_app("127.0.0.1")

    def asked(method: str, path: str, base: str = HOME, **rest: Any) -> httpx.Response:
        async def once() -> httpx.Response:
            transport = httpx.ASGITransport(app)
            async with httpx.AsyncClient(transport=transport, base_url=base) as client:
                return await client.request(method, path, **rest)

        return run(once)

    return asked


@pytest.fixture
def values() -> Values:
    """The example piece as the form holds it."""
    return first_values()


@pytest.fixture(scope="session")
def address() -> Iterator[str]:
    """Where the page is served for the browser, on a free port, by a process of its own."""
    start = "from hollowright.web import serve; serve('127.0.0.1', 0)"
    with subprocess.Popen(
        [sys.executable, "-u", "-c", start], stdout=subprocess.PIPE, text=True
    ) as running:
        assert running.stdout is not None
        yield running.stdout.readline().split()[-1].rstrip("/")
        running.terminate()
