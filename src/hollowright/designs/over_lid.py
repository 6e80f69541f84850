"""What goes over a body along its outline, shared by outer rim and cap: its inside, its strip."""

from __future__ import annotations

from dataclasses import dataclass

from hollowright.designs import closed_strip, inner_ring
from hollowright.designs.brief import Brief
from hollowright.designs.closed_strip import Bending
from hollowright.designs.forms import Form
from hollowright.designs.lid_fit import Edges, air, edges, force, read_bore, tenth
from hollowright.designs.lids import Host, Shell, at_across, read_across, shell, strip_marks
from hollowright.designs.strips import bent_strip
from hollowright.formulas import lid as law
from hollowright.handbook.metals import Metal
from hollowright.piece import Blank, Fit
from hollowright.quantity import Quantity


@dataclass(frozen=True)
class Over:
    """A closed wall that goes over the body: its numbers [mm] and its fit.

    face: its outer face as planned; shell: as it is now.
    """

    fit: Fit
    face: Form
    shell: Shell
    how: Bending
    strip: Quantity
    thickness: Quantity
    ends: Edges
    quantities: tuple[Quantity, ...]

    def blank(self, b: Brief, width: Quantity) -> Blank:
        """Its strip, of a width [mm]."""
        marks = strip_marks(b, self.face, self.thickness, self.strip, width)
        return bent_strip(self.strip, width, marks=marks)


def over(
    b: Brief, host: Host, part: str, name: str, metal: Metal, thickness: Quantity, reach: Quantity
) -> Over:
    """A part of a sheet that goes over the body by a reach [mm]."""
    form, turn = host.form, host.turn
    target, feel, window = inner_ring.aimed_clearance(b)
    aim = law.over_inside(host.body_outside, target)
    outside = law.over_outside(aim, thickness)
    face = at_across(form, outside, f"the {name}")
    how = closed_strip.bending(b, face, thickness, turn)
    strip = closed_strip.over_length(turn, aim, thickness, how).named(
        f"{part}_length", f"length of the {name}'s strip"
    )
    ids = ("lid_bore", "lid_inside_round")
    inside, read, listed = read_across(b, aim, form, ids, f"{name}'s inside")
    pressed = force(b, host, (name, metal, thickness), host.body_outside, target, window)
    now = law.over_outside(inside, thickness).named("lid_outside", f"{name}'s outside, mean across")
    fit = Fit(
        id=f"{part}_over_body", label=f"{name} over the body", part=part, bore=host.body_outside,
        length=strip, thickness=thickness, target=target, window=pressed.window, feel=feel,
        metal=metal, other_wall=host.thickness, other_metal=host.metal, line=how.line,
        lost=how.lost, made=inside if read else None, bore_read=host.read, weaker=pressed.weaker,
        aim=aim, over=True, slider=name, turn=turn.value,
        read_bore=read_bore(form.shape, "body's outside"),
    )  # fmt: skip
    ends = edges(b, thickness, host.thickness, reach, inner=False)
    grooves = tuple(each.named(f"{part}_{each.id}", f"{name}'s {each.label}")
                    for each in how.grooves)  # fmt: skip
    quantities = (
        target.named("clearance"), *listed, now, strip, *grooves, *ends.quantities,
        *pressed.quantities, tenth(turn), *air(host, reach),
    )  # fmt: skip
    made = shell(form, now, thickness, f"the {name}")
    return Over(fit, face, made, how, strip, thickness, ends, quantities)
