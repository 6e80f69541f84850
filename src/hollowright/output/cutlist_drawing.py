"""Bars drawn to scale, each as a row: its pieces with their names, the marks, what is left."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Iterator, Sequence

from hollowright.job.cutting import Cutting
from hollowright.output.blank_drawing import broken
from hollowright.output.cutlist_view import BarView, Row, bar_views, batch_words
from hollowright.output.drawing import Drawing, Item, Label, Path, moved, text_width
from hollowright.output.extent import extent
from hollowright.output.hatching import hatched
from hollowright.plan.bars import CutList
from hollowright.shapes.curves import Line, Point
from hollowright.shapes.outline import rectangle
from hollowright.units import format_number

WIDTH = 166.0
"""How long the longest bar is drawn [mm]."""
HIGH = 8.0
"""How high a bar is drawn, whatever its section [mm]."""
MARGIN = 5.0
LETTERING = 2.5
SMALL = 2.0
TITLE_LINE = 58
"""So many letters of the title stand in a line as wide as a bar."""
CLOSE = 3.0
"""Marks nearer than this on paper aren't all written [mm]."""
PITCH = 2.0
AIR = 1.2
KEY = (
    "Thick end: the bar's own, square. Hatched: left over, to keep. Crossed: waste. "
    "Figures: marks from the first end [mm]; bars to scale along, not across."
)


def cutlist_drawing(cutting: Cutting) -> Drawing:
    """All bars of all cut lists under each other."""
    title = textwrap.wrap(f"Cut list: {cutting.title}", TITLE_LINE)
    blocks: list[tuple[Item, ...]] = [
        tuple(Label(line, (0.0, -5.5 * row), 3.5, "title") for row, line in enumerate(title))
    ]
    for each in (one for one in cutting.lists if one.bars):
        words = batch_words(each)
        blocks.append((Label(f"{words[:1].upper()}{words[1:]}", (0.0, 0.0), 3.0, "name"),))
        blocks += [bar_items(view, scale_of(each)) for view in bar_views(each)]
    blocks.append(tuple(_key()))
    return _under_each_other(blocks, f"Cut list: {cutting.title}", _described(cutting))


def bar_drawing(view: BarView, scale: float) -> Drawing:
    """One bar alone, for a page."""
    told = ", ".join(f"{row.name} {format_number(row.piece.long)}" for row in view.rows)
    return _under_each_other([bar_items(view, scale)], view.name, f"{view.name}: {told}.")


def scale_of(cut_list: CutList) -> float:
    """Paper over metal: the longest bar of the list is WIDTH long."""
    return WIDTH / max((each.bar.length for each in cut_list.bars), default=WIDTH)


def _under_each_other(blocks: Sequence[Sequence[Item]], title: str, told: str) -> Drawing:
    placed: list[Item] = []
    y = MARGIN
    for block in reversed(blocks):
        _, low, _, high = extent(block)
        placed += moved(block, MARGIN, y - low)
        y += high - low + MARGIN
    _, _, right, _ = extent(placed)
    return Drawing(max(WIDTH + 2 * MARGIN, right + MARGIN), y, tuple(placed), title, told, 0.35)


def _described(cutting: Cutting) -> str:
    count = sum(len(each.bars) for each in cutting.lists)
    pieces = sum(len(bar.pieces) for each in cutting.lists for bar in each.bars)
    return f"{pieces} pieces from {count} bars, each bar a row drawn to scale along its length."


def bar_items(view: BarView, scale: float) -> tuple[Item, ...]:
    """A bar as a row, its first end at 0, 0: its name above, its pieces, the marks below."""
    bar = view.sawn.bar
    items: list[Item] = [
        Label(view.name, (0.0, HIGH + 2.0), LETTERING, "name"),
        Path("visible", rectangle_at(0.0, bar.length * scale)),
        *_ends(view, scale),
        *_rest(view, scale),
    ]
    for row in view.rows:
        left, right = row.piece.start * scale, row.piece.end * scale
        items.append(Path("cut", rectangle_at(left, right)))
        items += _named(row, left, right)
    items += _marks(view, scale)
    return tuple(items)


