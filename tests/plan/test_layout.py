"""Layouts: sound by shapely alone, areas that add up, the drawer first, rules and pins kept."""

import math
import time
from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.errors import InputError, Problems
from hollowright.output.layout_words import sheet_words
from hollowright.plan.laid import Layout, Rules
from hollowright.plan.layout import (
    better_layout,
    first_layout,
    gain_left,
    layout_by_eye,
    layout_of,
    worth,
)
from hollowright.shapes.nesting.problem import Spot
from hollowright.shapes.outline import Outline, annulus, disc, polygon, rectangle
from tests.plan.layout_tasks import RULES, batch_of, class_of, sheet, sold, task


def face(outline: Outline) -> shapely.Polygon:
    return shapely.Polygon(outline.points(0.002), [hole.points(0.002) for hole in outline.holes])


def check(layout: Layout) -> None:
    """Everything that a layout promises, by shapely directly."""
    asked = layout.task
    for laid in layout.sheets:
        whole = face(laid.sheet.outline)
        blanks = [face(s.place(asked.batch.flat(s.item).outline)) for s in laid.spots]
        for n, blank in enumerate(blanks):
            assert whole.buffer(0.006).contains(blank)
            assert blank.distance(whole.boundary) >= asked.rules.edge - 0.006
            for other in blanks[:n]:
                assert blank.distance(other) >= asked.rules.between - 0.008
                assert blank.buffer(-0.005).disjoint(other.buffer(-0.005))
        for n, offcut in enumerate(map(face, laid.offcuts)):
            assert offcut.is_valid
            assert whole.buffer(1e-6).contains(offcut)
            assert all(offcut.distance(b) >= asked.rules.between - 1e-9 for b in blanks)
            assert all(offcut.disjoint(face(o)) for o in laid.offcuts[:n])
        assert laid.used + laid.kept + laid.waste == pytest.approx(laid.area)
        assert laid.waste >= -1e-6
        assert laid.kept == pytest.approx(sum(face(o).area for o in laid.offcuts), rel=1e-6)
    laid_out = [spot.item for spot in layout.spots]
    lost = {each.flat: each.count for each in layout.missing}
    for flat in asked.batch.flats:
        assert laid_out.count(flat.id) + lost.get(flat.id, 0) == flat.count


outlines = st.one_of(
    st.builds(rectangle, st.floats(5, 120), st.floats(3, 40)),
    st.builds(disc, st.floats(5, 60)),
    st.builds(lambda d, t: annulus(d, d * t), st.floats(20, 80), st.floats(0.3, 0.8)),
    st.just(polygon([(0, 0), (40, 0), (40, 10), (10, 10), (10, 35), (0, 35)])),
)
places = st.sampled_from(
    [
        rectangle(100, 80),
        disc(120),
        polygon([(0, 0), (200, 10), (170, 90), (80, 60), (10, 95)]),
        Outline(rectangle(150, 90).segments, (disc(20).moved(70, 45),)),
    ]
)


@settings(max_examples=60)
@given(
    st.lists(st.tuples(outlines, st.integers(1, 4)), min_size=1, max_size=3),
    st.lists(places, max_size=3),
    st.booleans(),
    st.sampled_from([0.0, 0.3, 1.0]),
    st.sampled_from(["free", "quarter", "grain"]),
    st.sampled_from([0.0, 90.0, 30.0, None]),
)
def test_any_layout_keeps_what_it_promises(
    blanks: list[tuple[Outline, int]],
    drawer: list[Outline],
    buys: bool,
    kerf: float,
    turning: str,
    grain: float | None,
) -> None:
    batch = batch_of([b for b, _ in blanks], [n for _, n in blanks], [0.0, 90.0, None])
    sheets = [sheet(f"drawer-{n}", each, grain=grain) for n, each in enumerate(drawer)]
    if buys:
        sheets += sold((150, 75), (300, 150))
    layout = first_layout(task(batch, sheets, Rules(kerf, 2.0, 15.0, turning)))
    check(layout)
    if buys:
        assert not layout.missing


def test_the_first_layout_of_a_class_of_twelve_is_there_at_once() -> None:
    for batch in class_of(12):
        asked = task(batch, sold((150, 75), (300, 150), (300, 300), (600, 300)))
        first_layout(asked)
        took = []
        for _ in range(5):
            began = time.process_time()  # what else the machine does doesn't count
            layout = first_layout(asked)
            took.append(time.process_time() - began)
        check(layout)
        assert min(took) < 0.1


def test_a_class_of_twelve_takes_less_metal_than_rows_by_eye() -> None:
    for batch in class_of(12):
        asked = task(batch, sold((300, 150), (600, 300)))
        first = first_layout(asked)
        heard: list[Layout] = []
        better = better_layout(asked, first, 3.0, heard.append)
        check(better)
        eye = layout_by_eye(asked)
        assert worth(better) <= worth(first) <= worth(eye)
        assert [worth(each) for each in heard] == sorted((map(worth, heard)), reverse=True)
        if batch.flats[0].part.id == "cap":
            assert better.taken < eye.taken


