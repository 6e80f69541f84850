"""A lid with an inner ring that follows any outline: soldered into the lid, sliding in the body."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hollowright.designs import closed_strip, inner_ring
from hollowright.designs.brief import Brief
from hollowright.designs.closed_strip import Bending
from hollowright.designs.fields import Field
from hollowright.designs.forms import Form
from hollowright.designs.lid_fit import (
    Edges,
    air,
    article,
    edges,
    force,
    read_bore,
    slides,
    tenth,
)
from hollowright.designs.lids import (
    Host,
    Lid,
    at_across,
    needs,
    read_across,
    shell,
    strip_marks,
)
from hollowright.designs.ring_lid_work import ring_lid_work
from hollowright.designs.stocks import sheet_stock
from hollowright.designs.strips import bent_strip
from hollowright.errors import PlanRefused
from hollowright.formulas import outline as outline_law
from hollowright.formulas import ring
from hollowright.piece import Fit, Joint, Part, Solid
from hollowright.quantity import Quantity
from hollowright.quantity.choices import choose

STOCK_FIELDS = tuple(replace(each, required=False) for each in inner_ring.STOCK_FIELDS)
"""The ring's sheet, or the rim's; a cap lid needs none."""

BUILT_FIELDS = (
    inner_ring.BUILT_FIELDS[0],
    Field(
        "as_built.ring_outside", "built_ring_outside", "readings", "ring's outside as built",
        "of a circle or a polygon: the diameter, or across flats", "36.00 mm", low=1, high=600,
    ),
    Field(
        "as_built.ring_outside_round", "built_ring_outside_round", "readings",
        "length round the ring's outside as built",
        "of other outlines: a strip of paper round it, marked where it meets, read flat",
        "151.8 mm", low=1, high=4000,
    ),
)  # fmt: skip


WHAT = "the lid's ring"


@dataclass(frozen=True)
class _Ring:
    """The ring's numbers: as planned, as it is now, and its strip [mm]."""

    gap: Quantity
    thickness: Quantity
    aim: Quantity
    face: Form
    outside: Quantity
    read: bool
    listed: tuple[Quantity, ...]
    how: Bending
    strip: Quantity
    width: Quantity


def ring_lid(b: Brief, host: Host) -> Lid:
    """The lid of a box held by an inner ring."""
    needs(b, ("ring_metal", "ring_thickness"), "the lid's ring is made of it")
    form, metal = host.form, b.metal("ring_metal")
    target, feel, window = inner_ring.aimed_clearance(b)
    r = _ring(b, host, target)
    pressed = force(b, host, ("ring", metal, r.thickness), host.body_inside, target, window)
    ends = edges(b, r.thickness, host.thickness, b.ring_stand, inner=True)
    slides(b, "ring_stand", b.ring_stand, ends.land, host.body_depth)
    fit = Fit(
        id="ring_in_body", label="ring in the body", part="ring", bore=host.body_inside,
        length=r.strip, thickness=r.thickness, target=target, window=pressed.window, feel=feel,
        metal=metal, other_wall=host.thickness, other_metal=host.metal, line=r.how.line,
        lost=r.how.lost, seat=host.lid_inside, aim=r.aim, weaker=pressed.weaker,
        made=r.outside if r.read else None, bore_read=host.read, turn=host.turn.value,
        read_bore=read_bore(form.shape, "body's bore" if form.calliper else "body's inside"),
    )  # fmt: skip
    filing, numbers = _fitting(host, r, target)
    return Lid(
        (_part(b, host, r),), (fit,),
        (target.named("clearance"), r.gap.named("lid_gap", "gap of the ring in the lid"),
         *_listed(b, host, r, ends), *numbers, *pressed.quantities),
        _joints(host, r),
        ring_lid_work(form, filing, bool(r.how.grooves)),
        (sheet_stock(b, "ring_sheet", "ring sheet", "ring"),),
        (*inner_ring.thin_cautions(ends.choices),
         *inner_ring.ring_cautions(_filing(host, r, target), r.thickness, r.gap, r.read,
                                   host.turn.value)),
        ends.choices,
    )  # fmt: skip


