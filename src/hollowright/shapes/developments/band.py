"""The skin of a cylinder or a cone between two edges, unrolled: one formula serves both."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import TURN, Arc, Curve, Line, Point, integral
from hollowright.shapes.developments.tracing import (
    chords,
    cubics,
    hermite,
    sides,
    without_repeats,
)
from hollowright.shapes.outline import Outline, annulus
from hollowright.shapes.outline import disc as full_disc
from hollowright.shapes.space import Vector

Edge = Callable[[float], float]
"""Height [mm] of an edge along the surface's straight lines, from the angle [rad] round it."""

Drawn = Line | Arc | Cubic

GENTLE = (
    1e-3  # sine of the half angle below which an arc is drawn as a cubic: its centre is too far
)
ROUNDING = 1e-9  # mm


@dataclass(frozen=True, slots=True)
class Level:
    """An edge at one height all round [mm]."""

    height: float

    def __call__(self, angle: float) -> float:
        """The height, whatever the angle."""
        del angle
        return self.height


@dataclass(frozen=True, slots=True)
class Band:
    """A cylinder's or cone's skin from the edge `low` to the edge `high`, opened at `seam`.

    `radius` [mm] is the surface's at height 0, `sine` that of the cone's half angle: 0 a cylinder,
    positive narrowing upwards, 1 a flat disc. Heights [mm] run along the surface's straight lines,
    angles [rad] anticlockwise seen from above. In the flat, x = 0 is the line opposite the seam and
    y = 0 the height 0 there. `corners` are the angles at which an edge has a kink. ValueError where
    the surface would be crossed by its own axis or the edges cross each other.
    """

    radius: float
    sine: float
    low: Edge
    high: Edge
    seam: float = math.pi
    corners: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        """Refuse edges that cross each other or reach beyond the apex."""
        if not (self.radius >= 0 and abs(self.sine) <= 1):
            raise ValueError(f"a skin needs a radius, not {self.radius}, and a sine up to 1")
        for angle in (self.seam + i * TURN / 16 for i in range(16)):
            low, high = self.low(angle), self.high(angle)
            if not high >= low - ROUNDING:
                raise ValueError(f"the edges cross: {low:.3f} mm is above {high:.3f} mm")
            if min(self.radius_at(low), self.radius_at(high)) < -ROUNDING:
                raise ValueError("the skin reaches beyond the cone's apex")

    @property
    def cosine(self) -> float:
        """Rise of the surface's straight lines per length."""
        return math.sqrt(max(0.0, (1 - self.sine) * (1 + self.sine)))

    @property
    def middle(self) -> float:
        """Angle opposite the seam [rad], where the flat has x = 0."""
        return self.seam - math.pi

    @property
    def area(self) -> float:
        """Area of the skin [mm2], the same as of the flat."""
        if isinstance(self.low, Level) and isinstance(self.high, Level):
            return TURN * self._swept(self.seam)
        return sum(integral(self._swept, a, b) for a, b in pairwise(self._ends()))

    def radius_at(self, height: float) -> float:
        """The surface's radius [mm] at a height along it [mm]."""
        return self.radius - self.sine * height

    def flat(self, angle: float, height: float) -> Point:
        """The point of the flat [mm] for an angle [rad] and a height [mm]; any turn from the seam.

        x = r a sin(k) / k and y = h + r a sin(k / 2)^2 / (k / 2), k = a sine: the sector of the
        cone written so that it passes smoothly into the cylinder's rectangle.
        """
        turn, radius = angle - self.middle, self.radius_at(height)
        k = self.sine * turn
        half = math.sin(k / 2)
        return (radius * turn * _sinc(k), height + radius * turn * half * _sinc(k / 2))

    def surface(self, point: Point) -> Point:
        """Angle [rad] and height [mm] of a point of the flat, within half a turn of the middle."""
        x, y = point
        s, r = self.sine, self.radius
        across, down = s * x, r - s * y
        far = math.hypot(across, down)
        turn = x / r if s == 0 else math.atan2(across, down) / s
        height = y if s == 0 else (2 * r * y - s * (x * x + y * y)) / (r + far)
        return (self.middle + turn, height)

    def space(self, angle: float, height: float) -> Vector:
        """The point in space [mm], the axis upright through 0, 0."""
        r = self.radius_at(height)
        return (r * math.cos(angle), r * math.sin(angle), height * self.cosine)

    def edge_points(self, edge: Edge, tolerance: float = 1e-3) -> tuple[Point, ...]:
        """An edge's points in the flat, seam to seam, chords within `tolerance` [mm]."""
        ends = self._ends()
        if isinstance(edge, Level) and abs(self.sine) < 1e-15:
            return tuple(self.flat(a, edge.height) for a in (ends[0], ends[-1]))
        return tuple(chords(lambda a: self.flat(a, edge(a)), ends, tolerance))

    def points(self, tolerance: float = 1e-3) -> tuple[Point, ...]:
        """The flat as a polygon, anticlockwise, no chord further off than `tolerance` [mm]."""
        low, high = (self.edge_points(edge, tolerance) for edge in (self.low, self.high))
        return without_repeats((*low, *high[::-1]))

    def outline(self, tolerance: float = 1e-3) -> Outline:
        """The flat's outline: level edges exact (arcs or lines), others cubic within `tolerance`.

        A flat disc or ring (sine 1, level edges) comes whole, without its seam.
        """
        if self.sine >= 1 and isinstance(self.low, Level) and isinstance(self.high, Level):
            return self._whole(self.low.height, self.high.height)
        low, high = (self._edge(edge, tolerance) for edge in (self.low, self.high))
        back = [_reversed(curve) for curve in reversed(high)]
        right = self._seam(self.seam, rising=True)
        left = self._seam(self.seam - TURN, rising=False)
        return Outline((*low, *right, *back, *left))

    def _seam(self, angle: float, *, rising: bool) -> list[Curve]:
        low, high = (self.flat(angle, edge(angle)) for edge in (self.low, self.high))
        return sides((low, high) if rising else (high, low))

    def _whole(self, low: float, high: float) -> Outline:
        wide, narrow = self.radius_at(low), self.radius_at(high)
        whole = full_disc(2 * wide) if narrow <= ROUNDING else annulus(2 * wide, 2 * narrow)
        return whole.moved(0.0, self.radius)

    def _edge(self, edge: Edge, tolerance: float) -> list[Drawn]:
        if isinstance(edge, Level):
            return self._level(edge.height)
        return list(cubics(lambda a: self.flat(a, edge(a)), self._ends(), tolerance))

    def _level(self, height: float) -> list[Drawn]:
        start, end = (self.flat(self.middle + turn, height) for turn in (-math.pi, math.pi))
        reach, radius = math.pi * self.sine, self.radius_at(height)
        if radius <= ROUNDING:
            return []
        if self.sine == 0:
            return [Line(start, end)]
        if abs(self.sine) < GENTLE:
            along = TURN * radius * math.tan(reach / 2) / (reach / 2)
            rise = (along * math.cos(reach), along * math.sin(reach))
            return [hermite(start, (rise[0], -rise[1]), end, rise)]
        centre = (0.0, self.radius / self.sine)
        first = -math.copysign(math.pi / 2, self.sine) - reach
        return [Arc(centre, radius / abs(self.sine), first, 2 * reach)]

    def _swept(self, angle: float) -> float:
        low, high = self.low(angle), self.high(angle)
        return (high - low) * (self.radius - self.sine * (high + low) / 2)

    def _ends(self) -> Sequence[float]:
        """The angles seam to seam, with the corners in their place between."""
        first = self.seam - TURN
        inner = {first + (corner - first) % TURN for corner in self.corners}
        kept = sorted(a for a in inner if ROUNDING < a - first < TURN - ROUNDING)
        return (first, *kept, self.seam)


def _sinc(angle: float) -> float:
    return math.sin(angle) / angle if angle else 1.0


def _reversed(curve: Drawn) -> Drawn:
    if isinstance(curve, Arc):
        return Arc(curve.centre, curve.radius, curve.start_angle + curve.sweep, -curve.sweep)
    if isinstance(curve, Line):
        return Line(curve.end, curve.start)
    return Cubic(*curve.controls[::-1])
