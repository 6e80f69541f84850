"""Every design's bodies as the CAD kernel makes them by itself, and how the kernel measures them.

The kernel is build123d (OpenCASCADE). Bodies are made from a plan's printed quantities and the
sizes in its piece file (extruded, turned, lofted, cut), never from our solids or meshes. One module
a family of designs: kernel_FAMILY.py; this one finds the right function.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from importlib import import_module
from typing import Any

from hollowright.plan.plan import Plan

Bodies = dict[str, Any]
"""The kernel's solids by the ids of ours."""

FAMILIES = {
    "bead": "round",
    "cone": "round",
    "facet-form": "facets",
    "knuckle-hinge": "facets",
    "vessel": "vessel",
    "tube-box": "tubes",
    "tube-mitre": "tubes",
    "walled-box": "boxes",
    "finger-band": "small",
    "setting-cup": "small",
    "tube-saddle": "saddle",
}
"""Design -> the family whose module makes its bodies."""


def kernel_bodies(plan: Plan, tables: Mapping[str, Any]) -> Bodies:
    """Every body of a plan as the kernel makes it, by our body's id; tables: the piece file's."""
    module = import_module(f"tests.oracle.kernel_{FAMILIES[plan.piece.design]}")
    make: Callable[[Plan, Mapping[str, Any]], Bodies] = getattr(
        module, plan.piece.design.replace("-", "_")
    )
    return make(plan, tables)


def values(plan: Plan) -> dict[str, float]:
    """A plan's printed quantities: id -> value."""
    return {id: quantity.value for id, quantity in plan.quantities.items()}


# ---- measuring: the kernel's defaults take few points (5e-4 off on an ellipse's length)


def length(*edges: Any) -> float:
    """Length of edges together, to 1e-10 [mm]."""
    from OCP.GCPnts import GCPnts_AbscissaPoint

    return math.fsum(GCPnts_AbscissaPoint.Length_s(edge.geom_adaptor(), 1e-10) for edge in edges)


def area(shapes: Any) -> float:
    """Area of a face, or of all faces of a body, to 1e-10 [mm2]."""
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    found = []
    for face in shapes.faces():
        measured = GProp_GProps()
        BRepGProp.SurfaceProperties_s(face.wrapped, measured, 1e-10)
        found.append(measured.Mass())
    return math.fsum(found)


def volume(body: Any) -> float:
    """Volume of a body, to 1e-10 [mm3]."""
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    found = []
    for solid in body.solids():
        measured = GProp_GProps()
        BRepGProp.VolumeProperties_s(solid.wrapped, measured, 1e-10)
        found.append(abs(measured.Mass()))
    return math.fsum(found)


# ---- making


def turned(points: Iterable[tuple[float, float]]) -> Any:
    """A polygon in (radius, height) [mm] turned once round the upright axis."""
    from build123d import Axis, Face, Polyline, Wire, revolve

    corners = [(r, 0.0, z) for r, z in points]
    face = Face(Wire(Polyline(*corners, close=True).edges()))
    return revolve(face, Axis.Z, 360)


def cylinder(diameter: float, length: float, low: float = 0.0) -> Any:
    """A cylinder standing on a height [mm]."""
    from build123d import Align, Cylinder, Pos

    stands = (Align.CENTER, Align.CENTER, Align.MIN)
    return Pos(0, 0, low) * Cylinder(diameter / 2, length, align=stands)


def tube(outside: float, inside: float, length: float) -> Any:
    """A piece of tube standing on 0: a cylinder less its bore [mm]."""
    return cylinder(outside, length) - cylinder(inside, 3 * length, -length)


def below(body: Any, height: float, lean: float = 0.0) -> Any:
    """What lies below a plane that crosses the axis at a height, leaning [rad] up towards x."""
    return body & _half_space(height, lean, under=True)


def above(body: Any, height: float, lean: float = 0.0) -> Any:
    """What lies above such a plane."""
    return body & _half_space(height, lean, under=False)


def _half_space(height: float, lean: float, under: bool) -> Any:
    """A very large block below or above a plane: the kernel's split now and then cuts nothing."""
    from build123d import Align, Box, Pos, Rot

    ends = (Align.CENTER, Align.CENTER, Align.MAX if under else Align.MIN)
    return Pos(0, 0, height) * Rot(0, -math.degrees(lean), 0) * Box(4000, 4000, 4000, align=ends)