def _ring(b: Brief, host: Host, target: Quantity) -> _Ring:
    gap = b.lid_gap if b.has("lid_gap") else inner_ring.same_gap(target)
    thickness = b.built(b.ring_thickness)
    aim = ring.outside(host.lid_inside, gap).named("ring_aim", f"ring's outside {host.form.word}")
    if aim.value <= 2 * thickness.value:
        raise PlanRefused(
            b.design.field("ring_thickness").path,
            f"the sheet is too thick to bend inside {article(host.form.shape)} of this size.",
            "Take thinner sheet for the ring.",
        )
    names = ("ring_outside", "ring_outside_round")
    outside, read, listed = read_across(b, aim, host.form, names, "ring's outside")
    face = at_across(host.form, aim, WHAT)
    how = closed_strip.bending(b, face, thickness, host.turn)
    strip = closed_strip.ring_length(host.turn, aim, thickness, how)
    width = ring.width(host.lid_depth, b.ring_stand)
    return _Ring(gap, thickness, aim, face, outside, read, listed, how, strip, width)


def _filing(host: Host, r: _Ring, target: Quantity) -> Quantity:
    return ring.filing_per_side(r.outside, ring.outside(host.body_inside, target))


def _fitting(host: Host, r: _Ring, target: Quantity) -> tuple[float, tuple[Quantity, ...]]:
    """What is filed off a side of the stand [mm], and the numbers to fit the ring by."""
    word = host.form.word
    slide = ring.outside(host.body_inside, target).named(
        "ring_slide", f"{word} that slides in the body"
    )
    first, _ = choose(
        "ring_first", f"ring's {word} to fit first",
        {"for the lid": r.aim, "for the body": slide}, "largest",
    )  # fmt: skip
    filing = ring.filing_per_side(r.outside, slide)
    first_round = outline_law.around(first, host.turn).named(
        "ring_first_round", "length round the ring to fit first"
    )
    found = [slide, filing, first] + ([] if host.form.calliper else [first_round])
    if filing.value < -0.001:
        seat = ring.filing_per_side(slide, r.aim)
        found.append(seat.named("seat_filing_per_side", "filing per side in the lid"))
    return filing.value, tuple(found)


def _listed(b: Brief, host: Host, r: _Ring, ends: Edges) -> tuple[Quantity, ...]:
    inside = ring.inside(r.outside, r.thickness).named("ring_inside", "ring's inside, mean across")
    grooves = tuple(each.named(f"ring_{each.id}", f"ring's {each.label}") for each in r.how.grooves)
    return (
        r.thickness, *r.listed, r.strip, r.width, b.ring_stand, *ends.quantities, inside,
        *grooves, tenth(host.turn), ring.stretch_percent(r.outside), *air(host, b.ring_stand),
    )  # fmt: skip


def _part(b: Brief, host: Host, r: _Ring) -> Part:
    now = shell(host.form, r.outside, r.thickness, WHAT)
    marks = strip_marks(b, r.face, r.thickness, r.strip, r.width)
    blank = bent_strip(r.strip, r.width, marks=marks)
    weight = now.mass(r.width, b.metal("ring_metal")).named("ring_mass", "weight of the ring")
    body = now.body("ring", r.width.value, host.roof - r.width.value)
    placed = (Solid("ring", body, show_hidden=True),)
    return Part("ring", "ring", "ring_sheet", blank, weight, 1, placed)


def _joints(host: Host, r: _Ring) -> tuple[Joint, ...]:
    around = outline_law.around(r.outside, host.turn).named("ring_joint_length")
    return (
        Joint("ring_seam", "seam of the ring", ("ring",), r.width, r.thickness),
        Joint(
            "ring_in_lid", "ring into the lid", ("wall", "ring"), around, host.lid_depth, r.gap,
            after=("ring_seam", "top_joint"), shows=True,
        ),
    )  # fmt: skip
