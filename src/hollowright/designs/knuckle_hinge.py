"""A hinge with its two leaves: knuckles of tube on a pin, a plate on each side."""

from __future__ import annotations

import math

from hollowright.designs import hinge
from hollowright.designs.brief import Brief
from hollowright.designs.fields import Design, Example, Field
from hollowright.designs.hinge import Hinge
from hollowright.designs.hinge_bodies import NOWHERE, Leaf, Place
from hollowright.designs.stocks import density, sheet_fields, sheet_stock
from hollowright.formulas import hinge_seat
from hollowright.piece import Blank, Part, Piece, Solid, Work, by_id
from hollowright.quantity import Quantity
from hollowright.shapes.curves import Arc, Line, Point
from hollowright.shapes.extruded import Extruded
from hollowright.shapes.outline import Outline, rectangle
from hollowright.shapes.space import Vector, add
from hollowright.units import format_number

ALONG: Vector = (1.0, 0.0, 0.0)
WAYS: dict[str, Vector] = {"outer": (0.0, -1.0, 0.0), "inner": (0.0, 1.0, 0.0)}

LEAVES_OUT = 3.2
"""Leaves are drawn apart by so many diameters of the tube."""

FIELDS = (
    *sheet_fields("leaf_sheet", "leaves' sheet"),
    *hinge.FIELDS,
    Field("sizes.leaf_length", "leaf_length", "length", "length of a leaf",
          "along the pin; as the hinge is wide unless you say so", "31.6 mm", low=3, high=600),
    Field("sizes.leaf_depth", "leaf_depth", "length", "depth of a leaf",
          "from the pin's middle to the far edge", "14.3 mm", required=True, low=2, high=600),
)  # fmt: skip


def build(b: Brief) -> Piece:
    """The piece of a brief: every size net, every number with its working."""
    thickness = b.leaf_sheet_thickness
    outer = Leaf("outer_leaf", "the outer leaf", WAYS["outer"])
    inner = Leaf("inner_leaf", "the inner leaf", WAYS["inner"])
    radius = b.hinge_tube_outside_diameter.value / 2
    place = Place((0.0, 0.0, radius), ALONG)
    made = hinge.hinge(b, b.hinge_width, thickness, outer, inner, place, after=("cut_leaves",))
    length = _leaf_length(b)
    if b.leaf_depth.value <= radius + 1:
        raise b.refuse(
            "leaf_depth",
            f"the knuckles alone reach {format_number(radius)} mm.",
            "Measure it from the pin's middle to the leaf's far edge.",
        )
    width = hinge_seat.leaf_width(b.leaf_depth, made.lip)
    leaves = _leaves(b, made, length, width)
    return Piece(
        title=b.title,
        design="knuckle-hinge",
        quantities=by_id(*made.quantities, thickness, length, b.leaf_depth, width),
        stocks=(sheet_stock(b, "leaf_sheet", "leaves' sheet"), *made.stocks),
        parts=(*leaves, *made.parts),
        joints=made.joints,
        fits=(),
        work=(_cut_leaves(), *made.work),
        cautions=(*b.cautions, *made.cautions),
        changes=tuple(b.changes),
        inches=b.inches,
    )


def _leaf_length(b: Brief) -> Quantity:
    if not b.has("leaf_length"):
        return b.hinge_width.named("leaf_length", "length of a leaf")
    if b.leaf_length.value < b.hinge_width.value - 1e-9:
        raise b.refuse(
            "leaf_length", "it is shorter than the hinge: the last knuckles have no seat.",
            "Make it as long as the hinge is wide, or longer.",
        )  # fmt: skip
    return b.leaf_length


def _leaves(b: Brief, made: Hinge, length: Quantity, width: Quantity) -> tuple[Part, ...]:
    thickness, dense = b.leaf_sheet_thickness, density(b.metal("leaf_sheet_metal"))
    blank = Blank("plate", rectangle(length.value, width.value), {"length": length, "width": width})
    weight = hinge_seat.leaf_mass(length, b.leaf_depth, thickness, made.section, dense)
    found = []
    for name in ("outer", "inner"):
        id, label = f"{name}_leaf", f"{name} leaf"
        named = weight.named(f"{id}_mass", f"weight of the {label}")
        solid = _leaf_solid(b, name, length.value)
        found.append(Part(id, label, "leaf_sheet", blank, named, 1, (solid,)))
    return tuple(found)


def _leaf_solid(b: Brief, name: str, length: float) -> Solid:
    """A leaf lying flat, its seat round the pin, its middle or its face level with it."""
    tube, thickness = b.hinge_tube_outside_diameter.value, b.leaf_sheet_thickness.value
    top = 0.0 if b.word("hinge_level") == "face" else thickness / 2
    section = _section(b.leaf_depth.value, tube / 2, top, thickness)
    start = (-(length - b.hinge_width.value) / 2, 0.0, tube / 2)
    outline = section if name == "outer" else _mirrored(section)
    body = Extruded(f"{name}_leaf", outline, length, start, ALONG, (0.0, 1.0, 0.0))
    return Solid(f"{name} leaf", body, pull=add(NOWHERE, WAYS[name], LEAVES_OUT * tube))


