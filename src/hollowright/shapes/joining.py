"""Loose curves joined end to end into closed loops; what stays open is refused with the place."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence

from hollowright.shapes import along
from hollowright.shapes.curves import TURN, Arc, Curve, EllipseArc, Line, Point
from hollowright.shapes.drawn import Drawn, FileRefused, merged

NEAR = 0.01  # ends nearer than this are joined [mm]

End = tuple[int, bool]  # the number of a curve, and whether it is that curve's last point


def closed_loops(drawn: Drawn) -> list[list[Curve]]:
    """All closed loops of a drawing, loose curves joined; every end meets the next exactly.

    FileRefused for an end that meets nothing, with the gap, and for three that meet.
    """
    loops = [list(loop) for loop in drawn.loops]
    loops += _joined(_without_doubles(drawn), drawn)
    return [tidy for tidy in (_met(merged(loop)) for loop in loops) if tidy]


def _without_doubles(drawn: Drawn) -> list[Curve]:
    """Loose curves longer than a joint, each once."""
    seen: set[tuple[object, ...]] = set()
    found = []
    for curve in drawn.loose:
        if curve.length() <= NEAR:
            continue
        ends = sorted((_rounded(curve.start), _rounded(curve.end)))
        key = (*ends, _rounded(along.place(curve, 0.5)))
        if key in seen:
            drawn.left_out["curve drawn twice"] += 1
            continue
        seen.add(key)
        found.append(curve)
    return found


def _rounded(point: Point) -> Point:
    return (round(point[0], 4) + 0.0, round(point[1], 4) + 0.0)


def _joined(curves: Sequence[Curve], drawn: Drawn) -> list[list[Curve]]:
    nodes = _nodes(curves)
    meeting: dict[int, list[End]] = defaultdict(list)
    for end, node in nodes.items():
        meeting[node].append(end)
    _check_ends(curves, meeting, drawn)
    loops = []
    left = set(range(len(curves)))
    while left:
        loops.append(_walk(min(left), curves, nodes, meeting, left))
    return loops


def _walk(
    first: int,
    curves: Sequence[Curve],
    nodes: dict[End, int],
    meeting: dict[int, list[End]],
    left: set[int],
) -> list[Curve]:
    loop: list[Curve] = []
    here: End = (first, False)
    while here[0] in left:
        number, backwards = here
        left.discard(number)
        loop.append(along.reverse(curves[number]) if backwards else curves[number])
        leaving = (number, not backwards)
        a, b = meeting[nodes[leaving]]
        here = b if a == leaving else a
    return loop


def _nodes(curves: Sequence[Curve]) -> dict[End, int]:
    """The number of the point at each end; ends nearer than a joint share it."""
    ends = [(i, last) for i in range(len(curves)) for last in (False, True)]
    root = {end: end for end in ends}

    def find(end: End) -> End:
        while root[end] != end:
            root[end] = root[root[end]]
            end = root[end]
        return end

    cells: dict[tuple[int, int], list[End]] = defaultdict(list)
    for end in ends:
        x, y = _at(curves, end)
        column, row = math.floor(x / NEAR), math.floor(y / NEAR)
        for neighbour in ((column + i, row + j) for i in (-1, 0, 1) for j in (-1, 0, 1)):
            for other in cells.get(neighbour, ()):
                if math.dist(_at(curves, other), (x, y)) <= NEAR:
                    root[find(end)] = find(other)
        cells[column, row].append(end)
    numbers = {end: i for i, end in enumerate(ends)}
    return {end: numbers[find(end)] for end in ends}


def _at(curves: Sequence[Curve], end: End) -> Point:
    curve = curves[end[0]]
    return curve.end if end[1] else curve.start


def _check_ends(curves: Sequence[Curve], meeting: dict[int, list[End]], drawn: Drawn) -> None:
    crowded = [ends for ends in meeting.values() if len(ends) > 2]
    if crowded:
        at = _at(curves, crowded[0][0])
        raise FileRefused(
            f"{len(crowded[0])} lines meet at {drawn.told(at)}.",
            "An outline goes on from each point one way only: take the others out.",
            drawn.placed(at),
        )
    open_ends = [_at(curves, ends[0]) for ends in meeting.values() if len(ends) == 1]
    if open_ends:
        at, other = _narrowest(open_ends)
        raise FileRefused(
            f"its path is open: a gap of {math.dist(at, other):.3g} mm at {drawn.told(at)}.",
            f"Close it; gaps up to {NEAR} mm are closed for you.",
            drawn.placed(at),
        )


def _narrowest(points: Sequence[Point]) -> tuple[Point, Point]:
    """The two open ends that lie nearest to each other (of the first few hundred)."""
    few = sorted(points)[:300]
    pairs = [(math.dist(a, b), a, b) for i, a in enumerate(few) for b in few[i + 1 :]]
    _, a, b = min(pairs)
    return a, b


def _met(loop: Sequence[Curve]) -> list[Curve]:
    """A loop whose curves are moved a hair so that each begins where the one before ends."""
    run = [curve for curve in loop if curve.length() > NEAR / 10]
    if len(run) == 1:
        return [_whole(run[0])]
    joints = [_between(run[i - 1].end, curve.start) for i, curve in enumerate(run)]
    found = []
    for curve, start, end in zip(run, joints, joints[1:] + joints[:1], strict=True):
        off = max(math.dist(curve.start, start), math.dist(curve.end, end))
        found.append(along.fitted(curve, start, end) if off > 1e-12 else curve)
    return found


def _whole(curve: Curve) -> Curve:
    """A curve that closes upon itself, made a whole turn where it is round."""
    if isinstance(curve, Arc):
        sweep = math.copysign(TURN, curve.sweep)
        return Arc(curve.centre, curve.radius, curve.start_angle, sweep)
    if isinstance(curve, EllipseArc):
        sweep = math.copysign(TURN, curve.sweep)
        return EllipseArc(curve.centre, curve.major, curve.minor, curve.start_angle, sweep)
    if isinstance(curve, Line):
        return curve
    return along.fitted(curve, curve.start, curve.start)


def _between(a: Point, b: Point) -> Point:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
