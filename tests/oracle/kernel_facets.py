"""Forms of plane faces and hinges as the CAD kernel makes them, from printed sizes and angles.

Solids are blocks cut by planes; a hollow is the kernel's own offset; a plate is cut by planes that
lean by its printed bevels; a leaf is a block less a cylinder.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from itertools import product
from typing import Any

from hollowright.plan.plan import Plan
from tests.oracle.kernel import Bodies, cylinder, length, tube, values

BIG = 2000.0
GOLDEN = (1 + math.sqrt(5)) / 2
Point = tuple[float, float]
Vector = tuple[float, float, float]


def cut_by(body: Any, planes: Iterable[tuple[Vector, Vector]]) -> Any:
    """What lies on the normals' side of every plane (a point and a normal each)."""
    from build123d import Keep, Plane, split

    for point, normal in planes:
        body = split(body, Plane(point, z_dir=normal), keep=Keep.TOP)
    return body


def block(height: float) -> Any:
    """A large block standing on 0 [mm]."""
    from build123d import Align, Box

    return Box(BIG, BIG, height, align=(Align.CENTER, Align.CENTER, Align.MIN))


def walled(sides: int, base: float, top: float, height: float) -> Any:
    """A prism, pyramid (top 0) or frustum: a block cut by its walls' planes."""
    planes: list[tuple[Vector, Vector]] = []
    lean = math.atan2((base - top) / 2, height)
    for number in range(sides):
        turn = math.tau * number / sides
        c, s = math.cos(turn), math.sin(turn)
        out = (c * math.cos(lean), s * math.cos(lean), math.sin(lean))
        planes.append(((base / 2 * c, base / 2 * s, 0.0), (-out[0], -out[1], -out[2])))
    return cut_by(block(height), planes)


NORMALS: dict[str, list[Vector]] = {
    "tetrahedron": [(1, 1, 1), (1, -1, -1), (-1, 1, -1), (-1, -1, 1)],
    "cube": [(1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)],
    "octahedron": [(a, b, c) for a, b, c in product((1, -1), repeat=3)],
    "dodecahedron": [
        way for a, b in product((1, -1), (GOLDEN, -GOLDEN))
        for way in ((0, a, b), (a, b, 0), (b, 0, a))
    ],
    "icosahedron": [
        *((a, b, c) for a, b, c in product((1, -1), repeat=3)),
        *(way for a, b in product((1 / GOLDEN, -1 / GOLDEN), (GOLDEN, -GOLDEN))
          for way in ((0, a, b), (a, b, 0), (b, 0, a))),
    ],
}  # fmt: skip
"""Ways square to the faces: corners of the dual solid."""


def solid(kind: str, edge: float) -> Any:
    """A regular solid: a block cut by planes at distance 1, enlarged until its edge is right."""
    from build123d import Box

    planes = []
    for way in NORMALS[kind]:
        size = math.hypot(*way)
        at = tuple(each / size for each in way)
        planes.append((at, tuple(-each for each in at)))
    body = cut_by(Box(20, 20, 20), planes)
    lengths = [length(each) for each in body.edges()]
    assert max(lengths) - min(lengths) < 1e-9
    return body.scale(edge / lengths[0])


def hollowed(body: Any, thickness: float, openings: Sequence[Any]) -> Any:
    """The body less its own offset inwards; through the openings where there are some."""
    from build123d import Kind, offset

    if openings:
        return offset(body, -thickness, openings=list(openings), kind=Kind.INTERSECTION)
    return body - offset(body, -thickness, kind=Kind.INTERSECTION)


def bevelled(points: Sequence[Point], bevels: Sequence[float], thickness: float) -> Any:
    """A plate on its outside: each edge leans inwards by its bevel [deg] as it rises."""
    planes: list[tuple[Vector, Vector]] = []
    for (a, b), bevel in zip(zip(points, [*points[1:], points[0]], strict=True), bevels,
                             strict=True):  # fmt: skip
        size, turn = math.dist(a, b), math.radians(bevel)
        inwards = ((a[1] - b[1]) / size, (b[0] - a[0]) / size)
        c = math.cos(turn)
        planes.append(((*a, 0.0), (inwards[0] * c, inwards[1] * c, -math.sin(turn))))
    return cut_by(block(thickness), planes)


