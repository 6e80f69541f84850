"""Skins of cut tube: what an edge square to the wall, a mitre and a saddle leave of its surface.

Plain floats, for bodies' surfaces; sizes are millimetres, areas mm2. Sums round a tube are by the
trapezoid rule, which is exact to all digits where what is summed is smooth.
"""

from __future__ import annotations

import math

from hollowright.formulas.saddle_rim import Rim, mean
from hollowright.formulas.saddle_search import KINKED, filed_until, hole_area, samples

ROUND = 96
"""Samples round a mitre's edge."""


def level(low: float, high: float, slope: float) -> float:
    """Area per turn [mm2/rad] of an edge square across a wall from one radius to another.

    slope: by how much the edge rises per turn [mm/rad].
    Source: area of a helicoid's strip.

    >>> round(level(9.0, 10.0, 0.0), 9), round(level(9.0, 10.0, 4.0), 6)
    (9.5, 10.308373)
    """
    far, near = math.hypot(high, slope), math.hypot(low, slope)
    return (high * far - low * near + slope * slope * math.log((high + far) / (low + near))) / 2


def mitre_end(cut: str, outer: float, inner: float, angle: float) -> float:
    """Area of a mitred edge [mm2]: bevelled, square (filed where it stood proud) or unfiled.

    outer, inner: radii of the tube; angle: of the cut from square [rad].
    Source: an ellipse's ring; half of it by strips square across the wall, or both halves.

    >>> round(mitre_end("bevelled", 10.0, 9.0, math.pi / 3), 6)
    119.380521
    """
    plane = math.pi * (outer * outer - inner * inner) / math.cos(angle)
    if cut == "bevelled":
        return plane
    long = _sawn(inner, outer, inner, angle)
    return (long + (plane if cut == "square" else _sawn(outer, outer, inner, angle))) / 2


def _sawn(followed: float, outer: float, inner: float, angle: float) -> float:
    """Area of an edge square across the wall that follows one fibre all round."""
    rise = followed * math.tan(angle)
    return math.tau * mean(lambda t: level(inner, outer, rise * math.sin(t)), ROUND)


def mitre_fall(cut: str, outer: float, inner: float, angle: float) -> tuple[float, float]:
    """How far outside's and inside's edge lie below the axis's cut in the mean [mm].

    Arguments as for the end's area.
    Source: means of both halves' cosines.

    >>> [round(fall, 4) for fall in mitre_fall("square", 10.0, 9.2, math.pi / 6)]
    [0.147, 0.0]
    """
    fall = (outer - inner) * math.tan(angle) / math.pi
    return {"bevelled": (0.0, 0.0), "square": (fall, 0.0)}.get(cut, (fall, fall))


def branch(cut: str, rim: Rim, length: float) -> float:
    """Whole surface of a branch [mm2], its square end `length` [mm] from the main's axis.

    rim: seat, bore's and outside's radius, angle and offset; cut: bevelled, square or unfiled.
    Source: lateral areas by the mean depth of each edge; the edge itself on the main's surface as
    far as it was filed to it, and square across the wall.

    >>> round(branch("bevelled", Rim(20.0, 9.0, 10.0, 60.0, 3.0), 60.0), 3)
    4742.955
    """
    outer, inner = rim.outer, rim.inner

    def strip(t: float) -> float:
        if cut == "unfiled":
            first = rim.touching(t)
            depth = rim.depth(first, t)
            sides = outer * (length - depth) + inner * (length - depth)
            return sides + level(inner, outer, rim.slope(first, t))
        within, outside = rim.depth(inner, t), rim.depth(outer, t)
        until = outer if cut == "bevelled" else filed_until(rim, t)
        edge = outside if cut == "bevelled" else max(outside, within)
        sides = outer * (length - edge) + inner * (length - within)
        square = level(until, outer, rim.slope(inner, t)) if until < outer else 0.0
        return sides + _on_main(rim, inner, until, t) + square

    round_it = samples(rim.offset, outer, rim.seat) if cut == "bevelled" else KINKED
    return math.tau * mean(strip, round_it) + math.pi * (outer * outer - inner * inner)


def _on_main(rim: Rim, low: float, high: float, t: float) -> float:
    """Area per turn of the main's surface between two radii of a branch [mm2/rad].

    Source: Gauss's rule of three places.
    """
    if high <= low:
        return 0.0
    middle, half = (low + high) / 2, (high - low) / 2
    reach, across = half * math.sqrt(0.6), math.sin(t)
    whole = 0.0
    for radius, share in ((middle - reach, 5), (middle, 8), (middle + reach, 5)):
        aside = rim.offset + radius * across
        whole += share * radius / math.sqrt(1 - (aside / rim.seat) ** 2)
    return half * whole / 9 / math.sin(math.radians(rim.angle))


def main(outer: float, inner: float, length: float, hole: Rim) -> float:
    """Whole surface of a main with the hole for its branch [mm2]; outer, inner: its radii.

    hole: its radius as outer (and inner) radius, angle and offset.
    Source: the tube less the hole in its outside and in its bore, and the hole's wall.

    >>> round(main(20.0, 19.0, 100.0, Rim(20.0, 9.0, 9.0, 60.0, 3.0)), 3)
    24205.938
    """
    radius, angle, offset = hole.outer, hole.angle, hole.offset
    tube = math.tau * (outer + inner) * (length + outer - inner)
    holes = sum(hole_area(seat, radius, angle, offset) for seat in (outer, inner))

    def wall(t: float) -> float:
        aside = offset + radius * math.sin(t)
        far, near = outer * outer - aside * aside, inner * inner - aside * aside
        return math.sqrt(far) - math.sqrt(max(0.0, near))

    across = mean(wall, samples(offset, radius, inner)) / math.sin(math.radians(angle))
    return tube - holes + math.tau * radius * across
