"""Cutting: all of it or nothing; what is left over comes in, and it can be taken back."""

from dataclasses import replace

import pytest

from hollowright.plan.laid import NotLaid
from hollowright.shapes.outline import disc, polygon, rectangle
from hollowright.store import Cutting
from hollowright.store.faults import DrawerRefused
from hollowright.store.store import Store, open_store
from tests.store.metal import (
    BRASS,
    cutting_process,
    faults_of_the_books,
    layout,
    sawn,
    sheet,
    strip_off,
    to_buy,
    tube,
)

HAND_SIZE = "0.71 x 300.00 x 150.00 x 45000.00"
L_SHAPE = polygon([(100, 0), (300, 0), (300, 150), (200, 150), (200, 60), (100, 60)])


def cut(store: Store, number: int, width: float) -> Cutting:
    """Cut a whole end off a sheet of the drawer."""
    found = {each.id: each for each in store.sheets_for(BRASS, 0.71)}[f"drawer-{number}"]
    return store.cut_layouts([layout(strip_off(found, width))], "box", {"area": width * 150.0})


def test_a_sheet_goes_out_and_its_offcut_comes_in(store: Store) -> None:
    store.add(
        sheet(
            temper="half-hard", place="tin 3", cost=12.0, grain=90.0,
            readings={"thickness": ("0.71",), "length": ("300",)},
        )
    )  # fmt: skip
    done = cut(store, 1, 100.0)
    assert (done.number, done.kind, done.out, done.came_in) == (1, "sheet", (1,), (2,))
    gone, left = store.item(1), store.item(2)
    assert (gone.gone_how, gone.gone_why, gone.gone_by) == ("cut", "box", 1)
    assert (left.form, left.length, left.width, left.thickness) == ("sheet", 200.0, 150.0, 0.71)
    assert left.outline is None
    assert (left.temper, left.place, left.grain) == ("half-hard", "tin 3", 90.0)
    assert left.cost == pytest.approx(8.0, rel=1e-12)  # two thirds of 12
    assert left.readings == {"thickness": ("0.71",)}
    assert (left.cut_from, left.came_by) == (1, 1)
    assert store.cuttings() == (done,)
    assert store.cutting(1).data == {"area": 15000.0}
    assert [each.what for each in store.changes(1)] == ["added", "cut"]
    assert [each.what for each in store.changes(2)] == ["left over"]


def test_an_offcut_of_any_shape_lies_at_nought(store: Store) -> None:
    store.add(sheet(cost=10.0))
    (found,) = store.sheets_for(BRASS, 0.71)
    store.cut_layouts([layout((found, (L_SHAPE, disc(20).moved(50, 50))))], "box")
    ell, round_ = store.items().items
    assert ell.outline == L_SHAPE.moved(-100, 0)
    assert (ell.length, ell.width) == (200.0, 150.0)
    assert ell.cost == pytest.approx(10 * (200 * 150 - 100 * 90) / 45000, rel=1e-12)
    assert round_.outline is not None
    assert round_.outline.bounds == pytest.approx((0, 0, 20, 20), abs=1e-12)
    (first, second) = store.sheets_for(BRASS, 0.71)
    assert (first.outline, second.outline) == (ell.outline, round_.outline)


def test_bought_sheets_leave_offcuts_too_unless_asked_not_to(store: Store) -> None:
    store.add(sheet())
    bought = to_buy(store.sheets_for(BRASS, 0.71)[0])
    second = replace(layout(strip_off(bought, 60.0)).sheets[0], id="buy-300x150#2")
    twice = replace(layout(strip_off(bought, 30.0)), sheets=(
        layout(strip_off(bought, 30.0)).sheets[0], second,
    ))  # fmt: skip
    assert store.cut_layouts([twice], "box", keep_others=False).came_in == ()
    done = store.cut_layouts([twice], "tea caddy")
    assert (done.out, done.came_in) == ((), (2, 3))
    left = store.item(2)
    assert (left.length, left.cost, left.cut_from) == (270.0, 18.0, None)
    assert left.note == "left of 300 x 150 (bought), tea caddy"


