"""Out as CSV and JSON and in again: nothing is lost, and wrong lines are told by number."""

import csv
import io
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.errors import InputError, Problems
from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Arc, EllipseArc, Line
from hollowright.shapes.outline import Outline, annulus, disc
from hollowright.store import Item, NewItem
from hollowright.store.exchange import export_csv, export_json, import_csv, import_json
from hollowright.store.store import Store, open_store
from hollowright.store.told import exchanged
from tests.store.metal import sheet, tube

FREE = Outline(
    (
        Line((0.0, 0.0), (40.1, 0.0)),
        Cubic((40.1, 0.0), (50.0, 10.0 / 3), (50.0, 20.0), (40.1, 30.7)),
        EllipseArc((20.05, 30.7), (20.05, 0.0), (0.0, 7.3), 0.0, 3.141592653589793),
        Line((0.0, 30.7), (0.0, 0.0)),
    ),
    (Outline((Arc((20.0, 12.0), 5.1, 0.0, 6.283185307179586),)),),
)
METAL = (
    sheet(cost=100 / 3, grain=0.1 + 0.2, readings={"thickness": ("0.71", "0.70 mm", "22 ga")}),
    sheet(outline=FREE, place="=1+1", note="@home, 'tin', \"3\"; +x", temper="half-hard"),
    sheet(outline=annulus(60, 30), place="'=quoted", note="'plain"),
    sheet(form="strip", width=20.1, place="-12", cut_from=99),
    tube(note="Blechdose Nº 4, Käse", cost=0.0),
    NewItem(form="rod", metal="copper", diameter=2.588, length=25.4 * 12, square_ends=1),
)
WAYS = pytest.mark.parametrize(
    ("out", "back"), [(export_csv, import_csv), (export_json, import_json)], ids=["csv", "json"]
)


def told(items: tuple[Item, ...]) -> list[dict[str, Any]]:
    return [exchanged(item) for item in items]


@WAYS
def test_a_round_trip_loses_nothing(
    new_url: Callable[[], str],
    out: Callable[..., str],
    back: Callable[..., Any],
) -> None:
    with open_store(new_url()) as store, open_store(new_url()) as other:
        store.add_all(METAL)
        store.take(3, "=lent")
        items = store.all_items(gone=None)
        text = out(items)
        assert len(back(other, text.encode()).items) == len(METAL)
        assert told(other.all_items(gone=None)) == told(items)
        assert [item.outline for item in other.all_items()][1] == FREE
        assert out(other.all_items(gone=None)) == text
        assert other.add(sheet()).number == 100  # 99 was one before


@WAYS
@pytest.mark.parametrize("mark", ["", "\ufeff"], ids=["bare", "marked"])
def test_a_mark_of_the_encoding_makes_no_difference(
    store: Store, out: Callable[..., str], back: Callable[..., Any], mark: str
) -> None:
    store.add(METAL[4])
    text = out(store.all_items()).replace('"number": 1', '"number": 7').replace("\r\n1,", "\r\n7,")
    (item,) = back(store, (mark + text).encode()).items
    assert (item.number, item.note) == (7, METAL[4].note)
    with pytest.raises(InputError, match="isn't UTF-8"):
        back(store, text.encode("latin-1"))


@settings(max_examples=60)
@given(
    place=st.text(st.characters(codec="utf-8", exclude_categories=["C"]), max_size=30),
    thickness=st.floats(1e-6, 9999.0),
    cost=st.floats(0, 1e9),
    readings=st.lists(st.text(st.characters(codec="ascii", min_codepoint=32), max_size=9)),
)
def test_any_words_and_numbers_come_back(
    place: str, thickness: float, cost: float, readings: list[str]
) -> None:
    """By the texts alone, without a drawer between: the same cells, the same item."""
    from datetime import UTC, datetime

    from hollowright.store.checks import checked
    from hollowright.store.exchange import _csv_lines
    from hollowright.store.reading import read_line
    from hollowright.store.rows import NEW

    kept = tuple(text for text in readings[:50] if text.isprintable())
    new = checked(sheet(place=place, thickness=thickness, cost=cost, readings={"width": kept}))
    fields = {name: getattr(new, name) for name in NEW}
    item = Item(**fields, number=1, added=datetime(2026, 1, 2, 3, 4, 5, 6, tzinfo=UTC))
    ((where, cells),) = _csv_lines(export_csv([item]))
    assert where == "line 2"
    again, more = read_line(cells)
    assert (again, more) == (new, {"number": 1, "added": item.added})


def test_no_cell_can_become_a_formula(store: Store) -> None:
    store.add_all(METAL)
    store.take(1, "@x")
    rows = list(csv.reader(io.StringIO(export_csv(store.all_items(gone=None)), newline="")))
    cells = [cell for row in rows for cell in row]
    assert not [cell for cell in cells if cell[:1] in ("=", "+", "-", "@", "\t", "\r")]
    assert {"'=1+1", "''=quoted", "'-12", "'@x", "'plain"} <= set(cells)