def regular(sides: int, side: float) -> list[Point]:
    """Corners of a regular polygon with this side, anticlockwise [mm]."""
    radius = side / 2 / math.sin(math.pi / sides)
    turns = (math.tau * number / sides for number in range(sides))
    return [(radius * math.cos(turn), radius * math.sin(turn)) for turn in turns]


CORNERS = {"tetrahedron": 3, "cube": 4, "octahedron": 3, "dodecahedron": 5, "icosahedron": 3}


def facet_form(plan: Plan, tables: Mapping[str, Any]) -> Bodies:
    """The form in one where it is folded, its plates where they are cut apart."""
    if tables["sizes"].get("way", "folded") == "folded":
        return {"form": whole(plan, tables)}
    q = values(plan)
    thickness, made = q["sheet_thickness"], {}
    for part in plan.parts:
        points, bevels = _face(part.id, q, tables["sizes"])
        for part_solid in part.solids:
            made[part_solid.body.id] = bevelled(points, bevels, thickness)
    return made


def _face(id: str, q: Mapping[str, float], sizes: Mapping[str, Any]) -> tuple[list[Point], Any]:
    """A plate's outside corners and the bevel of each edge, as printed."""
    kind = sizes["kind"]
    if kind in CORNERS:
        points = regular(CORNERS[kind], q["edge"])
        first = q["bevel_base"] if id == "rim_face" else q["bevel"]
        return points, [first, *[q["bevel"]] * (len(points) - 1)]
    sides = int(q["sides"])
    if id in ("base", "top"):
        side = q["base_side"] if id == "base" or kind == "prism" else q["top_side"]
        return regular(sides, side), [q[f"bevel_{id}"]] * sides
    wide, high = q["base_side"] / 2, q.get("slant_height", q["height"])
    if kind == "pyramid":
        return [(-wide, 0), (wide, 0), (0, high)], [q["bevel_base"], q["bevel"], q["bevel"]]
    narrow = q.get("top_side", q["base_side"]) / 2
    points = [(-wide, 0), (wide, 0), (narrow, high), (-narrow, high)]
    return points, [q["bevel_base"], q["bevel"], q["bevel_top"], q["bevel"]]


def outside(plan: Plan, tables: Mapping[str, Any]) -> Any:
    """The form's outside as a solid."""
    q, kind = values(plan), tables["sizes"]["kind"]
    if kind in CORNERS:
        return solid(kind, q["edge"])
    top = {"prism": q["across_flats"], "pyramid": 0.0}.get(kind, q.get("top_across_flats", 0.0))
    return walled(int(q["sides"]), q["across_flats"], top, q["height"])


def whole(plan: Plan, tables: Mapping[str, Any]) -> Any:
    """The form in sheet, in one."""
    body, sizes = outside(plan, tables), tables["sizes"]
    by_height = sorted(body.faces(), key=lambda face: face.center().Z)
    openings = []
    if sizes.get("base") == "open":
        openings.append(by_height[0])
    if sizes.get("top") == "open" and sizes["kind"] in ("prism", "frustum"):
        openings.append(by_height[-1])
    return hollowed(body, values(plan)["sheet_thickness"], openings)


def knuckle_hinge(plan: Plan, tables: Mapping[str, Any]) -> Bodies:
    """Knuckles and pin turned; each leaf a block less the cylinder that lies in its seat."""
    from build123d import Align, Box, Pos, Rot

    q = values(plan)
    outer = q["hinge_tube_outside_diameter"]
    made = {}
    for part in plan.parts:
        for part_solid in part.solids:
            id = part_solid.body.id
            if id.startswith("knuckle"):
                name = "knuckle_length" if int(id[8:]) % 2 else "inner_knuckle_length"
                made[id] = tube(outer, q["hinge_bore"], q[name])
    made["hinge_pin"] = cylinder(q["hinge_pin_diameter"], q["pin_length"])
    thick, long = q["leaf_sheet_thickness"], q["leaf_length"]
    level = tables["sizes"]["hinge"].get("level", "middle")
    low = -thick if level == "face" else -thick / 2
    stands = (Align.MIN, Align.MIN, Align.MIN)
    leaf = Pos(0, 0, low) * Box(long, q["leaf_depth"], thick, align=stands)
    along = Rot(0, 90, 0) * cylinder(outer, 3 * long, -long)
    return made | {"outer_leaf": leaf - along, "inner_leaf": leaf - along}
