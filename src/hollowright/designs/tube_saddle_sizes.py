"""A branch's edge, papers and hole as quantities: closed forms where there are, else search."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hollowright.designs.brief import Brief
from hollowright.designs.tube_paper import FIBRES
from hollowright.formulas import mitre, saddle, saddle_hole, saddle_search
from hollowright.quantity import Quantity, exact
from hollowright.quantity.choices import choose

PLACES = (0, 30, 60, 90, 120, 150, 180, 210, 240, 270, 300, 330)
"""Where distances are set off, from the foot's side [deg]; without offset the first half does."""

LEAST_PROUD = 0.005
"""What stands past the main by less [mm] is not worth a word."""

MEANS = {
    "bevelled": saddle_search.mean_depth_bevelled,
    "square": saddle_search.mean_depth_square,
    "unfiled": saddle_search.mean_depth_unfiled,
}


@dataclass(frozen=True)
class Edge:
    """A branch's edge: radii of seat and wall, what it follows, how deep it lies [mm]."""

    seat: Quantity
    bore: Quantity
    outer: Quantity
    followed: tuple[Quantity, Quantity]
    axis_length: Quantity
    highest: Quantity
    deepest: Quantity
    long: Quantity
    short: Quantity
    mean: Quantity

    @property
    def one_line(self) -> bool:
        """Whether the edge follows one line of the wall all round."""
        return self.followed[0] is self.followed[1]


def seat_of(b: Brief) -> Quantity:
    """Radius of the main's surface that the branch's edge meets [mm]."""
    if b.word("joint") == "set-on":
        return saddle.seat_outside(b.main_outside_diameter)
    return saddle.seat_inside(b.main_outside_diameter, b.main_wall)


def edge_of(b: Brief) -> Edge:
    """The edge of the branch that the brief asks for."""
    seat = seat_of(b)
    bore = mitre.inner_radius(b.branch_outside_diameter, b.branch_wall).named(
        "bore_radius", "radius of the branch's bore"
    )
    outer = mitre.outer_radius(b.branch_outside_diameter).named(
        "outside_radius", "radius of the branch's outside"
    )
    followed = {"outer": (outer, outer), "inner": (bore, bore)}.get(
        FIBRES[b.word("cut")], (bore, outer)
    )
    length = axis_length(b)
    highest, deepest = _extremes(b, seat, followed)
    return Edge(
        seat, bore, outer, followed, length, highest, deepest,
        saddle.below(length, deepest),
        saddle.below(length, highest).named("short_side", "branch's shortest line"),
        MEANS[b.word("cut")](seat, bore, outer, b.angle, b.offset),
    )  # fmt: skip


def axis_length(b: Brief) -> Quantity:
    """The branch's length from the main's axis, as asked for or from the main's outside [mm]."""
    if b.word("length_from") == "axis":
        return b.length.named("axis_length", "branch's length from the main's axis")
    return saddle.from_axis(b.length, b.main_outside_diameter, b.offset, b.angle)


def _extremes(
    b: Brief, seat: Quantity, followed: tuple[Quantity, Quantity]
) -> tuple[Quantity, Quantity]:
    """The edge's greatest and least distance from the main's axis [mm]."""
    line = followed[0]
    if b.offset.value or line is not followed[1]:
        sizes = (seat, *followed, b.angle, b.offset)
        return saddle_search.highest(*sizes), saddle_search.deepest(*sizes)
    sides = [law(seat, line, b.angle) for law in (saddle.foot_depth, saddle.far_depth)]
    near, far = sorted(sides, key=lambda side: side.value)
    beside = saddle.deepest(seat, line)
    low = near.named("deepest", "saddle's deepest place")
    highest = far.named("highest", "saddle's highest place")
    return highest, low if _low_at_the_end(b, seat.value, line.value) else beside


def _low_at_the_end(b: Brief, seat: float, line: float) -> bool:
    """Whether the lowest place lies in the plane of the axes and not at the branch's sides."""
    turn = math.radians(b.angle.value)
    slope = math.sqrt(seat * seat - line * line) * abs(math.cos(turn))
    return slope >= line * math.sin(turn)


@dataclass(frozen=True)
class Papers:
    """Sizes of the branch's paper and of the hole's [mm], with their ordinates by degrees."""

    length: Quantity
    height: Quantity
    margin: Quantity
    from_end: Quantity
    ordinates: dict[int, Quantity]

    @property
    def shown(self) -> tuple[Quantity, ...]:
        """All of them."""
        return (self.length, self.height, self.from_end, *self.ordinates.values())


def papers_of(b: Brief, edge: Edge) -> Papers:
    """The branch's paper: once round it, from its straight edge to the longest tongue."""
    margin = _margin(b, edge)
    length = mitre.template_length(b.branch_outside_diameter, b.shop("paper"))
    height = saddle.template_height(edge.highest, edge.deepest, margin)
    places = PLACES if b.offset.value else PLACES[:7]
    ordinates = {turn: _ordinate(b, edge, margin, turn) for turn in places}
    return Papers(length, height, margin, mitre.edge_from_end(edge.long, height), ordinates)


