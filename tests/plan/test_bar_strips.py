"""Blanks sawn from strip: only where a person chose it, by every strip that does, by one owner."""

from collections.abc import Iterable

import pytest

from hollowright.designs import design
from hollowright.errors import InputError, UnknownName
from hollowright.job.cutting import Cutting, cutting, no_drawer
from hollowright.job.job import plan_tables, read_tables
from hollowright.job.laying import tasks
from hollowright.plan.bar_strips import strip_ids
from hollowright.plan.bars import Bar, CutList
from hollowright.plan.orders import Order, orders
from hollowright.shop import default_shop
from hollowright.shop.sold import read_sold

PLAN = plan_tables(read_tables(design("tube-box").examples[0].text))
RING = "striker-box.ring"
WIDTH = PLAN.cuts["ring"].sizes["width"].value
LENGTH = PLAN.cuts["ring"].sizes["length"].value


def boxes(copies: int) -> tuple[Order, ...]:
    return orders([PLAN], copies)


def strip(number: int, length: float, width: float) -> Bar:
    """A strip in the drawer, of the ring's metal."""
    stock = PLAN.piece.stock("ring_sheet")
    sizes = {"width": width, "thickness": stock.thickness.value}
    return Bar(f"drawer-{number}", str(number), "drawer", "strip", stock.metal.id, sizes, length)


def made(
    copies: int, names: Iterable[str], there: Iterable[Bar] = (), sold: str = "", rows: str = ""
) -> Cutting:
    bars = tuple(there)
    text = f"form,metal,thickness,width,length,price\n{rows or 'sheet,brass,22 ga,100,300,'}\n"
    return cutting(
        boxes(copies), default_shop(),
        lambda form, *_: [bar for bar in bars if bar.form == form] if bars else no_drawer(),
        read_sold(text), strips=tuple(names),
    )  # fmt: skip


def of_strip(found: Cutting) -> list[CutList]:
    return [each for each in found.lists if each.batch.form == "strip"]


def test_without_a_choice_every_flat_blank_is_the_layouts() -> None:
    """One strip of the ring's width in the drawer doesn't take the rings from the sheet."""
    found = made(12, (), [strip(1, 290.0, WIDTH)])
    assert of_strip(found) == []
    assert not found.cautions
    ids = {flat.id for task in tasks(boxes(12), default_shop()) for flat in task.batch.flats}
    assert RING in ids


def test_what_is_chosen_is_sawn_and_left_out_of_the_layout_and_nothing_else() -> None:
    ids = strip_ids(boxes(2), ["ring"])
    assert ids == (RING,)
    found = made(2, ["ring"], rows=f"strip,brass,22 ga,{WIDTH + 0.2:.2f},300,")
    (each,) = of_strip(found)
    assert [p.length for bar in each.bars for p in bar.pieces] == [RING, RING]
    assert each.bars[0].pieces[0].long == pytest.approx(LENGTH)
    assert any(RING in caution.text for caution in found.cautions)
    laid = [f.id for t in tasks(boxes(2), default_shop(), strips=ids) for f in t.batch.flats]
    every = [f.id for t in tasks(boxes(2), default_shop()) for f in t.batch.flats]
    assert sorted([*laid, RING]) == sorted(every)


def test_every_strip_that_does_serves_not_the_narrowest_alone() -> None:
    """The drawer's one strip holds two; the sold one, a little wider, the rest."""
    there = [strip(1, 290.0, WIDTH), strip(2, 290.0, WIDTH + 0.6)]
    (each,) = of_strip(made(7, ["ring"], there, rows=f"strip,brass,22 ga,{WIDTH + 0.9:.2f},600,"))
    assert each.missing == ()
    assert sum(len(bar.pieces) for bar in each.bars) == 7
    assert {bar.bar.origin for bar in each.bars} == {"drawer", "to buy"}


def test_a_useless_strip_stands_in_nobodys_way() -> None:
    there = [strip(1, 60.0, WIDTH)]
    (each,) = of_strip(made(2, ["all"], there, rows=f"strip,brass,22 ga,{WIDTH + 0.5:.2f},300,"))
    assert each.missing == ()
    (lost,) = of_strip(made(2, ["ring"], there))[0].missing
    assert "be laid on sheet instead" in lost.remedy


def test_what_the_strips_hold_no_more_can_be_laid_on_sheet() -> None:
    (each,) = of_strip(made(12, ["ring"], [strip(1, 290.0, WIDTH)]))
    (lost,) = each.missing
    assert (lost.flat, lost.count) == (RING, 10)
    assert "be laid on sheet instead" in lost.remedy


def test_a_strip_too_wide_to_file_down_is_none() -> None:
    (each,) = of_strip(made(1, ["ring"], [strip(1, 290.0, WIDTH + 3.0)]))
    (lost,) = each.missing
    assert "mm wide" in lost.why
    assert each.bars == ()


def test_what_cant_be_from_strip_is_refused_in_words() -> None:
    with pytest.raises(UnknownName, match="Did you mean ring"):
        strip_ids(boxes(1), ["rnig"])
    with pytest.raises(InputError, match="cap is no plain rectangle"):
        strip_ids(boxes(1), ["cap"])
    with pytest.raises(InputError, match="widest strip of its metal and thickness is"):
        made(1, ["ring"], [strip(1, 290.0, WIDTH - 5.0)])


def test_no_strip_is_sawn_twice_and_the_one_with_less_choice_comes_first() -> None:
    """Two rings: one strip does for both, a wider one for the wider ring only."""
    text = design("tube-box").examples[0].text.replace('"2.5 mm"', '"2.4 mm"')
    wanted = orders([PLAN, plan_tables(read_tables(text))], 1)
    there = [strip(1, LENGTH + 5.0, WIDTH + 0.4), strip(2, LENGTH + 5.0, WIDTH + 0.95)]
    found = cutting(
        wanted, default_shop(), lambda form, *_: there if form == "strip" else [],
        read_sold("form,width,length\nsheet,100,300\n"), strips=("all",),
    )  # fmt: skip
    used = {p.length: bar.id for e in of_strip(found) for bar in e.bars for p in bar.pieces}
    assert used == {RING: "drawer-2", "striker-box-2.ring": "drawer-1"}
