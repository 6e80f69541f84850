"""Finger bands and settings as the CAD kernel makes them: sections turned, girdles drawn out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hollowright.plan.plan import Plan
from tests.oracle.kernel import Bodies, cylinder, tube, values
from tests.oracle.kernel_boxes import slab, wall
from tests.oracle.kernel_lines import ellipse, parallel


def finger_band(plan: Plan, tables: Mapping[str, Any]) -> Bodies:
    """A ring of sheet, a section with an arc on it turned round, or sleeve, shell and sides."""
    q, kind = values(plan), tables["sizes"]["kind"]
    inside, t = q["inside_diameter"], q.get("sheet_thickness", 0.0)
    if kind == "plain":
        return {"band": tube(inside + 2 * t, inside, q["width"])}
    if kind == "domed":
        return {"band": domed(inside, q["width"], q["edge"], t)}
    if kind == "half-round":
        return {"band": domed(inside, q["wire_flat"], 0.0, q["wire_height"])}
    outside, sides = inside + 2 * q["depth"], tables["sizes"].get("sides", "on-end")
    high = q["width"] - (2 * t if sides == "on-end" else 0.0)
    across, hole = (outside, inside)
    if sides == "let-in":
        sizes = next(part.blank.sizes for part in plan.parts if part.id == "side")
        across, hole = sizes["diameter"].value, sizes["hole"].value
    side = tube(across, hole, t)
    sleeve = tube(inside + 2 * t, inside, high)
    return {
        "sleeve": vented(sleeve, q["vent"], inside + 4 * t, high / 2),
        "shell": tube(outside, outside - 2 * t, high),
        "side_low": side,
        "side_high": side,
    }


def vented(sleeve: Any, vent: float, long: float, height: float) -> Any:
    """A sleeve drilled right through, square to itself."""
    from build123d import Pos, Rot

    drill = cylinder(vent, long, -long / 2)
    return sleeve - Pos(0, 0, height) * Rot(90, 0, 0) * drill


def domed(inside: float, width: float, edge: float, crown: float) -> Any:
    """A flat inside, upright edges, an arc through both edges and the crown; turned once round."""
    from build123d import Axis, Edge, Face, Wire, revolve

    low, foot = inside / 2, inside / 2 + edge
    spots = [(low, 0, width), (low, 0, 0), (foot, 0, 0), (foot, 0, width)]
    edges = [Edge.make_line(spots[0], spots[1])]
    edges.append(Edge.make_three_point_arc(spots[2], (low + crown, 0, width / 2), spots[3]))
    if edge:
        edges += [Edge.make_line(spots[1], spots[2]), Edge.make_line(spots[3], spots[0])]
    return revolve(Face(Wire(edges)), Axis.Z, 360)


def stone(q: Mapping[str, float]) -> Any:
    """The stone's girdle seen from above."""
    from build123d import Edge, Wire

    if "stone_width" in q:
        return ellipse(q["stone_length"], q["stone_width"])
    return Wire([Edge.make_circle(q["stone_length"] / 2)])


def setting_cup(plan: Plan, tables: Mapping[str, Any]) -> Bodies:
    """A wall round the stone with its gap, a seat within it, a plate under both."""
    q = values(plan)
    gap, t = q["stone_gap"] / 2, q["sheet_thickness"]
    girdle = stone(q)
    inner, outer, within = (parallel(girdle, depth) for depth in (-gap, -gap - t, t - gap))
    found = {
        "setting": wall(outer, inner, q["seat_width"] + q["over"]),
        "seat": wall(inner, within, q["seat_width"]),
    }
    if tables["sizes"].get("base") == "plate":
        found["base"] = slab(outer, t)
    return found
