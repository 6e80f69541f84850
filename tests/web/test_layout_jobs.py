"""Searches in the background: few at once, superseded, stopped when nobody asks, bounded."""

import threading
import time
from collections.abc import Callable, Iterator
from typing import Any

import pytest

from hollowright.web import laying_jobs
from hollowright.web.laying_jobs import AT_ONCE, MOST_KEPT, Search, Searches

Stop = Callable[[], bool]


class Work:
    """Stands for the solver: goes on until it is told to stop, and counts who works."""

    def __init__(self) -> None:
        self.lock = threading.Lock()
        self.now = self.most = 0

    def __call__(self, _: Any, seconds: float, __: Any, stop: Stop, start: Any) -> tuple[Any, ...]:
        with self.lock:
            self.now += 1
            self.most = max(self.most, self.now)
        until = time.monotonic() + seconds
        while not stop() and time.monotonic() < until:
            time.sleep(0.005)
        with self.lock:
            self.now -= 1
        return tuple(start)


@pytest.fixture
def work(monkeypatch: pytest.MonkeyPatch) -> Work:
    made = Work()
    monkeypatch.setattr(laying_jobs, "lay_out", made)
    return made


@pytest.fixture
def searches(work: Work) -> Iterator[Searches]:
    made = Searches()
    yield made
    made.close()
    assert all(each.ended.is_set() for each in made.known.values())


def begin(searches: Searches, page: str, seconds: float = 30.0) -> Search:
    return searches.begin(page, [], seconds, lambda _: None)


def until(true: Callable[[], bool]) -> None:
    for _ in range(400):
        if true():
            return
        time.sleep(0.01)
    pytest.fail("never came true")


def test_it_ends_by_itself(searches: Searches) -> None:
    search = begin(searches, "a", 0.1)
    assert search.ended.wait(3)
    assert (search.state, search.gone) == ("done", 1.0)


def test_a_second_search_of_a_page_ends_the_first(searches: Searches) -> None:
    first, other = begin(searches, "a"), begin(searches, "b")
    second = begin(searches, "a")
    assert first.ended.wait(3)
    assert first.state == "stopped"
    until(lambda: second.state == other.state == "searching")


def test_few_work_at_once_and_the_others_wait(searches: Searches, work: Work) -> None:
    begun = [begin(searches, str(page)) for page in range(AT_ONCE + 3)]
    until(lambda: work.now == AT_ONCE)
    time.sleep(0.05)
    assert sum(each.state == "waiting" for each in begun) == 3
    begun[0].stopping.set()
    until(lambda: sum(each.state == "waiting" for each in begun) == 2)
    assert work.most == AT_ONCE


def test_what_nobody_asks_after_is_stopped(
    searches: Searches, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(laying_jobs, "UNHEARD", 0.2)
    lost, asked = begin(searches, "a"), begin(searches, "b")
    for _ in range(12):
        time.sleep(0.05)
        assert searches.heard(asked.id) is asked
    assert lost.ended.is_set()
    assert not asked.ended.is_set()
    assert searches.heard("none") is None


def test_their_number_is_bounded(searches: Searches) -> None:
    begun = [begin(searches, str(page)) for page in range(MOST_KEPT + 5)]
    assert len(searches.known) <= MOST_KEPT
    until(lambda: sum(each.ended.is_set() for each in begun) >= 5)
    assert begun[-1].id in searches.known


def test_a_fault_inside_ends_it_in_words(
    searches: Searches, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def breaks(*_: Any) -> tuple[Any, ...]:
        raise ZeroDivisionError

    monkeypatch.setattr(laying_jobs, "lay_out", breaks)
    search = begin(searches, "a")
    assert search.ended.wait(3)
    assert search.state == "failed"
    assert "Something went wrong inside" in capsys.readouterr().err
    monkeypatch.setattr(laying_jobs, "lay_out", Work())
    again = begin(searches, "a", 0.05)
    assert again.ended.wait(3)
    assert again.state == "done"
