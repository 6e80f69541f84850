"""Layouts as text and as JSON, by the layout made by hand: every figure reckoned here anew."""

import json
import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from hollowright.output.layout_data import layouts_data
from hollowright.output.layout_files import layout_contents, sheet_names
from hollowright.output.layout_text import layout_text
from hollowright.output.layout_view import sheet_views
from hollowright.output.layout_words import sheet_words, sheets_words
from hollowright.plan.laid import Layout

Made = Callable[..., tuple[Layout, ...]]
ELL = 220 * 60 + 100 * 60
"""The L's area by hand [mm2]."""


def test_the_text_says_all(laid_by_hand: Made) -> None:
    text = layout_text(laid_by_hand(missing=True), ["The store was busy."])
    for line in (
        "Layout of 2 × Tea caddy",
        "  number 17, tin 3, 220 × 120 mm, from the drawer",
        "    3 cap; 1 pinned",
        "  sheet 300 x 150 mm, to buy",
        "  At least one sheet must be bought.",
        "TO BUY",
        "FOUND NO PLACE",
        "  - 1 × Tea caddy: cap: The offcut is full. Add a sheet.",
        "  - Mind the grain of the tray.",
        "  - The store was busy.",
    ):
        assert line in text.splitlines(), line
    assert "keep 30 × 40" in text
    assert "0.65 mm: 12.50" in text
    assert max(map(len, text.splitlines())) <= 78


def test_a_price_that_is_not_known_is_said_so(laid_by_hand: Made) -> None:
    assert "no price known" in layout_text(laid_by_hand(cost=None))
    assert layouts_data(laid_by_hand(cost=None))["totals"]["cost"] is None
    assert "nothing: the metal is there" in layout_text(laid_by_hand()[:1])


def test_the_areas_and_weights_by_hand(laid_by_hand: Made) -> None:
    """By hand: an L of 19200 mm2, four discs, an offcut of 30 by 40; density 8.53 g/cm3 as told."""
    layouts = laid_by_hand()
    data = layouts_data(layouts, ["a" * 64])
    batch = data["batches"][0]
    sheet = batch["sheets"][0]
    diameter = layouts[0].task.batch.flats[0].sizes["diameter"].value
    discs = 4 * math.pi * diameter**2 / 4
    density = layouts[0].task.batch.metal.density.value
    assert (batch["key"], data["batches"][1]["key"]) == ("a" * 64, "")
    assert sheet["area"] == ELL
    assert sheet["used"] == pytest.approx(discs)
    assert sheet["kept"] == 1200
    assert sheet["waste"] == pytest.approx(ELL - discs - 1200)
    thickness = layouts[0].task.batch.thickness
    assert sheet["mass_waste"] == pytest.approx(sheet["waste"] * thickness * density / 1000)
    assert data["totals"]["cost"] == 12.5
    assert data["totals"]["sheets"] == 2
    assert data["totals"]["bought"] == 1
    assert batch["bound"] == 45000
    assert batch["blanks_area"] == pytest.approx(discs)


def test_each_spot_tells_what_lies_where(laid_by_hand: Made) -> None:
    spot = layouts_data(laid_by_hand())["batches"][0]["sheets"][0]["spots"][1]
    assert (spot["part"], spot["x"], spot["y"], spot["turn"]) == ("cap", 60, 95, 0)
    assert spot["mirrored"]
    assert spot["pinned"]
    xs, ys = zip(*spot["outline"], strict=True)
    assert (max(xs) + min(xs)) / 2 == pytest.approx(60, abs=0.05)
    assert (max(ys) + min(ys)) / 2 == pytest.approx(95, abs=0.05)
    json.dumps(layouts_data(laid_by_hand()), allow_nan=False)


def test_what_is_missing_is_in_the_data(laid_by_hand: Made) -> None:
    missing = layouts_data(laid_by_hand(missing=True))["batches"][0]["missing"]
    assert [(m["part"], m["count"], m["why"], m["remedy"]) for m in missing] == [
        ("cap", 1, "The offcut is full.", "Add a sheet.")
    ]


def test_files_have_plain_names_of_their_own(laid_by_hand: Made) -> None:
    layouts = laid_by_hand()
    views = [view for each in (*layouts, *layouts) for view in sheet_views(each)]
    names = sheet_names(views)
    assert len(set(names)) == 4
    assert names[0] == "sheet-C26000-0.705-drawer-17"
    contents = layout_contents(layouts)
    assert set(contents) >= {"layout.pdf", "layout-plan.json", f"{names[0]}.svg", f"{names[0]}.dxf"}
    assert contents == layout_contents(layouts)


def test_a_drawers_number_never_stands_beside_a_count(laid_by_hand: Made) -> None:
    caps, rings = laid_by_hand()
    both = replace(caps, sheets=(*caps.sheets, *rings.sheets, *rings.sheets))
    assert sheets_words(both) == "number 17 (tin 3), 2 × sheet 300 x 150 mm"


def test_a_sheets_size_is_said_once(laid_by_hand: Made) -> None:
    caps, rings = (layout.sheets[0] for layout in laid_by_hand())
    assert sheet_words(rings, inches=True) == "sheet 300 x 150 mm, 11.811 × 5.906 in, to buy"
    assert sheet_words(caps, inches=True) == (
        "number 17, tin 3, 220 × 120 mm (8.661 × 4.724 in), from the drawer"
    )


def test_sheets_alike_are_told_once(laid_by_hand: Made) -> None:
    rings = laid_by_hand()[1]
    three = tuple(replace(rings.sheets[0], id=f"buy-300x150#{n}") for n in (1, 2, 3))
    text = layout_text([replace(rings, sheets=three)])
    assert text.count("2 ring") == 1
    assert "  sheet 300 x 150 mm (1), to buy (3 alike, of each:)" in text.splitlines()
    assert "  3 × sheet 300 x 150 mm" in text
