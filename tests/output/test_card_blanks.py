"""Tiles: together they show the whole drawing, none is too large, and each join has two sides."""

from collections import Counter
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from hollowright.output.card_blanks import OVERLAP, spans, tiles
from hollowright.output.drawing import Drawing, Label


@given(st.floats(1, 3000), st.floats(60, 300))
def test_spans_cover_the_length_and_overlap(length: float, room: float) -> None:
    found = spans(length, room)
    assert found[0][0] == 0
    assert found[-1][1] == length
    assert all(0 < high - low <= room + 1e-9 for low, high in found)
    for (_, high), (low, _) in pairwise(found):
        assert abs(high - low - OVERLAP) < 1e-6


@given(st.floats(1, 900), st.floats(0, 1), st.floats(5, 40))
def test_a_figure_stays_whole(length: float, share: float, wide: float) -> None:
    low = share * max(0.0, length - wide)
    high = min(length, low + wide)
    found = spans(length, 160.0, [(low, high)])
    assert any(a <= low and high <= b for a, b in found)


@given(st.floats(10, 700), st.floats(10, 700))
def test_every_join_has_two_sides(width: float, height: float) -> None:
    drawing = Drawing(width, height, (Label("cut 100.00", (5.0, 5.0), 5.0),))
    found = tiles(drawing, 160.0, 200.0)
    pairs = Counter(name for tile in found for _, name in tile.joins)
    opposite = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}
    sides = {(side, name) for tile in found for side, name in tile.joins}
    assert all(count == 2 for count in pairs.values())
    assert all((opposite[side], name) in sides for side, name in sides)
    assert all(tile.width <= 160 and tile.height <= 200 for tile in found)
    area = sum(tile.width * tile.height for tile in found)
    assert area >= width * height * (1 - 1e-9)
