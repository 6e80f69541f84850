"""Names beside a picture: leaders from each part to a column of labels that keep apart."""

from __future__ import annotations

import math
from collections.abc import Sequence

from hollowright.output.drawing import Item, Label, Path
from hollowright.shapes.curves import TURN, Arc, Line, Point

DOT = 0.5  # radius of the dot that ends a leader on a surface (ISO 128-2) [mm]
SHELF = 2.0  # length of the level part before the name [mm]
SPACE = 0.8  # between the shelf and the name [mm]
RISE = 3.0  # how much higher than its dot a name would stand [mm]
PITCH = 2.0  # least distance of two names, in heights of their capitals


def leaders(
    names: Sequence[str], dots: Sequence[Point], column: float, height: float
) -> tuple[Item, ...]:
    """A dot, a leader and a name for each part; names begin right of x = `column` [mm]."""
    levels = apart([y + RISE for _, y in dots], PITCH * height)
    found: list[Item] = []
    for name, dot, level in zip(names, dots, levels, strict=True):
        elbow, end = (column, level), (column + SHELF, level)
        found.append(Path("leader", (Arc(dot, DOT, 0.0, TURN),), filled=True))
        found.append(Path("leader", (Line(dot, elbow), Line(elbow, end))))
        at = (end[0] + SPACE, level - height / 2)
        found.append(Label(name, at, height, "name"))
    return tuple(found)


def apart(wanted: Sequence[float], pitch: float) -> list[float]:
    """Levels as near as can be to those wanted (least squares), none nearer than `pitch`.

    >>> apart([10, 11, 30], 4)
    [8.5, 12.5, 30]
    """
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    blocks: list[tuple[float, int]] = []  # mean of (wanted - rank x pitch), number of members
    for rank, i in enumerate(order):
        mean, count = wanted[i] - rank * pitch, 1
        while blocks and blocks[-1][0] > mean:
            below, members = blocks.pop()
            mean = (mean * count + below * members) / (count + members)
            count += members
        blocks.append((mean, count))
    level = [mean for mean, count in blocks for _ in range(count)]
    placed = [math.nan] * len(wanted)
    for rank, i in enumerate(order):
        placed[i] = level[rank] + rank * pitch
    return placed