def rectangle_at(left: float, right: float) -> tuple[Line, ...]:
    """A box of the row's height between two places [mm]."""
    corners: tuple[Point, ...] = ((left, 0.0), (right, 0.0), (right, HIGH), (left, HIGH))
    return tuple(Line(a, b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))


def _ends(view: BarView, scale: float) -> Iterator[Item]:
    """The bar's own square ends as thick bars beside it."""
    square, long = view.sawn.bar.square_ends, view.sawn.bar.length * scale
    for there, x in ((square >= 1, -1.0), (square >= 2, long)):
        if there:
            yield Path("bar", rectangle_at(x, x + 1.0), filled=True)


def _rest(view: BarView, scale: float) -> Iterator[Item]:
    """What is left: hatched where it is kept, crossed where it is waste."""
    sawn = view.sawn
    left, right = sawn.rest_at * scale, (sawn.rest_at + sawn.rest) * scale
    if right - left < 0.3:
        return
    if not sawn.kept:
        yield Path("hatching", (Line((left, 0.0), (right, HIGH)), Line((left, HIGH), (right, 0.0))))
        return
    words = next(
        (text for text in (f"keep {format_number(sawn.rest)}", "keep") if _goes(text, left, right)),
        "",
    )
    middle, clear = (left + right) / 2, []
    if words:
        half = text_width(words, SMALL) / 2 + AIR
        low, high = HIGH / 2 - SMALL, HIGH / 2 + SMALL
        clear = [[(middle - half, low), (middle + half, low), (middle + half, high),
                  (middle - half, high)]]  # fmt: skip
        yield Label(words, (middle, (HIGH - SMALL) / 2), SMALL, "note", "middle")
    for path in hatched(rectangle(right - left, HIGH), PITCH, _shifted(clear, -left)):
        yield path.moved(left, 0.0)


def _shifted(boxes: Sequence[Sequence[Point]], dx: float) -> list[list[Point]]:
    return [[(x + dx, y) for x, y in box] for box in boxes]


def _goes(text: str, left: float, right: float) -> bool:
    return text_width(text, SMALL) + 2 * AIR <= right - left


def _named(row: Row, left: float, right: float) -> Iterator[Item]:
    """A piece's number and name where they go in, else as much of them as does."""
    number, middle = str(row.number), (left + right) / 2
    for text in (f"{number} {row.name}", f"{number} {row.name.split()[0]}", number):
        if _goes(text, left, right):
            yield Label(text, (middle, (HIGH - SMALL) / 2), SMALL, "name", "middle")
            return
    if right - left > SMALL + 0.6:
        at = (middle + SMALL / 2, HIGH / 2 - text_width(number, SMALL) / 2)
        yield Label(number, at, SMALL, "name", "start", math.pi / 2)


def _marks(view: BarView, scale: float) -> Iterator[Item]:
    """The marks from the first end, standing below the bar, as many as have room."""
    places = {row.piece.end for row in view.rows} | {
        row.piece.start for row in view.rows if _alone(view, row.piece.start)
    }
    written = -math.inf
    for place in sorted(places):
        x = place * scale
        yield Path("dimension", (Line((x, -0.5), (x, -2.5)),))
        if x - written >= CLOSE:
            written = x
            at = (x + SMALL / 2, -3.2)
            yield Label(format_number(place), at, SMALL, "dimension", "end", math.pi / 2)


def _alone(view: BarView, start: float) -> bool:
    """Whether a piece begins where none ended just before: after what is left, or at a trim."""
    before = [row.piece.end for row in view.rows if row.piece.end <= start + 1e-9]
    return start > 0 and (not before or start - max(before) > 2.0)


def _key() -> Iterator[Item]:
    for number, line in enumerate(broken(KEY)):
        yield Label(line, (0.0, -number * 4.2), LETTERING)
