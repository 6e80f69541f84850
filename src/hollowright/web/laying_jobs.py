"""Searches for a better layout in the background: few at once, each bounded and stoppable."""

from __future__ import annotations

import secrets
import threading
import time
from collections import OrderedDict
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from hollowright.job.laying import lay_out
from hollowright.plan.laid import Layout
from hollowright.web.guard import tell

AT_ONCE = 2
"""So many searches work at the same time; the next ones wait."""

MOST_KEPT = 24
"""So many searches are remembered, those that ended included."""

UNHEARD = 6.0
"""A search that nobody has asked after for so long is stopped [s]."""

MOST_WAIT = 60.0
"""A search that found no turn for so long gives up [s]."""

LAST_WAIT = 3.0
"""How long the server waits for them when it ends [s]."""

Found = Callable[[Layout], None]


@dataclass
class Search:
    """One search: the layouts as far as they are found, and how far it has come.

    page: the page that asked, of which only the newest search goes on. version: counts what got
    better. state: 'waiting', 'searching', 'done', 'stopped' or 'failed'.
    """

    page: str
    layouts: list[Layout]
    seconds: float
    id: str = field(default_factory=lambda: secrets.token_urlsafe(12))
    version: int = 0
    state: str = "waiting"
    heard: float = field(default_factory=time.monotonic)
    began: float = field(default_factory=time.monotonic)
    stopping: threading.Event = field(default_factory=threading.Event)
    ended: threading.Event = field(default_factory=threading.Event)

    @property
    def over(self) -> bool:
        """Whether nothing more will come of it."""
        return self.state in ("done", "stopped", "failed")

    @property
    def gone(self) -> float:
        """How much of its time has gone, 0 to 1."""
        if self.over:
            return 1.0
        gone = time.monotonic() - self.began if self.state == "searching" else 0.0
        return min(1.0, gone / self.seconds)

    def to_stop(self) -> bool:
        """Whether it should end now: told to, unheard of, or past its time."""
        now = time.monotonic()
        late = self.state == "searching" and now > self.began + self.seconds + 2.0
        return self.stopping.is_set() or late or now > self.heard + UNHEARD


class Searches:
    """All searches of one server."""

    def __init__(self) -> None:
        self.turn = threading.Semaphore(AT_ONCE)
        self.lock = threading.Lock()
        self.known: OrderedDict[str, Search] = OrderedDict()

    def begin(self, page: str, layouts: Sequence[Layout], seconds: float, found: Found) -> Search:
        """Start to better layouts; an earlier search of the same page is stopped.

        found: told each layout once it is as good as it gets here.
        """
        search = Search(page, list(layouts), seconds)
        with self.lock:
            for other in self.known.values():
                if other.page == page:
                    other.stopping.set()
            self.known[search.id] = search
            self._forget()
        threading.Thread(
            target=self._run, args=(search, found), name=f"search {search.id}", daemon=True
        ).start()
        return search

    def _forget(self) -> None:
        """Drop the oldest that have ended; of too many that haven't, stop the oldest."""
        while len(self.known) > MOST_KEPT:
            oldest = next((each for each in self.known.values() if each.over), None)
            _, dropped = self.known.popitem(last=False) if oldest is None else ("", oldest)
            dropped.stopping.set()
            self.known.pop(dropped.id, None)

    def heard(self, id: str) -> Search | None:
        """The search of this id, which somebody has now asked after; None when it isn't known."""
        with self.lock:
            search = self.known.get(id)
        if search is not None:
            search.heard = time.monotonic()
        return search

    def close(self) -> None:
        """Stop all of them, and wait a moment until they have."""
        with self.lock:
            searches = list(self.known.values())
        for search in searches:
            search.stopping.set()
        until = time.monotonic() + LAST_WAIT
        for search in searches:
            search.ended.wait(max(0.0, until - time.monotonic()))

    def _run(self, search: Search, found: Found) -> None:
        try:
            if not self._turn(search):
                search.state = "stopped"
                return
            try:
                search.began, search.state = time.monotonic(), "searching"
                _better(search, found)
                search.state = "stopped" if search.stopping.is_set() else "done"
            finally:
                self.turn.release()
        except Exception as fault:  # noqa: BLE001 (a thread's fault reaches nobody else)
            tell(fault)
            search.state = "failed"
        finally:
            search.ended.set()

    def _turn(self, search: Search) -> bool:
        """Wait for a turn; whether there was one before it was to stop."""
        until = time.monotonic() + MOST_WAIT
        while not search.to_stop() and time.monotonic() < until:
            if self.turn.acquire(timeout=0.1):
                return True
        return False


def _better(search: Search, found: Found) -> None:
    """Every layout bettered, the time shared among those that can still gain."""
    start = tuple(search.layouts)

    def report(layouts: tuple[Layout, ...]) -> None:
        if list(layouts) != search.layouts:
            search.layouts = list(layouts)
            search.version += 1

    tasks = [layout.task for layout in start]
    report(lay_out(tasks, search.seconds, report, search.to_stop, start))
    for layout in search.layouts:
        found(layout)
