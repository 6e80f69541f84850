"""Short pieces of lines joined into long runs, each alike throughout; crumbs given up."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from hollowright.shapes.curves import Point

Link = tuple[int, int, int]
"""The number of a piece and the nodes at its start and its end."""


@dataclass(slots=True)
class Run:
    """Points one after another on the paper [mm], and how that stretch looks."""

    look: str
    points: list[Point] = field(default_factory=list)

    @property
    def length(self) -> float:
        """Length [mm]."""
        return sum(math.dist(a, b) for a, b in pairwise(self.points))


def chained(links: Iterable[Link]) -> list[list[tuple[int, bool]]]:
    """Pieces in the order of their chains, each with whether it is gone through backwards.

    A chain goes on through a node where just two pieces meet.
    """
    ends: dict[int, list[Link]] = defaultdict(list)
    listed = list(links)
    for link in listed:
        ends[link[1]].append(link)
        ends[link[2]].append(link)
    used: set[int] = set()
    chains = []
    open_first = [node for node, meeting in ends.items() if len(meeting) != 2]
    for node in (*open_first, *ends):
        for link in ends[node]:
            if link[0] not in used:
                chains += [_follow(link, node, ends, used)]
    return chains


def _follow(
    link: Link, node: int, ends: dict[int, list[Link]], used: set[int]
) -> list[tuple[int, bool]]:
    """The chain that begins with a piece at a node."""
    chain = []
    following: Link | None = link
    while following is not None:
        number, start, end = following
        used.add(number)
        backwards = start != node
        chain.append((number, backwards))
        node = start if backwards else end
        meeting = ends[node]
        fresh = [other for other in meeting if other[0] not in used]
        following = fresh[0] if len(meeting) == 2 and fresh else None
    return chain


def runs(pieces: Iterable[Run], crumb: float) -> list[Run]:
    """Pieces that follow one another joined into runs that look alike.

    Runs shorter than `crumb` [mm] take the look of their longer neighbour; of a closed chain the
    last run goes on into the first.
    """
    found = _joined(pieces)
    closed = len(found) > 1 and math.dist(found[0].points[0], found[-1].points[-1]) < 1e-9
    if closed and found[0].look == found[-1].look:
        last = found.pop()
        found[0].points[:0] = last.points[:-1]
    while len(found) > 1:
        shortest = min(range(len(found)), key=lambda i: found[i].length)
        if found[shortest].length >= crumb:
            break
        beside = [i for i in (shortest - 1, shortest + 1) if 0 <= i < len(found)]
        longer = max(beside, key=lambda i: found[i].length)
        found[shortest].look = found[longer].look
        found = _joined(found)
    return [run for run in found if run.length >= crumb]


def _joined(pieces: Iterable[Run]) -> list[Run]:
    found: list[Run] = []
    for piece in pieces:
        if found and found[-1].look == piece.look:
            found[-1].points += piece.points[1:]
        else:
            found.append(Run(piece.look, list(piece.points)))
    return found


def cut(
    ends: Sequence[Point], stretches: Sequence[tuple[float, float, str]], look: str
) -> list[Run]:
    """A straight piece cut where its look changes; `look` is that of what isn't in a stretch."""
    start, end = ends
    found: list[Run] = []
    at = 0.0
    for low, high, other in (*sorted(stretches), (1.0, 1.0, look)):
        for to, kind in ((low, look), (high, other)):
            if to > at:
                found.append(Run(kind, [_between(start, end, at), _between(start, end, to)]))
                at = to
    return found


def _between(start: Point, end: Point, t: float) -> Point:
    if t in (0.0, 1.0):
        return end if t else start
    return (start[0] + t * (end[0] - start[0]), start[1] + t * (end[1] - start[1]))
