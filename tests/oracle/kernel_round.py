"""Beads and cones as the CAD kernel makes them: spheres and cones, cut by planes and bored."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from hollowright.plan.plan import Plan
from tests.oracle.kernel import Bodies, above, below, cylinder, values


def sphere_over(diameter: float, rise: float) -> float:
    """Radius of the arc that the kernel draws through both ends of a rim and its crown [mm]."""
    from build123d import ThreePointArc

    arc = ThreePointArc((-diameter / 2, 0), (0, rise), (diameter / 2, 0))
    return float(arc.edges()[0].radius)


def cap(radius: float, middle: float) -> Any:
    """What of a sphere lies above the table, its centre at a height [mm]."""
    from build123d import Pos, Sphere

    return above(Pos(0, 0, middle) * Sphere(radius), 0.0)


def bead(plan: Plan, tables: Mapping[str, Any]) -> Bodies:
    """Two domes: a sphere less the sphere inside it, above the rim's plane, less the hole."""
    q = values(plan)
    outer = sphere_over(q["diameter"], q["rise"])
    middle = q["rise"] - outer
    shell = cap(outer, middle) - cap(outer - q["sheet_thickness"], middle)
    dome = shell - cylinder(q["hole"], 4 * outer, -outer)
    return {"dome_low": dome, "dome_high": dome}


def cone_between(low: float, high: float, height: float) -> Any:
    """A solid cone, frustum or cylinder standing on 0, of two end diameters [mm]."""
    from build123d import Align, Cone

    if low == high:
        return cylinder(low, height)
    stands = (Align.CENTER, Align.CENTER, Align.MIN)
    return Cone(low / 2, high / 2, height, align=stands)


def parallel_cone(low: float, high: float, height: float, depth: float) -> Any:
    """The solid a depth inside a cone's side, as far as it goes between both ends [mm]."""
    wide, narrow = max(low, high), min(low, high)
    across = 2 * depth * math.hypot(1.0, (wide - narrow) / 2 / height)
    if narrow >= across:
        return cone_between(low - across, high - across, height)
    tall = height * (wide - across) / (wide - narrow)
    if low > high:
        return cone_between(low - across, 0.0, tall)
    from build123d import Pos

    return Pos(0, 0, height - tall) * cone_between(0.0, high - across, tall)


def cone(plan: Plan, tables: Mapping[str, Any]) -> Bodies:
    """A solid cone less the cone inside it; both cut by the slanting plane where there is one."""
    q = values(plan)
    sizes = (q["base_diameter"], q["top_diameter"], q["height"])
    made = cone_between(*sizes) - parallel_cone(*sizes, q["sheet_thickness"])
    if "cut_angle" in q:
        made = below(made, q["cut_height"], math.radians(q["cut_angle"]))
    return {"cone": made}
