"""Lines of the plane as the CAD kernel draws them: an SVG path, exact parallels, ellipses."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from typing import Any

Spot = tuple[float, float]

QUARTERS = 16
"""An ellipse is drawn in so many pieces: measured whole, the kernel is 5e-5 off at its sides."""


def drawing(text: str, scale: float = 1.0, up: int = 1) -> list[Any]:
    """The edges of an SVG text's one path [mm], y down (up -1: turned over): M L H V C A Z only.

    The drawing's width in mm over its view box gives the scale. (The kernel's own reader of SVG is
    5e-7 off in scale.)
    """
    (width,), (box,), (path,) = (
        re.findall(pattern, text)
        for pattern in (r'width="([\d.]+)mm"', r'viewBox="([^"]+)"', r' d="([^"]+)"')
    )
    scale *= float(width) / float(box.split()[2])
    edges: list[Any] = []
    start = here = (0.0, 0.0)
    for command, told in re.findall(r"([A-Z])([^A-Z]*)", path):
        numbers = [float(each) for each in re.findall(r"-?[\d.]+", told)]
        size = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "A": 7, "Z": 1}[command]
        for i in range(0, max(len(numbers), 1), size):
            drawn, here = _step(command, numbers[i : i + size], here, start, (scale, up * scale))
            start = here if command == "M" else start
            edges += drawn
    return edges


def _step(
    command: str, n: Sequence[float], here: Spot, start: Spot, scale: Spot
) -> tuple[list[Any], Spot]:
    """The edge that one command draws, and where it ends in the drawing."""
    from build123d import Edge

    def mm(x: float, y: float) -> Spot:
        return (x * scale[0], y * scale[1])

    if command == "M":
        return [], (n[0], n[1])
    if command == "C":
        spots = [here, (n[0], n[1]), (n[2], n[3]), (n[4], n[5])]
        return [Edge.make_bezier(*(mm(*spot) for spot in spots))], spots[-1]
    if command == "A":
        assert n[0] == n[1], "round arcs only"
        end = (n[5], n[6])
        middle = _bulge(here, end, n[0], large=bool(n[3]), turning=bool(n[4]))
        return [Edge.make_three_point_arc(mm(*here), mm(*middle), mm(*end))], end
    x, y = here
    ends = {"L": (*n, x, y)[:2], "H": (*n, y)[:2], "V": (x, *n, y)[:2], "Z": start}
    to = ends[command]
    return ([Edge.make_line(mm(x, y), mm(*to))] if math.dist(here, to) > 1e-9 else []), to


def _bulge(a: Spot, b: Spot, radius: float, *, large: bool, turning: bool) -> Spot:
    """The middle of the arc from a to b; turning: with growing angle, bulging to the right."""
    half = math.dist(a, b) / 2
    centred = math.sqrt(max(0.0, radius * radius - half * half))
    rise = radius + centred if large else radius - centred
    side = rise / (2 * half) * (1 if turning else -1)
    return ((a[0] + b[0]) / 2 + side * (b[1] - a[1]), (a[1] + b[1]) / 2 - side * (b[0] - a[0]))


def ellipse(length: float, width: float) -> Any:
    """An ellipse as a wire of pieces [mm]."""
    from build123d import Edge, Wire

    step = 360 / QUARTERS
    return Wire([
        Edge.make_ellipse(length / 2, width / 2, start_angle=step * i, end_angle=step * (i + 1))
        for i in range(QUARTERS)
    ])  # fmt: skip


def parallel(wire: Any, depth: float) -> Any:
    """The wire a depth inside an anticlockwise one [mm] (outside it where that is under 0).

    Of lines and arcs by the kernel's offset of wires, corners kept. Smooth ones edge by edge with
    its exact offset curves: its offset of wires follows them by splines, some 1e-5 off.
    """
    from build123d import GeomType, Kind, Wire

    if not depth:
        return wire
    edges = wire.edges()
    if all(edge.geom_type in (GeomType.LINE, GeomType.CIRCLE) for edge in edges):
        return wire.offset_2d(-depth, Kind.INTERSECTION)
    if smooth(edges):
        return Wire([shifted(edge, depth) for edge in edges])
    return wire.offset_2d(-depth, Kind.INTERSECTION)


def smooth(edges: Sequence[Any]) -> bool:
    """Whether every edge of a closed wire goes on in the direction of the one before."""
    return all(
        any((edge @ 1 - other @ 0).length < 1e-6 and (edge % 1).cross(other % 0).length < 1e-6
            for other in edges)
        for edge in edges
    )  # fmt: skip


def shifted(edge: Any, depth: float) -> Any:
    """The parallel of an edge a depth to its left [mm]: line, arc, or the kernel's offset curve."""
    from build123d import Edge, GeomType
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge
    from OCP.Geom import Geom_OffsetCurve
    from OCP.gp import gp_Dir

    def off(place: float) -> Any:
        spot, way = edge @ place, edge % place
        return (spot.X - depth * way.Y, spot.Y + depth * way.X)

    if edge.geom_type == GeomType.LINE:
        return Edge.make_line(off(0), off(1))
    if edge.geom_type == GeomType.CIRCLE:
        return Edge.make_three_point_arc(off(0), off(0.5), off(1))
    adaptor = edge.geom_adaptor()
    curve = adaptor.Curve().Curve().Transformed(adaptor.Trsf())
    moved = Geom_OffsetCurve(curve, -depth, gp_Dir(0, 0, 1))
    first, last = adaptor.FirstParameter(), adaptor.LastParameter()
    return Edge(BRepBuilderAPI_MakeEdge(moved, first, last).Edge())
