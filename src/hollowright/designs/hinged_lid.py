"""A lid on a hinge: knuckles let into the walls' meeting edges along the longest straight side."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hollowright.designs import hinge
from hollowright.designs.brief import Brief
from hollowright.designs.forms import Form
from hollowright.designs.hinge_bodies import Leaf, Place
from hollowright.designs.lids import Host, Lid, Seats
from hollowright.designs.stocks import density
from hollowright.errors import Caution
from hollowright.formulas import hinge_seat
from hollowright.piece import Part, Work
from hollowright.shapes.carved import Carved
from hollowright.shapes.curves import Line
from hollowright.shapes.solids import Turned
from hollowright.shapes.space import Vector
from hollowright.units import format_number

FIELDS = tuple(field for field in hinge.optional() if field.name != "hinge_level")
"""The hinge's own fields, none of them needed while the lid has no hinge; its pin stands level with
the walls' outer face, or the lid couldn't open.
"""

BODY = Leaf("wall", "the body's wall", (0.0, 0.0, -1.0), "body_wall")
LID = Leaf("wall", "the lid's wall", (0.0, 0.0, 1.0), "lid_wall")
AFTER = ("measure_halves",)
ROOM_FOR_PIN = 1.0
"""Less straight wall than this [mm] beyond the hinge is filed away without a word."""

PLATES = ("base_joint", "top_joint")


@dataclass(frozen=True)
class _Side:
    """The straight side that carries the hinge: its middle, the way along it, its length [mm]."""

    middle: tuple[float, float]
    along: Vector
    length: float


def hinged_lid(b: Brief, host: Host) -> Lid:
    """The lid of a box on a hinge: no ring, no rim, no clearance."""
    hinge.complete(b)
    side = _longest(b, host.form)
    place = _place(b, side, host.rim)
    made = hinge.hinge(b, b.hinge_width, host.thickness, BODY, LID, place, AFTER, "face", True)
    if made.row.value > side.length:
        raise b.refuse(
            "hinge_width",
            f"the knuckles take {format_number(made.row.value)} mm and the straight side has "
            f"{format_number(side.length)} mm.",
            "Make the hinge narrower, or the side longer.",
        )
    dense = density(host.metal)
    lost = hinge_seat.seat_mass(made.section, b.hinge_width, dense)
    seat = _seat(b, place)
    return Lid(
        made.parts,
        (),
        (*made.quantities, lost.named("seat_mass", "weight filed out for a seat")),
        tuple(replace(joint, after=(*joint.after, *PLATES)) for joint in made.joints),
        (*made.work, _weigh(made.last)),
        stocks=made.stocks,
        cautions=(*made.cautions, *_beside(made.row.value, side.length)),
        seats=Seats(seat, lost),
    )


def seated(wall: Part, seats: Seats) -> Part:
    """The wall with a seat filed into each half's edge: its weight and its bodies."""
    mass = hinge_seat.less_seats(wall.mass, seats.mass)
    volume = seats.mass.value / wall.mass.value * sum(s.body.volume for s in wall.solids)
    solids = tuple(
        replace(
            solid,
            body=Carved(
                solid.body.id, solid.body, (seats.body,), exact_volume=solid.body.volume - volume
            ),
        )
        for solid in wall.solids
    )
    return replace(wall, mass=mass.named("wall_mass", wall.mass.label), solids=solids)


def _beside(row: float, side: float) -> tuple[Caution, ...]:
    """A caution where the wall goes on beyond the hinge and stands in the pin's way."""
    if side - row < ROOM_FOR_PIN:
        return ()
    text = (
        f"The hinge takes {format_number(row)} mm of a straight side of {format_number(side)} mm: "
        "the walls beyond it stand in the pin's way and have to be filed out for it and its "
        "heads. A hinge as wide as the straight side is easier to pin and to rivet."
    )
    return (Caution("pin_way_in", text, "form", "hinge_width"),)


def _longest(b: Brief, form: Form) -> _Side:
    """The longest straight side, of several the one that faces us; refused where there is none."""
    lines = [each for each in form.outline.segments if isinstance(each, Line)]
    if not lines:
        raise b.refuse(
            "lid", "a hinge wants a straight side.", "Take another outline, or another lid."
        )
    best = max(lines, key=lambda line: (round(line.length(), 6), -line.start[1] - line.end[1]))
    (x0, y0), (x1, y1) = best.start, best.end
    length = best.length()
    along = ((x1 - x0) / length, (y1 - y0) / length, 0.0)
    return _Side(((x0 + x1) / 2, (y0 + y1) / 2), along, length)


def _place(b: Brief, side: _Side, rim: float) -> Place:
    """The pin along the side's middle, level with the outer face and the two rims."""
    half = b.hinge_width.value / 2
    (x, y), (dx, dy, _) = side.middle, side.along
    away = 4 * b.hinge_pin_diameter.value
    return Place((x - dx * half, y - dy * half, rim), side.along, (dy * away, -dx * away, 0.0))


def _seat(b: Brief, place: Place) -> Turned:
    """What is filed out for the knuckles: a rod as thick as they, along the whole hinge."""
    radius = b.hinge_tube_outside_diameter.value / 2
    width = b.hinge_width.value
    profile = ((0.0, 0.0), (radius, 0.0), (radius, width), (0.0, width))
    return Turned("seat", profile, place.start, place.along)


def _weigh(after: str) -> Work:
    return Work(
        "weigh",
        "measure",
        "Weigh, write down",
        "Shut the lid against the light: where it shows, rub the higher rim down, not the hinge. "
        "Weigh it (planned {mass}) and write down what came out.",
        after=(after,),
        cautions=("closed_box",),
    )
