"""What lies in the drawer: put in, found again, put right, taken out, each told in the record."""

from datetime import UTC

import pytest

from hollowright.errors import InputError, Problems
from hollowright.shapes.curves import Arc, Line
from hollowright.shapes.outline import Outline, annulus, disc, polygon
from hollowright.store.faults import DrawerRefused
from hollowright.store.items import NewItem
from hollowright.store.store import Store
from tests.store.metal import BRASS, sheet, tube

HALF_DISC = Outline(
    (Line((-30.0, 0.0), (30.0, 0.0)), Arc((0.0, 0.0), 30.0, 0.0, 3.141592653589793))
)


def test_numbers_are_short_given_in_order_and_never_twice(store: Store) -> None:
    first, second = store.add(sheet()), store.add(tube())
    assert (first.number, second.number) == (1, 2)
    store.take(2, "scrapped")
    assert store.add(sheet()).number == 3


def test_what_is_put_in_is_found_again_whole(store: Store) -> None:
    told = sheet(
        temper="Half hard", outline=HALF_DISC, grain=30.0, place="tin  3", cost=12.34,
        note="bought in spring", readings={"thickness": ("0.71", "0.70 mm")},
    )  # fmt: skip
    added = store.add(told)
    found = store.item(added.number)
    assert found == added
    assert found.temper == "half-hard"
    assert found.place == "tin 3"
    assert found.outline == HALF_DISC
    assert (found.length, found.width) == (60.0, 30.0)
    assert found.area == pytest.approx(3.141592653589793 * 450, rel=1e-12)
    assert found.readings == {"thickness": ("0.71", "0.70 mm")}
    assert found.added.tzinfo is UTC
    assert found.label == "1, tin 3"
    assert found.id == "drawer-1"


def test_pages_count_and_filters_narrow(store: Store) -> None:
    store.add_all([sheet(place=f"tin {i}") for i in range(7)])
    store.add_all([tube(note="Été"), tube(metal="copper")])
    page = store.items(page=2, size=5)
    assert (page.total, page.pages, [each.number for each in page.items]) == (9, 2, [6, 7, 8, 9])
    assert store.items(form="tube").total == 2
    assert store.items(form="tube", metal=BRASS).total == 1
    assert [each.number for each in store.items(text="TIN 4").items] == [5]
    assert [each.number for each in store.items(text="été").items] == [8]
    assert store.items(text="half").total == 0
    assert store.items(text="%").total == 0
    assert store.items(text="_").total == 0
    assert store.items(page=3, size=5).items == ()
    with pytest.raises(InputError, match="Pages begin at 1"):
        store.items(page=0)


def test_what_has_gone_is_kept_apart(store: Store) -> None:
    store.add_all([sheet(), sheet()])
    gone = store.take(1, "lent to the class")
    assert (gone.there, gone.gone_how, gone.gone_why) == (False, "taken", "lent to the class")
    assert [each.number for each in store.items().items] == [2]
    assert [each.number for each in store.items(gone=True).items] == [1]
    assert store.items(gone=None).total == 2
    with pytest.raises(DrawerRefused, match=r"item 1: it has gone .*lent to the class"):
        store.take(1, "again")
    with pytest.raises(DrawerRefused):
        store.change(1, place="tin 9")
    with pytest.raises(InputError, match="say in a line why"):
        store.take(2, " ")


def test_the_record_tells_every_change(store: Store) -> None:
    store.add(sheet(place="tin 3"))
    store.change(1, place="tin 4", thickness=0.7)
    store.change(1, place="tin 4")  # nothing new: no line
    store.take(1, "scrapped")
    added, changed, taken = store.changes(1)
    assert (added.what, changed.what, taken.what) == ("added", "changed", "taken")
    assert changed.told == {"place": ["tin 3", "tin 4"], "thickness": [0.71, 0.7]}
    assert taken.told == {"why": "scrapped"}


def test_a_changed_word_is_found_and_the_old_one_not(store: Store) -> None:
    store.add(sheet(place="tin 3"))
    store.change(1, place="rack", metal="copper")
    assert store.items(text="rack copper").total == 1
    assert store.items(text="tin").total == 0


