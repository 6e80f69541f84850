"""A laid sheet at true size, cut into pages that overlap, with marks to join them by."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from string import ascii_uppercase

from hollowright.output.card_blanks import OVERLAP, Span, spans
from hollowright.output.drawing import Drawing, Item, Label, Path, moved
from hollowright.output.extent import extent, label_box
from hollowright.output.layout_drawing import FINE, Looks, sheet_items
from hollowright.output.layout_view import SheetView, view_bounds
from hollowright.shapes.curves import Bounds, Point
from hollowright.shapes.polygons import reaching

BESIDE = 6.0
"""Shown round the blanks, of the sheet and of the paper [mm]."""
QUARTERS = (0.25, 0.75)
"""Where the crosses stand on a join, as shares of its length."""
PAGES = Looks(1.0, FINE, False, False)
"""What is drawn on the pages at true size."""


@dataclass(frozen=True, slots=True)
class Window:
    """One page's part of the drawing [mm from its left and upper edge].

    joins: (side, the page it meets there, where the join's line runs [mm from the window's own left
    or upper edge]). crosses: points that it shares with the pages beside it [mm from the drawing's
    left and upper edge]. empty: nothing is to be sawn in it, so it isn't printed.
    """

    name: str
    row: int
    column: int
    left: float
    top: float
    width: float
    height: float
    joins: tuple[tuple[str, str, float], ...]
    crosses: tuple[Point, ...]
    empty: bool


@dataclass(frozen=True, slots=True)
class Tiling:
    """A sheet's drawing at true size and the pages it is printed on."""

    drawing: Drawing
    windows: tuple[Window, ...]
    rows: int
    columns: int
    sheet: Bounds

    @property
    def printed(self) -> tuple[Window, ...]:
        """The pages on which there is something to saw."""
        return tuple(window for window in self.windows if not window.empty)


def tiling(view: SheetView, width: float, height: float) -> Tiling:
    """The part of a sheet where blanks lie, in pages of at most this size [mm]."""
    items = sheet_items(view, PAGES)
    low_x, low_y, high_x, high_y = shown = _shown(view, items)
    items = tuple(item for item in items if not _cut_off(item, shown))
    size = (high_x - low_x, high_y - low_y)
    drawing = Drawing(*size, moved(items, -low_x, -low_y), view.laid.sheet.label, "", PAGES.wide)
    across, down = spans(size[0], width), spans(size[1], height)
    busy = _busy(view, low_x, high_y, _cells(across), _cells(down))
    windows = tuple(
        _window(row, column, across, down, (row, column) not in busy)
        for row in range(len(down))
        for column in range(len(across))
    )
    sheet = (-low_x, -low_y, view.width - low_x, view.height - low_y)
    return Tiling(drawing, windows, len(down), len(across), sheet)


def _shown(view: SheetView, items: Sequence[Item]) -> Bounds:
    """The blanks with a little round them, and their names at leaders."""
    low_x, low_y, high_x, high_y = view_bounds(view)
    names = [item for item in items if _is_name(item)]
    left, below, right, above = extent(names) if names else (low_x, low_y, high_x, high_y)
    return (
        min(low_x - BESIDE, left), min(low_y - BESIDE, below),
        max(high_x + BESIDE, right), max(high_y + BESIDE, above),
    )  # fmt: skip


def _cut_off(item: Item, shown: Bounds) -> bool:
    """Whether it is an offcut's name that stands only partly in what is shown."""
    if not (isinstance(item, Label) and item.role == "note"):
        return False
    low_x, low_y, high_x, high_y = label_box(item)
    inside = shown[0] <= low_x and shown[1] <= low_y and high_x <= shown[2] and high_y <= shown[3]
    return not inside


def _is_name(item: Item) -> bool:
    return (isinstance(item, Label) and item.role == "name") or (
        isinstance(item, Path) and item.role == "leader"
    )


def _cells(spanned: Sequence[Span]) -> tuple[Span, ...]:
    """What each of the spans shows alone, parted in the middle of the overlaps [mm]."""
    last = len(spanned) - 1
    return tuple(
        (low + (OVERLAP / 2 if i else 0.0), high - (OVERLAP / 2 if i < last else 0.0))
        for i, (low, high) in enumerate(spanned)
    )


def _busy(
    view: SheetView, left: float, top: float, across: Sequence[Span], down: Sequence[Span]
) -> set[tuple[int, int]]:
    """The cells (row, column) that some blank reaches into."""
    places = [(row, column) for row in range(len(down)) for column in range(len(across))]
    boxes = []
    for row, column in places:
        (x0, x1), (y0, y1) = across[column], down[row]
        corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
        boxes.append([(left + x, top - y) for x, y in corners])
    found: set[tuple[int, int]] = set()
    for blank in view.blanks:
        met = reaching(blank.cut, boxes)
        found |= {place for place, there in zip(places, met, strict=True) if there}
    return found


def _window(
    row: int, column: int, across: Sequence[Span], down: Sequence[Span], empty: bool
) -> Window:
    (left, right), (top, bottom) = across[column], down[row]
    columns, rows = _cells(across), _cells(down)
    beside = (
        (column > 0, "left", row, column - 1, OVERLAP / 2),
        (column < len(across) - 1, "right", row, column + 1, right - left - OVERLAP / 2),
        (row > 0, "top", row - 1, column, OVERLAP / 2),
        (row < len(down) - 1, "bottom", row + 1, column, bottom - top - OVERLAP / 2),
    )
    joins = tuple((side, page_name(r, c), at) for there, side, r, c, at in beside if there)
    crosses: list[Point] = []
    for side, _, at in joins:
        upright = side in ("left", "right")
        low, high = rows[row] if upright else columns[column]
        for share in QUARTERS:
            along = low + share * (high - low)
            crosses.append((left + at, along) if upright else (along, top + at))
    return Window(
        page_name(row, column), row, column, left, top, right - left, bottom - top, joins,
        tuple(crosses), empty,
    )  # fmt: skip


def page_name(row: int, column: int) -> str:
    """A page's name: rows are letters from the top, columns numbers from the left.

    >>> page_name(0, 0), page_name(1, 1), page_name(27, 2)
    ('A1', 'B2', 'AB3')
    """
    lap, place = divmod(row, len(ascii_uppercase))
    return f"{ascii_uppercase[lap - 1] if lap else ''}{ascii_uppercase[place]}{column + 1}"
