"""Strips packed by the solver's process: sound by the polygon library, stopped, refused, told."""

import math
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Sequence

import pytest
import shapely

from hollowright.shapes.nesting.problem import HALVES, QUARTERS, Item
from hollowright.shapes.nesting.strip import Strip, StripFailed, pack_strip
from hollowright.shapes.outline import Outline, annulus, disc, polygon, rectangle

LETTER = polygon([(0, 0), (30, 0), (30, 8), (8, 8), (8, 40), (0, 40)])
SECTOR_LIKE = polygon([(0, 0), (40, 10), (38, 18), (0, 9)])
NEAR = 1e-6


def faults(items: Sequence[Item], strip: Strip, between: float) -> list[str]:
    """What is wrong with a strip, by shapely alone and with polygons of its own."""
    by = {item.id: item for item in items}
    shapes = [shape(by[spot.item].outline, spot) for spot in strip.spots]
    found = []
    if Counter(spot.item for spot in strip.spots) != {item.id: item.count for item in items}:
        found.append("counts")
    low_x, low_y, high_x, high_y = shapely.MultiPolygon(shapes).bounds
    if min(low_x, low_y) < -NEAR or high_y > strip.height + NEAR or high_x > strip.length + NEAR:
        found.append(f"over the edge: {low_x} {low_y} {high_x - strip.length} {high_y}")
    near = shapely.STRtree(shapes).query(shapes, "dwithin", max(0.0, between - NEAR)).T
    for a, b in ((shapes[i], shapes[j]) for i, j in near if i < j):
        if between or a.intersection(b).area > NEAR:
            found += [f"{a.distance(b)} apart"]
    for spot in strip.spots:
        turns = by[spot.item].turns
        if turns is not None and not any(math.isclose(spot.turn, each) for each in turns):
            found.append(f"turned {spot.turn}")
    return found


def shape(outline: Outline, spot) -> shapely.Polygon:
    """A flat as it lies: finely cut, turned over, turned and shifted by shapely itself."""
    flat = shapely.Polygon(outline.points(1e-5))
    if spot.mirrored:
        flat = shapely.affinity.scale(flat, -1, 1, origin=(0, 0))
    flat = shapely.affinity.rotate(flat, spot.turn, origin=(0, 0))
    return shapely.affinity.translate(flat, spot.x, spot.y)


MIXED = (
    Item("cap", disc(18), 5),
    Item("wall", rectangle(70, 9), 4, QUARTERS),
    Item("letter", LETTER, 3, HALVES),
    Item("ring", annulus(24, 16), 2),
    Item("tab", rectangle(20, 12, 3), 3),
)


def test_sound_at_the_asked_gap_and_told_as_it_gets_shorter() -> None:
    told: list[Strip] = []
    begun = time.monotonic()
    strip = pack_strip(MIXED, 80.0, 0.6, 1.5, report=told.append)
    assert time.monotonic() - begun < 1.5 + 0.8  # the solver itself overruns by more, unended
    assert faults(MIXED, strip, 0.6) == []
    lengths = [each.length for each in told]
    assert lengths == sorted(lengths, reverse=True)
    assert lengths[-1] == strip.length
    # The blanks' area over the strip's: a solver worth having fills more than half of it.
    used = sum(item.count * (item.outline.area + sum(h.area for h in item.outline.holes))
               for item in MIXED)  # fmt: skip
    assert 0.5 < used / (strip.length * 80.0) < 1


def test_without_a_gap_they_touch_and_no_more() -> None:
    items = (Item("wall", rectangle(40, 10), 6, QUARTERS), Item("cap", disc(20), 3))
    strip = pack_strip(items, 40.0, 0.0, 1.0)
    assert faults(items, strip, 0.0) == []


def test_a_flat_as_high_as_the_strip_goes_in() -> None:
    # Discs of 60 in a strip of 60: a row, 3 x 60 and 2 gaps of 0.5, but for the solver's rounding.
    discs = (Item("cap", disc(60), 3),)
    strip = pack_strip(discs, 60.0, 0.5, 1.0)
    assert faults(discs, strip, 0.5) == []
    assert strip.length == pytest.approx(181.0, abs=0.6)
    bars = (Item("wall", rectangle(60, 20), 2, QUARTERS),)
    strip = pack_strip(bars, 20.0, 0.5, 1.0)
    assert faults(bars, strip, 0.5) == []
    assert strip.length == pytest.approx(120.5, abs=0.05)


def test_it_ends_as_soon_as_the_strip_is_short_enough() -> None:
    items = (Item("cap", disc(10), 8),)
    begun = time.monotonic()
    strip = pack_strip(items, 50.0, 0.5, 20.0, longest=100.0)
    assert strip.length <= 100
    assert time.monotonic() - begun < 3


