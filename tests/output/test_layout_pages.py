"""A layout's pages: true to size on their rendered pixels, meeting where they join, none too many.

The expected lengths are those of the layout made by hand and of ISO 216 A4 and US Letter paper.
"""

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np
import pypdfium2
import pytest
import shapely
import typst
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.output.card import PAPERS, TOP
from hollowright.output.layout_page_data import _row, summary_data
from hollowright.output.layout_pages import (
    HEAD,
    PAD,
    best_tiling,
    layout_files,
    layout_pdf,
    page_room,
)
from hollowright.output.layout_tiles import page_name, tiling
from hollowright.output.layout_view import alike, sheet_views
from hollowright.plan.laid import LaidSheet, Layout, Rules, Sheet, Task
from hollowright.plan.orders import Batch
from hollowright.shapes.nesting.problem import Spot
from hollowright.shapes.outline import rectangle

Made = Callable[..., tuple[Layout, ...]]
HOSTILE = '#panic("no") $x^2$ \\\\ *b* <a> [c] @d // e'
DPI = 300
INCH = 25.4


def compiled(
    layouts: tuple[Layout, ...], paper: str = "a4", came_in: tuple[int, ...] = ()
) -> pypdfium2.PdfDocument:
    """The pages, once the typesetter had nothing to warn of."""
    files: Any = layout_files(layouts, PAPERS[paper], came_in)
    pdf, warnings = typst.compile_with_warnings(files, format="pdf", ignore_system_fonts=True)
    assert not warnings
    return pypdfium2.PdfDocument(pdf)


def dark(page: Any, dpi: int = DPI) -> Any:
    """Where a page is inked, row by row from the top."""
    grey = page.render(scale=dpi / 72, grayscale=True, draw_annots=False).to_numpy()
    return np.squeeze(grey) < 128


def words(page: Any) -> str:
    return str(page.get_textpage().get_text_bounded()).replace("\u00a0", " ")


def spread(layouts: tuple[Layout, ...], width: float, height: float, spots: list[Spot]) -> Layout:
    """The rings' batch on one large sheet."""
    old = layouts[1]
    sheet = Sheet("big", "big sheet", "to buy", "C26000", 0.64, rectangle(width, height))
    used = sum(old.task.batch.flat(s.item).outline.area for s in spots)
    laid = LaidSheet("big", sheet, tuple(spots), (), width * height, used, 0.0)
    return Layout(Task(old.task.batch, (sheet,), Rules(0.3, 2, 15)), (laid,))


# ---- what is said


@pytest.mark.parametrize("paper", PAPERS)
def test_the_overview_says_what_comes_out_of_what(laid_by_hand: Made, paper: str) -> None:
    document = compiled(laid_by_hand(missing=True), paper)
    said = " ".join(" ".join(words(page) for page in document).split())
    for text in (
        "2 × Tea caddy: layout", "number 17, tin 3, from the drawer",
        "sheet 300 x 150 mm, to buy",
        "12.50", "Found no place", "Add a sheet.", "Mind the grain of the tray.",
        "At least one sheet must be bought.", "searched for 10 s", "kept from before", "grain",
        "1 cap", "2 ring", "face down, pinned", "0.30 mm kerf", "mm², ", "makers' safety data",
    ):  # fmt: skip
        assert text in said, text
    wide, high = document[0].get_size()
    assert (wide / 72 * INCH, high / 72 * INCH) == pytest.approx(
        (PAPERS[paper].width, PAPERS[paper].height), abs=0.05
    )


def test_a_users_words_stay_words(laid_by_hand: Made) -> None:
    said = words(compiled(laid_by_hand(title=HOSTILE))[0])
    assert "#panic" in said
    compiled(laid_by_hand(title="W" * 120))


def test_the_pages_are_the_same_every_time(laid_by_hand: Made) -> None:
    layouts = laid_by_hand()
    assert layout_pdf(layouts) == layout_pdf(layouts)


