"""A branch of tube on a main of tube, at any angle and offset; or on another piece's round wall."""

from __future__ import annotations

import math
from dataclasses import replace

from hollowright.designs.brief import Brief
from hollowright.designs.fields import Design, Example, Field
from hollowright.designs.stocks import bar_stock, density, tube_fields
from hollowright.designs.tube_paper import cut_field, lines_along
from hollowright.designs.tube_saddle_bodies import Crossing
from hollowright.designs.tube_saddle_sizes import (
    Edge,
    Hole,
    Papers,
    edge_of,
    hole_of,
    papers_of,
    proud_where,
    seam_of,
    square_notes,
)
from hollowright.designs.tube_saddle_work import saddle_work
from hollowright.errors import Caution
from hollowright.formulas import mass, saddle, saddle_hole, tube
from hollowright.piece import (
    Blank,
    Joint,
    Opening,
    Part,
    Piece,
    Solid,
    Stock,
    Template,
    by_id,
)
from hollowright.piece import Scribe as Mark
from hollowright.quantity import Quantity
from hollowright.shapes.curves import Line
from hollowright.shapes.outline import rectangle
from hollowright.units import format_number

EDGE = 0.5
"""How near an end of the main a hole may come [mm]."""

OF_HOST = {
    "metal": "metal",
    "outside_diameter": "diameter",
    "wall": "thickness",
    "length": "high",
    "temper": "temper",
}
"""What of the wall that it is joined to fills the fields of the main."""

FIELDS = (
    *(
        replace(field, of_host=OF_HOST[field.path.rpartition(".")[2]])
        for field in tube_fields("main", "main", "40.00 mm", "1.00 mm")
    ),
    *tube_fields("branch", "branch", "20.00 mm", "1.00 mm"),
    Field(
        "sizes.main_length", "length_of_main", "length", "main's length",
        "from its foot to its far end", "90 mm", required=True, low=3, high=3000, of_host="high",
    ),
    Field(
        "sizes.at", "at", "length", "place of the branch",
        "where the two axes meet, along the main from its foot", "40 mm", required=True, high=3000,
    ),
    Field(
        "sizes.around", "around", "angle", "place round the main",
        "to the right, its foot down, from its seam or any line that you scribe along it",
        "0 deg", default="0 deg", low=0, high=360,
    ),
    Field(
        "sizes.angle", "angle", "angle", "angle between the axes",
        "under 90 the branch leans away from the main's foot", "60 deg", default="90 deg",
        low=20, high=160,
    ),
    Field(
        "sizes.offset", "offset", "length", "offset of the axes",
        "how far the branch's axis passes beside the main's: over 0 to the right, the main's foot "
        "down and the branch towards you", "3 mm", default="0 mm",
        low=-300, high=300, signed=True,
    ),
    Field(
        "sizes.length", "length", "length", "branch's length",
        "along its axis to its square end", "45 mm", required=True, low=1, high=3000,
    ),
    Field(
        "sizes.length_from", "length_from", "choice", "length counted from",
        "the main's axis, or the main's outside where the branch leaves it",
        "axis", default="axis", choices=("axis", "surface"),
    ),
    Field(
        "sizes.joint", "joint", "choice", "joint",
        "set-on: the branch stands on the main; let-in: it reaches through to the bore",
        "set-on", default="set-on", choices=("set-on", "let-in"),
    ),
    cut_field("square"),
)  # fmt: skip


