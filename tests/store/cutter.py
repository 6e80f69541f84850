"""A process that cuts: `cutter.py URL` until it is killed, `cutter.py URL once` when told to.

It says each cutting's number once it is done, or why it was refused.
"""

import sys

from hollowright.store.faults import DrawerRefused
from hollowright.store.store import Store, open_store
from tests.store.metal import BRASS, layout, strip_off


def say(text: object) -> None:
    sys.stdout.write(f"{text}\n")
    sys.stdout.flush()


def again_and_again(store: Store) -> None:
    say("ready")
    while True:
        found = store.sheets_for(BRASS, 0.71)
        largest = sorted(found, key=lambda each: -each.outline.area)[:2]
        area = sum(10.0 * each.outline.height for each in largest)
        cuts = [layout(strip_off(each, 10.0)) for each in largest]
        say(store.cut_layouts(cuts, "soak", {"area": area}).number)


def once(store: Store) -> None:
    (found,) = store.sheets_for(BRASS, 0.71)
    say("ready")
    sys.stdin.readline()
    try:
        store.cut_layouts([layout(strip_off(found, 40.0))], "box", {"area": 6000.0})
    except DrawerRefused as fault:
        say(fault)
    else:
        say("cut")


if __name__ == "__main__":
    with open_store(sys.argv[1]) as opened:
        (once if "once" in sys.argv else again_and_again)(opened)