def test_nothing_is_cut_while_something_found_no_metal(store: Store) -> None:
    store.add_all([sheet(), tube()])
    lost = (NotLaid("box.cap", 2, "All is full.", "Add a sheet."),)
    made = layout(strip_off(store.sheets_for(BRASS, 0.71)[0], 100.0))
    (bar,) = store.bars_for("tube", BRASS, {"outside_diameter": 38.05, "wall": 1.01})
    with pytest.raises(DrawerRefused, match=r"nothing was cut: 2 × box\.cap found no metal"):
        store.cut_layouts([made, replace(made, missing=lost)], "box")
    with pytest.raises(DrawerRefused, match=r"nothing was cut: 2 × box\.cap found no metal"):
        store.cut_bars([replace(sawn(bar, 149.7), missing=lost)], "box")
    assert store.cuttings() == ()


def test_metal_in_hand_is_cut_once_while_its_cutting_stands(store: Store) -> None:
    store.add_all([sheet(), tube()])
    found = store.sheets_for(BRASS, 0.71)[0]
    lies = replace(found, id="hand-box.sheet", label="sheet in hand", origin="in hand")
    asked = [layout(strip_off(lies, 100.0))]
    done = store.cut_layouts(asked, "box", {"area": 15000.0}, keep_others=False)
    assert done.data == {"area": 15000.0, "in_hand": {"hand-box.sheet": HAND_SIZE}}
    assert store.cuttings() == (done,)
    with pytest.raises(DrawerRefused, match="sheet in hand: cutting 1 took it already"):
        store.cut_layouts(asked, "box")
    shorter = replace(lies, outline=rectangle(200, 150))
    store.cut_layouts([layout(strip_off(shorter, 100.0))], "box")  # the file was put right
    other = replace(lies, id="hand-tin.sheet")
    store.cut_layouts([layout(strip_off(other, 100.0))], "tin")  # another piece's
    store.undo(1)
    assert store.cut_layouts(asked, "box").came_in
    with pytest.raises(DrawerRefused, match="sheet in hand: it is cut twice"):
        store.cut_layouts([*asked, *asked], "box")


def test_a_bar_in_hand_is_sawn_once(store: Store) -> None:
    store.add(tube())
    (bar,) = store.bars_for("tube", BRASS, {"outside_diameter": 38.05, "wall": 1.01})
    lies = replace(bar, id="hand-box.tube", label="tube of box", origin="in hand")
    store.cut_bars([sawn(lies, 149.7)], "box")
    with pytest.raises(DrawerRefused, match="tube of box: cutting 1 took it already"):
        store.cut_bars([sawn(lies, 149.7)], "box")
    store.cut_bars([sawn(replace(lies, length=450.0), 149.7)], "box")


def test_a_strip_stays_a_strip_while_it_is_one(store: Store) -> None:
    store.add(sheet(form="strip", width=20.0, readings={"width": ("20.0",), "thickness": ("0.7",)}))
    (found,) = store.sheets_for(BRASS, 0.71)
    store.cut_layouts([layout((found, (rectangle(100, 20), rectangle(50, 9))))], "ring")
    long, narrow = store.items().items
    assert (long.form, long.length, long.width) == ("strip", 100.0, 20.0)
    assert (narrow.form, narrow.width) == ("sheet", 9.0)
    bars = store.bars_for("strip", BRASS, {"thickness": 0.71, "width": 20.0})
    assert [(each.id, each.length) for each in bars] == [("drawer-2", 100.0)]