def test_the_drawer_is_used_before_anything_is_bought() -> None:
    batch = batch_of([rectangle(40, 20)], [10])
    drawer = [sheet("drawer-1", rectangle(200, 150)), sheet("drawer-2", rectangle(60, 45))]
    layout = first_layout(task(batch, [*sold((150, 75)), *drawer]))
    check(layout)
    assert not layout.bought
    few = first_layout(task(batch_of([rectangle(40, 20)], [2]), [*sold((150, 75)), *drawer]))
    assert [each.id for each in few.sheets] == ["drawer-2"], "the large one stays whole"


def test_what_the_drawer_lacks_is_bought() -> None:
    batch = batch_of([rectangle(90, 60)], [3])
    layout = first_layout(task(batch, [*sold((150, 75)), sheet("drawer-1", rectangle(100, 70))]))
    check(layout)
    assert [each.id for each in layout.sheets] == ["drawer-1", "buy-150x75", "buy-150x75#2"]
    assert layout.bought_area == pytest.approx(2 * 150 * 75)
    assert layout.cost is None


def test_the_grain_runs_as_asked_on_every_sheet() -> None:
    batch = batch_of([rectangle(50, 12), rectangle(40, 15)], [8, 8], [0.0, 90.0])
    drawer = [
        sheet("drawer-1", rectangle(80, 60), grain=90.0),
        sheet("drawer-2", disc(90), grain=30.0),
        sheet("drawer-3", rectangle(80, 60), grain=0.0),
    ]
    layout = first_layout(task(batch, drawer, replace(RULES, turning="grain")))
    check(layout)
    assert len(layout.sheets) == 3
    for laid in layout.sheets:
        for spot in laid.spots:
            own = batch.flat(spot.item).grain or 0.0
            off = (own + spot.turn - (laid.sheet.grain or 0.0)) % 180.0
            assert min(off, 180.0 - off) < 1e-6


def test_grain_that_isnt_known_is_minded() -> None:
    batch = batch_of([rectangle(50, 12)], [1], [0.0])
    place = sheet("drawer-1", rectangle(80, 60), grain=None)
    (caution,) = first_layout(task(batch, [place], replace(RULES, turning="grain"))).cautions
    assert "rolled" in caution.text
    assert not first_layout(task(batch, [place])).cautions


def test_pins_stay_where_they_were_put() -> None:
    batch = batch_of([disc(30), rectangle(40, 20)], [3, 4])
    drawer = [sheet("drawer-1", rectangle(150, 100), grain=90.0)]
    pins = (
        Spot("t.a", "drawer-1", 75.123, 50.456, 12.5, pinned=True),
        Spot("t.b", "drawer-1", 100.0, 5.0, 0.0, pinned=True),
    )
    asked = task(batch, drawer, pins=pins)
    layout = better_layout(asked, first_layout(asked), 1.5)
    check(layout)
    assert set(pins) <= set(layout.spots)
    assert not layout.missing
    turned = replace(RULES, turning="grain")
    wrong = task(batch, drawer, turned, pins)
    with pytest.raises(InputError, match="turned by"):
        layout_of(wrong, pins, "kept")


def test_unsound_pins_are_refused_and_nothing_else_is_blamed() -> None:
    batch = batch_of([disc(30)], [6])
    pins = [Spot("t.a", "drawer-1", 20, 20), Spot("t.a", "drawer-1", 40, 20)]
    asked = task(batch, [sheet("drawer-1", rectangle(150, 60))], pins=pins)
    with pytest.raises(Problems) as caught:
        first_layout(asked)
    assert len(caught.value.each()) == 1
    strange = [Spot("t.a", "drawer-1#x", 20, 20), Spot("t.a", "buy-9x9#3", 20, 20)]
    for pin in strange:
        with pytest.raises(InputError, match="no sheet"):
            first_layout(task(batch, asked.sheets, pins=[pin]))


def test_a_pin_on_a_sheet_to_buy_buys_it() -> None:
    pin = Spot("t.a", "buy-150x75#2", 40, 40, pinned=True)
    layout = first_layout(task(batch_of([disc(30)], [2]), sold((150, 75)), pins=[pin]))
    check(layout)
    assert pin in layout.spots
    assert not layout.missing


