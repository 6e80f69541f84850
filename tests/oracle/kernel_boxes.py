"""Walled boxes as the CAD kernel makes them: its own outlines, their offsets, drawn out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hollowright.plan.plan import Plan
from tests.oracle.kernel import Bodies, cylinder, values
from tests.oracle.kernel_lines import drawing, ellipse, parallel
from tests.oracle.kernel_tubes import hinge


def outline(q: Mapping[str, float], asked: Mapping[str, Any]) -> Any:
    """The outside of a box, seen from above, as the kernel draws it."""
    from build123d import Edge, Rectangle, RectangleRounded, RegularPolygon, Wire

    shape = asked["shape"]
    if shape == "circle":
        return Wire([Edge.make_circle(q["outline_diameter"] / 2)])
    if shape == "polygon":
        sides = int(q["outline_sides"])
        flats = q["outline_across_flats"]
        flat_below = 90 + 180 / sides  # the kernel's own begins with a corner on x
        return RegularPolygon(flats / 2, sides, major_radius=False, rotation=flat_below).wire()
    if shape == "path":
        return Wire(drawing(asked["file"], float(asked.get("scale", 1.0))))
    length, width = q["outline_length"], q["outline_width"]
    if shape == "oval":
        return ellipse(length, width)
    if "corner_radius" in asked:
        return RectangleRounded(length, width, millimetres(asked["corner_radius"])).wire()
    return Rectangle(length, width).wire()


def millimetres(text: Any) -> float:
    """A length of the piece file."""
    return float(str(text).removesuffix("mm"))


def slab(wire: Any, height: float) -> Any:
    """What a wire encloses, drawn out upwards [mm]."""
    from build123d import Face, extrude

    return extrude(Face(wire), height, (0, 0, 1))


def wall(outer: Any, inner: Any, height: float) -> Any:
    """What lies between two wires, drawn out upwards [mm]."""
    from build123d import Face, extrude

    return extrude(Face(outer, [inner]), height, (0, 0, 1))


def walled_box(plan: Plan, tables: Mapping[str, Any]) -> Bodies:
    """Walls between parallel wires; base and top drawn out; ring, rim or cap along the walls."""
    q, sizes = values(plan), tables["sizes"]
    face = outline(q, sizes["outline"])
    t, plate = q["wall_sheet_thickness"], q["plate_sheet_thickness"]
    inside = parallel(face, t)
    let_in, within = q.get("let_in_depth", 0.0), plate if "let_in_depth" in q else 0.0
    found = {
        "body_wall": wall(face, inside, q["body_depth"] + within),
        "base": slab(parallel(face, let_in), plate),
    }
    over = face
    if "lid_wall_length" in q:
        gap = q["clearance"] / 2
        over = parallel(face, -gap - t)
        found["lid_wall"] = wall(over, parallel(face, -gap), q["lid_wall_height"])
    else:
        found["lid_wall"] = wall(face, inside, q["lid_depth"] + within)
    found["top"] = slab(parallel(over, let_in), plate)
    thick = q.get("ring_thickness", 0.0)
    if "ring_width" in q:
        depth = t + q["lid_gap"] / 2
        ring = (parallel(face, depth), parallel(face, depth + thick))
        found["ring"] = wall(*ring, q["ring_width"])
    if "rim_width" in q:
        gap = q["clearance"] / 2
        found["rim"] = wall(parallel(face, -gap - thick), parallel(face, -gap), q["rim_width"])
    return found | hinged(found, q) if "hinge_width" in q else found


def hinged(found: Bodies, q: Mapping[str, float]) -> Bodies:
    """Knuckles and pin, and both walls less a rod along the side that faces us, at their edge."""
    from build123d import Pos, Rot

    wide, front = q["hinge_width"], found["base"].bounding_box().min.Y
    rod = Rot(0, 90, 0) * cylinder(q["hinge_tube_outside_diameter"], wide, -wide / 2)
    rim = q["body_wall_height"]
    return hinge(q) | {
        "body_wall": found["body_wall"] - Pos(0, front, rim) * rod,
        "lid_wall": found["lid_wall"] - Pos(0, front, 0) * rod,
    }
