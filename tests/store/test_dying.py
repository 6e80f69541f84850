"""Nothing is lost when the program dies half way: killed again and again, the books balance."""

import os
import random
import signal
import time

from hollowright.store.store import open_store
from tests.store.metal import cutting_process, faults_of_the_books, sheet

KILLS = 6


def killed(url: str, after: float) -> list[int]:
    """Let a child cut for a while [s] and kill it; the cuttings it said were done."""
    child = cutting_process(url)
    assert child.stdout.readline() == "ready\n"
    time.sleep(after)
    os.kill(child.pid, signal.SIGKILL)
    said, _ = child.communicate()
    lines = said.split("\n")  # the last one may be half a line
    return [int(line) for line in lines[:-1]]


def test_killed_in_the_middle_of_cutting_the_books_balance(url: str) -> None:
    clock = random.Random(17)
    with open_store(url) as store:
        store.add_all([sheet(length=3000.0) for _ in range(12)])
    said: list[int] = []
    for _ in range(KILLS):
        said += killed(url, clock.uniform(0.05, 0.4))
    with open_store(url) as store:
        done = {each.number for each in store.cuttings(1_000_000)}
        assert faults_of_the_books(store) == []
        area = sum(item.area for item in store.all_items())
        cut = sum(each.data["area"] for each in store.cuttings(1_000_000))
        assert abs(area + cut - 12 * 3000 * 150) < 1e-3
        assert store.add(sheet()).number > 12
    assert len(said) > 10 * KILLS
    assert set(said) <= done  # what was said to be done is done
    assert len(done) <= len(said) + KILLS  # and no more than one a kill besides
