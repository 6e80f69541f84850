"""Reads the curves of a DXF file: lines, arcs, circles, ellipses, polylines with bulges, splines.

Blocks aren't opened, so that nothing can multiply; what isn't a curve is counted.
"""

from __future__ import annotations

import io
import math
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import TURN, Arc, Curve, Line, Point
from hollowright.shapes.drawn import MM, MOST_POINTS, SHORTEST, Drawn, FileRefused, elliptic

UNITS = {1: "in", 2: "ft", 4: "mm", 5: "cm", 6: "m"}
"""Codes of $INSUNITS that a bench can meet."""

SPLINE_NEAR = 1e-5  # how far cubics may lie off a spline that none fits exactly [mm]
HALVINGS = 8
STEEPEST = 10  # degree of a spline
WRONG = (ArithmeticError, AttributeError, LookupError, TypeError, ValueError)
"""What the library may raise over a file whose values are wrong."""
PLAIN = "Save the outline by itself as DXF (text, R12 or later)."


def read_dxf(data: bytes, unit: str | None, scale: float) -> Drawn:
    """Every curve in a DXF file's model space; `unit` is its unit, else $INSUNITS tells."""
    document = _document(data)
    mm, words = _size(document, unit)
    drawn = Drawn(mm * scale, words)
    for entity in document.modelspace():
        rule = _RULES.get(entity.dxftype())
        if rule is None:
            drawn.left_out[entity.dxftype().lower()] += 1
        elif _unseen(document, entity):
            drawn.left_out["hidden"] += 1
        else:
            _take(entity, rule, drawn)
    return drawn


def _document(data: bytes) -> Any:
    import ezdxf
    from ezdxf.lldxf.const import DXFError

    if data[:22] == b"AutoCAD Binary DXF\r\n\x1a\x00":
        raise FileRefused("it is a binary DXF file.", PLAIN)
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError:
        text = data.decode("cp1252", "replace")
    try:
        document = ezdxf.read(io.StringIO(text.replace("\r\n", "\n")))
        document.modelspace()
    except (DXFError, OSError, *WRONG) as error:
        raise FileRefused("it isn't a whole DXF file.", PLAIN) from error
    return document


def _size(document: Any, unit: str | None) -> tuple[float, str]:
    """Millimetres in one unit of the file, and where that comes from."""
    if unit is not None:
        return MM[unit], f"1 unit of the file is 1 {unit}, as told"
    code = document.header.get("$INSUNITS", 0)
    if code in UNITS:
        name = UNITS[code]
        return MM[name], f"1 unit of the file is 1 {name}, as it states"
    if code:
        raise FileRefused("it is in a unit that isn't known.", "Tell the unit: mm, cm or in.")
    return 1.0, "the file states no unit (1 unit taken as 1 mm; tell the unit if that is wrong)"


def _unseen(document: Any, entity: Any) -> bool:
    """Whether an entity is hidden, or on a layer that is off or frozen."""
    if entity.dxf.get("invisible", 0):
        return True
    name = entity.dxf.get("layer", "0")
    if name not in document.layers:
        return False
    layer = document.layers.get(name)
    return bool(layer.is_off() or layer.is_frozen())


def _take(entity: Any, rule: Any, drawn: Drawn) -> None:
    kind = entity.dxftype()
    try:
        curves, closed = rule(entity, drawn.mm)
        drawn.add(curves, closed)
    except FileRefused:
        raise
    except WRONG as error:
        raise FileRefused(f"its {kind} can't be read.", PLAIN) from error


def _flat(entity: Any) -> float:
    """1 for an entity drawn in the plane, -1 for one seen from below; others are refused."""
    x, y, z = entity.dxf.get("extrusion", (0, 0, 1))
    if abs(x) > 1e-6 or abs(y) > 1e-6 or z == 0:
        raise FileRefused(f"its {entity.dxftype()} doesn't lie flat.", "Draw it in the x-y plane.")
    return math.copysign(1.0, z)


def _line(entity: Any, mm: float) -> tuple[list[Curve], bool]:
    start, end = entity.dxf.start, entity.dxf.end
    return [Line((start.x * mm, start.y * mm), (end.x * mm, end.y * mm))], False


def _circle(entity: Any, mm: float) -> tuple[list[Curve], bool]:
    return [_turned(entity, mm, 0.0, TURN)], True


def _arc(entity: Any, mm: float) -> tuple[list[Curve], bool]:
    first, last = math.radians(entity.dxf.start_angle), math.radians(entity.dxf.end_angle)
    sweep = (last - first) % TURN or TURN
    return [_turned(entity, mm, first, sweep)], sweep == TURN


def _turned(entity: Any, mm: float, first: float, sweep: float) -> Arc:
    """An arc anticlockwise in its own sense; seen from below it is mirrored left to right."""
    side, centre, radius = _flat(entity), entity.dxf.center, entity.dxf.radius * mm
    if not radius > 0:
        raise FileRefused(f"its {entity.dxftype()} has no radius.", PLAIN)
    if side > 0:
        return Arc((centre.x * mm, centre.y * mm), radius, first, sweep)
    return Arc((-centre.x * mm, centre.y * mm), radius, math.pi - first, -sweep)


