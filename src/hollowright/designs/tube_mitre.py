"""Tube cut slanting by a plane: one mitred leg, or an elbow of two and more pieces."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from hollowright.designs.brief import Brief
from hollowright.designs.fields import Design, Example, Field
from hollowright.designs.stocks import bar_stock, density, temper_of, tube_fields
from hollowright.designs.tube_mitre_bodies import Length, finished, frames, looped, pulls
from hollowright.designs.tube_mitre_paper import Kind, Mitre, templates
from hollowright.designs.tube_mitre_work import mitre_work
from hollowright.designs.tube_paper import FIBRES, cut_field
from hollowright.errors import Caution
from hollowright.formulas import elbow, mass, mitre, tube
from hollowright.piece import Blank, Joint, Part, Piece, Solid, Wall, by_id
from hollowright.quantity import Quantity
from hollowright.shapes.outline import rectangle
from hollowright.units import format_number

FROM = ("axis", "long-side", "short-side")
FIELDS = (
    *tube_fields("tube", "tube"),
    Field(
        "sizes.angle", "angle", "angle", "angle of the cut",
        "from square: half of what the joint turns by; or give the bend of an elbow", "22.5 deg",
        low=0.5, high=75,
    ),
    Field(
        "sizes.bend", "bend", "angle", "bend of an elbow",
        "from straight, instead of the angle of each cut", "90 deg", low=1, high=180,
    ),
    Field(
        "sizes.pieces", "pieces", "count", "pieces of tube",
        "1: one leg with a mitred end; 2 and more: an elbow", "2", default="1", low=1, high=12,
    ),
    Field(
        "sizes.length", "length", "length", "leg's length",
        "from its square end to the cut", "60 mm", required=True, low=1, high=3000,
    ),
    Field(
        "sizes.length_to", "length_to", "choice", "length measured",
        "along the axis, or along the finished outside on the long or the short side",
        "axis", default="axis", choices=FROM,
    ),
    Field(
        "sizes.last_length", "last_length", "length", "last leg's length",
        "of an elbow, measured alike; left out, both legs are alike", "40 mm", low=1, high=3000,
    ),
    Field(
        "sizes.radius", "radius", "length", "radius of the bend",
        "to the axis, of an elbow of three pieces and more", "45 mm", low=2, high=2000,
    ),
    cut_field("bevelled"),
)  # fmt: skip


def build(b: Brief) -> Piece:
    """The piece of a brief: every size net, every number with its working."""
    count = int(b.pieces.value)
    _fields_go_together(b, count)
    m = _mitre(b, count)
    kinds = _kinds(b, m, count)
    short = mitre.short_side(kinds[0].axis, m.outer_rise, 1)
    asked = (b.length, *((b.last_length,) if b.has("last_length") else ()))
    lengths = dict.fromkeys((*asked, *(kind.axis for kind in kinds)))
    round_it = mitre.joint_length(b.tube_outside_diameter, b.tube_wall, m.angle)
    papers, shown = templates(b, m, kinds)
    return Piece(
        title=b.title,
        design="tube-mitre",
        quantities=by_id(
            b.tube_outside_diameter, b.tube_wall, *m.shown, *lengths,
            *(kind.long for kind in kinds), short,
            _mouth(b, m), round_it, *shown,
        ),
        stocks=(bar_stock(b, "tube", "tube", "tube", cuts=count),),
        parts=_parts(b, m, kinds, count),
        joints=_joints(b, kinds, count, round_it),
        fits=(),
        work=mitre_work(b.word("cut"), kinds),
        cautions=(*b.cautions, *_cautions(b)),
        changes=tuple(b.changes),
        inches=b.inches,
        foot=b.tube_outside_diameter,
        templates=papers,
        walls=(
            Wall("leg", b.tube_outside_diameter, b.tube_wall, b.metal("tube_metal"), 0.0,
                 short.value, temper=temper_of(b, "tube")),
        ),
    )  # fmt: skip


def _fields_go_together(b: Brief, count: int) -> None:
    """Refuse a tube without a bore, and sizes that have no meaning for so many pieces."""
    if 2 * b.tube_wall.value >= b.tube_outside_diameter.value:
        raise b.refuse(
            "tube_wall", "it leaves no bore in this tube.", "Read both again; mind the unit."
        )
    if count < 2 and b.has("last_length"):
        raise b.refuse("last_length", "one piece has no last leg.", "Ask for 2 pieces and more.")
    if count < 3 and b.has("radius"):
        raise b.refuse("radius", "two pieces meet at a corner.", "Ask for 3 pieces and more.")
    if count > 2 and not b.has("radius"):
        raise b.refuse("radius", "the middle pieces need it.", "Give one: 45 mm, say.")


def _mitre(b: Brief, count: int) -> Mitre:
    """The cut's angle, by itself or from the bend, and what follows from it."""
    angle, turn = _angle(b, count)
    outside = b.tube_outside_diameter
    inner = mitre.inner_radius(outside, b.tube_wall)
    outer = mitre.outer_radius(outside)
    fibre = FIBRES[b.word("cut")]
    up_on, down_on = {"outer": (outer, outer), "inner": (inner, inner)}.get(fibre, (inner, outer))
    up = mitre.rise(up_on, angle).named("rise", "rise on the long side")
    down = mitre.rise(down_on, angle).named("fall", "fall on the short side")
    at_outside = mitre.rise(outer, angle).named("outside_rise", "rise outside")
    proud = mitre.proud(b.tube_wall, angle)
    followed = (up_on,) if up_on is down_on else (
        up_on.named("followed_radius", "radius followed on the long side"),
        down_on.named("followed_on_short", "radius followed on the short side"),
    )  # fmt: skip
    shown = (angle, turn, *followed, up, down, *((proud,) if fibre != "outer" else ()))
    return Mitre(angle, up, down, at_outside, (up_on, down_on), proud, shown)


