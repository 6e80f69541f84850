"""A cap: a lift-off lid whose own wall goes over the body, its plate resting on the body's rim."""

from __future__ import annotations

from hollowright.designs import inner_ring
from hollowright.designs.brief import Brief
from hollowright.designs.lid_fit import slides
from hollowright.designs.lids import Host, Lid
from hollowright.designs.over_lid import Over, over
from hollowright.designs.over_lid_work import cap_work
from hollowright.piece import Joint, Part, Solid


def cap_lid(b: Brief, host: Host) -> Lid:
    """The lid of a box whose own wall goes over the body."""
    made = over(b, host, "lid_wall", "lid's wall", host.metal, host.thickness, host.lid_depth)
    slides(b, "lid_share", host.lid_depth, made.ends.land, host.body_wall)
    return Lid(
        (_part(b, host, made),), (made.fit,), made.quantities,
        (Joint("lid_wall_seam", "seam of the lid's wall", ("lid_wall",), host.lid_wall,
               host.thickness),),
        cap_work(host.form, bool(made.how.grooves), b.word("plates")),
        cautions=inner_ring.thin_cautions(made.ends.choices),
        choices=made.ends.choices,
        outer=made.shell.outer,
    )  # fmt: skip


def _part(b: Brief, host: Host, made: Over) -> Part:
    weight = made.shell.mass(host.lid_wall, host.metal)
    named = weight.named("lid_wall_mass", "weight of the lid's wall")
    low = host.roof - host.lid_depth.value
    body = made.shell.body("lid_wall", host.lid_wall.value, low)
    blank = made.blank(b, host.lid_wall_planned)
    return Part("lid_wall", "lid's wall", "wall_sheet", blank, named, 1,
                (Solid("lid's wall", body),))  # fmt: skip