def _section(depth: float, radius: float, top: float, thickness: float) -> Outline:
    """The outer leaf's section round the pin, the leaf at y under 0, z up [mm]."""
    low = top - thickness
    high_turn, low_turn = (math.pi - math.asin(z / radius) for z in (top, low))
    near_high: Point = (radius * math.cos(high_turn), top)
    near_low: Point = (radius * math.cos(low_turn), low)
    far_low, far_high = (-depth, low), (-depth, top)
    seat = Arc((0.0, 0.0), radius, low_turn, high_turn - low_turn)
    return Outline(
        (Line(near_high, far_high), Line(far_high, far_low), Line(far_low, near_low), seat)
    )


def _mirrored(outline: Outline) -> Outline:
    """The inner leaf's section: the outer one's on the other side of the pin."""
    found: list[Line | Arc] = []
    for each in reversed(outline.segments):
        (x0, y0), (x1, y1) = each.start, each.end
        if isinstance(each, Arc):
            turn = math.pi - (each.start_angle + each.sweep)
            found.append(Arc((0.0, 0.0), each.radius, turn, each.sweep))
        else:
            found.append(Line((-x1, y1), (-x0, y0)))
    return Outline(tuple(found))


def _cut_leaves() -> Work:
    return Work(
        "cut_leaves", "cut", "Cut the leaves",
        "Mark two plates of {outer_leaf_cut_length} along the pin by {outer_leaf_cut_width}, saw "
        "on the waste side and file both together to {leaf_length} by {leaf_width}, the edges at "
        "the pin straight and square.",
        marks=("outer_leaf_cut_length", "outer_leaf_cut_width"), about=("leaf_sheet",),
    )  # fmt: skip


STRIKER = Example(
    "hinge of the striker box",
    """title = "Hinge of the brass striker box"
design = "knuckle-hinge"

[stock.leaf_sheet]
metal = "C26000"
thickness = ["0.81", "0.82"]
length = "200 mm"
width = "80 mm"

[stock.hinge_tube]
metal = "C26000"
outside_diameter = ["3.05", "3.04"]     # two ways, square to each other
wall = ["0.51", "0.52"]                 # with a ball or knife-edge jaw
length = "120 mm"

[stock.hinge_pin]
metal = "C26000"
diameter = ["1.95", "1.96"]
length = "100 mm"

[sizes]
leaf_depth = "14.3 mm"     # from the pin's middle to the far edge

[sizes.hinge]
width = "31.7 mm"          # over all knuckles
knuckles = 5               # odd: one leaf holds both ends
lengths = "equal"          # or: "equal-share"
level = "middle"           # or: "face", the leaves fold flat on each other
# gap = "0.05 mm"          # between two knuckles; the shop's

[as_built]                 # readings taken as the work goes
# knuckle_length = ["6.28", "6.27"]
""",
    {
        "knuckle_length": (31.7 - 4 * 0.05) / 5,
        "hinge_bore": 3.045 - 2 * 0.515,
        "pin_clearance": 3.045 - 2 * 0.515 - 1.955,
        "pin_length": 31.7 + 2 * 0.75 * 1.955,
        "leaf_width": 14.3 - math.sqrt(3.045**2 - 0.815**2) / 2,
    },
    "addition and Pythagoras, worked by hand from the readings' means",
    1e-4,
)

CASKET = Example(
    "hinge that folds flat, in inches",
    """title = "Hinge of the class's folding stand"
design = "knuckle-hinge"

[stock.leaf_sheet]
metal = "C22000"
thickness = ["0.0402 in", "0.0405 in"]

[stock.hinge_tube]
metal = "C26000"
outside_diameter = ["0.1562 in", "0.1560 in"]
wall = ["0.0140 in", "0.0142 in"]

[stock.hinge_pin]
metal = "C26000"
diameter = ["0.1250 in", "0.1255 in"]

[sizes]
leaf_length = "2 1/2 in"
leaf_depth = "1 1/8 in"          # from the pin's middle to the far edge

[sizes.hinge]
width = "2 3/8 in"
knuckles = 7
lengths = "equal-share"          # each leaf holds half of the tube
gap = "0.003 in"
level = "face"                   # the leaves fold flat on each other
""",
    {
        "knuckle_length": 25.4 * (2.375 - 6 * 0.003) / 8,
        "inner_knuckle_length": 25.4 * (2.375 - 6 * 0.003) / 6,
        "knuckle_row": 25.4 * 2.375,
        "pin_clearance": 25.4 * (0.1561 - 2 * 0.0141 - 0.12525),
    },
    "addition, worked by hand: half of the tube to each leaf",
    1e-4,
)

DESIGN = Design(
    id="knuckle-hinge",
    title="Hinge of tube knuckles",
    summary="An odd number of knuckles on a riveted pin, two leaves; equal or equally shared.",
    fields=FIELDS,
    build=build,
    examples=(STRIKER, CASKET),
)