def _margin(b: Brief, edge: Edge) -> Quantity:
    """Paper above the edge [mm]: the shop's, or less where the branch ends before."""
    usual = b.shop("paper_margin")
    sizes = {"the shop's": usual, "branch's shortest line": edge.short}
    return usual if edge.short.value >= usual.value else choose(
        "paper_margin", usual.label, sizes, "smallest"
    )[0]  # fmt: skip


def _ordinate(b: Brief, edge: Edge, margin: Quantity, turn: int) -> Quantity:
    place = exact("", f"{turn}", "deg", turn, "constant")
    if edge.one_line:
        line = edge.followed[0]
        above = saddle.above(edge.seat, saddle.aside(b.offset, line, place))
        depth = saddle.line_depth(above, line, b.angle, place)
    else:
        depth = saddle_search.first_depth(edge.seat, *edge.followed, b.angle, b.offset, place)
    made = saddle.ordinate(margin, edge.highest, depth)
    return made.named(f"ordinate_{turn}", f"paper at {turn} degrees from the foot's side")


@dataclass(frozen=True)
class Hole:
    """The hole in the main: its radius, its size on the paper, its place, what it takes out."""

    radius: Quantity
    width: Quantity
    length: Quantity
    shift: Quantity
    middle: Quantity
    aside: Quantity
    area: Quantity
    volume: Quantity
    sides: tuple[Quantity, Quantity]
    way_round: Quantity
    narrower: tuple[Quantity, ...]

    @property
    def shown(self) -> tuple[Quantity, ...]:
        """What of it the plan shows; a hole on the line lies nowhere aside."""
        aside = (self.aside,) if abs(self.aside.value) > 1e-9 else ()
        return (
            self.radius, self.width, self.length, self.shift, self.middle, *aside, self.area,
            *self.narrower, *self.sides, self.way_round,
        )  # fmt: skip


def hole_of(b: Brief, edge: Edge) -> Hole:
    """The hole on the main's outside: of the branch's bore, or let in of the branch's outside."""
    set_on = b.word("joint") == "set-on"
    radius = (edge.bore if set_on else edge.outer).named("hole_radius", "radius of the hole")
    over = saddle.seat_outside(b.main_outside_diameter).named("", "main's radius")
    width = saddle_hole.hole_width(b.main_outside_diameter, b.shop("paper"), over, radius, b.offset)
    if b.offset.value:
        sizes = (over, radius, b.angle, b.offset)
        ends = saddle_search.hole_low(*sizes), saddle_search.hole_high(*sizes)
        length, shift = saddle_hole.length_between(*ends), saddle_hole.middle_between(*ends)
    else:
        length = saddle_hole.hole_length(radius, b.angle)
        shift = saddle_hole.hole_shift(over, b.angle)
    inside = saddle.seat_inside(b.main_outside_diameter, b.main_wall)
    walls = (over, inside.named("", "main's bore's radius"))
    margin = b.shop("paper_margin")
    return Hole(
        radius, width, length, shift,
        saddle_hole.hole_middle(b.at, shift),
        saddle_hole.hole_aside(b.main_outside_diameter, over, radius, b.offset),
        saddle_search.hole_area(over, radius, b.angle, b.offset),
        saddle_search.hole_volume(*walls, radius, b.angle, b.offset),
        (
            saddle_hole.paper_side(width, margin).named(
                "hole_paper_width", "hole's paper, round the main"
            ),
            saddle_hole.paper_side(length, margin).named(
                "hole_paper_length", "hole's paper, along the main"
            ),
        ),
        saddle_hole.way_round(b.main_outside_diameter, b.around),
        () if set_on else (
            saddle_hole.narrower_inside(radius, b.main_wall, b.main_outside_diameter),
        ),
    )  # fmt: skip


def seam_of(b: Brief, edge: Edge) -> Quantity:
    """Length of the seam [mm]: along the middle of the wall that it lies on."""
    if b.word("joint") == "set-on":
        mid = saddle.mid_wall(b.branch_outside_diameter, b.branch_wall)
        return saddle_search.joint_length(edge.seat, mid, b.angle, b.offset)
    mid = saddle.mid_wall(b.main_outside_diameter, b.main_wall)
    return saddle_search.joint_length(mid, edge.outer, b.angle, b.offset)


def square_notes(b: Brief, edge: Edge) -> tuple[Quantity, ...]:
    """What a square edge lacks: how far an outside's template would let it ride up, what stands."""
    if b.word("cut") != "square":
        return ()
    sizes = (edge.seat, edge.bore, edge.outer)
    if not b.offset.value and b.angle.value == 90:
        return (saddle.ride_up(*sizes),)
    proud = (
        saddle_search.proud(*sizes, b.angle, b.offset)
        if b.offset.value
        else saddle.proud(b.branch_wall, b.angle)
    )
    return (saddle_search.ride_up(*sizes, b.angle, b.offset), proud)


def proud_where(b: Brief, notes: tuple[Quantity, ...]) -> str:
    """Where a square edge stands past the main by what shows; nothing where it doesn't."""
    if not any(q.id == "proud" and q.value >= LEAST_PROUD for q in notes):
        return ""
    sharp = "where the axes make the sharp angle" if b.angle.value != 90 else ""
    middle = "on the side nearest the main's middle" if b.offset.value else ""
    return " and ".join(place for place in (sharp, middle) if place)