def test_a_place_to_mark_from_is_in_the_table(laid_by_hand: Made) -> None:
    layouts = laid_by_hand()
    views = [view for each in layouts for view in sheet_views(each)]
    rows = summary_data(layouts, alike(views))["sheets"][0]["rows"]
    assert [*rows[0]["figures"][:2], rows[0]["turn"]] == ["20.0", "30.0", ""]
    assert rows[3]["notes"] == "face down, pinned"
    assert summary_data(layouts, alike(views))["sheets"][1]["rows"][1]["turn"] == "90°"


def test_nothing_laid_still_says_why(laid_by_hand: Made) -> None:
    full = laid_by_hand(missing=True)[0]
    none = Layout(full.task, (), full.missing)
    assert "Add a sheet." in words(compiled((none,))[0])


def test_sheets_alike_are_drawn_once_and_counted(laid_by_hand: Made) -> None:
    """Three bought sheets with the same rings at the same spots: one drawing, one set of pages."""
    rings = laid_by_hand()[1]
    sheets = tuple(replace(rings.sheets[0], id=f"buy-300x150#{n}") for n in (1, 2, 3))
    few, many = (compiled((replace(rings, sheets=some),)) for some in (sheets[:1], sheets))
    assert len(few) == len(many)
    assert "to buy; 3 alike" in words(many[0])
    turned = replace(sheets[2], spots=sheets[2].spots[:1])
    other = replace(rings, sheets=(*sheets[:2], turned))
    assert [len(group) for group in alike(sheet_views(other))] == [2, 1]


def test_after_a_cut_the_offcuts_carry_their_numbers(laid_by_hand: Made) -> None:
    layouts = laid_by_hand()
    files = layout_files(layouts, PAPERS["a4"], (41,))
    assert b">offcut 41, keep: 30" in files["sheet-0.svg"] or b"keep 41" in files["sheet-0.svg"]
    said = " ".join(words(page) for page in compiled(layouts, came_in=(41,)))
    assert "41: 30 × 40" in said
    assert "41" not in " ".join(words(page) for page in compiled(layouts)).split("Offcuts")[1][:40]


def test_a_table_names_its_sheet_and_its_page(laid_by_hand: Made) -> None:
    pages = [words(page) for page in compiled(laid_by_hand())]
    tables = [page for page in pages if "from left" in page]
    assert tables
    assert all("Sheet" in page.split("from left")[0] for page in tables)
    assert "Page" in pages[0]


def test_inches_stand_under_the_figures_they_are(laid_by_hand: Made) -> None:
    layouts = laid_by_hand()
    view = sheet_views(layouts[0])[0]
    row = _row(view.blanks[0], inches=True)
    diameter = layouts[0].task.batch.flats[0].sizes["diameter"].value
    assert row["inches"] == ["0.787 in", "1.181 in", f"⌀{diameter / 25.4:.3f} in"]
    ring = _row(sheet_views(layouts[1])[0].blanks[0], inches=True)
    assert ring["inches"][2].endswith(" in")
    assert " × " in ring["inches"][2]


# ---- true to size


@pytest.mark.parametrize("paper", PAPERS)
def test_the_bar_is_100_mm_on_every_true_page(laid_by_hand: Made, paper: str) -> None:
    document = compiled(laid_by_hand(), paper)
    pages = [page for page in document if "at true size" in words(page)]
    assert len(pages) == 2
    for page in pages:
        inked = dark(page, 600)
        bars = [run for run in longest_runs(inked) if abs(run * INCH / 600 - 100) < 3]
        assert bars
        assert min(abs(run * INCH / 600 - 100) for run in bars) < 0.1


def longest_runs(inked: Any) -> list[int]:
    """The longest run of ink in each row."""
    found = []
    for row in inked:
        edges = np.flatnonzero(np.diff(np.concatenate(([0], row.astype(np.int8), [0]))))
        if len(edges):
            found.append(int((edges[1::2] - edges[::2]).max()))
    return found