def _angle(b: Brief, count: int) -> tuple[Quantity, Quantity]:
    """The angle of each cut, and the turn of the joint or the bend of the elbow [deg]."""
    if b.has("angle") == b.has("bend"):
        problem = "angle and bend are both given." if b.has("angle") else "it is missing."
        raise b.refuse("angle", problem, "Give the cut's angle, or the bend of an elbow.")
    if b.has("bend"):
        if count < 2:
            raise b.refuse("bend", "one piece doesn't bend.", "Ask for 2 pieces, or give angle.")
        angle = elbow.elbow_angle(b.bend, b.pieces)
        if angle.value > 75:
            raise b.refuse("bend", "each cut would run along the tube.", "Take more pieces.")
        return angle, b.bend
    if count < 2:
        return b.angle, elbow.joint_turn(b.angle)
    bend = elbow.elbow_bend(b.angle, b.pieces)
    if bend.value > 180 + 1e-9:
        raise b.refuse(
            "angle", f"{count} pieces bend by {format_number(bend.value)} degrees, back into "
            "themselves.", "Take fewer pieces or a smaller angle."
        )  # fmt: skip
    return b.angle, bend


def _kinds(b: Brief, m: Mitre, count: int) -> tuple[Kind, ...]:
    """The kinds of pieces, each with its length along the axis and its long side."""
    other = b.has("last_length")
    legs = 1 if count == 1 or other else 2
    name = "mitred tube" if count == 1 else "leg"
    leg = _on_axis(b, m, "length", "axis_length", "leg's length on the axis")
    found = [Kind("leg", name, legs, 1, leg, mitre.long_side(leg, m.up, 1))]
    _long_enough(b, "length", leg, m)
    if count > 2:
        axis = elbow.middle_length(b.radius, m.angle)
        if axis.value <= 2 * m.outer_rise.value:
            raise b.refuse(
                "radius",
                "the middle pieces have no length left inside the bend.",
                f"Make it more than {format_number(b.tube_outside_diameter.value / 2)} mm.",
            )
        long = mitre.long_side(axis, m.up, 2).named("middle_long_side", "middle's long side")
        found.append(Kind("middle", "middle piece", count - 2, 2, axis, long))
    if other:
        last = _on_axis(b, m, "last_length", "last_axis_length", "last leg's length on the axis")
        _long_enough(b, "last_length", last, m)
        long = mitre.long_side(last, m.up, 1).named("last_long_side", "last leg's long side")
        found.append(Kind("last_leg", "last leg", 1, 1, last, long))
    return tuple(found)


