"""Hatching: slanting lines within an outline, clear of its holes (ISO 128-3, narrow lines)."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from hollowright.output.drawing import Path
from hollowright.shapes.curves import Line, Point
from hollowright.shapes.outline import Outline

FINE = 0.05  # how far the hatching may miss an edge [mm]


def hatched(
    outline: Outline, pitch: float, clear: Sequence[Sequence[Point]] = (), angle: float = 45.0
) -> tuple[Path, ...]:
    """Lines so far apart [mm] at an angle [deg] within an outline; none where nothing is to hatch.

    clear: boxes within it that stay free, for names.
    """
    rings = [outline.points(FINE), *(hole.points(FINE) for hole in outline.holes), *clear]
    turn = math.radians(angle)
    level = [[_turned(point, -turn) for point in ring] for ring in rings]
    lines = tuple(
        Line(_turned((left, y), turn), _turned((right, y), turn))
        for y, left, right in _spans(level, pitch)
    )
    return (Path("hatching", lines),) if lines else ()


def _turned(point: Point, angle: float) -> Point:
    c, s = math.cos(angle), math.sin(angle)
    return (point[0] * c - point[1] * s, point[0] * s + point[1] * c)


def _spans(rings: Sequence[Sequence[Point]], pitch: float) -> Iterator[tuple[float, float, float]]:
    """Level lines within rings by the rule of even and odd: y, from x, to x."""
    levels = [y for ring in rings for _, y in ring]
    first, last = math.ceil(min(levels) / pitch), math.floor(max(levels) / pitch)
    for row in range(first, last + 1):
        y = row * pitch + 1e-7  # off the corners
        crossed = sorted(
            x0 + (y - y0) / (y1 - y0) * (x1 - x0)
            for ring in rings
            for (x0, y0), (x1, y1) in zip(ring, [*ring[1:], ring[0]], strict=True)
            if (y0 <= y) != (y1 <= y)
        )
        for left, right in zip(crossed[::2], crossed[1::2], strict=True):
            if right - left > FINE:
                yield y, left, right