def test_a_disc_is_printed_at_its_true_size(laid_by_hand: Made) -> None:
    """Measured along the level through its middle, from outer edge to outer edge of the line."""
    layouts = laid_by_hand()
    page = next(p for p in compiled(layouts) if "at true size" in words(p))
    view = sheet_views(layouts[0])[0]
    tiles = tiling(view, *page_room(PAPERS["a4"]))
    blank = view.blanks[0]
    left, low = tiles.sheet[0], tiles.sheet[1]
    middle = (blank.at[0] + left, tiles.drawing.height - (blank.at[1] + low))
    inked = dark(page, 600)
    # off the name, which stands in the middle
    level = 6.0
    y = (TOP + PAD + HEAD + middle[1] + level) / INCH * 600
    across = np.flatnonzero(inked[round(y)]) * INCH / 600
    x = 20.0 + PAD + middle[0]
    radius = blank.cut.width / 2
    half = (radius**2 - level**2) ** 0.5
    near = [min(across, key=lambda at: abs(at - (x + side * half))) for side in (-1.0, 1.0)]
    assert near[1] - near[0] == pytest.approx(2 * half, abs=0.3)
    assert sum(near) / 2 == pytest.approx(x, abs=0.15)


# ---- joined


def test_two_pages_meet_within_a_tenth(laid_by_hand: Made) -> None:
    """On both pages a ring's end lies as far from the join, and its sides as high, as it should."""
    layouts = laid_by_hand()
    id = layouts[1].task.batch.flats[0].id
    spots = [Spot(id, "big", x, y) for x, y in ((5, 20), (125, 20), (251, 20), (5, 80))]
    layout = spread(layouts, 600, 110, spots)
    view = sheet_views(layout)[0]
    turned, tiles = best_tiling(view, PAPERS["a4"])
    assert turned
    assert len(tiles.printed) == 2
    pages = [page for page in compiled((layout,)) if "at true size" in words(page)]
    assert [words(page).count("to A") for page in pages] == [1, 1]
    ring = view.blanks[2].cut.bounds
    end = ring[0] + tiles.sheet[0]
    sides = [tiles.drawing.height - (y + tiles.sheet[1]) for y in (ring[3], ring[1])]
    first, second = tiles.printed
    join = second.left + 5.0
    assert second.left + 1 < end < join - 1
    for page, window in zip(pages, (first, second), strict=True):
        inked = dark(page, 1200)
        x0, y0 = 20 + PAD - window.left, TOP + PAD + HEAD
        rows = slice(*(px(y0 + sum(sides) / 2 + side) for side in (-3.0, 3.0)))
        left = px(x0 + second.left + 0.4)
        share = inked[rows, left : px(x0 + second.left + 9.6)].mean(axis=0)
        seen_end = (left + middle_of(share > 0.95)) / DOTS
        seen_join = (left + middle_of((share > 0.3) & (share < 0.6))) / DOTS
        assert seen_join - seen_end == pytest.approx(join - end, abs=0.05)
        columns = slice(px(x0 + end + 0.8), px(x0 + join - 0.5))
        level = inked[:, columns].mean(axis=1) > 0.95
        for side in sides:
            top = px(y0 + side - 0.6)
            found = (top + middle_of(level[top : px(y0 + side + 0.12)])) / DOTS
            assert found - y0 == pytest.approx(side, abs=0.1)


def test_a_low_strip_takes_several_rows_of_a_page(laid_by_hand: Made) -> None:
    """A strip 600 x 25 mm on A4 on its side: three windows of 30 mm over each other, all named."""
    layouts = laid_by_hand()
    id = layouts[1].task.batch.flats[0].id
    layout = spread(layouts, 600, 25, [Spot(id, "big", x, 4) for x in (5, 115, 225, 335, 445)])
    turned, tiles = best_tiling(sheet_views(layout)[0], PAPERS["a4"])
    pages = [words(page) for page in compiled((layout,)) if "at true size" in words(page)]
    assert len(pages) == 1
    assert turned
    assert len(tiles.printed) == 3
    for window in tiles.printed:
        assert pages[0].count(window.name) >= 3  # over it, in the head, in the key


