"""Impossible asks: which blank, why, what would do; everything else is laid out all the same."""

from dataclasses import replace

from hollowright.plan.layout import first_layout, layout_of
from hollowright.shapes.outline import disc, rectangle
from tests.plan.layout_tasks import RULES, batch_of, sheet, sold, task


def test_a_blank_larger_than_any_sheet_says_what_would_hold_it() -> None:
    batch = batch_of([rectangle(410, 36), disc(30)], [2, 3])
    layout = first_layout(task(batch, sold((150, 75), (300, 150))))
    (lost,) = layout.missing
    assert (lost.flat, lost.count) == ("t.a", 2)
    assert "It is 410 x 36 mm" in lost.why
    assert "0.64 mm cartridge brass, 70/30 is 300 x 150 mm" in lost.why
    assert lost.remedy == "A sheet of 414 x 40 mm at least would hold it."
    assert [spot.item for spot in layout.spots] == ["t.b"] * 3


def test_what_would_do_does() -> None:
    batch = batch_of([rectangle(410, 36)], [1])
    assert not first_layout(task(batch, [sheet("drawer-1", rectangle(414, 40))])).missing
    assert first_layout(task(batch, [sheet("drawer-1", rectangle(413.9, 40))])).missing


def test_a_blank_that_only_its_turning_keeps_off_says_so() -> None:
    batch = batch_of([rectangle(100, 20)], [1], [0.0])
    place = sheet("drawer-1", rectangle(110, 30), grain=90.0)
    (lost,) = first_layout(task(batch, [place], replace(RULES, turning="grain"))).missing
    assert "as it may be turned" in lost.why
    assert "Turned any way it would fit" in lost.remedy
    assert not first_layout(task(batch, [place])).missing


def test_no_metal_at_all_names_metal_thickness_and_temper() -> None:
    batch = replace(batch_of([disc(30)], [4]), temper="hard")
    layout = first_layout(task(batch, []))
    (lost,) = layout.missing
    assert lost.why == (
        "No 0.64 mm cartridge brass, 70/30 (hard) is in the drawer, in hand or sold."
    )
    assert "34 x 34 mm" in lost.remedy
    assert layout.sheets == ()


def test_too_little_metal_says_how_many_are_left_over_and_how_much_they_take() -> None:
    batch = batch_of([rectangle(40, 25)], [12])
    layout = first_layout(task(batch, [sheet("drawer-1", rectangle(100, 65))]))
    (lost,) = layout.missing
    assert (len(layout.spots), lost.count) == (4, 8)
    assert "too little" in lost.why
    assert "8 of 12" in lost.why
    assert "8000 mm2" in lost.remedy  # 8 x 40 x 25
    assert "43.9 g" in lost.remedy  # x 0.6438 mm x 8.53 g/cm3


def test_what_a_layout_leaves_out_though_there_is_metal_is_said_so() -> None:
    asked = task(batch_of([rectangle(40, 25)], [2]), sold((150, 75)))
    layout = layout_of(asked, first_layout(asked).spots[:1], "kept")
    (lost,) = layout.missing
    assert "leaves 1 of 2 out" in lost.why
    assert lost.remedy == "Lay out anew."
