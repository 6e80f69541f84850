"""Boxes, mitres and saddles of tube as the CAD kernel makes them: cylinders bored and cut."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from hollowright.plan.plan import Plan
from tests.oracle.kernel import Bodies, above, below, cylinder, tube, values


def tube_box(plan: Plan, tables: Mapping[str, Any]) -> Bodies:
    """Two pieces of tube as long as their depths are (let-in caps lie in them), discs, a ring."""
    q = values(plan)
    within = q["cap_thickness"] if tables["sizes"].get("caps") == "let-in" else 0.0
    outside, bore = q["outside_diameter"], q["outside_diameter"] - 2 * q["wall"]
    ring_bore = q["ring_outside_diameter"] - 2 * q["ring_thickness"]
    cap = cylinder(q["cap_diameter"], q["cap_thickness"])
    return {
        "lid": tube(outside, bore, q["lid_depth"] + within),
        "body": tube(outside, bore, q["body_depth"] + within),
        "cap_low": cap,
        "cap_high": cap,
        "ring": tube(q["ring_outside_diameter"], ring_bore, q["ring_width"]),
    }


def tube_mitre(plan: Plan, tables: Mapping[str, Any]) -> Bodies:
    """Each piece of an elbow, upright: a tube cut by its planes, its edges as the cut leaves them.

    Bevelled: the plane alone. Otherwise a saw square to the wall; where the two edges differ, what
    is the shorter stays. On the long side it follows the bore's edge; on the short side too, filed
    down to the plane (square), or the outside's edge (unfiled).
    """
    q = values(plan)
    count = int(float(tables["sizes"].get("pieces", 1)))
    asked = tables["sizes"]
    first = q.get("axis_length", q["length"])
    lengths = [first, *[q.get("middle_length", 0.0)] * (count - 2)]
    if count > 1:
        last = q.get("last_axis_length", q.get("last_length", first))
        lengths.append(last)
    found = {}
    names = {0: "leg", count - 1: "last_leg" if "last_length" in asked else "leg"}
    for place, length in enumerate(lengths):
        low, high = place > 0, place < count - 1 or count == 1
        id = "leg" if count == 1 else f"{names.get(place, 'middle')}_{place + 1}"
        found[id] = mitred(q, length, low, high, asked.get("cut", "bevelled"))
    return found


def mitred(q: Mapping[str, float], length: float, low: bool, high: bool, cut: str) -> Any:
    """A tube of a length on its axis, cut at either end, its long sides towards x."""
    from build123d import Pos, Rot

    outside, wall = q["tube_outside_diameter"], q["tube_wall"]
    lean, reach = math.radians(q["angle"]), 2 * outside
    start, end = (-reach if low else 0.0), length + (reach if high else 0.0)
    made = Pos(0, 0, start) * tube(outside, outside - 2 * wall, end - start)

    def planed(body: Any) -> Any:
        body = below(body, length, lean) if high else body
        return above(body, 0.0, -lean) if low else body

    def sawn(body: Any, radius: float) -> Any:
        saw = _under_square_cut(outside, wall, radius, lean, reach + end)
        body = body & (Pos(0, 0, length) * saw) if high else body
        return body & (Rot(180, 0, 0) * saw) if low else body

    if cut == "bevelled":
        return planed(made)
    long, short = above(made, 0.0, math.pi / -2), below(made, 0.0, math.pi / -2)
    on_short = planed(short) if cut == "square" else sawn(short, outside / 2)
    return sawn(long, outside / 2 - wall) + on_short


def _under_square_cut(outside: float, wall: float, radius: float, lean: float, down: float) -> Any:
    """All that lies below a cut square to the wall, that follows the fibre at a radius.

    The skin ruled between two ellipses, drawn out downwards; the cut crosses the axis at 0.
    """
    from build123d import Edge, Face, Plane, extrude

    rise = radius * math.tan(lean)
    edges = []
    for reach in (0.8 * (outside / 2 - wall), 1.2 * outside / 2):
        slant = Plane((0, 0, 0), x_dir=(reach, 0, rise), z_dir=(-rise, 0, reach))
        edges.append(Edge.make_ellipse(math.hypot(reach, rise), reach, plane=slant))
    return extrude(Face.make_surface_from_curves(*edges), down, (0, 0, -1))


def hinge(q: Mapping[str, float]) -> Bodies:
    """Knuckles of tube, the pin that goes through them."""
    found = {}
    for number in range(1, int(q["knuckles"]) + 1):
        length = q["knuckle_length" if number % 2 else "inner_knuckle_length"]
        outside = q["hinge_tube_outside_diameter"]
        found[f"knuckle_{number}"] = tube(outside, outside - 2 * q["hinge_tube_wall"], length)
    found["hinge_pin"] = cylinder(q["hinge_pin_diameter"], q["hinge_width"] + 2 * q["pin_end"])
    return found
