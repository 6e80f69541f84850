"""A ragged face cut straight across at its necks into compact pieces of few corners each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hollowright.shapes.curves import Point
from hollowright.shapes.inwards import Ring, fewer_corners
from hollowright.shapes.polygons import (
    Area,
    box_of,
    common,
    grown,
    less,
    nearer_than,
    parts_of,
    polygons_of,
    rings_of,
    together,
)

LOST = 0.06
"""Where more than this share would be lost to have few corners, it is cut apart first."""

RAGGED = 3
"""So many times the corners that are wanted is too ragged to be made simpler in one."""

PLACES = 7
"""So many cuts across either side are looked at, in its middle half."""

SLIVER = 0.01
"""How thick the slice is by which a cut's length is measured [mm]."""


def compact(
    faces: Sequence[Sequence[Sequence[Point]]], gap: float, width: float, least: float, most: int
) -> list[list[Ring]]:
    """Pieces of faces, each of about `most` corners at most, `gap` [mm] apart, inside them.

    faces: of each the outer edge anticlockwise, then its holes clockwise; so are the pieces.
    Nothing that is `width` [mm] wide and `least` [mm2] large at once is lost.
    """
    waiting, found = _spaced([_face(rings) for rings in faces], gap), list[list[Ring]]()
    while waiting:
        face = waiting.pop()
        if face.area < least:
            continue
        ring = _rings(face)
        if sum(map(len, ring)) <= RAGGED * most:
            fewer = fewer_corners(ring, most)
            kept = _face(fewer)
            if kept.area >= (1 - LOST) * face.area or face.area < 2 * least:
                found.append(fewer)
                waiting += _wide(less(face, grown(kept, gap)), gap, width)
                continue
        waiting += _wide(less(face, _cut(face, gap)), gap, width)
    return found


def _cut(face: Area, gap: float) -> Area:
    """A straight cut of a width [mm] where it is shortest, in the middle half of either side."""
    low_x, low_y, high_x, high_y = face.bounds

    def shares(low: float, high: float) -> Iterator[float]:
        for number in range(PLACES):
            yield low + (high - low) * (0.25 + 0.5 * number / (PLACES - 1))

    def up(x: float, half: float) -> Area:
        return box_of(x - half, low_y - 1, x + half, high_y + 1)

    def across(y: float, half: float) -> Area:
        return box_of(low_x - 1, y - half, high_x + 1, y + half)

    ways = [(up, x) for x in shares(low_x, high_x)] + [(across, y) for y in shares(low_y, high_y)]
    # a cut across the long side parts more: its length counts beside that of the cut
    sides = [high_x - low_x] * PLACES + [high_y - low_y] * PLACES
    lengths = [common(face, way(at, SLIVER / 2)).area / SLIVER for way, at in ways]
    best = min(range(len(ways)), key=lambda i: ((lengths[i] + 1.0) / sides[i], i))
    way, at = ways[best]
    return way(at, max(gap, SLIVER) / 2)


def _wide(face: Area, gap: float, width: float) -> list[Area]:
    """What of a face is as wide as this [mm], its parts a gap apart."""
    inner = grown(face, -width / 2)
    opened = common(grown(inner, width / 2), face) if not inner.is_empty else inner
    parts = [part for part in parts_of(opened) if not grown(part, -0.499 * width).is_empty]
    return _spaced(parts, gap)


def _spaced(faces: list[Area], gap: float) -> list[Area]:
    """Faces of which those nearer each other than a gap [mm] are made smaller."""
    spaced = list(faces)
    for a, b in nearer_than(faces, gap) if gap > 0 and len(faces) > 1 else ():
        spaced[b] = less(spaced[b], grown(spaced[a], gap))
    return [part for each in spaced for part in parts_of(each)]


def _face(rings: Sequence[Sequence[Point]]) -> Area:
    import numpy as np

    outer, *holes = polygons_of([np.asarray(ring, dtype=float) for ring in rings])
    return less(outer, together(holes)) if holes else outer


def _rings(face: Area) -> list[list[Point]]:
    """The corners of its outer edge, anticlockwise, and of its holes, clockwise."""
    rings = [[(float(x), float(y)) for x, y in ring] for ring in rings_of(face)]
    return [
        ring if (_twice(ring) > 0) == (number == 0) else ring[::-1]
        for number, ring in enumerate(rings)
    ]


def _twice(ring: Sequence[Point]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, [*ring[1:], ring[0]], strict=True))