def _ellipse(entity: Any, mm: float) -> tuple[list[Curve], bool]:
    side, centre, major = _flat(entity), entity.dxf.center, entity.dxf.major_axis
    ratio = entity.dxf.ratio * side
    first, last = entity.dxf.start_param, entity.dxf.end_param
    sweep = (last - first) % TURN
    sweep = TURN if sweep < 1e-9 or TURN - sweep < 1e-9 else sweep
    across = (major.x * mm, major.y * mm)
    up = (-across[1] * ratio, across[0] * ratio)
    return [elliptic((centre.x * mm, centre.y * mm), across, up, first, sweep)], sweep == TURN


def _polyline(entity: Any, mm: float) -> tuple[list[Curve], bool]:
    side = _flat(entity)
    if entity.dxftype() == "LWPOLYLINE":
        found = [(x, y, bulge) for x, y, bulge in entity.get_points("xyb")]
        closed = bool(entity.closed)
    else:
        if not entity.is_2d_polyline or entity.dxf.get("flags", 0) & 6:
            raise FileRefused("its POLYLINE isn't a plain flat one.", PLAIN)
        located = [(v.dxf.location, v.dxf.get("bulge", 0.0)) for v in entity.vertices]
        found = [(at.x, at.y, bulge) for at, bulge in located]
        closed = bool(entity.is_closed)
    if len(found) > MOST_POINTS:
        raise FileRefused(f"it has more than {MOST_POINTS} points.", "Simplify the outline.")
    points = [(side * x * mm, y * mm) for x, y, _ in found]
    bulges = [side * bulge for _, _, bulge in found]
    following = points[1:] + (points[:1] if closed else [])
    curves = [
        bulged(a, b, bulge)
        for a, b, bulge in zip(points, following, bulges, strict=False)
        if math.dist(a, b) > SHORTEST
    ]
    return curves, closed


def bulged(start: Point, end: Point, bulge: float) -> Curve:
    """The arc between two points whose sweep is 4 atan(bulge), anticlockwise when positive.

    >>> half = bulged((0.0, 0.0), (10.0, 0.0), 1.0)
    >>> round(half.radius, 9), round(half.bounds()[1], 9)
    (5.0, -5.0)
    """
    if abs(bulge) < 1e-9:
        return Line(start, end)
    sweep, chord = 4 * math.atan(bulge), math.dist(start, end)
    radius = chord * (1 + bulge * bulge) / (4 * bulge)
    heading = math.atan2(end[1] - start[1], end[0] - start[0]) - sweep / 2
    centre = (start[0] - radius * math.sin(heading), start[1] + radius * math.cos(heading))
    first = math.atan2(start[1] - centre[1], start[0] - centre[0])
    return Arc(centre, abs(radius), first, sweep)


def _spline(entity: Any, mm: float) -> tuple[list[Curve], bool]:
    tool = entity.construction_tool()
    degree = tool.degree
    if degree > STEEPEST:
        raise FileRefused(f"it has a spline of degree {degree}.", PLAIN)
    knots = [float(knot) for knot in tool.knots()]
    stops = sorted({knot for knot in knots if knots[degree] <= knot <= knots[-degree - 1]})

    def at(t: float) -> Point:
        point = tool.point(t)
        return (point.x * mm, point.y * mm)

    curves: list[Curve] = []
    for first, last in pairwise(stops):
        curves += _cubics(at, first, last, HALVINGS)
    ends = math.dist(curves[0].start, curves[-1].end) if curves else 1.0
    return curves, ends < SHORTEST


def _cubics(at: Any, first: float, last: float, halvings: int) -> Iterator[Cubic]:
    """Cubics through a stretch of a spline: one where it is a cubic itself."""
    p0, p1, p2, p3 = (at(first + (last - first) * k / 3) for k in range(4))
    controls = [
        ((-5 * a + 18 * b - 9 * c + 2 * d) / 6, (2 * a - 9 * b + 18 * c - 5 * d) / 6)
        for a, b, c, d in zip(p0, p1, p2, p3, strict=True)
    ]
    (x1, x2), (y1, y2) = controls
    curve = Cubic(p0, (x1, y1), (x2, y2), p3)
    trials = ((1 / 6, 0.5, 5 / 6)) if halvings else ()
    if all(math.dist(curve.at(u), at(first + (last - first) * u)) < SPLINE_NEAR for u in trials):
        yield curve
        return
    middle = (first + last) / 2
    yield from _cubics(at, first, middle, halvings - 1)
    yield from _cubics(at, middle, last, halvings - 1)


_RULES = {
    "LINE": _line,
    "CIRCLE": _circle,
    "ARC": _arc,
    "ELLIPSE": _ellipse,
    "LWPOLYLINE": _polyline,
    "POLYLINE": _polyline,
    "SPLINE": _spline,
}