@pytest.mark.parametrize(
    ("spots", "said"),
    [
        ([Spot("t.a", "drawer-1", 20, 20), Spot("t.a", "drawer-1", 40, 20)], "overlap"),
        ([Spot("t.a", "drawer-1", 20, 20), Spot("t.a", "drawer-1", 50.1, 20)], "0.10"),
        ([Spot("t.a", "drawer-1", 16, 20)], "from an edge"),
        ([Spot("t.a", "drawer-1", 10, 20)], "outside"),
        ([Spot("t.z", "drawer-1", 20, 20)], "no blank 't.z'"),
        ([Spot("t.a", "drawer-9", 20, 20)], "no sheet 'drawer-9'"),
        ([Spot("t.a", "drawer-1#2", 20, 20)], "no sheet 'drawer-1#2'"),
        ([Spot("t.a", "drawer-1", 20, 20, mirrored=True)], "turned over"),
        ([Spot("t.a", "drawer-1", 20 + 40 * n, 20) for n in range(3)], "3 times"),
    ],
)
def test_a_layout_that_lies_is_refused(spots: list[Spot], said: str) -> None:
    asked = task(batch_of([disc(30)], [2]), [sheet("drawer-1", rectangle(150, 60))])
    with pytest.raises(InputError) as caught:
        layout_of(asked, spots, "kept")
    assert said in str(caught.value)


def test_stop_is_honoured_and_nothing_gets_worse() -> None:
    (batch, *_) = class_of(12)
    asked = task(batch, sold((300, 150)))
    first = first_layout(asked)
    began = time.perf_counter()
    assert better_layout(asked, first, 30.0, stop=lambda: True) == first
    assert time.perf_counter() - began < 1.0


def test_a_small_blank_lies_in_the_hole_of_a_large_one() -> None:
    batch = batch_of([annulus(70, 50), disc(40)], [1, 1])
    layout = first_layout(task(batch, [sheet("drawer-1", rectangle(75, 75))]))
    check(layout)
    assert not layout.missing
    assert layout.sheets[0].used == pytest.approx(math.pi * (35**2 - 25**2 + 20**2))


def test_a_layout_without_waste_isnt_searched() -> None:
    batch = batch_of([rectangle(50, 50)], [1])
    whole = first_layout(task(batch, [sheet("drawer-1", rectangle(50, 50))], Rules(0, 0, 15)))
    assert not gain_left(whole)
    began = time.perf_counter()
    assert better_layout(whole.task, whole, 20.0) == whole
    assert time.perf_counter() - began < 2.0
    assert gain_left(first_layout(task(batch, sold((300, 150)))))


def test_a_piece_of_cut_shape_is_begun_before_a_large_sheet() -> None:
    batch = batch_of([rectangle(54, 32)], [2])
    drawer = [sheet("drawer-2", disc(95)), sheet("drawer-5", rectangle(304.8, 152.4))]
    layout = first_layout(task(batch, drawer))
    check(layout)
    assert [each.id for each in layout.sheets] == ["drawer-2"]
    better = better_layout(layout.task, layout, 1.0)
    assert [each.id for each in better.sheets] == ["drawer-2"]


def test_soft_metal_is_taken_before_hard_and_hard_is_said_to_be_annealed() -> None:
    batch = batch_of([rectangle(54, 32)], [2])  # a ring is bent from it
    assert batch.flats[0].part.blank.shaped
    hard = sheet("drawer-1", rectangle(100, 80), temper="hard")
    soft = sheet("drawer-2", rectangle(110, 80))
    assert [each.id for each in first_layout(task(batch, [hard, soft])).sheets] == ["drawer-2"]
    layout = first_layout(task(batch, [hard]))
    (caution,) = layout.cautions
    assert "is hard: anneal it before you shape" in caution.text
    assert "drawer-1, 100 × 80 mm, hard, from the drawer" in sheet_words(layout.sheets[0])
    soft_only = first_layout(task(batch, [replace(hard, temper="annealed")]))
    assert not soft_only.cautions


def test_a_better_layout_weighs_other_sheets_as_well() -> None:
    """From a purchase far too large, the search finds the small one by itself."""
    batch = batch_of([annulus(50, 36), disc(16)], [10, 10])
    asked = task(batch, sold((300, 150), (600, 300)))
    spots = [replace(s, bin=s.bin.replace("300x150", "600x300")) for s in first_layout(asked).spots]
    found = better_layout(asked, layout_of(asked, spots, "kept"), 2.0)
    assert [each.sheet.id for each in found.bought] == ["buy-300x150"]


def test_what_metal_weighs() -> None:
    # By hand: 25 x 40 mm of 0.64 is 0.64 cm3; cartridge brass is 8.53 g/cm3 (Copper Development
    # Association, C26000): 5.459 g.
    batch = replace(batch_of([rectangle(25, 40)], [1]), thickness=0.64)
    layout = first_layout(task(batch, [sheet("s", rectangle(100, 60))]))
    assert layout.grams(layout.sheets[0].used) == pytest.approx(5.4592, rel=1e-9)
