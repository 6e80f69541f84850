"""The shapes of an SVG file as curves: paths, rectangles, circles, lines, under any transform.

The library for path data reads `d` and `transform`; an ellipse stays an ellipse however it is
carried over.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any
from xml.etree.ElementTree import Element

from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import TURN, Curve, Line, Point
from hollowright.shapes.drawn import MM, FileRefused, elliptic, quadratic

NUMBER = re.compile(r"[-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][-+]?[0-9]+)?")
LENGTH = re.compile(rf"\s*({NUMBER.pattern})\s*([a-zA-Z%]*)\s*")
PLAIN = "Save the outline by itself as plain SVG."


@dataclass(frozen=True, slots=True)
class Affine:
    """x' = a x + c y + e, y' = b x + d y + f."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def point(self, x: float, y: float) -> Point:
        """A point carried over."""
        return (self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f)

    def vector(self, x: float, y: float) -> Point:
        """A vector carried over."""
        return (self.a * x + self.c * y, self.b * x + self.d * y)

    def after(self, first: Affine) -> Affine:
        """This one applied to what another has done first."""
        a, b = self.vector(first.a, first.b)
        c, d = self.vector(first.c, first.d)
        return Affine(a, b, c, d, *self.point(first.e, first.f))


Runs = Iterator[tuple[list[Curve], bool]]


def transform(element: Element) -> Affine:
    """An element's own transform."""
    text = element.get("transform")
    if not text or not text.strip():
        return Affine()
    from svgelements import Matrix

    try:
        matrix = Matrix(text)
        values = [float(getattr(matrix, key)) for key in "abcdef"]
    except (ValueError, TypeError, IndexError, AttributeError) as error:
        raise FileRefused("it has a transform that can't be read.", PLAIN) from error
    if not all(map(math.isfinite, values)):
        raise FileRefused("it has a transform that can't be read.", PLAIN)
    return Affine(*values)


def number(element: Element, name: str, default: float = 0.0) -> float:
    """A shape's own measure in user units."""
    text = element.get(name)
    if text is None or text.strip() == "auto":
        return default
    found = LENGTH.fullmatch(text)
    if not found or (found[2] and found[2] not in MM):
        raise FileRefused(f"its {name}='{text[:20]}' can't be read.", "Write plain numbers.")
    return float(found[1]) * (MM[found[2]] / MM["px"] if found[2] else 1.0)


def _path(element: Element, place: Affine) -> Runs:
    from svgelements import Close, Move, Path

    run: list[Curve] = []
    for segment in Path(element.get("d", "")):
        if isinstance(segment, Move):
            yield run, False
            run = []
        elif isinstance(segment, Close):
            if run:
                run.append(Line(run[-1].end, run[0].start))
            yield run, True
            run = []
        else:
            run.append(_segment(segment, place))
    yield run, False


def _segment(segment: Any, place: Affine) -> Curve:
    from svgelements import Arc, CubicBezier, QuadraticBezier

    if isinstance(segment, CubicBezier):
        points = (segment.start, segment.control1, segment.control2, segment.end)
        p0, p1, p2, p3 = (place.point(point.x, point.y) for point in points)
        return Cubic(p0, p1, p2, p3)
    if isinstance(segment, QuadraticBezier):
        corners = (segment.start, segment.control, segment.end)
        return quadratic(*(place.point(point.x, point.y) for point in corners))
    if isinstance(segment, Arc):
        x, y = segment.center.x, segment.center.y
        if math.dist((segment.start.x, segment.start.y), (segment.end.x, segment.end.y)) == 0:
            return _line(segment, place)
        u, v = ((p.x - x, p.y - y) for p in (segment.prx, segment.pry))
        start = float(segment.get_start_t())
        axes = place.vector(*u), place.vector(*v)
        return elliptic(place.point(x, y), *axes, start, float(segment.sweep))
    return _line(segment, place)


def _line(segment: Any, place: Affine) -> Line:
    start, end = segment.start, segment.end
    return Line(place.point(start.x, start.y), place.point(end.x, end.y))


def _rect(element: Element, place: Affine) -> Runs:
    x, y, width, height = (number(element, name) for name in ("x", "y", "width", "height"))
    if width <= 0 or height <= 0:
        return
    rx, ry = number(element, "rx", -1), number(element, "ry", -1)
    rx, ry = (rx if rx >= 0 else ry), (ry if ry >= 0 else rx)
    rx, ry = min(max(rx, 0.0), width / 2), min(max(ry, 0.0), height / 2)
    if rx == 0 or ry == 0:
        corners = [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]
        yield _sides(corners, place, True), True
        return
    right, low = x + width, y + height
    stops = [
        ((x + rx, y), (right - rx, y), (right - rx, y + ry)),
        ((right, y + ry), (right, low - ry), (right - rx, low - ry)),
        ((right - rx, low), (x + rx, low), (x + rx, low - ry)),
        ((x, low - ry), (x, y + ry), (x + rx, y + ry)),
    ]
    run: list[Curve] = []
    for i, (a, b, centre) in enumerate(stops):
        run.append(Line(place.point(*a), place.point(*b)))
        axes = place.vector(rx, 0), place.vector(0, ry)
        start = (i - 1) * math.pi / 2
        run.append(elliptic(place.point(*centre), *axes, start, math.pi / 2))
    yield run, True


def _round(element: Element, place: Affine) -> Runs:
    x, y = number(element, "cx"), number(element, "cy")
    r = number(element, "r")
    rx, ry = number(element, "rx", r), number(element, "ry", r)
    if rx <= 0 or ry <= 0:
        return
    axes = place.vector(rx, 0), place.vector(0, ry)
    yield [elliptic(place.point(x, y), *axes, 0.0, TURN)], True


def _straight(element: Element, place: Affine) -> Runs:
    ends = [(number(element, f"x{i}"), number(element, f"y{i}")) for i in (1, 2)]
    yield _sides(ends, place, False), False


def _corners(element: Element, place: Affine) -> Runs:
    numbers = [float(found) for found in NUMBER.findall(element.get("points", ""))]
    closed = element.tag.endswith("polygon")
    corners = list(zip(numbers[::2], numbers[1::2], strict=False))
    yield _sides(corners, place, closed), closed


def _sides(corners: list[Point], place: Affine, closed: bool) -> list[Curve]:
    points = [place.point(*corner) for corner in corners]
    following = points[1:] + (points[:1] if closed else [])
    return [Line(a, b) for a, b in zip(points, following, strict=False)]


RUNS = {
    "path": _path,
    "rect": _rect,
    "circle": _round,
    "ellipse": _round,
    "line": _straight,
    "polyline": _corners,
    "polygon": _corners,
}
"""For each shape's name the rule that gives its runs of curves, each closed or not."""
