"""A laid sheet's drawing to keep: at true size over a title block (ISO 7200) and a bar to check."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from hollowright import __version__
from hollowright.output.blank_drawing import checking_bar
from hollowright.output.drawing import Drawing, Item, Label, Path, moved, text_width
from hollowright.output.extent import extent
from hollowright.output.layout_drawing import MARGIN, TRUE, sheet_items
from hollowright.output.layout_view import SheetView
from hollowright.output.layout_words import (
    area_words,
    gap_words,
    metal_words,
    sheet_name,
    view_description,
    view_title,
    where_words,
)
from hollowright.shapes.curves import Line

ROW = 10.0
"""Height of a row of fields [mm]."""
LEAST_WIDTH = 180.0
NAME, WORDS = 1.4, (2.5, 2.0, 1.6, 1.3)
"""Height of the capitals of a field's name, and those tried for what stands in it [mm]."""
PAD = 1.2

Field = tuple[str, str, float]
"""A field's name, its words, its share of the row."""


def sheet_to_keep(view: SheetView) -> Drawing:
    """The whole sheet at true size with its title block and its bar; no date, as ever the same."""
    items = sheet_items(view, TRUE)
    low_x, low_y, high_x, high_y = extent(items)
    width = max(high_x - low_x, LEAST_WIDTH)
    block = list(_block(_rows(view), width))
    bar = checking_bar()
    bar_box, block_box = extent(bar), extent(block)
    bar_y = MARGIN - bar_box[1]
    block_y = MARGIN + (bar_box[3] - bar_box[1]) + MARGIN
    drawing_y = block_y + block_box[3] + 2 * MARGIN
    placed = (
        *moved(items, MARGIN - low_x, drawing_y - low_y),
        *moved(block, MARGIN, block_y),
        *moved(bar, MARGIN, bar_y),
    )
    high = drawing_y + high_y - low_y + MARGIN
    title, words = view_title(view), view_description(view)
    return Drawing(width + 2 * MARGIN, high, placed, title, words, TRUE.wide)


def _rows(view: SheetView) -> tuple[tuple[Field, ...], ...]:
    """The fields, row by row from the top."""
    layout, laid = view.layout, view.laid
    return (
        (
            ("Title", view.pieces, 0.5),
            ("Metal", metal_words(layout.task.batch), 0.5),
        ),
        (
            ("Sheet", f"{sheet_name(laid)}, {where_words(laid.sheet)}", 0.4),
            ("Gaps", gap_words(layout), 0.6),
        ),
        (
            ("Blanks", area_words(layout, laid.used, laid.area), 0.26),
            ("Waste", area_words(layout, laid.waste, laid.area), 0.26),
            ("Scale", "1:1", 0.1),
            ("Lengths", "mm", 0.1),
            ("Made by", f"Hollowright {__version__}", 0.28),
        ),
    )


def _block(rows: Sequence[Sequence[Field]], width: float) -> Iterator[Item]:
    """The block with its lower left corner at 0, 0."""
    top = ROW * len(rows)
    yield Path("frame", _lines([(0, 0), (width, 0), (width, top), (0, top), (0, 0)]))
    for number, row in enumerate(rows):
        y, x = top - ROW * (number + 1), 0.0
        if number:
            yield Path("dimension", (Line((0.0, y + ROW), (width, y + ROW)),))
        for place, (name, words, share) in enumerate(row):
            if place:
                yield Path("dimension", (Line((x, y), (x, y + ROW)),))
            yield Label(name, (x + PAD, y + ROW - PAD - NAME), NAME, "note")
            yield _fitted(words, x + PAD, y + 1.6 * PAD, share * width - 2 * PAD)
            x += share * width


def _lines(points: Sequence[tuple[float, float]]) -> tuple[Line, ...]:
    return tuple(Line(a, b) for a, b in pairwise(points))


def _fitted(words: str, x: float, y: float, room: float) -> Label:
    """Words as large as goes into a field; cut off at the smallest."""
    for height in WORDS:
        if text_width(words, height) <= room:
            return Label(words, (x, y), height, "title")
    while words and text_width(f"{words}…", WORDS[-1]) > room:
        words = words[:-1]
    return Label(f"{words}…", (x, y), WORDS[-1], "title")
