"""What of each curve of an outline its parallel keeps, solved on the true curves to all digits.

At a corner that closes, the parallels of both curves are trimmed at their crossing; `legs` tells
which stretch of each curve is left. From these follow exact lengths, by the theorem that the
parallel of a smooth curve is longer by the distance times the turn.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import groupby, pairwise

from hollowright.shapes import along
from hollowright.shapes.curves import Curve, Point
from hollowright.shapes.meetings import whereabouts
from hollowright.shapes.offset import Chain
from hollowright.shapes.untangle import MITRE_LIMIT, Link, Loop, beside, shift

ROUNDS = 30
CLOSE = 1e-12  # how near two parallels must come at their crossing, relative to the outline


@dataclass(frozen=True, slots=True)
class Leg:
    """The stretch of a curve that its parallel keeps, and the corner after it.

    `first` and `last` are the curve's u; `turn` [rad] is that of the corner at its end, left
    positive.
    """

    curve: Curve
    first: float
    last: float
    turn: float


def legs(chain: Chain, loop: Loop, distance: float) -> tuple[Leg, ...] | None:
    """The legs of a parallel `distance` [mm] outwards, from its loop.

    None when the loop doesn't run beside every curve once, in order: then some side has vanished.
    """
    segments = chain.outline.segments
    order = _order(chain, loop)
    if sorted(order) != list(range(len(segments))) or not _in_order(order):
        return None
    lasts = _last_links(chain, loop)
    firsts, ends = [0.0] * len(segments), [1.0] * len(segments)
    turns = chain.outline.turns
    for i in range(len(segments)):
        j = (i + 1) % len(segments)
        if turns[j] * distance >= 0:
            continue
        found = _crossing(chain, lasts[i], i, j, distance)
        if found is None:
            return None
        ends[i], firsts[j] = found
    return tuple(
        Leg(segment, firsts[i], ends[i], turns[(i + 1) % len(segments)])
        for i, segment in enumerate(segments)
    )


def parallel_length(found: tuple[Leg, ...], distance: float, sharp: bool) -> float:
    """Length of the parallel with these legs [mm], corners that open made sharp or round."""
    total = 0.0
    for leg in found:
        total += along.part_length(leg.curve, leg.first, leg.last)
        total += distance * along.turning(leg.curve, leg.first, leg.last)
        if leg.turn * distance > 0:
            total += filled(leg.turn, abs(distance), sharp)
    return total


def filled(turn: float, distance: float, sharp: bool) -> float:
    """Length of the edge that fills a corner which opens [mm]."""
    if sharp and math.cos(turn / 2) > 1 / MITRE_LIMIT:
        return 2 * distance * math.tan(abs(turn) / 2)
    return distance * abs(turn)


def _order(chain: Chain, loop: Loop) -> list[int]:
    """Numbers of the curves that a loop runs beside, each run once."""
    owners = [chain.owners[link.beside] for link in loop if not link.fill]
    found = [owner for owner, _ in groupby(owners)]
    return found[:-1] if len(found) > 1 and found[0] == found[-1] else found


def _in_order(order: list[int]) -> bool:
    return all((b - a) % len(order) == 1 % len(order) for a, b in pairwise(order))


def _last_links(chain: Chain, loop: Loop) -> dict[int, tuple[Link, Link]]:
    """For each curve the last link beside it and the first beside the next one."""
    plain = [link for link in loop if not link.fill]
    found = {}
    for a, b in zip(plain, plain[1:] + plain[:1], strict=True):
        if chain.owners[a.beside] != chain.owners[b.beside] or len(chain.outline.segments) == 1:
            found[chain.owners[a.beside]] = (a, b)
    return found


def _crossing(
    chain: Chain, at: tuple[Link, Link], i: int, j: int, distance: float
) -> tuple[float, float] | None:
    """The u on both curves of a corner at which their parallels cross, by Newton's method."""
    a, b = chain.outline.segments[i], chain.outline.segments[j]
    meeting = at[0].curve.end
    u, v = (_guess(chain, link.beside, meeting, distance) for link in at)
    near = CLOSE * max(1.0, chain.outline.size)
    for _ in range(ROUNDS):
        p, q = _parallel(a, u, distance), _parallel(b, v, distance)
        gap = (q[0] - p[0], q[1] - p[1])
        if math.hypot(*gap) < near:
            return (u, v) if -1e-9 <= u <= 1 + 1e-9 and -1e-9 <= v <= 1 + 1e-9 else None
        (ax, ay), (bx, by) = _rate(a, u, distance), _rate(b, v, distance)
        under = ax * by - ay * bx
        if under == 0 or not math.isfinite(under):
            return None
        u = min(1.0, max(0.0, u + (gap[0] * by - gap[1] * bx) / under))
        v = min(1.0, max(0.0, v + (gap[0] * ay - gap[1] * ax) / under))
    return None


def _guess(chain: Chain, number: int, meeting: Point, distance: float) -> float:
    """The u of the crossing as the lines and arcs have it."""
    bit = chain.bits[number]
    shifted = shift(bit.curve, distance)
    share = whereabouts(shifted, meeting) if shifted else None
    return bit.first + (bit.last - bit.first) * (0.5 if share is None else share)


def _parallel(curve: Curve, u: float, distance: float) -> Point:
    return beside(along.place(curve, u), along.heading(curve, u), distance)


def _rate(curve: Curve, u: float, distance: float) -> Point:
    """How the parallel's point moves with u."""
    x, y = along.velocity(curve, u)
    stretch = 1 + distance * along.curvature(curve, u)
    return (x * stretch, y * stretch)
