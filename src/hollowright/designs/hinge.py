"""A hinge of tube knuckles on a pin, shared by every design that carries one: fields and parts.

`hinge(b, width, thickness, outer, inner, place)` gives its numbers, stocks, parts, joints, work and
bodies, set on an edge. The outer leaf has one knuckle more than the inner one.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from hollowright.designs.brief import Brief
from hollowright.designs.fields import Field
from hollowright.designs.hinge_bodies import Leaf, Place, knuckle_solids, pin_solid
from hollowright.designs.hinge_pin import pin_cautions, pin_refused
from hollowright.designs.hinge_work import hinge_work
from hollowright.designs.stocks import bar_stock, density, rod_fields, tube_fields
from hollowright.errors import Caution
from hollowright.formulas import hinge as law
from hollowright.formulas import hinge_seat, mass, tube
from hollowright.piece import Blank, Joint, Part, Stock, Work
from hollowright.quantity import Quantity
from hollowright.shapes.outline import rectangle
from hollowright.units import format_number

LENGTHS = ("equal", "equal-share")
LEVELS = ("middle", "face")

LEAST_KNUCKLE = 1.0
"""A knuckle shorter than so many times its diameter rocks on its leaf: it is pointed out."""

STOCK_FIELDS = (
    *tube_fields("hinge_tube", "hinge tube", "3.05 mm", "0.52 mm"),
    *rod_fields("hinge_pin", "hinge pin", "1.95 mm"),
)

SIZE_FIELDS = (
    Field("sizes.hinge.width", "hinge_width", "length", "width of the hinge",
          "over all knuckles, along the pin", "31.6 mm", required=True, low=3, high=600),
    Field("sizes.hinge.knuckles", "knuckles", "count", "knuckles", "an odd number", "5",
          default="5", low=3, high=25),
    Field("sizes.hinge.lengths", "knuckle_lengths", "choice", "knuckles' lengths",
          "equal: all alike; equal-share: each leaf holds half of the tube", "equal",
          default="equal", choices=LENGTHS),
    Field("sizes.hinge.gap", "knuckle_gap", "length", "gap between knuckles",
          "the shop's unless you say so", "0.05 mm", high=1),
    Field("sizes.hinge.level", "hinge_level", "choice", "pin level with",
          "middle: of the leaves' thickness; face: the leaves fold flat on each other", "middle",
          default="middle", choices=LEVELS),
)  # fmt: skip

BUILT_FIELDS = (
    Field("as_built.knuckle_length", "built_knuckle_length", "readings",
          "outer leaf's knuckles as built", "trued in the jig", "6.28 mm", low=0.5, high=300),
    Field("as_built.inner_knuckle_length", "built_inner_knuckle_length", "readings",
          "inner leaf's knuckles as built", "trued in the jig", "6.28 mm", low=0.5, high=300),
)  # fmt: skip

FIELDS = (*STOCK_FIELDS, *SIZE_FIELDS, *BUILT_FIELDS)


def optional(fields: tuple[Field, ...] = FIELDS) -> tuple[Field, ...]:
    """The same fields for a design that can do without a hinge; `hinge` asks for what it lacks."""
    return tuple(replace(field, required=False) for field in fields)


@dataclass(frozen=True)
class Hinge:
    """All that a hinge brings to a piece.

    lip: from the pin's middle to the leaf's edge; section: between pin and leaf, over the leaf's
    thickness. last: the work that closes the hinge, after which nothing is heated. row: all
    knuckles with their gaps [mm].
    """

    quantities: tuple[Quantity, ...]
    stocks: tuple[Stock, ...]
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...]
    work: tuple[Work, ...]
    cautions: tuple[Caution, ...]
    lip: Quantity
    section: Quantity
    last: str
    row: Quantity


@dataclass(frozen=True)
class _Row:
    """The knuckles: their gap, how many and how long on each leaf, all of them in a row [mm]."""

    gap: Quantity
    counts: tuple[Quantity, Quantity]
    lengths: tuple[Quantity, Quantity]
    whole: Quantity


def hinge(
    b: Brief, width: Quantity, thickness: Quantity, outer: Leaf, inner: Leaf, place: Place,
    after: tuple[str, ...] = (), level: str = "", in_rims: bool = False,
) -> Hinge:  # fmt: skip
    """A hinge of a width [mm] on two leaves of a thickness [mm], its pin along `place`.

    after: the work that must be done before the seats are filed. level: 'middle' or 'face', where
    the design doesn't ask. in_rims: the leaves are walls whose rims meet. Refused with the field's
    name where it can't be.
    """
    complete(b)
    outside, pin = b.hinge_tube_outside_diameter, b.hinge_pin_diameter
    bore = tube.bore(outside, b.hinge_tube_wall).named("hinge_bore", "bore of the hinge tube")
    play = law.pin_clearance(bore, pin)
    pin_refused(b, bore, play)
    row = _row(b, width)
    end = law.pin_end(pin, b.shop("pin_head"))
    length = law.pin_length(row.whole, end)
    level = level or b.word("hinge_level")
    seat = _seat(b, outside, thickness, level)
    aim = law.pin_aim(bore, b.shop("pin_clearance_least"), b.shop("pin_clearance_most"))
    joints = _joints(row, seat["seat_width"], outer, inner)
    same = (width.id, thickness.id)
    listed = (
        width, b.knuckles, *row.counts, row.gap, *row.lengths, row.whole, outside,
        b.hinge_tube_wall, bore, pin, play, aim, end, length,
        *(q for name, q in seat.items() if name != "seat_section"),
        *(joint.length for joint in joints),
    )  # fmt: skip
    counts = [int(each.value) for each in row.counts]
    work = hinge_work((outer, inner), counts, after, level, in_rims)
    return Hinge(
        quantities=tuple({q.id: q for q in listed if q.id not in same or q is width}.values()),
        stocks=(
            bar_stock(b, "hinge_tube", "hinge tube", "tube", cuts=int(b.knuckles.value)),
            bar_stock(b, "hinge_pin", "hinge pin", "rod"),
        ),
        parts=_parts(b, row, length, (outer, inner), place),
        joints=joints,
        work=work,
        cautions=(*pin_cautions(b, bore, play, aim), *_short(row, outside)),
        lip=seat["seat_lip"],
        section=seat["seat_section"],
        last=work[-1].id,
        row=row.whole,
    )


def complete(b: Brief) -> None:
    """Ask for what a hinge needs, and for an odd number of knuckles."""
    for field in (*STOCK_FIELDS, *SIZE_FIELDS):
        if field.required and not b.has(field.name):
            raise b.refuse(field.name, "a hinge needs it.", f"Add it, for example {field.example}.")
    count = int(b.knuckles.value)
    if count % 2 == 0:
        raise b.refuse(
            "knuckles", f"{count} is even: each leaf would hold one end of the pin.",
            f"Take {count - 1 if count > 3 else 3} or {count + 1}, so that one leaf holds both.",
        )  # fmt: skip


def _row(b: Brief, width: Quantity) -> _Row:
    """The knuckles as planned, or as they were read."""
    gap = b.knuckle_gap if b.has("knuckle_gap") else b.shop("knuckle_gap")
    named = gap.named("knuckle_gap", "gap between knuckles")
    sizes = (width, b.knuckles, named)
    if width.value <= (b.knuckles.value - 1) * named.value:
        raise b.refuse("hinge_width", "the gaps alone are wider.", "Make it wider.")
    if b.word("knuckle_lengths") == "equal":
        outer = b.built(law.knuckle_length(*sizes))
        alike = outer.named("inner_knuckle_length", "length of an inner leaf's knuckle")
        inner = b.built(alike)
    else:
        outer = b.built(law.outer_length(*sizes))
        inner = b.built(law.inner_length(*sizes))
    counts = (law.outer_count(b.knuckles), law.inner_count(b.knuckles))
    whole = law.row(counts[0], outer, counts[1], inner, named)
    return _Row(named, counts, (outer, inner), whole)


def _seat(b: Brief, outside: Quantity, thickness: Quantity, level: str) -> dict[str, Quantity]:
    """What is filed into the leaves' edges, by name; refused where the leaf is too thick."""
    face = level == "face"
    most = outside.value * (0.45 if face else 0.9)
    if thickness.value > most:
        raise b.refuse(
            "hinge_tube_outside_diameter",
            f"a leaf of {format_number(thickness.value)} mm is too thick for a seat on tube of "
            f"{format_number(outside.value)} mm.",
            f"Take tube of {format_number(thickness.value / (0.45 if face else 0.9))} mm or more.",
        )
    sizes = (outside, thickness)
    lip = hinge_seat.face_lip(*sizes) if face else hinge_seat.lip(*sizes)
    found = {
        "seat_lip": lip,
        "seat_depth": hinge_seat.seat_depth(outside, lip),
        "seat_width": (hinge_seat.face_seat_width if face else hinge_seat.seat_width)(*sizes),
        "seat_section": (hinge_seat.face_section if face else hinge_seat.seat_section)(lip, *sizes),
    }
    return found if face else {**found, "least_angle": hinge_seat.least_angle(*sizes)}


