"""Where a picture's views stand on the paper: side by side or one above the other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hollowright.output.drawing import text_width
from hollowright.output.leaders import PITCH, RISE, SHELF, SPACE
from hollowright.shapes.curves import Point

MARGIN = 3.0  # [mm]
ELBOW = 5.0  # from the parts to the elbows of their leaders [mm]
GUTTER = 0.25  # between two views side by side, as a share of the first one's width
LARGEST = 3.0  # times true size: small pieces aren't blown up further
WORTH = 1.1  # how much larger the views must come out to stand one above the other

Size = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Sheet:
    """The room there is [mm], the height of capitals, the names to write beside the last view."""

    width: float
    most_height: float
    lettering: float
    names: tuple[str, ...]

    @property
    def beside(self) -> float:
        """Width that leaders and names take [mm]."""
        return ELBOW + SHELF + SPACE + max(text_width(name, self.lettering) for name in self.names)

    @property
    def column(self) -> float:
        """Height that names take one above the other [mm]."""
        return (len(self.names) - 1) * PITCH * self.lettering + 2 * self.lettering + RISE

    @property
    def foot(self) -> float:
        """Height that a caption takes below its view [mm]."""
        return 3 * self.lettering


@dataclass(frozen=True, slots=True)
class Layout:
    """The scale, the middle of each view's lower edge, and where the leaders' elbows stand [mm]."""

    scale: float
    feet: tuple[Point, ...]
    elbows: float


def layout(sizes: Sequence[Size], sheet: Sheet, captions: Sequence[str]) -> Layout:
    """The largest of the ways to place one view, or two; a scale of 0 or less when none fits.

    sizes: width and height of each view at true size [mm].
    """
    if len(sizes) == 1:
        return _single(sizes[0], sheet)
    wide, tall = _side_by_side(sizes, sheet, captions), _stacked(sizes, sheet, captions)
    return tall if tall.scale > WORTH * wide.scale else wide


def _single(size: Size, sheet: Sheet) -> Layout:
    scale = min(
        LARGEST,
        (sheet.width - 2 * MARGIN - sheet.beside) / size[0],
        (sheet.most_height - 2 * MARGIN) / size[1],
    )
    middle = (sheet.width - sheet.beside) / 2
    return Layout(scale, ((middle, MARGIN),), middle + scale * size[0] / 2 + ELBOW)


def _side_by_side(sizes: Sequence[Size], sheet: Sheet, captions: Sequence[str]) -> Layout:
    (first, height), (second, other) = sizes
    foot = MARGIN + sheet.foot
    scale = min(
        LARGEST,
        (sheet.width - 2 * MARGIN - sheet.beside) / (first * (1 + GUTTER) + second),
        (sheet.most_height - foot - MARGIN - 2 * sheet.lettering) / max(height, other),
    )
    words = [text_width(caption, sheet.lettering) for caption in captions]
    views = (scale * first, scale * second)
    left, right = (max(view, word) for view, word in zip(views, words, strict=True))
    between = max(
        GUTTER * views[0] - (left - views[0]) / 2 - (right - views[1]) / 2, sheet.lettering
    )
    start = max(MARGIN, (sheet.width - sheet.beside - left - between - right) / 2)
    middles = (start + left / 2, start + left + between + right / 2)
    feet = tuple((middle, foot) for middle in middles)
    return Layout(scale, feet, middles[1] + views[1] / 2 + ELBOW)


def _stacked(sizes: Sequence[Size], sheet: Sheet, captions: Sequence[str]) -> Layout:
    """The first view above the second, which has the names beside it."""
    (first, height), (second, other) = sizes
    room = sheet.most_height - 2 * MARGIN - 2 * sheet.foot - 2 * sheet.lettering
    scale = min(
        LARGEST,
        (sheet.width - 2 * MARGIN) / first,
        (sheet.width - 2 * MARGIN - sheet.beside) / second,
        room / (height + other),
        (room - sheet.column) / height,
    )
    words = max(text_width(caption, sheet.lettering) for caption in captions)
    below = max(scale * second, words)
    start = max(MARGIN, (sheet.width - sheet.beside - below) / 2)
    middle = start + below / 2
    half = max(scale * first, words) / 2
    above = min(max(middle, MARGIN + half), sheet.width - MARGIN - half)
    spare = max(0.0, sheet.column - scale * other) / 2
    foot = MARGIN + sheet.foot + spare
    higher = foot + scale * other + spare + 2 * sheet.lettering + sheet.foot
    return Layout(scale, ((above, higher), (middle, foot)), middle + scale * second / 2 + ELBOW)
