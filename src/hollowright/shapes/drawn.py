"""What a drawing file holds once read: curves in millimetres, its unit, and what was left out."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field

from hollowright.errors import InputError
from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import TURN, Arc, Curve, EllipseArc, Line, Point

MOST_POINTS = 20_000
FURTHEST = 1e5  # no coordinate may lie further out [mm]
SHORTEST = 1e-7  # a curve shorter than this is no curve [mm]

MM = {
    "mm": 1.0,
    "cm": 10.0,
    "m": 1000.0,
    "in": 25.4,
    "ft": 304.8,
    "px": 25.4 / 96,
    "pt": 25.4 / 72,
    "pc": 25.4 / 6,
}
"""Millimetres in the units that drawings are measured in (CSS: 96 px, 72 pt, 6 pc in an inch)."""


class FileRefused(InputError, ValueError):
    """A drawing file that gives no outline; `at` is the place in the file [mm], where there is one.

    Places are told as the drawing has them: in an SVG file y runs down from the top.
    """

    def __init__(self, problem: str, remedy: str = "", at: Point | None = None) -> None:
        self.at = at
        super().__init__("file", problem, remedy)


@dataclass(slots=True)
class Drawn:
    """Curves of a file [mm], y upwards: `loops` are closed, `loose` ones may join.

    `unit` says in words what unit was taken; `down` tells that the file's own y runs down;
    `left_out` counts what was passed over, by kind.
    """

    mm: float
    unit: str
    down: bool = False
    loops: list[list[Curve]] = field(default_factory=list)
    loose: list[Curve] = field(default_factory=list)
    left_out: Counter[str] = field(default_factory=Counter)
    points: int = 0

    def add(self, curves: Iterable[Curve], closed: bool) -> None:
        """Take in a run of curves; FileRefused for too many, or for a wild coordinate."""
        run = [straightened(curve) for curve in curves if _sized(curve)]
        self.points += len(run)
        if self.points > MOST_POINTS:
            raise FileRefused(
                f"it has more than {MOST_POINTS} points.", "Simplify the outline and save it again."
            )
        if not run:
            return
        if closed:
            self.loops.append(merged(run))
        else:
            self.loose += run

    def told(self, point: Point) -> str:
        """A place as the file has it [mm]."""
        x, y = self.placed(point)
        return f"x {round(x, 2) + 0.0:.2f}, y {round(y, 2) + 0.0:.2f} mm"

    def placed(self, point: Point) -> Point:
        """A place in the file's own sense of up and down [mm]."""
        return (point[0], -point[1] if self.down else point[1])


def _sized(curve: Curve) -> bool:
    """Whether a curve has a length; FileRefused when it lies out of all bounds."""
    bounds = (*curve.bounds(), *_controls(curve))
    if not all(math.isfinite(value) and abs(value) <= FURTHEST for value in bounds):
        raise FileRefused(
            f"it reaches further out than {FURTHEST / 1000:.0f} m.", "Check the file's units."
        )
    low_x, low_y, high_x, high_y = bounds[:4]
    return math.hypot(high_x - low_x, high_y - low_y) > SHORTEST


def _controls(curve: Curve) -> list[float]:
    """The numbers that a free curve is drawn by; its bounds alone would hide what isn't one."""
    if not isinstance(curve, Cubic):
        return []
    return [value for point in curve.controls for value in point]


def straightened(curve: Curve) -> Curve:
    """A cubic whose controls lie on its chord in order as the line that it is."""
    if not isinstance(curve, Cubic):
        return curve
    (x0, y0), (x1, y1) = curve.start, curve.end
    size = math.dist(curve.start, curve.end)
    if size == 0:
        return curve
    ways = [(x - x0, y - y0) for x, y in curve.controls]
    off = max(abs(x * (y1 - y0) - y * (x1 - x0)) for x, y in ways) / size
    gone = [(x * (x1 - x0) + y * (y1 - y0)) / size for x, y in ways]
    return Line(curve.start, curve.end) if off < 1e-6 and gone == sorted(gone) else curve


def elliptic(centre: Point, u: Point, v: Point, start: float, sweep: float) -> Curve:
    """The arc centre + u cos t + v sin t for any u and v: a circle's arc where it is one."""
    square = u[0] * u[0] + u[1] * u[1] - v[0] * v[0] - v[1] * v[1]
    twist = math.atan2(2 * (u[0] * v[0] + u[1] * v[1]), square) / 2
    c, s = math.cos(twist), math.sin(twist)
    major = (u[0] * c + v[0] * s, u[1] * c + v[1] * s)
    minor = (v[0] * c - u[0] * s, v[1] * c - u[1] * s)
    long, short = math.hypot(*major), math.hypot(*minor)
    if short <= 1e-9 * long:
        raise FileRefused("it has an ellipse that is flat.", "Take it out of the drawing.")
    if abs(long - short) > 1e-9 * long:
        return EllipseArc(centre, major, minor, start - twist, sweep)
    left = math.copysign(1.0, major[0] * minor[1] - major[1] * minor[0])
    first = math.atan2(major[1], major[0]) + left * (start - twist)
    return Arc(centre, (long + short) / 2, first, left * sweep)


def quadratic(start: Point, control: Point, end: Point) -> Cubic:
    """A quadratic Bezier curve as the cubic that it is."""
    (x0, y0), (x1, y1), (x2, y2) = start, control, end
    return Cubic(
        start,
        (x0 + 2 / 3 * (x1 - x0), y0 + 2 / 3 * (y1 - y0)),
        (x2 + 2 / 3 * (x1 - x2), y2 + 2 / 3 * (y1 - y2)),
        end,
    )


def merged(run: list[Curve]) -> list[Curve]:
    """A run of curves with neighbours that are parts of one line, circle or ellipse made one."""
    found: list[Curve] = []
    for curve in run:
        joined = _joined(found[-1], curve) if found else None
        if joined:
            found[-1] = joined
        else:
            found.append(curve)
    if len(found) > 1:
        joined = _joined(found[-1], found[0])
        if joined:
            found = [joined, *found[1:-1]]
    return found


def _joined(a: Curve, b: Curve) -> Curve | None:
    near = 1e-6
    if math.dist(a.end, b.start) > near:
        return None
    if isinstance(a, Arc) and isinstance(b, Arc):
        alike = math.dist(a.centre, b.centre) < near and abs(a.radius - b.radius) < near
        if alike and a.sweep * b.sweep > 0 and abs(a.sweep + b.sweep) < TURN + 1e-6:
            return Arc(a.centre, a.radius, a.start_angle, _whole(a.sweep + b.sweep))
    if isinstance(a, EllipseArc) and isinstance(b, EllipseArc):
        alike = all(
            math.dist(p, q) < near
            for p, q in ((a.centre, b.centre), (a.major, b.major), (a.minor, b.minor))
        )
        if alike and a.sweep * b.sweep > 0 and abs(a.sweep + b.sweep) < TURN + 1e-6:
            whole = _whole(a.sweep + b.sweep)
            return EllipseArc(a.centre, a.major, a.minor, a.start_angle, whole)
    if isinstance(a, Line) and isinstance(b, Line):
        (ax, ay), (bx, by) = ((c.end[0] - c.start[0], c.end[1] - c.start[1]) for c in (a, b))
        straight = abs(ax * by - ay * bx) < 1e-9 * math.hypot(ax + bx, ay + by)
        if straight and ax * bx + ay * by > 0:
            return Line(a.start, b.end)
    return None


def _whole(sweep: float) -> float:
    return math.copysign(TURN, sweep) if abs(sweep) > TURN - 1e-6 else sweep