DOTS = 1200 / INCH
"""Pixels to a millimetre."""


def px(length: float) -> int:
    return round(length * DOTS)


def middle_of(there: Any) -> float:
    """The middle of what is there."""
    places = np.flatnonzero(there)
    assert len(places)
    return float(places.mean()) + 0.5


def test_empty_pages_are_left_out_but_stand_in_the_key(laid_by_hand: Made) -> None:
    layouts = laid_by_hand()
    id = layouts[1].task.batch.flats[0].id
    ends = [Spot(id, "big", 2, 2), Spot(id, "big", 480, 380)]
    layout = spread(layouts, 600, 400, ends)
    tiles = tiling(sheet_views(layout)[0], *page_room(PAPERS["a4"]))
    assert 0 < len(tiles.printed) < len(tiles.windows)
    document = compiled((layout,))
    pages = [page for page in document if "at true size" in words(page)]
    assert len(pages) < len(tiles.windows)
    left_out = [window.name for window in tiles.windows if window.empty]
    assert left_out


@cache
def a_batch() -> Batch:
    from hollowright.designs import design
    from hollowright.job.job import plan_tables, read_tables
    from hollowright.plan.orders import batches, orders

    plan = plan_tables(read_tables(design("tube-box").examples[0].text))
    return batches(orders([plan]), 0.03)[0]


@settings(max_examples=40)
@given(
    st.lists(st.tuples(st.floats(0, 500), st.floats(0, 400)), min_size=1, max_size=4),
    st.floats(60, 300), st.floats(60, 300),
)  # fmt: skip
def test_every_blank_is_on_a_printed_page(
    places: list[tuple[float, float]], width: float, height: float
) -> None:
    batch = a_batch()
    flat = batch.flats[0]
    low_x, low_y, _, _ = flat.outline.bounds
    spots = tuple(Spot(flat.id, "s", x - low_x, y - low_y) for x, y in places)
    sheet = Sheet("s", "sheet", "in hand", batch.metal.id, batch.thickness, rectangle(700, 600))
    laid = LaidSheet("s", sheet, spots, (), 1.0, 1.0, 0.0)
    view = sheet_views(Layout(Task(batch, (sheet,), Rules(0.3, 2, 15)), (laid,)))[0]
    tiles = tiling(view, width, height)
    left, low, _, _ = tiles.sheet
    high = tiles.drawing.height
    shown = shapely.union_all(
        [shapely.box(w.left, w.top, w.left + w.width, w.top + w.height) for w in tiles.printed]
    ).buffer(1e-6)
    for blank in view.blanks:
        points = [(x + left, high - (y + low)) for x, y in blank.cut.points(0.1)]
        assert shown.contains(shapely.Polygon(points))
    crosses = [{(round(x, 6), round(y, 6)) for x, y in w.crosses} for w in tiles.windows]
    by_name = {window.name: i for i, window in enumerate(tiles.windows)}
    for window, own in zip(tiles.windows, crosses, strict=True):
        assert window.width <= width + 1e-9
        assert window.height <= height + 1e-9
        for _, beside, _ in window.joins:
            assert len(own & crosses[by_name[beside]]) == 2


def test_page_names() -> None:
    assert [page_name(0, 0), page_name(1, 1), page_name(25, 11)] == ["A1", "B2", "Z12"]


@pytest.mark.parametrize(
    ("title", "lacks"), [("火打箱", True), ("กล่อง", True), ("Огниво, Πυξίς, Dose №2 ×3", False)]
)
def test_signs_that_cannot_be_set_are_told(laid_by_hand: Made, title: str, lacks: bool) -> None:
    """Of the bundled faces none has Thai or Chinese signs; Cyrillic and Greek they have."""
    layouts = laid_by_hand(title=title)
    cautions = summary_data(layouts, [])["cautions"]
    assert any("empty boxes" in each for each in cautions) == lacks