def build(b: Brief) -> Piece:
    """The piece of a brief: every size net, every number with its working."""
    alone = b.host is None
    crossing = _crossing(b)
    edge = edge_of(b)
    _long_enough(b, edge)
    papers, hole, seam = papers_of(b, edge), hole_of(b, edge), seam_of(b, edge)
    if alone:
        _on_the_main(b, crossing)
    taken = saddle_hole.hole_mass(hole.volume, density(b.metal("main_metal")))
    taken = taken.named("hole_mass", "weight taken out of the main")
    notes = square_notes(b, edge)
    proud = proud_where(b, notes)
    return Piece(
        title=b.title,
        design="tube-saddle",
        quantities=by_id(
            *((b.main_outside_diameter, b.main_wall, b.length_of_main) if alone else ()),
            b.branch_outside_diameter, b.branch_wall, b.angle, b.offset, b.at, b.around,
            edge.seat, edge.bore, edge.outer, edge.axis_length, edge.highest,
            edge.deepest, edge.long, edge.short, *papers.shown, *hole.shown, taken, seam, *notes,
        ),
        stocks=_stocks(b, alone),
        parts=_parts(b, crossing, edge, taken, alone),
        joints=(_joint(b, seam, alone),),
        fits=(),
        work=saddle_work(
            b.word("joint"), b.word("cut"), alone, proud, turned=b.around.value > 0,
        ),
        cautions=(*b.cautions, *_cautions(proud)),
        changes=tuple(b.changes),
        inches=b.inches,
        templates=(_branch_paper(b, crossing, papers, edge), _hole_paper(b, crossing, hole)),
        openings=() if alone else (Opening(crossing.hole_body(), taken, _past_the_hole(b)),),
    )  # fmt: skip


def _past_the_hole(b: Brief) -> tuple[float, float]:
    """How far the branch's wall reaches past its hole, along the main and round it [mm]."""
    if b.word("joint") != "set-on":
        return 0.0, 0.0
    wall = b.branch_wall.value
    return wall / math.sin(math.radians(b.angle.value)), wall


def _crossing(b: Brief) -> Crossing:
    """The two tubes in plain numbers; refused where the branch misses the main."""
    for id in ("main", "branch"):
        outside, wall = b.quantity(f"{id}_outside_diameter"), b.quantity(f"{id}_wall")
        if 2 * wall.value >= outside.value:
            raise b.refuse(
                f"{id}_wall", "it leaves no bore in this tube.", "Read both again; mind the unit."
            )
    found = Crossing(
        b.main_outside_diameter.value, b.main_wall.value, b.branch_outside_diameter.value,
        b.branch_wall.value, b.angle.value, b.offset.value,
        "set-on" if b.word("joint") == "set-on" else "let-in", b.word("cut"),
    )  # fmt: skip
    aside, room = abs(found.offset), found.main / 2 - found.main_wall
    widest = found.branch / 2
    where = "bore" if found.joint == "let-in" else "outside"
    if widest > found.seat:
        raise b.refuse(
            "branch_outside_diameter",
            f"the branch, {format_number(found.branch)} mm, is wider than the main's {where}, "
            f"{format_number(2 * found.seat)} mm.",
            "Take a thinner branch, or swap the two.",
        )
    if aside + widest > found.seat:
        raise b.refuse(
            "offset",
            f"offset {format_number(aside)} and half the branch {format_number(widest)} reach past "
            f"the main's {where}, {format_number(found.seat)} mm from its axis.",
            f"Stay within {format_number(found.seat - widest)} mm.",
        )
    if aside + found.hole >= 0.999 * room:
        raise b.refuse(
            "offset" if aside else "branch_wall",
            f"the hole reaches {format_number(aside + found.hole)} mm aside and the main's bore "
            f"only {format_number(room)}: it would split the main along its side.",
            "Take a narrower bore, or move the branch to the middle.",
        )
    return found


def _long_enough(b: Brief, edge: Edge) -> None:
    if edge.short.value < EDGE:
        raise b.refuse(
            "length",
            f"the saddle reaches {format_number(edge.highest.value)} mm from the main's axis and "
            f"the branch ends at {format_number(edge.axis_length.value)} mm.",
            "Make it longer.",
        )


def _on_the_main(b: Brief, crossing: Crossing) -> None:
    """Refuse a hole, or a branch, that runs over an end of the main."""
    reached = [
        crossing.reach(crossing.seat, crossing.branch / 2),
        crossing.reach(crossing.main / 2, crossing.hole),
    ]
    low = b.at.value + min(low for low, _ in reached)
    high = b.at.value + max(high for _, high in reached)
    if low < EDGE or high > b.length_of_main.value - EDGE:
        raise b.refuse(
            "at",
            f"the branch meets the main from {format_number(low)} to {format_number(high)} mm and "
            f"the main runs from 0 to {format_number(b.length_of_main.value)} mm.",
            "Move it, or make the main longer.",
        )