def _long_enough(b: Brief, name: str, axis: Quantity, m: Mitre) -> None:
    if axis.value <= m.outer_rise.value:
        raise b.refuse(
            name,
            f"the cut falls {format_number(m.outer_rise.value)} mm below the axis and comes out "
            f"of the other end, {format_number(axis.value)} mm off.",
            "Make it longer.",
        )


def _on_axis(b: Brief, m: Mitre, name: str, id: str, label: str) -> Quantity:
    """A leg's length along the axis, as it was asked for or from its long or short side."""
    asked, way = b.quantity(name), b.word("length_to")
    if way == "axis":
        return asked
    if way == "long-side":
        return mitre.axis_from_long(asked, m.up).named(id, label)
    return mitre.axis_from_short(asked, m.outer_rise).named(id, label)


def _mouth(b: Brief, m: Mitre) -> Quantity:
    """Long diameter of the finished mouth, outside [mm]."""
    if b.word("cut") == "bevelled":
        return mitre.mouth_length(b.tube_outside_diameter, m.angle)
    return mitre.square_mouth_length(b.tube_outside_diameter, m.up, m.outer_rise)


def _parts(b: Brief, m: Mitre, kinds: Sequence[Kind], count: int) -> tuple[Part, ...]:
    outside, dense = b.tube_outside_diameter, density(b.metal("tube_metal"))
    placed = _solids(b, m, kinds, count)
    parts = []
    for kind in kinds:
        mean = _mean(b, m, kind)
        weight = mass.tube_mass(outside, b.tube_wall, mean, dense)
        weight = weight.named(
            f"{kind.id}_mass", f"weight of {'each' if kind.count > 1 else 'the'} {kind.name}"
        )
        outline = rectangle(outside.value, kind.long.value)
        blank = Blank(
            "tube", outline, {"diameter": outside, "length": kind.long}, sawn_ends=2, square_ends=1
        )
        parts.append(Part(kind.id, kind.name, "tube", blank, weight, kind.count, placed[kind.id]))
    return tuple(parts)


def _mean(b: Brief, m: Mitre, kind: Kind) -> Quantity:
    """Mean length of a piece's metal [mm]: what it weighs by."""
    cut = b.word("cut")
    if cut == "bevelled":
        return kind.axis
    if cut == "unfiled":
        return mitre.mean_length_unfiled(kind.axis, m.proud, kind.mitred)
    return mitre.mean_length_square(kind.axis, m.followed[0], b.tube_wall, m.proud, kind.mitred)


def _solids(b: Brief, m: Mitre, kinds: Sequence[Kind], count: int) -> dict[str, tuple[Solid, ...]]:
    """Every piece in its place, the first leg upright on the table, the bend towards -x."""
    shape = finished(b.tube_outside_diameter.value, b.tube_wall.value, m.angle.value, b.word("cut"))
    order = _order(kinds, count)
    pieces = [
        Length(kind.axis.value, low=place > 0, high=place < count - 1 or count == 1)
        for place, kind in enumerate(order)
    ]
    found: dict[str, tuple[Solid, ...]] = {kind.id: () for kind in kinds}
    aside = pulls(count, shape.angle, shape.outside)
    for place, frame in enumerate(frames(pieces, shape.angle)):
        kind = order[place]
        area = tube.section(shape.outside, shape.wall)
        id = kind.id if count == 1 else f"{kind.id}_{place + 1}"
        body = looped(id, shape, pieces[place], area * _mean(b, m, kind).value)
        solid = Solid(kind.name, body.placed(frame), pull=aside[place] if count > 1 else None)
        found[kind.id] = (*found[kind.id], solid)
    return found


