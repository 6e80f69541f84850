"""Parallel curves of outlines: inwards and outwards by a distance, exact for lines and arcs.

Ellipses and cubics are followed by arcs within a stated tolerance; their exact lengths are in
`mid_line`. What a parallel can't be (cusps, pieces, nothing left) is refused with the place.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from hollowright.errors import PlanRefused
from hollowright.shapes import along
from hollowright.shapes.biarcs import Bit, Plain, bits
from hollowright.shapes.curves import Curve, Line, Point
from hollowright.shapes.outline import Outline
from hollowright.shapes.untangle import Loop, parallels

Corners = Literal["sharp", "round"]
TOLERANCE = 1e-4  # how far arcs may lie off the ellipse or cubic that they stand for [mm]


class ParallelRefused(PlanRefused, ValueError):
    """An outline has no single smooth parallel at a distance.

    `kind` is "bend" (bent tighter than the distance at `at`, with `radius` [mm] there), "split" (it
    falls into pieces or closes upon itself), "nothing" (nothing is left) or "side" (one side is).
    """

    def __init__(
        self, kind: str, problem: str, remedy: str, at: Point | None = None, radius: float = 0.0
    ) -> None:
        self.kind = kind
        self.at = at
        self.radius = radius
        super().__init__("outline", problem, remedy)


@dataclass(frozen=True, slots=True)
class Chain:
    """An anticlockwise outline as lines and arcs, each with the number of its curve and its u."""

    outline: Outline
    owners: tuple[int, ...]
    bits: tuple[Bit, ...]

    @property
    def curves(self) -> tuple[Plain, ...]:
        """The lines and arcs [mm]."""
        return tuple(bit.curve for bit in self.bits)


def offset(
    outline: Outline, distance: float, corners: Corners = "sharp", tolerance: float = TOLERANCE
) -> Outline:
    """The parallel of an outline, `distance` [mm] outwards, or inwards when negative.

    Holes grow when the outside shrinks. `corners` says what becomes of corners that open: "sharp"
    (extended to a point) or "round" (an arc of the distance); corners that close are trimmed.
    Ellipses and cubics become arcs within `tolerance` [mm]. ParallelRefused when a bend is tighter
    than the distance, or when the parallel isn't one piece.
    """
    if distance == 0:
        return outline
    check_bends(outline, distance)
    return one_piece(offset_pieces(outline, distance, corners, tolerance), outline, distance)


def offset_pieces(
    outline: Outline, distance: float, corners: Corners = "sharp", tolerance: float = TOLERANCE
) -> tuple[Outline, ...]:
    """Every piece of the parallel, largest first: none when nothing is left; pockets are holes.

    Arguments as for `offset`; bends tighter than the distance become corners.
    """
    if not math.isfinite(distance):
        raise ValueError(f"distance must be a number of mm, not {distance}")
    loops = outer_loops(chain_of(outline, tolerance), distance, corners)
    outlines = [Outline(tuple(link.curve for link in loop)) for loop in loops]
    if len(outlines) == 1 and not outline.holes:
        return tuple(outlines)  # a pocket is never alone
    solids = [piece for piece in outlines if piece.anticlockwise]
    hollows = [piece.reversed() for piece in outlines if not piece.anticlockwise]
    for hole in outline.holes:
        hollows += offset_pieces(Outline(hole.segments), -distance, corners, tolerance)
    solids.sort(key=lambda piece: -piece.area)
    if not hollows:
        return tuple(solids)
    from hollowright.shapes.polygons import with_holes

    return with_holes(solids, hollows)


def chain_of(outline: Outline, tolerance: float = TOLERANCE) -> Chain:
    """The outer edge as an anticlockwise chain of lines and arcs."""
    return _chain(outline, tolerance)


@lru_cache(maxsize=64)
def _chain(outline: Outline, tolerance: float) -> Chain:
    whole = outline.run_anticlockwise()
    found = [
        (i, bit) for i, segment in enumerate(whole.segments) for bit in bits(segment, tolerance)
    ]
    return Chain(whole, tuple(i for i, _ in found), tuple(bit for _, bit in found))


def outer_loops(chain: Chain, distance: float, corners: Corners) -> tuple[Loop, ...]:
    """All loops of the parallel of a chain."""
    return parallels(chain.curves, distance, corners == "sharp")


def check_bends(outline: Outline, distance: float, asked: str = "") -> None:
    """ParallelRefused when a bend is tighter than the distance [mm] that it is closed by.

    `asked` says in the error what the distance is for ("a wall of 1 mm").
    """
    asked = asked or f"a parallel {_way(distance)}"
    for edge, way in ((outline, distance), *((hole, -distance) for hole in outline.holes)):
        at, radius = tightest_closing(edge, way)
        if radius < abs(distance) * (1 - 1e-9):
            raise ParallelRefused(
                "bend",
                f"it is bent too tightly at {told(at)} for {asked}: its radius there is "
                f"{radius:.3g} mm.",
                f"Up to {math.floor(radius * 100) / 100:.2f} mm goes; or make that bend gentler.",
                at,
                radius,
            )


def tightest_closing(outline: Outline, distance: float) -> tuple[Point, float]:
    """Place [mm] and radius [mm] of the tightest bend that an offset closes; infinite for none.

    What a corner that closes trims away doesn't count.
    """
    whole = outline.run_anticlockwise()
    side = 1 if distance < 0 else -1
    turns = (*whole.turns, whole.turns[0])
    sharpest, at = 0.0, whole.segments[0].start
    for i, segment in enumerate(whole.segments):
        first, last = (_trim(turn, side, distance) for turn in turns[i : i + 2])
        kept = _between(segment, first, last)
        if kept is None or isinstance(segment, Line):
            continue
        bend, u = along.sharpest(segment, side, *kept)
        if bend > sharpest:
            sharpest, at = bend, along.place(segment, u)
    return at, 1 / sharpest if sharpest else math.inf


def _trim(turn: float, side: int, distance: float) -> float:
    """Length that a closing corner takes off each side, as if both were straight [mm]."""
    closes = turn * side > 0
    return abs(distance * math.tan(turn / 2)) if closes else 0.0


def _between(segment: Curve, first: float, last: float) -> tuple[float, float] | None:
    """The u between lengths taken off both ends; None when nothing is left."""
    if first == last == 0:
        return (0.0, 1.0)
    size = along.length(segment)
    if first + last >= size:
        return None
    return (along.at_length(segment, first), along.at_length(segment, size - last))


def one_piece(
    pieces: Sequence[Outline], outline: Outline, distance: float, asked: str = ""
) -> Outline:
    """The only piece of a parallel; ParallelRefused when there are none, more, or new pockets."""
    asked = asked or f"a parallel {_way(distance)}"
    remedy = "Widen the outline there, or stay nearer to it."
    if not pieces:
        raise ParallelRefused("nothing", f"it is too small for {asked}: nothing is left.", remedy)
    if len(pieces) > 1:
        places = [piece.centroid for piece in pieces]
        where = " and ".join(told(place) for place in places[:3])
        problem = f"it is too narrow for {asked}: it falls into {len(pieces)} pieces, at {where}."
        raise ParallelRefused("split", problem, remedy, places[-1])
    if len(pieces[0].holes) > len(outline.holes):
        pocket = pieces[0].holes[0].centroid
        problem = f"it closes upon itself with {asked}: a pocket is left at {told(pocket)}."
        raise ParallelRefused("split", problem, remedy, pocket)
    return pieces[0]


def _way(distance: float) -> str:
    return f"{abs(distance):.6g} mm {'inwards' if distance < 0 else 'outwards'}"


def told(point: Point) -> str:
    """A place as an error tells it [mm].

    >>> told((30.0, -0.0))
    'x 30.00, y 0.00'
    """
    x, y = (round(value, 2) + 0.0 for value in point)
    return f"x {x:.2f}, y {y:.2f}"
