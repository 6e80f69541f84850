"""A lid with an outer rim: a band soldered round the lid that goes down over the body."""

from __future__ import annotations

from hollowright.designs import inner_ring
from hollowright.designs.brief import Brief
from hollowright.designs.fields import Field
from hollowright.designs.lid_fit import slides
from hollowright.designs.lids import Host, Lid, needs
from hollowright.designs.over_lid import Over, over
from hollowright.designs.over_lid_work import rim_work
from hollowright.designs.stocks import sheet_stock
from hollowright.formulas import lid as law
from hollowright.formulas import outline as outline_law
from hollowright.piece import Joint, Part, Solid
from hollowright.quantity import Quantity
from hollowright.units import format_number

FIELDS = (
    Field(
        "sizes.rim_reach", "rim_reach", "length", "rim's reach",
        "how far it goes down over the body", "3 mm", default="3 mm", low=0.5, high=60,
    ),
    Field(
        "sizes.rim_lap", "rim_lap", "length", "rim's lap", "how far it lies on the lid", "2.5 mm",
        default="2.5 mm", low=0.5, high=60,
    ),
)  # fmt: skip


def rim_lid(b: Brief, host: Host) -> Lid:
    """The lid of a box held by a band round its outside."""
    needs(b, ("ring_metal", "ring_thickness"), "the lid's rim is made of it")
    metal, thickness = b.metal("ring_metal"), b.built(b.ring_thickness)
    if b.rim_lap.value > host.lid_wall.value:
        raise b.refuse(
            "rim_lap",
            f"the lid's wall is {format_number(host.lid_wall.value)} mm high.",
            "Make the lap shorter or the lid higher.",
        )
    made = over(b, host, "rim", "rim", metal, thickness, b.rim_reach)
    slides(b, "rim_reach", b.rim_reach, made.ends.land, host.body_depth)
    width = law.band_width(b.rim_lap, b.rim_reach).named("rim_width", "width of the rim")
    around = outline_law.around(host.body_outside, host.turn).named("rim_joint_length")
    return Lid(
        (_part(b, host, made, width),), (made.fit,),
        (thickness, *made.quantities, b.rim_reach, b.rim_lap, width),
        (Joint("rim_seam", "seam of the rim", ("rim",), width, thickness),
         Joint("rim_on_lid", "rim onto the lid", ("wall", "rim"), around, b.rim_lap,
               made.fit.target, after=("rim_seam", "top_joint"), shows=True)),
        rim_work(host.form, bool(made.how.grooves)),
        (sheet_stock(b, "ring_sheet", "rim's sheet", "ring"),),
        (*inner_ring.thin_cautions(made.ends.choices),
         *inner_ring.solder_cautions(made.fit.target, thickness, "rim", "on")),
        made.ends.choices,
    )  # fmt: skip


def _part(b: Brief, host: Host, made: Over, width: Quantity) -> Part:
    weight = made.shell.mass(width, made.fit.metal).named("rim_mass", "weight of the rim")
    body = made.shell.body("rim", width.value, host.rim - b.rim_reach.value)
    return Part("rim", "rim", "ring_sheet", made.blank(b, width), weight, 1, (Solid("rim", body),))
