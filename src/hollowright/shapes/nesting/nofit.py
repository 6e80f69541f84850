"""Where a flat may not lie beside another, and where it may in a bin: no-fit and inner-fit areas.

A flat's place is where its own 0, 0 comes to lie. Beside a lying flat the forbidden places are its
area, grown by the gap, plus the turned-round area of the other: the union of all sums of two
convex pieces. In a bin all its corners must lie in the bin's hull, and none of it in what the hull
has more than the bin, which is treated like a flat that lies there.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from hollowright.shapes.convex import convex_pieces, summed
from hollowright.shapes.nesting.forms import SLACK, Form, doubt_of, rotated
from hollowright.shapes.nesting.problem import Bin
from hollowright.shapes.nesting.rows import is_rectangle
from hollowright.shapes.outline import Outline
from hollowright.shapes.placing import cosine_and_sine
from hollowright.shapes.polygons import (
    Area,
    Numbers,
    area_of,
    box_of,
    grown,
    hull_of,
    less,
    parts_of,
    polygons_of,
    shared,
    shifted,
    shrunk,
    together,
    turned,
)

Places = dict[tuple[object, ...], Area]


@dataclass(frozen=True, eq=False)
class NoFit:
    """No-fit and inner-fit areas for gaps [mm], each found once and kept."""

    between: float
    edge: float
    _beside: Places = field(default_factory=dict, repr=False)
    _turned: Places = field(default_factory=dict, repr=False)
    _inside: Places = field(default_factory=dict, repr=False)
    _bins: dict[tuple[object, ...], tuple[Area, list[Numbers]]] = field(
        default_factory=dict, repr=False
    )

    def beside(self, lying: Form, lying_turn: float, moving: Form, turn: float) -> Area:
        """Places forbidden to a flat by one that lies at 0, 0."""
        relative = round((turn - lying_turn) % 360.0, 6)
        key = (id(lying), id(moving), relative)
        whole = (*key, round(lying_turn % 360.0, 6))
        if whole not in self._turned:
            if key not in self._beside:
                self._beside[key] = self._sum(lying, moving, relative)
            self._turned[whole] = turned(self._beside[key], *cosine_and_sine(lying_turn))
        return self._turned[whole]

    def inside(self, bin: Bin, moving: Form, turn: float) -> Area:
        """Places in a bin that are free for a flat while nothing else lies there."""
        key = (bin.id, id(moving), round(turn % 360.0, 6))
        if key not in self._inside:
            rectangle = is_rectangle(bin.outline)
            found = self._in_box(bin, moving, turn) if rectangle else self._in(bin, moving, turn)
            self._inside[key] = found
        return self._inside[key]

    def _sum(self, lying: Form, moving: Form, turn: float) -> Area:
        gap = self.between + lying.doubt + moving.doubt - SLACK
        filled = all(hole < moving.filled.area for hole in lying.holes)
        ours = lying.grown_pieces(gap, filled)
        theirs = [rotated(piece, turn) for piece in moving.pieces]
        return together(polygons_of([summed(a, -b) for a in ours for b in theirs]))

    def _in_box(self, bin: Bin, moving: Form, turn: float) -> Area:
        low_x, low_y, high_x, high_y = bin.outline.bounds
        box, edge = moving.bounds(turn), self.edge
        xs = _span(low_x + edge - box[0], high_x - edge - box[2])
        ys = _span(low_y + edge - box[1], high_y - edge - box[3])
        return box_of(xs[0], ys[0], xs[1], ys[1]) if xs and ys else together([])

    def _in(self, bin: Bin, moving: Form, turn: float) -> Area:
        hull, pockets = self._around(bin, moving)
        if hull.is_empty:
            return hull
        within = shared([shifted(hull, -x, -y) for x, y in rotated(moving.hull, turn)])
        if not pockets or within.is_empty:
            return within
        theirs = [rotated(piece, turn) for piece in moving.pieces]
        blocked = together(polygons_of([summed(a, -b) for a in pockets for b in theirs]))
        return less(within, blocked)

    def _around(self, bin: Bin, moving: Form) -> tuple[Area, list[Numbers]]:
        """The hull of what a flat may cover in a bin, and convex pieces of what isn't bin there."""
        key = (bin.id, moving.doubt)
        if key not in self._bins:
            around = self._covered(bin, self.edge + moving.doubt - SLACK)
            hull = hull_of(around)
            pockets = [p for part in parts_of(less(hull, around)) for p in convex_pieces(part)]
            self._bins[key] = (hull, pockets)
        return self._bins[key]

    def _covered(self, bin: Bin, margin: float) -> Area:
        """What a flat may cover in a bin: so far from its outer edge and its holes [mm]."""
        rings = [Outline(bin.outline.segments), *bin.outline.holes]
        doubts = [doubt_of(ring, 1 / 1000) for ring in rings]
        outer, *holes = (
            area_of(ring, max(doubt, 0.004)) for ring, doubt in zip(rings, doubts, strict=True)
        )
        inner = shrunk(outer, margin + doubts[0])
        wider = [grown(h, margin + d) for h, d in zip(holes, doubts[1:], strict=True)]
        return less(inner, together(wider)) if wider else inner


def _span(low: float, high: float) -> tuple[float, float] | None:
    """A range of places; one that is a hair too narrow is opened by SLACK."""
    if high - low >= SLACK:
        return (low, high)
    middle = (low + high) / 2
    return (middle - SLACK / 2, middle + SLACK / 2) if high - low >= -SLACK else None
