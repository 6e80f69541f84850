"""Turned vessels as the CAD kernel makes them: a section of its own curves, turned once round.

The section is drawn in x (radius) and y (height); the metal is the union of what lies within the
sheet's thickness of each edge, cut flat at the rim.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from functools import reduce
from itertools import pairwise
from typing import Any

from hollowright.plan.plan import Plan
from tests.oracle.kernel import Bodies, values
from tests.oracle.kernel_lines import Spot, drawing, shifted
from tests.oracle.kernel_round import cone_between, parallel_cone


def points(told: Any) -> list[Spot]:
    """A profile's points, from a list or a text."""
    if isinstance(told, str):
        told = [pair.split() for pair in told.split(";")]
    return [(float(r), float(z)) for r, z in told]


def outside(sizes: Mapping[str, Any]) -> list[Any]:
    """The outside's edges from the axis to the rim, its lowest corner at height 0."""
    from build123d import Edge, Pos

    if "curve" in sizes:
        edges = drawing(sizes["curve"], up=-1)
    else:
        spots = points(sizes["profile"])
        curved = sizes.get("between") == "curved"
        edges = bent(spots) if curved else [Edge.make_line(a, b) for a, b in pairwise(spots)]
    low = min((edge @ end).Y for edge in edges for end in (0, 1))
    return [Pos(0, -low) * edge for edge in edges]


def bent(spots: Sequence[Spot]) -> list[Any]:
    """One curve bent evenly through points; a level base stays straight.

    Between two points a cubic, its ends heading as the parabola through the three nearest points.
    """
    from build123d import Edge

    flat = spots[0][1] == spots[1][1]
    wall = list(spots[1:] if flat else spots)
    reached = [0.0]
    for a, b in pairwise(wall):
        reached.append(reached[-1] + math.dist(a, b))
    ways = [_heading(wall, reached, i) for i in range(len(wall))]
    if not flat:
        ways[0] = (1.0, 0.0)
    edges = [Edge.make_line(spots[0], spots[1])] if flat else []
    for (a, b), (u, v) in zip(pairwise(wall), pairwise(ways), strict=True):
        third = math.dist(a, b) / 3
        one = (a[0] + u[0] * third, a[1] + u[1] * third)
        two = (b[0] - v[0] * third, b[1] - v[1] * third)
        edges.append(Edge.make_bezier(a, one, two, b))
    return edges


def _heading(spots: Sequence[Spot], reached: Sequence[float], i: int) -> Spot:
    import numpy as np

    first = min(max(i - 1, 0), len(spots) - 3)
    near = slice(first, first + 3)
    x, y = (
        np.polyval(
            np.polyder(np.polyfit(reached[near], [p[k] for p in spots[near]], 2)), reached[i]
        )
        for k in (0, 1)
    )
    return (float(x / math.hypot(x, y)), float(y / math.hypot(x, y)))


def filled(edges: Sequence[Any]) -> Any:
    """The face between the outside, the axis and the rim's level."""
    from build123d import Edge, Face, Wire

    start, end = edges[0] @ 0, edges[-1] @ 1
    top = (0.0, end.Y)
    closing = [Edge.make_line((end.X, end.Y), top), Edge.make_line(top, (start.X, start.Y))]
    return Face(Wire([*edges, *closing]))


def hollow(edges: Sequence[Any], depth: float) -> Any:
    """The face of all that lies further than a depth inside the outside, up to the rim."""
    from build123d import Edge

    first, last = edges[0], edges[-1]
    back, on = first % 0, last % 1
    reach = 3 * depth
    start, end = first @ 0, last @ 1
    more = [
        Edge.make_line((start.X - reach * back.X, start.Y - reach * back.Y), (start.X, start.Y)),
        Edge.make_line((end.X, end.Y), (end.X + reach * on.X, end.Y + reach * on.Y)),
    ]
    bands = [_band(edge, depth) for edge in (more[0], *edges, more[1])]
    bands += [wedge for a, b in pairwise(edges) for wedge in _wedge(a, b, depth)]
    return reduce(lambda left, band: left - band, bands, filled(edges))


def _wedge(before: Any, after: Any, depth: float) -> list[Any]:
    """What the mitred parallel takes at a corner that turns outwards."""
    from build123d import Face, Polyline, Wire

    (x, y, _), (x1, y1, _) = before % 1, after % 0
    if x * y1 - y * x1 > -1e-9:
        return []
    corner = before @ 1
    along = depth / (1 + x * x1 + y * y1)
    spots = [
        (corner.X - reach * across, corner.Y + reach * ahead)
        for reach, across, ahead in (
            (0.0, 0.0, 0.0), (depth, y, x), (along, y + y1, x + x1), (depth, y1, x1)
        )
    ]  # fmt: skip
    return [Face(Wire(Polyline(*spots, close=True).edges()))]


def _band(edge: Any, depth: float) -> Any:
    from build123d import Edge, Face, Wire

    inner = shifted(edge, depth)
    ends = [Edge.make_line(edge @ end, inner @ end) for end in (0, 1)]
    return Face(Wire([edge, inner, *ends]))


def turned(face: Any) -> Any:
    """A face in radius and height turned once round, standing upright."""
    from build123d import Axis, Rot, revolve

    return Rot(90, 0, 0) * revolve(face, Axis.Y, 360)


def vessel(plan: Plan, tables: Mapping[str, Any]) -> Bodies:
    """Its metal, parted into the base and the wall where it is seamed."""
    from build123d import Align, Rectangle

    q, sizes = values(plan), tables["sizes"]
    way, t = sizes.get("way", "raised"), q["sheet_thickness"]
    if way == "cones":
        return stacked(q)
    edges = outside(sizes)
    metal = filled(edges) - hollow(edges, t)
    if way == "raised":
        return {"vessel": turned(metal)}
    if "base_diameter" not in q:
        return {"gores": turned(metal)}
    floor = Rectangle(999, t, align=(Align.CENTER, Align.MIN))
    return {"base": turned(filled(edges) & floor), "gores": turned(metal - floor)}


def stacked(q: Mapping[str, float]) -> Bodies:
    """A base, its edge filed to the lowest cone; cones one on the other, by their printed ends."""
    t, low = q["sheet_thickness"], q["cone_1_low"]
    lean = (q.get("cone_1_high", low) - low) / q["cone_1_height"]
    found = {"base": cone_between(low - lean * t, low, t)}
    number = 1
    while f"cone_{number}_height" in q:
        id = f"cone_{number}"
        ends = (q[f"{id}_low"], q.get(f"{id}_high", q[f"{id}_low"]), q[f"{id}_height"])
        found[id] = cone_between(*ends) - parallel_cone(*ends, t)
        number += 1
    return found
