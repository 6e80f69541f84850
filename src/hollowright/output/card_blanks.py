"""Blanks for the card: bare true-size drawings, cut into tiles where the page is too small."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from string import ascii_uppercase

from hollowright.output.blank_drawing import BAR_NOTE, GOES_ON
from hollowright.output.dimensions import drawn
from hollowright.output.drawing import Drawing, Item, Label, Path, moved
from hollowright.output.extent import extent, label_box

EDGE = 1.0  # paper left round a bare drawing, so that no line is cut [mm]
OVERLAP = 10.0  # that neighbouring tiles share [mm]
FEWER = 0.5  # least tile, as a share of the room, tried to keep figures whole

Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Tile:
    """A window on a drawing [mm from its left and upper edge]; `joins` names the sides it meets.

    Each join is (side, name): 'left', 'right', 'top' or 'bottom' and a name that two tiles share.
    """

    left: float
    top: float
    width: float
    height: float
    joins: tuple[tuple[str, str], ...] = ()


def bare(drawing: Drawing) -> tuple[Drawing, tuple[str, ...]]:
    """A blank's drawing without title, notes and bar; and its notes, for the card to set."""
    labels = [item for item in drawing.items if isinstance(item, Label) and _is_note(item)]
    notes = _whole(label.text for label in sorted(labels, key=lambda label: -label.at[1]))
    body = [item for item in drawing.items if not (_is_note(item) or _is_bar(item))]
    low_x, low_y, high_x, high_y = extent(body)
    items = moved(body, EDGE - low_x, EDGE - low_y)
    size = (high_x - low_x + 2 * EDGE, high_y - low_y + 2 * EDGE)
    cropped = replace(drawing, width=size[0], height=size[1], items=items)
    said = [note for note in notes if note not in (drawing.title, BAR_NOTE)]
    return cropped, tuple(note if note.endswith(".") else f"{note}." for note in said)


def _whole(lines: Iterable[str]) -> list[str]:
    """Notes put together again from the lines they were broken into."""
    notes: list[str] = []
    for line in lines:
        if line.startswith(GOES_ON) and notes:
            notes[-1] += f" {line.removeprefix(GOES_ON)}"
        else:
            notes.append(line)
    return notes


def _is_note(item: Item) -> bool:
    return isinstance(item, Label) and item.role in ("title", "note")


def _is_bar(item: Item) -> bool:
    return isinstance(item, Path) and item.role == "bar"


def tiles(drawing: Drawing, room_width: float, room_height: float) -> tuple[Tile, ...]:
    """The drawing as one tile, or as a grid of tiles that overlap by OVERLAP [mm].

    room_width, room_height: the largest a tile may be [mm].
    """
    boxes = [label_box(label) for label in _labels(drawing)]
    across = spans(drawing.width, room_width, [(box[0], box[2]) for box in boxes])
    upright = [(drawing.height - box[3], drawing.height - box[1]) for box in boxes]
    down = spans(drawing.height, room_height, upright)
    return tuple(
        Tile(left, top, right - left, bottom - top, _joins(column, row, len(across), len(down)))
        for row, (top, bottom) in enumerate(down)
        for column, (left, right) in enumerate(across)
    )


def _joins(column: int, row: int, columns: int, rows: int) -> tuple[tuple[str, str], ...]:
    """The sides of a tile that meet another: numbers across, letters down the sheet."""
    found = (
        (column > 0, "left", f"{column}{_letter(row, rows)}"),
        (column < columns - 1, "right", f"{column + 1}{_letter(row, rows)}"),
        (row > 0, "top", f"{ascii_uppercase[row - 1]}{column + 1}"),
        (row < rows - 1, "bottom", f"{ascii_uppercase[row]}{column + 1}"),
    )
    return tuple((side, name) for there, side, name in found if there)


def _letter(row: int, rows: int) -> str:
    return ascii_uppercase[row] if rows > 1 else ""


def _labels(drawing: Drawing) -> list[Label]:
    flat = [
        part
        for item in drawing.items
        for part in ((item,) if isinstance(item, Path | Label) else drawn(item))
    ]
    return [item for item in flat if isinstance(item, Label)]


def spans(length: float, room: float, whole: Sequence[Span] = ()) -> tuple[Span, ...]:
    """Spans no longer than `room` that cover `length` [mm], each sharing OVERLAP with the next.

    Where there is a way, every span of `whole` (a figure) lies within one of them.

    >>> spans(100, 180)
    ((0.0, 100),)
    >>> spans(250, 180)
    ((0.0, 180.0), (170.0, 250))
    """
    if length <= room:
        return ((0.0, length),)
    tried = [_even(length, size) for size in _lengths(room)]
    clean = [found for found in tried if all(_uncut(label, found) for label in whole)]
    kept = [found for found in tried if all(_kept(label, found) for label in whole)]
    return (clean or kept or tried)[0]


def _kept(label: Span, found: Sequence[Span]) -> bool:
    """Whether a figure lies whole within one of the spans."""
    return any(low <= label[0] and label[1] <= high for low, high in found)


def _uncut(label: Span, found: Sequence[Span]) -> bool:
    """Whether it does, and no other span shows a part of it."""
    cuts = [edge for span in found for edge in span]
    return _kept(label, found) and not any(label[0] < cut < label[1] for cut in cuts)


def _lengths(room: float) -> list[float]:
    """Span lengths to try, longest first [mm]."""
    return [room - step for step in range(math.ceil(room * (1 - FEWER)))]


def _even(length: float, size: float) -> tuple[Span, ...]:
    """Spans of one size from 0 on, the last as long as is left."""
    found: list[Span] = []
    start = 0.0
    while not found or found[-1][1] < length:
        found.append((start, min(start + size, length)))
        start += size - OVERLAP
    return tuple(found)
