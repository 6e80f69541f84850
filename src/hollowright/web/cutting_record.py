"""A cutting's record: the sheets it cut with what is left of them, kept and shown again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hollowright.output.layout_view import sheet_views
from hollowright.output.layout_words import metal_words, sheet_name
from hollowright.output.svg import number, path_data
from hollowright.plan.laid import Layout
from hollowright.shapes.curves import Point
from hollowright.shapes.outline import Outline
from hollowright.shapes.outline_json import outline_data, read_outline_data
from hollowright.shapes.polygons import deepest
from hollowright.store import Item
from hollowright.web.drawer_view import Shape, metal_name, shape

KEY = "cut_sheets"
"""Where the record stands in a cutting's data."""

NUMBER_SIZE = 0.14
"""Height of an offcut's number in the picture, as a share of the sheet's smaller side."""

LEAST_NUMBER = 0.05
"""The same as a share of the larger side: a long sheet's numbers are no smaller."""


def sheets_record(layouts: Sequence[Layout]) -> dict[str, Any]:
    """Each sheet that is cut, in the order in which the drawer books what is left of it."""
    views = [view for layout in layouts for view in sheet_views(layout) if view.laid.spots]
    sheets = [
        {
            "name": sheet_name(view.laid),
            "metal": metal_words(view.layout.task.batch),
            "outline": outline_data(view.outline),
            "blanks": [outline_data(blank.cut) for blank in view.blanks],
            "left": [outline_data(offcut) for offcut in view.offcuts],
        }
        for view in views
    ]
    return {KEY: sheets}


@dataclass(frozen=True)
class LeftRow:
    """One piece that came in: its number, picture, what it is, its size, what it came from."""

    number: int
    picture: Shape | None
    what: str
    size: str
    source: str
    there: bool


@dataclass(frozen=True)
class CutSheet:
    """A sheet that was cut as a small picture: paths, and each offcut's number in its place."""

    name: str
    metal: str
    box: str
    outline: str
    blanks: str
    left: tuple[tuple[int, str, tuple[str, str]], ...]
    number_size: str


def cut_sheets(data: Mapping[str, Any], came_in: Sequence[int]) -> tuple[CutSheet, ...]:
    """The sheets of a cutting's record; none where it has no record that fits what came in."""
    try:
        told = [_read(sheet) for sheet in data.get(KEY, ())]
    except (ValueError, TypeError, KeyError, AttributeError, ArithmeticError):
        return ()
    if sum(len(left) for *_, left in told) != len(came_in):
        return ()
    numbers = iter(came_in)
    return tuple(
        _sheet(name, metal, outline, blanks, [(next(numbers), each) for each in left])
        for name, metal, outline, blanks, left in told
    )


def _read(sheet: Mapping[str, Any]) -> tuple[str, str, Outline, list[Outline], list[Outline]]:
    return (
        str(sheet["name"]),
        str(sheet["metal"]),
        read_outline_data(sheet["outline"]),
        [read_outline_data(each) for each in sheet["blanks"]],
        [read_outline_data(each) for each in sheet["left"]],
    )


def _sheet(
    name: str,
    metal: str,
    outline: Outline,
    blanks: Sequence[Outline],
    left: Sequence[tuple[int, Outline]],
) -> CutSheet:
    wide, high = outline.width, outline.height
    edge = 0.02 * max(wide, high)
    box = (-edge, -edge, wide + 2 * edge, high + 2 * edge)
    size = max(NUMBER_SIZE * min(wide, high), LEAST_NUMBER * max(wide, high))
    return CutSheet(
        name,
        metal,
        " ".join(number(each) for each in box),
        _path(outline, high),
        "".join(_path(each, high) for each in blanks),
        tuple((count, _path(each, high), _place(deepest(each), high)) for count, each in left),
        number(size),
    )


def _path(outline: Outline, high: float) -> str:
    return "".join(path_data(ring.segments, high) for ring in (outline, *outline.holes))


def _place(at: Point, high: float) -> tuple[str, str]:
    return number(at[0]), number(high - at[1])


def left_rows(items: Sequence[Item], sheets: Sequence[CutSheet]) -> tuple[LeftRow, ...]:
    """What came in, a row for each."""
    sources = {count: sheet.name for sheet in sheets for count, *_ in sheet.left}
    return tuple(
        LeftRow(
            item.number,
            shape(item),
            f"{metal_name(item.metal)} {item.form}",
            f"{'within ' if item.outline else ''}{item.size_text}",
            sources.get(item.number) or _source(item),
            item.there,
        )
        for item in items
    )


def _source(item: Item) -> str:
    """What an item was cut from, by what the drawer itself knows of it."""
    if item.cut_from:
        return f"number {item.cut_from}"
    return item.note.removeprefix("left of ") if item.note.startswith("left of ") else ""
