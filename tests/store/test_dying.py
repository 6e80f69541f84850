"""Nothing is lost when the program dies half way: killed again and again, the books balance."""

import os
import random
import signal
import time

import pytest
from sqlalchemy import text

from hollowright.store.store import Store, open_store
from tests.store.metal import (
    BRASS,
    cutting_process,
    faults_of_the_books,
    layout,
    sheet,
    strip_off,
)

KILLS = 6


def killed(url: str, after: int, wait: float) -> list[int]:
    """Let a child cut so often, then kill it in the next one; the cuttings it said were done."""
    child = cutting_process(url)
    assert child.stdout.readline() == "ready\n"
    said = [int(child.stdout.readline()) for _ in range(after)]
    time.sleep(wait)
    os.kill(child.pid, signal.SIGKILL)
    rest, _ = child.communicate()
    lines = rest.split("\n")  # the last one may be half a line
    return said + [int(line) for line in lines[:-1]]


def test_killed_in_the_middle_of_cutting_the_books_balance(url: str) -> None:
    clock = random.Random(17)
    with open_store(url) as store:
        store.add_all([sheet(length=3000.0) for _ in range(12)])
    said: list[int] = []
    for _ in range(KILLS):
        said += killed(url, clock.randrange(1, 20), clock.uniform(0, 0.02))
    with open_store(url) as store:
        done = {each.number for each in store.cuttings(1_000_000)}
        assert faults_of_the_books(store) == []
        area = sum(item.area for item in store.all_items())
        cut = sum(each.data["area"] for each in store.cuttings(1_000_000))
        assert abs(area + cut - 12 * 3000 * 150) < 1e-3
        assert store.add(sheet()).number > 12
    assert set(said) <= done  # what was said to be done is done
    assert len(done) <= len(said) + KILLS  # and no more than one a kill besides


@pytest.mark.parametrize(
    "harm",
    [
        "UPDATE items SET gone = NULL, gone_how = '', gone_by = NULL WHERE number = 1",
        "DELETE FROM cutting_items WHERE way = 'out'",
        "UPDATE items SET length = 250 WHERE number = 2",
        "UPDATE items SET gone_by = NULL WHERE number = 1",
    ],
)
def test_books_that_do_not_balance_are_seen(store: Store, harm: str) -> None:
    store.add(sheet())
    (found,) = store.sheets_for(BRASS, 0.71)
    store.cut_layouts([layout(strip_off(found, 100.0))], "box", {"area": 15000.0})
    assert faults_of_the_books(store) == []
    with store._writing() as connection:
        connection.execute(text(harm))
    assert faults_of_the_books(store) != []