@pytest.mark.parametrize(
    ("told", "field"),
    [
        (sheet(thickness=None), "thickness"),
        (sheet(thickness=-1.0), "thickness"),
        (sheet(length=float("nan")), "length"),
        (sheet(wall=1.0), "wall"),
        (sheet(metal="unobtainium"), "metal"),
        (sheet(cost=-1.0), "cost"),
        (sheet(grain=400.0), "grain"),
        (sheet(square_ends=1), "square_ends"),
        (sheet(place="tin\x00"), "place"),
        (sheet(note="x" * 501), "note"),
        (sheet(readings={"weight": ("1",)}), "readings"),
        (tube(wall=19.1), "wall"),
        (tube(square_ends=3), "square_ends"),
        (tube(outline=disc(10)), "outline"),
        (sheet(outline=polygon(disc(200).points(1e-7))), "outline"),
        (sheet(form="block"), "form"),
    ],
)
def test_what_can_not_lie_there_is_told_by_its_field(told: NewItem, field: str) -> None:
    from hollowright.store.checks import checked

    with pytest.raises(InputError) as fault:
        checked(told)
    assert {each.field for each in fault.value.each()} == {field}


def test_several_faults_are_told_at_once_and_nothing_comes_in(store: Store) -> None:
    with pytest.raises(Problems) as fault:
        store.add_all([sheet(), sheet(thickness=None, cost=-1.0)])
    assert {each.field for each in fault.value.each()} == {"thickness", "cost"}
    assert store.items().total == 0


def test_sheets_for_a_piece(store: Store) -> None:
    store.add_all(
        [
            sheet(place="tin 3", cost=12.0),
            sheet(thickness=0.74),
            sheet(thickness=0.75),
            sheet(metal="copper"),
            sheet(temper="hard"),
            sheet(form="strip", width=20.0),
            sheet(outline=annulus(60, 30)),
            tube(),
        ]
    )
    store.take(2, "scrapped")
    found = store.sheets_for(BRASS, 0.72, "annealed", 0.03)
    assert [each.id for each in found] == ["drawer-1", "drawer-3", "drawer-6", "drawer-7"]
    first = found[0]
    assert (first.label, first.origin, first.cost) == ("1, tin 3", "drawer", 12.0)
    assert (first.outline.width, first.outline.height) == (300.0, 150.0)
    assert first.grain is None
    assert [each.id for each in store.sheets_for(BRASS, 0.71, "Hard")][1] == "drawer-5"
    assert len(store.sheets_for(BRASS, 0.72, "", 0.03)) == 5
    assert store.sheets_for(BRASS, 5.0) == ()


def test_bars_for_a_piece(store: Store) -> None:
    store.add_all([tube(), tube(wall=0.9), tube(length=250.0, square_ends=1, temper="hard")])
    sizes = {"outside_diameter": 38.0, "wall": 1.0}
    found = store.bars_for("tube", BRASS, sizes, "", 0.06)
    assert [(each.id, each.length, each.square_ends) for each in found] == [
        ("drawer-1", 600.0, 2),
        ("drawer-3", 250.0, 1),
    ]
    assert found[0].sizes == {"outside_diameter": 38.05, "wall": 1.01}
    assert [e.id for e in store.bars_for("tube", BRASS, sizes, "annealed", 0.06)] == ["drawer-1"]


def test_a_placement_is_kept_with_what_it_was_found_by(store: Store) -> None:
    assert store.placement("striker-box") is None
    store.keep_placement("striker-box", {"spots": [[1.5, 2]]}, seconds=3.0)
    store.keep_placement("striker-box", {"spots": [[0.1, 2]]}, seconds=9.0)
    kept = store.placement("striker-box")
    assert kept is not None
    assert kept.data == {"spots": [[0.1, 2]]}
    assert (kept.seconds, len(kept.handbook)) == (9.0, 12)
    with pytest.raises(ValueError, match="200 letters"):
        store.keep_placement("x" * 201, 1)