def _order(kinds: Sequence[Kind], count: int) -> list[Kind]:
    """The pieces from the first leg to the last, each by its kind."""
    by = {kind.id: kind for kind in kinds}
    middles = [by["middle"]] * (count - 2) if count > 2 else []
    return [by["leg"], *middles, *([by.get("last_leg", by["leg"])] if count > 1 else [])]


def _joints(b: Brief, kinds: Sequence[Kind], count: int, length: Quantity) -> tuple[Joint, ...]:
    order = _order(kinds, count)
    return tuple(
        Joint(f"joint_{i}", f"joint {i} of the elbow", (one.id, other.id), length, b.tube_wall)
        for i, (one, other) in enumerate(pairwise(order), 1)
    )


def _cautions(b: Brief) -> tuple[Caution, ...]:
    """What to mind: an outside read once, from which the paper's length follows."""
    reading = b.reading("tube_outside_diameter")
    if reading is None or len(reading.values) > 1:
        return ()
    text = (
        "The tube's outside was read once. The paper's length follows it, and on an oval tube the "
        "long line must lie where both tubes agree: read it at three places."
    )
    return (Caution("outside_read_once", text, "reading", "tube_outside_diameter"),)


SPOUT = Example(
    "elbow of a spout",
    """title = "Elbow for the lamp oil can"
design = "tube-mitre"

[stock.tube]
metal = "C26000"
outside_diameter = ["15.88", "15.91", "15.86"]   # round the tube, 60 degrees apart
wall = ["0.82", "0.81"]
length = "160 mm"

[sizes]
bend = "68 deg"            # of the whole elbow, from straight; or give angle, of each cut
pieces = 3
radius = "27 mm"           # of the bend, to the axis
length = "34 mm"           # first leg, along the axis to the first cut
last_length = "21.5 mm"
cut = "bevelled"           # or: "square", "unfiled"
""",
    {
        "angle": 68 / 4,
        "template_length": math.pi * (15.88333333 + 0.1),
        "template_height": 2 * 7.94166667 * 0.30573068 + 15,
        "middle_length": 2 * 27 * 0.30573068,
        "long_side": 34 + 7.94166667 * 0.30573068,
        "mouth_length": 15.88333333 / 0.95630476,
    },
    "plane geometry, worked by hand: tan 17 degrees 0.30573068, cos 0.95630476",
    1e-4,
)

HANDLE = Example(
    "mitred leg, in inches",
    """title = "Corner of a tray handle"
design = "tube-mitre"

[stock.tube]
metal = "C22000"
outside_diameter = ["0.502 in", "0.498 in"]
wall = ["0.031 in", "0.032 in"]
length = "12 in"

[sizes]
angle = "22.5 deg"         # of the cut from square: the joint turns by twice that
length = "2 3/16 in"
length_to = "long-side"    # measured outside; or: "axis", "short-side"
cut = "square"
""",
    {
        "turn": 45.0,
        "rise": 25.4 * (0.25 - 0.0315) * 0.41421356,
        "axis_length": 25.4 * (2.1875 - 0.2185 * 0.41421356),
        "long_side": 25.4 * 2.1875,
        "mouth_length": 25.4 * math.sqrt(0.5**2 + (0.4685 * 0.41421356) ** 2),
        "template_length": math.pi * (12.7 + 0.1),
    },
    "plane geometry, worked by hand: tan 22.5 degrees 0.41421356",
    1e-4,
)

DESIGN = Design(
    id="tube-mitre",
    title="Mitred tube and elbows",
    summary="Tube cut by a slanting plane, alone or as an elbow, with the paper to wrap round it.",
    fields=FIELDS,
    build=build,
    examples=(SPOUT, HANDLE),
)