def _parts(
    b: Brief, row: _Row, pin_length: Quantity, leaves: tuple[Leaf, Leaf], place: Place
) -> tuple[Part, ...]:
    """The knuckles of each leaf, and the pin."""
    outside, wall = b.hinge_tube_outside_diameter, b.hinge_tube_wall
    bodies = knuckle_solids(
        (outside.value, wall.value), [each.value for each in row.lengths], row.gap.value,
        int(b.knuckles.value), leaves, place,
    )  # fmt: skip
    dense = density(b.metal("hinge_tube_metal"))
    found = []
    for number, name in enumerate(("outer", "inner")):
        length = row.lengths[number]
        sizes = {"diameter": outside, "length": length}
        blank = Blank("tube", rectangle(outside.value, length.value), sizes, sawn_ends=2)
        weight = mass.tube_mass(outside, wall, length, dense)
        id, label = f"{name}_knuckle", f"knuckle of {leaves[number].name}"
        named = weight.named(f"{id}_mass", f"weight of a {label}")
        count = int(row.counts[number].value)
        found.append(Part(id, label, "hinge_tube", blank, named, count, bodies[number]))
    pin = b.hinge_pin_diameter
    sizes = {"diameter": pin, "length": pin_length}
    blank = Blank("rod", rectangle(pin.value, pin_length.value), sizes, sawn_ends=2)
    weight = mass.disc_mass(pin, pin_length, density(b.metal("hinge_pin_metal")))
    named = weight.named("hinge_pin_mass", "weight of the pin")
    spare = (pin_length.value - row.whole.value) / 2
    solid = pin_solid(pin.value, pin_length.value, spare, place)
    return (*found, Part("hinge_pin", "pin", "hinge_pin", blank, named, 1, (solid,)))


def _joints(row: _Row, lap: Quantity, outer: Leaf, inner: Leaf) -> tuple[Joint, ...]:
    """The knuckles' seams to their leaves."""
    found = []
    for number, (name, leaf) in enumerate((("outer", outer), ("inner", inner))):
        length = law.held(row.counts[number], row.lengths[number]).named(
            f"{name}_held", f"tube that the {name} leaf holds"
        )
        id = f"{name}_knuckles"
        parts = (leaf.part, f"{name}_knuckle")
        found.append(Joint(f"{id}_seam", f"knuckles to {leaf.name}", parts, length, lap))
    return tuple(found)


def _short(row: _Row, outside: Quantity) -> tuple[Caution, ...]:
    """A caution where knuckles are shorter than they are thick."""
    least = min(row.lengths, key=lambda each: each.value)
    if least.value >= LEAST_KNUCKLE * outside.value:
        return ()
    text = (
        f"A knuckle of {format_number(least.value)} mm is shorter than its diameter of "
        f"{format_number(outside.value)} mm: it is hard to hold square and has little seam. Take "
        "fewer knuckles, or thinner tube."
    )
    return (Caution("knuckles_short", text, "form", "knuckle_length"),)
