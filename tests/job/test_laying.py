"""From orders and the metal there is to tasks, and to layouts in the time there is."""

import time
from pathlib import Path

import pytest

from hollowright.errors import InputError, Problems, UnknownName
from hollowright.handbook.metals import metal
from hollowright.job.job import plan_tables, read_tables
from hollowright.job.laying import in_hand, lay_out, sold_of, tasks
from hollowright.plan.laid import Layout, Sheet
from hollowright.plan.layout import worth
from hollowright.plan.orders import orders
from hollowright.plan.plan import Plan
from hollowright.shapes.nesting.problem import Spot
from hollowright.shapes.outline import rectangle
from hollowright.shop import default_shop
from hollowright.shop.sold import Sold, default_sold

PIECE = """
title = "{title}"
design = "tube-box"
[stock.tube]
metal = "C26000"
outside_diameter = "38.05"
wall = "1.01"
[stock.ring_sheet]
metal = "C26000"
thickness = "0.64"
{ring}
[stock.cap_sheet]
metal = "C26000"
thickness = "0.71"
length = "120 mm"
[sizes]
height = "45 mm"
"""
NONE = Sold(())


def plan(title: str = "Striker box", ring: str = "") -> Plan:
    return plan_tables(read_tables(PIECE.format(title=title, ring=ring)))


def sheet(id: str, thickness: float, temper: str = "", of: str = "brass") -> Sheet:
    return Sheet(id, id, "drawer", metal(of).id, thickness, rectangle(200, 100), temper)


def test_metal_in_hand_counts_once_a_file_and_only_with_both_sizes() -> None:
    ring = 'length = "150 mm"\nwidth = "60 mm"\ntemper = "annealed"'
    wanted = orders([plan(ring=ring), plan("Second box")], 12)
    (place,) = in_hand(wanted)
    assert place.id == "hand-striker-box.ring_sheet"
    assert (place.origin, place.supply, place.grain) == ("in hand", 1, None)
    assert (place.outline.width, place.outline.height, place.temper) == (150, 60, "annealed")
    assert "150 x 60 mm" in place.label


def test_a_task_has_the_sheets_of_its_metal_thickness_and_temper() -> None:
    wanted = orders([plan()], 2)
    drawer = [
        sheet("drawer-1", 0.65),
        sheet("drawer-2", 0.71, "hard"),
        sheet("drawer-3", 0.64, of="copper"),
        sheet("drawer-4", 0.68),
        sheet("drawer-5", 0.90),
    ]
    found = tasks(wanted, default_shop(), drawer, NONE)
    there = {each.batch.flats[0].part.id: [s.id for s in each.sheets] for each in found}
    assert there == {"ring": ["drawer-1"], "cap": ["drawer-2", "drawer-4"]}
    hard = orders([plan(ring='temper = "annealed"')], 1)
    (ring,) = (
        each
        for each in tasks(hard, default_shop(), [sheet("drawer-6", 0.64, "hard")], NONE)
        if each.batch.temper
    )
    assert ring.sheets == ()


def test_the_common_sizes_are_offered_unless_others_are_named() -> None:
    wanted = orders([plan()])
    for each in tasks(wanted, default_shop()):
        assert each.sheets
        assert all(s.origin == "to buy" for s in each.sheets)
    assert all(not each.sheets for each in tasks(wanted, default_shop(), (), NONE))


def test_turning_is_written_for_all_and_for_parts() -> None:
    wanted = orders([plan()])
    asked = tasks(wanted, default_shop(), turning=("quarter", "ring=grain"), over=("cap",))
    rules = asked[0].rules
    assert (rules.turning, dict(rules.turning_of)) == ("quarter", {"ring": "grain"})
    assert (rules.over, rules.turned_over) == (("cap",), False)
    assert (rules.between, rules.edge) == (0.3, 2.0)
    assert tasks(wanted, default_shop(), turning="grain", over=["all"])[0].rules.turned_over
    for wrong in ({"turning": "crosswise"}, {"turning": ["rng=grain"]}, {"over": ["cup"]}):
        with pytest.raises(UnknownName):
            tasks(wanted, default_shop(), **wrong)


def test_pins_go_to_the_task_of_their_blank() -> None:
    wanted = orders([plan()])
    pin = Spot("striker-box.ring", "buy-300x150", 20, 30)
    found = tasks(wanted, default_shop(), pins=[pin])
    pins = {each.batch.flats[0].part.id: each.pins for each in found}
    assert pins["cap"] == ()
    assert [each.pinned for each in pins["ring"]] == [True]


def test_layouts_share_the_time_and_never_get_worse() -> None:
    asked = tasks(orders([plan()], 12), default_shop())
    heard: list[tuple[Layout, ...]] = []
    began = time.perf_counter()
    found = lay_out(asked, 2.0, heard.append)
    assert time.perf_counter() - began < 4.0
    assert len(found) == 2
    assert not any(each.missing for each in found)
    for number, last in enumerate(found):
        values = [worth(each[number]) for each in heard]
        assert values == sorted(values, reverse=True)
        assert worth(last) == values[-1]
    again = lay_out(asked, 0.0, start=found)
    assert again == found


def test_no_time_that_cant_be(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="seconds"):
        lay_out((), -1.0)


def test_a_sold_list_beside_the_piece_is_used(tmp_path: Path) -> None:
    assert sold_of(None, str(tmp_path)) is default_sold()
    (tmp_path / "sold.csv").write_text("form,width,length\nsheet,40,50\n", encoding="utf-8")
    assert sold_of(None, str(tmp_path)).sizes[0].length == 50
    other = tmp_path / "other.csv"
    other.write_text("form,width,length\nsheet,40,x\n", encoding="utf-8")
    with pytest.raises(Problems, match="line 2, length"):
        sold_of(str(other), str(tmp_path))
    with pytest.raises(InputError, match="isn't a file"):
        sold_of(str(tmp_path / "none.csv"))


def test_a_piece_begun_is_said_so() -> None:
    """What was read as built tells that one is begun, not which of its blanks are cut."""
    text = PIECE.format(title="Box", ring="")
    plain, begun = (
        plan_tables(read_tables(text + more)) for more in ("", "[as_built]\nlid_depth = 15\n")
    )
    assert begun.piece.changes
    for plan, said in ((plain, False), (begun, True)):
        layouts = lay_out(tasks(orders([plan], 2), default_shop()))
        for layout in layouts:
            assert ("begun" in [each.id for each in layout.cautions]) == said