def test_what_has_gone_or_changed_meanwhile_is_told_and_nothing_is_cut(store: Store) -> None:
    store.add_all([sheet(), sheet(), sheet()])
    one, two, three = store.sheets_for(BRASS, 0.71)
    asked = [layout(strip_off(one, 100.0), strip_off(two, 100.0))]
    store.change(2, length=290.0)
    with pytest.raises(DrawerRefused, match="item 2: it has been changed since"):
        store.cut_layouts(asked, "box")
    store.take(2, "lent")
    with pytest.raises(DrawerRefused, match=r"item 2: it has gone .*\(taken: lent\)"):
        store.cut_layouts(asked, "box")
    twice = [layout(strip_off(three, 10.0)), layout(strip_off(three, 10.0))]
    with pytest.raises(DrawerRefused, match="item 3: it is cut twice"):
        store.cut_layouts(twice, "box")
    assert store.cuttings() == ()
    assert [each.number for each in store.items().items] == [1, 3]
    assert store.add(sheet()).number == 4


def test_offcuts_can_not_be_more_than_was_left(store: Store) -> None:
    store.add(sheet())
    (found,) = store.sheets_for(BRASS, 0.71)
    with pytest.raises(DrawerRefused, match="more than was left"):
        store.cut_layouts([layout((found, (rectangle(300, 150), rectangle(50, 50))))], "box")


def test_a_bar_goes_out_and_its_rest_comes_in(store: Store) -> None:
    store.add(tube(place="rack", cost=6.0, readings={"wall": ("1.01",), "length": ("600",)}))
    (bar,) = store.bars_for("tube", BRASS, {"outside_diameter": 38.05, "wall": 1.01})
    done = store.cut_bars([sawn(bar, 149.7)], "box", {"runs": 1})
    left = store.item(done.came_in[0])
    assert (done.kind, done.out) == ("bar", (1,))
    assert (left.form, left.outside_diameter, left.wall) == ("tube", 38.05, 1.01)
    assert (left.length, left.square_ends, left.place) == (pytest.approx(450.0), 1, "rack")
    assert left.cost == pytest.approx(4.5)
    assert left.readings == {"wall": ("1.01",)}
    (rest,) = store.bars_for("tube", BRASS, {"outside_diameter": 38.05, "wall": 1.01})
    again = store.cut_bars([sawn(rest, rest.length - 10)], "box")
    assert again.came_in == ()  # too short to keep
    with pytest.raises(DrawerRefused, match="item 2: it has gone"):
        store.cut_bars([sawn(rest, 50.0)], "box")


def test_a_cutting_is_taken_back_where_nothing_of_it_was_used(store: Store) -> None:
    store.add(sheet())
    first, second = cut(store, 1, 100.0), cut(store, 2, 50.0)
    with pytest.raises(DrawerRefused, match=r"cutting 1: item 2, left over from it, has gone"):
        store.undo(first.number)
    assert store.undo(second.number).undone is not None
    assert store.undo(first.number).undone is not None
    assert [each.number for each in store.items().items] == [1]
    assert store.item(1).gone_by is None
    assert store.item(3).gone_how == "undone"
    assert [each.what for each in store.changes(1)] == ["added", "cut", "back"]
    assert [(each.number, each.undone is None) for each in store.cuttings()] == [
        (2, False), (1, False),
    ]  # fmt: skip
    with pytest.raises(DrawerRefused, match="taken back already"):
        store.undo(first.number)
    with pytest.raises(Exception, match="no cutting 99"):
        store.undo(99)
    assert cut(store, 1, 30.0).out == (1,)
    assert faults_of_the_books(store) == []


def test_two_that_cut_the_same_sheet_at_once_exactly_one_wins(url: str) -> None:
    with open_store(url) as store:
        store.add(sheet())
    two = [cutting_process(url, "once") for _ in range(2)]
    for each in two:
        assert each.stdout.readline() == "ready\n"
    for each in two:
        each.stdin.write("now\n")
        each.stdin.flush()
    said = sorted(each.communicate(timeout=60)[0] for each in two)
    assert said[0] == "cut\n"
    assert said[1].startswith("item 1: it has gone from the drawer (cut: box)")
    with open_store(url) as store:
        assert len(store.cuttings()) == 1
        assert store.items().total == 1
        assert faults_of_the_books(store) == []