def _stocks(b: Brief, alone: bool) -> tuple[Stock, ...]:
    branch = bar_stock(b, "branch", "branch tube", "tube", cuts=1)
    return (bar_stock(b, "main", "main tube", "tube", cuts=1), branch) if alone else (branch,)


def _parts(
    b: Brief, crossing: Crossing, edge: Edge, taken: Quantity, alone: bool
) -> tuple[Part, ...]:
    up = (0.0, 0.0, crossing.main / 2 if alone else 0.0)
    outside, wall = b.branch_outside_diameter, b.branch_wall
    mean = saddle.below(edge.axis_length, edge.mean).named("", "branch's mean length")
    weight = mass.tube_mass(outside, wall, mean, density(b.metal("branch_metal")))
    volume = tube.section(outside.value, wall.value) * mean.value
    body = crossing.branch_body(edge.axis_length.value, volume).moved(up)
    away = 0.6 * crossing.main
    pull = (crossing.way[0] * away, 0.0, crossing.way[2] * away)
    branch = Part(
        "branch", "branch", "branch",
        Blank("tube", rectangle(outside.value, edge.long.value),
              {"diameter": outside, "length": edge.long}, sawn_ends=2, square_ends=1),
        weight.named("branch_mass", "weight of the branch"),
        solids=(Solid("branch", body, pull=pull),),
    )  # fmt: skip
    return (_main(b, crossing, taken), branch) if alone else (branch,)


def _main(b: Brief, crossing: Crossing, taken: Quantity) -> Part:
    outside, wall, length = b.main_outside_diameter, b.main_wall, b.length_of_main
    dense = density(b.metal("main_metal"))
    whole = mass.tube_mass(outside, wall, length, dense).named("", "weight of the tube")
    weight = saddle_hole.less_hole(whole, taken)
    volume = weight.value / dense.value * 1000
    body = crossing.main_body(length.value, b.at.value, volume)
    lying = body.moved((0.0, 0.0, crossing.main / 2))
    return Part(
        "main", "main", "main",
        Blank("tube", rectangle(outside.value, length.value),
              {"diameter": outside, "length": length}, sawn_ends=2, square_ends=1),
        weight, solids=(Solid("main", lying, pull=(0.0, 0.0, 0.0)),),
    )  # fmt: skip


def _joint(b: Brief, seam: Quantity, alone: bool) -> Joint:
    lap = b.branch_wall if b.word("joint") == "set-on" else b.main_wall
    parts = ("branch", "main" if alone else "host")
    return Joint("saddle", "branch on the main", parts, seam, lap)


def _branch_paper(b: Brief, crossing: Crossing, papers: Papers, edge: Edge) -> Template:
    straight = edge.highest.value + papers.margin.value
    band = crossing.paper(straight, b.shop("paper").value)
    fine = tuple(side * turn for turn in (30, 60, 120, 150) for side in (1, -1))
    sizes = {"length": papers.length, "width": papers.height}
    sizes |= {f"at_{turn}_degrees": size for turn, size in papers.ordinates.items()}
    return Template(
        "branch_template", "template of the branch", band.outline().moved(0.0, -straight), sizes,
        "Wrap it printed side out, the straight edge towards the square end; its ends meet on the "
        "far side. Distances are counted from the straight edge.",
        tuple(
            replace(mark, curve=mark.curve.moved(0.0, -straight))
            for mark in lines_along(band, {0: "foot's side", 90: "side", -90: "side"}, fine)
        ),
    )  # fmt: skip