def test_one_flat_is_done_at_once_and_none_needs_no_solver() -> None:
    begun = time.monotonic()
    strip = pack_strip((Item("cap", disc(20), 1), Item("none", disc(9), 0)), 50.0, 0.5, 20.0)
    assert strip.length == pytest.approx(20.0, abs=0.01)
    assert pack_strip((), 50.0, 0.5, 20.0) == Strip(0.0, 50.0)
    assert time.monotonic() - begun < 3


def test_half_may_be_laid_face_down() -> None:
    items = (Item("letter", LETTER, 4, (0.0,), mirrored=True), Item("cap", disc(12), 2))
    strip = pack_strip(items, 60.0, 0.4, 1.0, over=True)
    assert faults(items, strip, 0.4) == []
    assert sum(spot.mirrored for spot in strip.spots) == 2


@pytest.mark.parametrize(
    ("item", "words"),
    [
        (Item("bow", polygon([(0, 0), (10, 10), (10, 0), (0, 9)]), 1), "crosses or touches itself"),
        (Item("lost", polygon([(0, 0), (10, math.nan), (10, 10)]), 1), "isn't a number"),
        (Item("far", polygon([(0, 0), (math.inf, 0), (10, 10)]), 1), "isn't a number"),
        (Item("tall", rectangle(90, 60), 1, HALVES), "tall: too high for the strip by 20 mm"),
        (Item("long", rectangle(90, 60), 1), "long: too high for the strip by 20 mm"),
        (Item("few", disc(9), -1), "count must be 0 or more"),
    ],
)
def test_what_cannot_be_packed_is_refused_in_words(
    item: Item, words: str, capfd: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(ValueError, match=words):
        pack_strip((item,), 40.0, 0.5, 1.0)
    assert capfd.readouterr() == ("", "")


@pytest.mark.parametrize("wrong", [(0.0, 0.5, 1.0), (40.0, -1.0, 1.0), (40.0, 0.5, math.nan)])
def test_a_wrong_size_is_refused(wrong: tuple[float, float, float]) -> None:
    with pytest.raises(ValueError, match="must be"):
        pack_strip((Item("cap", disc(9), 1),), *wrong)


def test_a_long_flat_lies_askew_where_it_must() -> None:
    # 100 x 20 fits a strip of 60 high when turned less than some 25 degrees; free to turn.
    items = (Item("lens", Outline(disc(55).segments), 1), Item("bar", rectangle(100, 20), 2))
    assert faults(items, pack_strip(items, 60.0, 0.5, 1.0), 0.5) == []
    slanted = (Item("bar", polygon([(0, 0), (60, 60), (50, 70), (-10, 10)]), 2),)
    assert faults(slanted, pack_strip(slanted, 20.0, 0.5, 1.0), 0.5) == []


def test_stop_ends_the_child_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    started: list[subprocess.Popen[str]] = []
    real = subprocess.Popen

    def keeping(*args, **kinds):
        started.append(real(*args, **kinds))
        return started[-1]

    monkeypatch.setattr(subprocess, "Popen", keeping)
    wanted = time.monotonic() + 1.2
    strip = pack_strip(MIXED, 80.0, 0.6, 30.0, stop=lambda: time.monotonic() > wanted)
    assert time.monotonic() - wanted < 0.5
    assert strip.spots
    assert [child.poll() is None for child in started] == [False]


def test_stopped_before_anything_is_found(capfd: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(StripFailed, match="no strip was found"):
        pack_strip(MIXED, 80.0, 0.6, 30.0, stop=lambda: True)
    assert capfd.readouterr() == ("", "")


WORKER = [sys.executable, "-m", "hollowright.shapes.nesting.strip_worker"]
TASK = (
    '{"height": 20, "items": [{"corners": [[0, 0], [%s, 0], [9, 9]], "count": 40, "turns": null}],'
    ' "exploring": 30, "compressing": 1, "workers": 1, "seed": 1}\n'
)


def started(task: str) -> subprocess.Popen[str]:
    child = subprocess.Popen(WORKER, stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                             stderr=subprocess.DEVNULL, text=True)  # fmt: skip
    assert child.stdin
    child.stdin.write(task)
    child.stdin.flush()
    return child


def test_a_panic_of_the_solver_is_an_answer() -> None:
    with started(TASK.replace("[9, 9]", "[9, 1000]").replace("null", "[0.0]") % 9) as child:
        assert child.stdout
        assert '"failed": "PanicException' in child.stdout.readline()
        assert child.wait(2) == 1


def test_the_child_ends_when_its_caller_is_gone() -> None:
    with started(TASK % 9) as child:
        assert child.stdin
        assert child.stdout
        assert '"width"' in child.stdout.readline()
        child.stdin.close()  # as the system does when a process dies
        assert child.wait(2) == 2
