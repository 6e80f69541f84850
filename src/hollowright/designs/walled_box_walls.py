"""The walls of a walled box: their strip, their heights, what they measure once bent."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hollowright.designs import closed_strip, forms, outlines
from hollowright.designs.brief import Brief
from hollowright.designs.closed_strip import Bending
from hollowright.designs.forms import Form
from hollowright.designs.lids import Host, made_inside, made_outside, read_across
from hollowright.errors import Caution
from hollowright.formulas import box, lid, wall
from hollowright.quantity import Quantity, exact, total
from hollowright.units import format_number

CAP = "cap"
"""The lid with a wall of its own that goes over the body."""

INNER = "inner-ring"

DEPTHS = (("lid_depth", "lid depth"), ("body_depth", "body's inside depth"))
WALLS = (
    ("lid_wall_height", "height of the lid's wall"),
    ("body_wall_height", "height of the body's wall"),
)


@dataclass(frozen=True)
class Walls:
    """The walls' numbers [mm]: their strip, its heights as planned and as they are now, the host.

    heights, planned: the lid's and the body's. floor: how high the body's wall begins. reads: what
    is read of the halves across or round.
    """

    form: Form
    inner: Form
    thickness: Quantity
    how: Bending
    length: Quantity
    width: Quantity
    planned: tuple[Quantity, Quantity]
    heights: tuple[Quantity, Quantity]
    host: Host
    floor: float
    reads: tuple[str, ...]
    quantities: tuple[Quantity, ...]
    cautions: tuple[Caution, ...]


def walls_of(b: Brief) -> Walls:
    """The walls of a box: one strip for lid and body, or the body's alone under a cap lid."""
    thickness = b.wall_sheet_thickness
    form, turn = _outline(b, thickness)
    inner = forms.parallel(form, thickness, "the wall", "inside")
    how = closed_strip.bending(b, form, thickness, turn)
    length = closed_strip.wall_length(form, thickness, turn, how)
    across = _across(b, form, length, thickness, _as_made(form, thickness, turn, how))
    planned = _heights(b)
    depths = _depths(b, planned)
    now = (_now(b, depths[0], planned[0]), _now(b, depths[1], planned[1]))
    floor = b.plate_sheet_thickness.value if _on_end(b) else 0.0
    host, width = _host(b, form, inner, across, depths, now, floor, planned)
    listed = (
        *form.sizes.values(), *(form.flats or ()), form.round, *turn_of(form), thickness, length,
        *across.listed, width, *planned, *depths, host.inside, *how.grooves,
        *((b.score_web,) if how.grooves else ()), *((how.line,) if how.line else ()),
    )  # fmt: skip
    return Walls(
        form, inner, thickness, how, length, width, planned, now, host, floor, across.reads,
        tuple({each.id: each for each in listed}.values()), _cautions(b, form, how),
    )  # fmt: skip


def turn_of(form: Form) -> tuple[Quantity, ...]:
    """The outline's turn, where it isn't pi."""
    return () if form.turn.kind == "constant" else (form.turn,)


def _outline(b: Brief, thickness: Quantity) -> tuple[Form, Quantity]:
    """The outline, and its turn at the wall's middle."""
    form = outlines.form_of(b)
    wall_alone = ("the wall", thickness.value)
    if b.word("lid") == INNER and b.has("ring_thickness"):
        whole = thickness.value + b.ring_thickness.value
        forms.check(form, wall_alone, ("wall and ring together", whole))
        depth = thickness.value + b.ring_thickness.value / 2
    else:
        forms.check(form, wall_alone)
        depth = -thickness.value / 2
    return forms.settled(form, depth), forms.settled(form, thickness.value / 2).turn


def _as_made(form: Form, thickness: Quantity, turn: Quantity, how: Bending) -> Bending:
    """How the strip is taken back to what it will measure; a drawn outline has its own loss."""
    if form.shape != "path" or how.lost is not None:
        return how
    line = how.line or exact("", "1/2", "", 0.5, "constant")
    return replace(how, lost=wall.bend_loss(turn, thickness, line))


@dataclass(frozen=True)
class _Across:
    """What the walls measure across: lid inside, body inside, body outside; what is read [mm]."""

    means: tuple[Quantity, Quantity, Quantity]
    read: bool
    reads: tuple[str, ...]
    listed: tuple[Quantity, ...]