def test_a_list_of_a_person_s_own(store: Store) -> None:
    text = (
        "form;metal;thickness;size;outside diameter;wall;length;place;cost\n"
        "sheet;brass;20 ga;12 in x 6 in;;;;tin 3;12.50\n"
        "\n"
        "tube;Brass;;;1 1/2 in;1.02; 12 in;;\n"
        "sheet;copper;0.71; 300 x 150;;;;;\n".replace(";0.71;", ';"0.71; 0.70";')
    )
    done = import_csv(store, text.encode())
    one, two, three = done.items
    assert (one.number, one.metal, one.length, one.width) == (1, "C26000", 304.8, 152.4)
    assert one.thickness == pytest.approx(0.8118, abs=1e-4)  # ASTM B258: 0.03196 in
    assert one.readings == {"thickness": ("20 ga",)}
    assert (two.outside_diameter, two.length) == (pytest.approx(38.1), 304.8)
    assert three.thickness == pytest.approx(0.705)
    assert three.readings == {"thickness": ("0.71", "0.70")}


WRONG = """number,form,metal,thickness,length,width
1,sheet,brass,0.71,300,150
2,sheet,brass,"0,71",300,-150
3,shet,brass,0.71,300,150
1,sheet,brass,0.71,300,150
,tube,brass,,300,
5,sheet,brass,0.71,300,150,left over
6,sheet,brass,0.71,300,150
"""
TOLD = [
    ("line 3, thickness", "'0,71' isn't a length"),
    ("line 3, width", "'-150' is negative"),
    ("line 4, form", "'shet' isn't known. Did you mean sheet?"),
    ("line 5, number", "1 is in the drawer, or twice"),
    ("line 6, outside_diameter", "it is missing"),
    ("line 6, wall", "it is missing"),
    ("line 7", "more cells than the first line"),
]


def test_wrong_lines_are_told_and_nothing_comes_in(store: Store) -> None:
    with pytest.raises(Problems) as fault:
        import_csv(store, WRONG.encode())
    faults = [(each.field, str(each)) for each in fault.value.each()]
    assert faults[-1][1].startswith("Nothing was imported.")
    assert len(faults) == len(TOLD) + 1
    for (field, text), (wanted, part) in zip(faults[:-1], TOLD, strict=True):
        assert field == wanted
        assert part in text
    assert store.items().total == 0


def test_wrong_lines_can_be_passed_over(store: Store) -> None:
    done = import_csv(store, WRONG.encode(), skip_wrong=True)
    assert [item.number for item in done.items] == [1, 6]
    assert len(done.passed_over) == len(TOLD)
    assert store.add(sheet()).number == 7


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("", "it names no fields"),
        ("colour,form\nred,sheet\n", "'colour' isn't known"),
        ("form,form\nsheet,sheet\n", "form stands there twice"),
        ('form,metal\n"sheet,brass\n', "it isn't CSV"),
        ("form,metal,gone\nsheet,brass,2026-01-02\n", "it needs when and how"),
        ("form,metal,added\nsheet,brass,someday\n", "'someday' isn't a date"),
        ('form,metal,outline\nsheet,brass,"{""segments"": 3}"\n', "no list of segments"),
        ("form,metal,outline\nsheet,brass,round\n", "it can't be read"),
    ],
)
def test_a_file_that_is_no_list_is_told(tmp_path: Path, text: str, part: str) -> None:
    with open_store(str(tmp_path / "drawer")) as store:
        with pytest.raises(InputError) as fault:
            import_csv(store, text.encode())
        assert part in str(fault.value)
        assert store.items().total == 0


def test_json_that_is_no_drawer_is_told(tmp_path: Path) -> None:
    crossing = {"segments": [
        {"is": "Line", "start": a, "end": b}
        for a, b in [([0, 0], [9, 9]), ([9, 9], [9, 0]), ([9, 0], [0, 9]), ([0, 9], [0, 0])]
    ]}  # fmt: skip
    row = {"form": "sheet", "metal": "brass", "thickness": 0.7, "length": 30, "width": 30}
    with open_store(str(tmp_path / "drawer")) as store:
        for data, part in {
            "{": "it isn't JSON (line 1)",
            "[" * 100_000: "it isn't JSON",
            '{"items": 3}': "it isn't a drawer",
            '{"format": "other", "items": []}': "it isn't a drawer",
            "[7]": "item 1: it isn't an item",
            json.dumps([row, row | {"thickness": True}]): "item 2, thickness",
            json.dumps([row | {"outline": crossing}]): "outline: it crosses itself",
            json.dumps([row | {"cost": float("inf")}]): "cost",
        }.items():
            with pytest.raises(InputError) as fault:
                import_json(store, data.encode())
            assert part in str(fault.value)
        assert store.items().total == 0
        assert len(import_json(store, json.dumps([row]).encode()).items) == 1


def test_a_large_outline_goes_through_csv(tmp_path: Path) -> None:
    """A cell of over 131,072 letters, where the reader's own limit lies."""
    points = disc(200).points(2e-4)
    many = Outline(tuple(Line(a, b) for a, b in zip(points, points[1:] + points[:1], strict=True)))
    with open_store(str(tmp_path / "a")) as store, open_store(str(tmp_path / "b")) as other:
        store.add(sheet(outline=many))
        text = export_csv(store.all_items())
        assert max(map(len, text.split("\n"))) > 131_072
        assert import_csv(other, text.encode()).items[0].outline == many
