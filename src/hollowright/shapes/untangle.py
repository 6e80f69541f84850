"""The parallel of a closed chain of lines and arcs: shifted, cut where it crosses itself, sorted.

Every line and arc is shifted sideways, gaps at corners are filled, and all are cut where they
meet. A stretch belongs to the parallel when no part of the chain is nearer to it than the distance;
what is left is linked up into closed loops. Nothing is rounded to a polygon.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from hollowright.shapes import along
from hollowright.shapes.curves import Arc, Line, Point
from hollowright.shapes.meetings import Plain, meetings
from hollowright.shapes.nearness import in_quads, inside, nearest, overlaps

Array = npt.NDArray[np.float64]

NEAR = 1e-6  # ends nearer than this are one point [mm]
SLACK = 1e-7  # how much nearer than the distance a stretch may seem, relative to it
MITRE_LIMIT = 10.0  # a corner whose tip would be further off than this many distances is rounded


@dataclass(frozen=True, slots=True)
class Link:
    """A stretch of the parallel: its curve, and the number of the chain's curve it runs beside.

    `fill` tells that it fills the gap at the corner after that curve.
    """

    curve: Plain
    beside: int
    fill: bool = False


Loop = tuple[Link, ...]


def parallels(chain: Sequence[Plain], distance: float, sharp: bool) -> tuple[Loop, ...]:
    """All loops of the parallel of an anticlockwise chain, `distance` [mm] outwards.

    A negative distance goes inwards. Loops that run clockwise are pockets. `sharp` keeps corners
    sharp where the parallel opens, else they are rounded with arcs of the distance.
    """
    turns = _turns(chain)
    links, quads = _shifted(chain, turns, distance, sharp)
    if rolls(chain, distance, turns):
        return (_closed(_merged(links)),)
    pieces = _kept(_cut(links), chain, distance, quads)
    closed = [_closed(_merged(loop)) for loop in _loops(pieces)]
    sized = [(sum(link.curve.moment() for link in loop), loop) for loop in closed]
    least = NEAR * max(1.0, abs(distance))
    return tuple(loop for area, loop in sized if area > least or (area < -least and distance > 0))


def _turns(chain: Sequence[Plain]) -> list[float]:
    """Turn at the end of each curve, to the one after it [rad]."""
    arriving = [_heading(curve, 0.0) for curve in chain]
    leaving = [_heading(curve, 1.0) for curve in chain]
    following = arriving[1:] + arriving[:1]
    return [math.remainder(b - a, 2 * math.pi) for a, b in zip(leaving, following, strict=True)]


def _heading(curve: Plain, u: float) -> float:
    """Angle of travel at u [rad]."""
    if isinstance(curve, Line):
        (x0, y0), (x1, y1) = curve.start, curve.end
        return math.atan2(y1 - y0, x1 - x0)
    return curve.start_angle + curve.sweep * u + math.copysign(math.pi / 2, curve.sweep)


def rolls(chain: Sequence[Plain], distance: float, turns: Sequence[float] = ()) -> bool:
    """Whether the shifted chain is the parallel as it stands, with nothing to trim.

    So it is for a convex chain outwards, and inwards when it is smooth and nowhere bent tighter
    than the distance: then a disc of that radius rolls round inside it (Blaschke).
    """
    turns = turns or _turns(chain)
    slack = NEAR / max(1.0, abs(distance))
    arcs = [curve for curve in chain if isinstance(curve, Arc)]
    if min(turns) < -slack or any(arc.sweep < 0 for arc in arcs):
        return False
    whole = sum(arc.sweep for arc in arcs) + sum(turns)
    if abs(whole - 2 * math.pi) > 1e-6:
        return False
    return distance > 0 or (max(turns) < slack and all(arc.radius > -distance for arc in arcs))


def _shifted(
    chain: Sequence[Plain], turns: Sequence[float], distance: float, sharp: bool
) -> tuple[list[Link], list[tuple[Point, ...]]]:
    """The chain shifted, corners filled; and the kites between sharp tips and their corners."""
    links: list[Link] = []
    quads: list[tuple[Point, ...]] = []
    for i, curve in enumerate(chain):
        shifted = shift(curve, distance)
        if shifted:
            links.append(Link(shifted, i))
        turn = turns[i]
        if turn * distance < NEAR:
            continue
        after, leaving = chain[(i + 1) % len(chain)], _heading(curve, 1.0)
        arriving = leaving + turn
        ends = beside(curve.end, leaving, distance), beside(after.start, arriving, distance)
        if sharp and math.cos(turn / 2) > 1 / MITRE_LIMIT:
            reach = distance / math.cos(turn / 2)
            tip = beside(curve.end, leaving + turn / 2, reach)
            j = (i + 1) % len(chain)
            links += [Link(Line(ends[0], tip), i, True), Link(Line(tip, ends[1]), j, True)]
            quads.append((curve.end, ends[0], tip, ends[1]))
        else:
            first = math.atan2(ends[0][1] - curve.end[1], ends[0][0] - curve.end[0])
            links.append(Link(Arc(curve.end, abs(distance), first, turn), i, True))
    return links, quads


def beside(point: Point, heading: float, distance: float) -> Point:
    """A point moved to the right of a heading."""
    return (
        point[0] + distance * math.sin(heading),
        point[1] - distance * math.cos(heading),
    )


def shift(curve: Plain, distance: float) -> Plain | None:
    """A line or arc moved to its right; None for an arc that is bent tighter than that."""
    if isinstance(curve, Line):
        heading = _heading(curve, 0.0)
        return Line(beside(curve.start, heading, distance), beside(curve.end, heading, distance))
    radius = curve.radius + math.copysign(distance, distance * curve.sweep)
    if radius * abs(curve.sweep) < NEAR / 10:
        return None
    return Arc(curve.centre, radius, curve.start_angle, curve.sweep)


def _cut(links: Sequence[Link]) -> list[Link]:
    """Links cut at every meeting with another."""
    bounds = np.array([link.curve.bounds() for link in links]).reshape(-1, 4)
    stops: dict[int, list[float]] = defaultdict(list)
    for i, j in overlaps(bounds, NEAR):
        for u, v in meetings(links[i].curve, links[j].curve):
            stops[i].append(u)
            stops[j].append(v)
    found: list[Link] = []
    for i, link in enumerate(links):
        found += _pieces(link, stops[i])
    return found


def _pieces(link: Link, stops: Sequence[float]) -> list[Link]:
    size = link.curve.length()
    if size == 0:
        return []
    slack = NEAR / 2 / size
    inner: list[float] = []
    for u in sorted(stops):
        if slack < u < 1 - slack and (not inner or u - inner[-1] > slack):
            inner.append(u)
    if not inner:
        return [link]
    ends = [0.0, *inner, 1.0]
    return [Link(_plain_part(link.curve, a, b), link.beside, link.fill) for a, b in pairwise(ends)]


def _plain_part(curve: Plain, first: float, last: float) -> Plain:
    stretch = along.part(curve, first, last)
    return stretch if isinstance(stretch, Line | Arc) else curve


def _kept(
    pieces: Sequence[Link],
    chain: Sequence[Plain],
    distance: float,
    quads: Sequence[tuple[Point, ...]],
) -> list[Link]:
    """The pieces to which nothing of the chain is nearer than the distance."""
    if not pieces:
        return []
    middles = np.array([along.place(piece.curve, 0.5) for piece in pieces])
    good = nearest(middles, chain, abs(distance)) >= abs(distance) * (1 - SLACK) - SLACK
    if quads:
        good &= ~in_quads(middles, np.array(quads), NEAR)
        good &= inside(middles, chain, abs(distance) / 4) == (distance < 0)
    return [piece for piece, keep in zip(pieces, good.tolist(), strict=True) if keep]


def _loops(pieces: list[Link]) -> list[list[Link]]:
    """Pieces linked end to start into closed loops; what leads nowhere is left out."""
    nodes = _nodes(pieces)
    leaving: dict[int, list[int]] = defaultdict(list)
    for i, (start, _) in enumerate(nodes):
        leaving[start].append(i)
    alive = _without_dead_ends(nodes)
    loops: list[list[Link]] = []
    for first in range(len(pieces)):
        if first not in alive:
            continue
        loop = _walk(first, pieces, nodes, leaving, alive)
        if loop:
            loops.append([pieces[i] for i in loop])
    return loops


def _walk(
    first: int,
    pieces: Sequence[Link],
    nodes: Sequence[tuple[int, int]],
    leaving: dict[int, list[int]],
    alive: set[int],
) -> list[int]:
    """One loop from a piece, at a fork the way furthest to the left; its pieces are used up."""
    loop = [first]
    alive.discard(first)
    while nodes[loop[-1]][1] != nodes[first][0]:
        here = _heading(pieces[loop[-1]].curve, 1.0)
        ways = [i for i in leaving[nodes[loop[-1]][1]] if i in alive]
        if not ways:
            return []
        angles = [math.remainder(_heading(pieces[i].curve, 0.0) - here, 2 * math.pi) for i in ways]
        onward = ways[angles.index(max(angles))]
        loop.append(onward)
        alive.discard(onward)
    return loop


def _without_dead_ends(nodes: Sequence[tuple[int, int]]) -> set[int]:
    """Numbers of the pieces that another leads to and another leads on from."""
    alive = set(range(len(nodes)))
    while True:
        starts = {nodes[i][0] for i in alive}
        ends = {nodes[i][1] for i in alive}
        dead = {i for i in alive if nodes[i][0] not in ends or nodes[i][1] not in starts}
        if not dead:
            return alive
        alive -= dead


def _nodes(pieces: Sequence[Link]) -> list[tuple[int, int]]:
    """Number of the point at the start and end of each piece; points within a hair are one."""
    if not pieces:
        return []
    points = np.array([p for piece in pieces for p in (piece.curve.start, piece.curve.end)])
    order = np.argsort(points[:, 0], kind="stable").tolist()
    root = list(range(len(points)))

    def find(i: int) -> int:
        while root[i] != i:
            root[i] = root[root[i]]
            i = root[i]
        return i

    places = points.tolist()
    for rank, i in enumerate(order):
        for j in order[rank + 1 :]:
            if places[j][0] - places[i][0] > NEAR:
                break
            if abs(places[j][1] - places[i][1]) <= NEAR:
                root[find(i)] = find(j)
    return [(find(2 * i), find(2 * i + 1)) for i in range(len(pieces))]


def _merged(loop: Sequence[Link]) -> list[Link]:
    """Neighbours that are stretches of one curve joined again."""
    found: list[Link] = []
    for link in loop:
        joined = _joined(found[-1], link) if found else None
        if joined:
            found[-1] = joined
        else:
            found.append(link)
    if len(found) > 1:
        joined = _joined(found[-1], found[0])
        if joined:
            found[0] = joined
            found.pop()
    return found


def _joined(a: Link, b: Link) -> Link | None:
    if a.beside != b.beside:
        return None
    if isinstance(a.curve, Line) and isinstance(b.curve, Line):
        turn = _heading(a.curve, 1.0) - _heading(b.curve, 0.0)
        off = abs(math.sin(turn)) * min(a.curve.length(), b.curve.length())
        whole = Link(Line(a.curve.start, b.curve.end), a.beside, a.fill and b.fill)
        return whole if off < NEAR / 10 and math.cos(turn) > 0 else None
    if isinstance(a.curve, Arc) and isinstance(b.curve, Arc) and a.curve.centre == b.curve.centre:
        sweep = a.curve.sweep + b.curve.sweep
        sweep = math.copysign(2 * math.pi, sweep) if abs(sweep) > 2 * math.pi - 1e-12 else sweep
        arc = Arc(a.curve.centre, a.curve.radius, a.curve.start_angle, sweep)
        return Link(arc, a.beside, a.fill and b.fill)
    return None


def _closed(loop: Sequence[Link]) -> Loop:
    """The loop with every curve begun exactly where the one before ends, slivers left out."""
    links = [link for link in loop if link.curve.length() > NEAR]
    if len(links) == 1:
        (curve,) = (link.curve for link in links)
        return tuple(links) if isinstance(curve, Arc) and curve.closed else ()
    starts = [link.curve.start for link in links]
    ends = [link.curve.end for link in links]
    joints = [_between(a, b) for a, b in zip(ends[-1:] + ends[:-1], starts, strict=True)]
    found = []
    for i, link in enumerate(links):
        curve, start, end = link.curve, joints[i], joints[(i + 1) % len(joints)]
        if max(math.dist(starts[i], start), math.dist(ends[i], end)) > 1e-12:
            moved = along.fitted(curve, start, end)
            if isinstance(moved, Line | Arc):
                link = Link(moved, link.beside, link.fill)  # noqa: PLW2901
        found.append(link)
    return tuple(found)


def _between(a: Point, b: Point) -> Point:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
