"""The way to the drawer: opened when it is first wanted, told in words when it can't be."""

from __future__ import annotations

import threading
import time
from typing import Any

from hollowright.errors import HollowrightError

AGAIN = 3.0
"""A drawer that couldn't be opened is tried again after so long [s]."""


class Door:
    """One drawer for all requests. The database library is brought in when it is opened."""

    def __init__(self, url: str | None = None) -> None:
        self.url = url or ""
        self.lock = threading.Lock()
        self.store: Any = None
        self.fault: HollowrightError | None = None
        self.tried = 0.0

    def opened(self) -> Any:
        """The open store (`store.store.Store`); HollowrightError when it can't be opened."""
        with self.lock:
            if self.store is not None:
                return self.store
            if self.fault is not None and time.monotonic() < self.tried + AGAIN:
                raise self.fault
            from hollowright.store.store import open_store

            try:
                self.store = open_store(self.url)
            except HollowrightError as fault:
                self.fault, self.tried = fault, time.monotonic()
                raise
            self.fault = None
            return self.store

    def close(self) -> None:
        """Close it, if it is open."""
        with self.lock:
            if self.store is not None:
                self.store.close()
                self.store = None