def _across(b: Brief, form: Form, length: Quantity, thickness: Quantity, how: Bending) -> _Across:
    inside = made_inside(b, length, thickness, form, how, "wall")
    outside = made_outside(b, length, thickness, form, how, "wall")
    which = 0 if form.calliper else 1
    if b.word("lid") != INNER:
        ids = ("body_outside", "body_outside_round")
        body, read, listed = read_across(b, outside, form, ids, "body's outside")
        return _Across((inside, inside, body), read, (ids[which],), listed)
    lid_ids, body_ids = ("lid_bore", "lid_inside_round"), ("body_bore", "body_inside_round")
    in_lid, lid_inside = ("lid's bore", "body's bore") if form.calliper else (
        "lid's inside", "body's inside")  # fmt: skip
    one, _, listed = read_across(b, inside, form, lid_ids, in_lid)
    two, read, more = read_across(b, inside, form, body_ids, lid_inside)
    reads = (lid_ids[which], body_ids[which])
    return _Across((one, two, outside), read, reads, (*listed, *more))


def _on_end(b: Brief) -> bool:
    return b.word("plates") == "on-end"


def _heights(b: Brief) -> tuple[Quantity, Quantity]:
    """Heights of the lid's and the body's wall as planned [mm]."""
    height, share, plate = b.height, b.lid_share, b.plate_sheet_thickness
    cap = b.word("lid") == CAP
    if _on_end(b):
        one = box.lid_length(height, share, plate)
        two = (
            lid.cap_body_wall(height, plate, plate)
            if cap
            else box.body_length(height, share, plate)
        )
    else:
        one = box.lid_length_let_in(height, share)
        two = lid.cap_body_wall_let_in(height, plate) if cap else (
            box.body_length_let_in(height, share))  # fmt: skip
    return one.named(*WALLS[0]), two.named(*WALLS[1])


def _depths(b: Brief, walls: tuple[Quantity, Quantity]) -> tuple[Quantity, Quantity]:
    """Inside depths of lid and body, as planned or as read [mm]; refused where there is none."""
    plate = b.plate_sheet_thickness
    planned = [
        box.depth_on_end(each) if _on_end(b) else box.depth_let_in(each, plate) for each in walls
    ]
    shallow = min(planned, key=lambda each: each.value)
    if shallow.value < 1:
        raise b.refuse(
            "lid_share" if shallow is planned[0] else "height",
            f"a depth of {format_number(shallow.value)} mm would be left inside.",
            "Make the box higher, or change the lid's share.",
        )
    one, two = (b.built(each.named(*name)) for each, name in zip(planned, DEPTHS, strict=True))
    return one, two


def _now(b: Brief, depth: Quantity, planned: Quantity) -> Quantity:
    """A wall's height [mm] as its inside depth was read, or as planned."""
    if depth.kind != "reading":
        return planned
    if _on_end(b):
        return box.depth_on_end(depth)
    return box.length_for_depth(depth, b.plate_sheet_thickness)


def _host(
    b: Brief,
    form: Form,
    inner: Form,
    across: _Across,
    depths: tuple[Quantity, Quantity],
    now: tuple[Quantity, Quantity],
    floor: float,
    planned: tuple[Quantity, Quantity],
) -> tuple[Host, Quantity]:
    """What the lid is made for, and the width of the wall's strip [mm]."""
    rim = floor + now[1].value
    name = ("wall_width", "width of the wall's strip")
    if b.word("lid") == CAP:
        inside, width, roof = depths[1], planned[1].named(*name), rim
        inside = inside.named("inside_height", "inside height")
    else:
        inside, width = total("inside_height", "inside height", list(depths)), total(
            *name, list(planned))  # fmt: skip
        roof = rim + depths[0].value
    host = Host(
        form, inner.area, b.wall_sheet_thickness, b.metal("wall_sheet_metal"), *across.means,
        across.read, *depths, inside, *now, planned[0], rim, roof,
    )  # fmt: skip
    return host, width


def _cautions(b: Brief, form: Form, how: Bending) -> tuple[Caution, ...]:
    """What to mind of corners bent without a groove, of sheet that wasn't read."""
    found = []
    if form.sharp and not how.grooves:
        text = (
            "Corners bent sharp without a groove come out rounded and a little short outside: "
            'score them (corners = "scored"), or give them a corner radius.'
        )
        found.append(Caution("corners_bent", text, "fit", "corners"))
    if b.wall_sheet_thickness.kind == "handbook":
        text = (
            "The wall's sheet was taken from the gauge table. Reading it with the calliper takes "
            "doubt off the fit."
        )
        found.append(Caution("wall_not_read", text, "reading", "wall_sheet_thickness"))
    return tuple(found)