def _hole_paper(b: Brief, crossing: Crossing, hole: Hole) -> Template:
    width, length = (side.value for side in hole.sides)
    paper = b.shop("paper").value
    outline = crossing.hole_paper(paper, width, length, hole.shift.value)
    aside = -hole.aside.value * (1 + paper / crossing.main)
    return Template(
        "hole_template", "template of the hole", outline,
        {"length": hole.sides[0], "width": hole.sides[1],
         "hole_width": hole.width, "hole_length": hole.length},
        f"Bend it round the main printed side out, its upright line along the tube, the main's "
        f"foot below. {_hole_line(b)}",
        (
            Mark(
                Line((aside, -length / 2), (aside, length / 2)),
                "line along the main, the foot below",
            ),
            Mark(Line((-width / 2, 0.0), (width / 2, 0.0)), "round the main, at the hole's middle"),
        ),
    )  # fmt: skip


def _hole_line(b: Brief) -> str:
    """What the line on the hole's paper is, and how it is cut."""
    whose = "bore" if b.word("joint") == "set-on" else "outside"
    return (
        f"The line is the branch's {whose} on the main's outside: saw and file along the branch's "
        "axis, so that the hole is as wide inside."
    )


def _cautions(proud: str) -> tuple[Caution, ...]:
    """What to mind: a square edge that stands past the main, and where."""
    if not proud:
        return ()
    text = (
        f"An edge cut square on the inside's line stands proud {proud}, and is filed there. "
        'With cut = "unfiled" the paper follows what meets first, '
        'and nothing is filed; "bevelled" makes the closest joint.'
    )
    return (Caution("square_edge_slants", text, "joint", "cut"),)


SPOUT = Example(
    "filler neck",
    """title = "Filler neck on a lamp's crosstube"
design = "tube-saddle"

[stock.main]
metal = "C26000"
outside_diameter = ["34.93", "34.90", "34.96"]   # round the tube, 60 degrees apart
wall = ["1.02", "1.01"]                          # with a ball or knife-edge jaw
length = "140 mm"

[stock.branch]
metal = "C26000"
outside_diameter = ["15.88", "15.86"]
wall = ["0.81", "0.82"]
length = "90 mm"

[sizes]
main_length = "86 mm"
at = "31 mm"               # where the axes meet, from the main's foot
around = "0 deg"           # from the line that you count from, its seam
angle = "64 deg"           # between the axes; under 90 it leans away from the foot
offset = "2.4 mm"          # how far the branch's axis passes beside the main's
length = "23 mm"
length_from = "surface"    # of the main; or: "axis"
joint = "set-on"           # or: "let-in"
cut = "unfiled"            # or: "square", "bevelled"
""",
    {
        "template_length": math.pi * (15.87 + 0.1),
        "hole_width": 17.515 * (math.asin(9.52 / 17.465) - math.asin(-4.72 / 17.465)),
        "axis_length": 23 + math.sqrt(17.465**2 - 2.4**2) / 0.89879405,
    },
    "plane geometry, worked by hand: the bore's radius 7.935 - 0.815 = 7.12; sin 64 0.89879405",
    1e-4,
)

TEE = Example(
    "tee, in inches",
    """title = "Tee for the drip stand"
design = "tube-saddle"

[stock.main]
metal = "C22000"
outside_diameter = ["1.000 in", "1.001 in"]
wall = "0.040 in"

[stock.branch]
metal = "C22000"
outside_diameter = ["0.500 in", "0.501 in"]
wall = "0.031 in"

[sizes]
main_length = "3 1/4 in"
at = "1 5/8 in"
around = "27 deg"
length = "1 3/4 in"
""",
    {
        "deepest": 25.4 * math.sqrt(0.50025**2 - 0.21925**2),
        "highest": 25.4 * 0.50025,
        "hole_length": 25.4 * 2 * 0.21925,
        "long_side": 25.4 * (1.75 - math.sqrt(0.50025**2 - 0.21925**2)),
        "ride_up": 25.4 * (math.sqrt(0.50025**2 - 0.21925**2) - math.sqrt(0.50025**2 - 0.25025**2)),
    },
    "plane geometry, worked by hand: bore's radius 0.25025 - 0.031 in",
    1e-4,
)

DESIGN = Design(
    id="tube-saddle",
    title="Branch on a tube",
    summary="A tube saddled on another, or a spout on a wall: papers for edge and hole.",
    fields=FIELDS,
    build=build,
    examples=(SPOUT, TEE),
)
