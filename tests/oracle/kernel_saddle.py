"""A branch of tube on a main as the CAD kernel makes it: cylinders cut by cylinders.

The branch stands along z in its own frame, its foot's side towards x; the main lies across it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any

from hollowright.plan.plan import Plan
from tests.oracle.kernel import Bodies, cylinder, tube, values

SAMPLES = 180
"""Places round the branch where its edge is found; between them it follows a spline."""


def seat_radius(q: Mapping[str, float], tables: Mapping[str, Any]) -> float:
    """Radius of the main's surface that the branch sits on, or goes in to [mm]."""
    let_in = tables["sizes"].get("joint") == "let-in"
    return q["main_outside_diameter"] / 2 - (q["main_wall"] if let_in else 0.0)


def lying(q: Mapping[str, float], body: Any) -> Any:
    """A body on the z axis laid along the main's axis, as the branch sees it."""
    from build123d import Pos, Rot

    return Pos(0, -q["offset"], 0) * (Rot(0, -q["angle"], 0) * body)


def rod(radius: float, long: float) -> Any:
    """A rod with its middle on 0 [mm]."""
    from build123d import Cylinder

    return Cylinder(radius, long)


def tube_saddle(plan: Plan, tables: Mapping[str, Any]) -> Bodies:
    """The main less a rod along the branch; the branch cut by the main, or square to its wall."""
    from build123d import Pos

    q, cut = values(plan), tables["sizes"].get("cut", "unfiled")
    outside, long = q["main_outside_diameter"], q["length_of_main"]
    whole = tube(outside, outside - 2 * q["main_wall"], long)
    main = lying(q, Pos(0, 0, -q["at"]) * whole) - cylinder(2 * q["hole_radius"], 4 * outside)
    return {"main": main, "branch": branch(q, seat_radius(q, tables), cut)}


def branch(q: Mapping[str, float], seat: float, cut: str) -> Any:
    """The branch: bevelled to the main's surface, or its edge square across the wall."""
    outer, bore, high = q["outside_radius"], q["bore_radius"], q["axis_length"]
    whole = tube(2 * outer, 2 * bore, high)
    if cut == "bevelled":
        return whole - lying(q, rod(seat, 40 * seat))
    found = _fibres(q, seat)
    edges = []
    for turn in (math.tau * i / SAMPLES for i in range(SAMPLES)):
        inside, outside = found(bore, turn), found(outer, turn)
        if cut == "square":
            edges.append((inside, max(inside, outside)))
        else:
            first = _greatest(found, bore, outer, turn)
            edges.append((first, first))
    return whole & _over(edges, bore, outer, high)


def _fibres(q: Mapping[str, float], seat: float) -> Callable[[float, float], float]:
    """Where the kernel lets a line along the branch meet the main [mm], by radius and turn."""
    from OCP.Geom import Geom_CylindricalSurface, Geom_Line
    from OCP.GeomAPI import GeomAPI_IntCS
    from OCP.gp import gp_Ax3, gp_Dir, gp_Pnt

    lean = math.radians(q["angle"])
    along = gp_Dir(-math.sin(lean), 0, math.cos(lean))
    surface = Geom_CylindricalSurface(gp_Ax3(gp_Pnt(0, -q["offset"], 0), along), seat)

    def meets(radius: float, turn: float) -> float:
        foot = gp_Pnt(radius * math.cos(turn), radius * math.sin(turn), 0)
        found = GeomAPI_IntCS(Geom_Line(foot, gp_Dir(0, 0, 1)), surface)
        return max(found.Point(i).Z() for i in range(1, found.NbPoints() + 1))

    return meets


def _greatest(
    found: Callable[[float, float], float], bore: float, outer: float, turn: float
) -> float:
    """Where the wall meets first: the furthest of its fibres at a turn, bore and outside too."""
    from scipy.optimize import minimize_scalar

    best = minimize_scalar(
        lambda radius: -found(radius, turn), bounds=(bore, outer), method="bounded",
        options={"xatol": 1e-7},
    )  # fmt: skip
    return max(-float(best.fun), found(bore, turn), found(outer, turn))


def _over(edges: list[tuple[float, float]], bore: float, outer: float, high: float) -> Any:
    """All above a skin straight across the wall between two edges, given at even turns."""
    from build123d import Edge, Face, extrude

    wall, rails = outer - bore, []
    for share in (-0.2, 1.2):
        radius = bore + share * wall
        spots = []
        for i, (inside, outside) in enumerate(edges):
            turn = math.tau * i / len(edges)
            depth = inside + share * (outside - inside)
            spots.append((radius * math.cos(turn), radius * math.sin(turn), depth))
        places = [i / len(edges) for i in range(len(edges) + 1)]  # else rulings aren't radial
        rails.append(Edge.make_spline(spots, periodic=True, parameters=places))
    return extrude(Face.make_surface_from_curves(*rails), 2 * high, (0, 0, 1))
