"""A vessel seamed from equal gores along its meridian, on a flat base where it has one."""

from __future__ import annotations

import math
from itertools import pairwise

from hollowright.designs.vessel_base import base_joint, base_part
from hollowright.designs.vessel_form import Form, Made
from hollowright.designs.vessel_lines import (
    Points,
    above,
    below,
    cubics,
    length,
    reached_along,
    runs,
)
from hollowright.designs.vessel_work import gores_work
from hollowright.formulas import raising
from hollowright.piece import Blank, Joint, Part, Solid
from hollowright.quantity import Quantity, exact
from hollowright.shapes import along
from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import TURN, Curve, Line
from hollowright.shapes.outline import Outline
from hollowright.shapes.solids import FRONT_LEFT, Turned

NEAR = 0.02  # part of the thickness by which it is varied for a slope


def made(form: Form) -> Made:
    """The gores, the base, their seams and the work."""
    profile, t, count = form.profile, form.thickness, int(form.b.gores.value)
    middle = _middle(form, t.value)
    outline = gore_outline(middle, count)
    long, wide, numbers = _sizes(form, middle)

    def metal_below(thickness: float, level: float) -> float:
        return profile.filled(0.0, level) - profile.filled(thickness, level)

    skin = form.skin("outside", "", lambda depth: metal_below(depth, profile.height))
    metal = raising.metal(*skin, t).named("shell_metal", "metal of the whole form")
    parts: list[Part] = []
    seams = [Joint("gores", f"{count} seams between gores", ("gore",),
                   raising.seams(long, form.b.gores), t)]  # fmt: skip
    based: tuple[Quantity, ...] = ()
    if profile.flat_base > 0:
        base, based = base_part(form)
        parts.append(base)
        seams.append(base_joint(form, based[0], "gore", ("gores",)))
        metal = raising.less_base(metal, based[-1])
    whole = raising.metal_mass(metal, form.density).named("wall_mass", "weight of all gores")
    mass = raising.share_of(whole, form.b.gores).named("gore_mass", "weight of a gore")
    body = Turned(
        "gores", _section(form), seams=tuple(FRONT_LEFT + TURN * k / count for k in range(count)),
        exact_volume=metal.value if profile.curved else None,
    )  # fmt: skip
    blank = Blank("plate", outline, {"length": long, "width": wide}, shaped=True)
    parts.append(Part("gore", "gore", "sheet", blank, mass, count, (Solid("gores", body),)))
    return Made(
        (form.b.gores, *numbers, long, wide, _defect(form, middle, count), *skin, *based, whole),
        tuple(parts), tuple(seams), gores_work(count, bool(based)), metal_below, profile,
    )  # fmt: skip


def _middle(form: Form, thickness: float) -> Points:
    """The middle of a wall of a thickness [mm], from the base's upper face, or the axis, up."""
    return _wall(form, form.profile.inside(thickness / 2), thickness)


def _wall(form: Form, line: Points, thickness: float) -> Points:
    """A line from the upper face of a base of a thickness, or from the axis, up to the rim."""
    whole = below(line, form.profile.height)
    return above(whole, thickness) if form.profile.flat_base > 0 else whole


def _section(form: Form) -> Points:
    """Half the section of the wall above its base [mm]."""
    profile, t = form.profile, form.thickness.value
    if profile.flat_base <= 0:
        return profile.section(t)
    inside = above(below(profile.drawn_inside(t), profile.height), t + 1e-9)
    return (*_wall(form, profile.drawn, t), *reversed(inside))


def _sizes(form: Form, middle: Points) -> tuple[Quantity, Quantity, tuple[Quantity, ...]]:
    """Length and width as quantities that follow the thickness, and the numbers they come from."""
    t, widest = form.thickness, form.profile.widest
    near = [length(_middle(form, t.value * k)) for k in (1 - NEAR, 1 + NEAR)]
    lost = (near[0] - near[1]) / (2 * NEAR * t.value)
    outside = form.constant(
        "length_of_foil", "length of a gore, led back to no thickness", "mm",
        length(middle) + lost * t.value, "along the profile, and straight back from this thickness",
    )  # fmt: skip
    shorter = form.constant(
        "shortening", "length lost for each millimetre of thickness", "", lost,
        "from lengths at two thicknesses",
    )  # fmt: skip
    radius = exact("greatest_radius", "greatest outside radius", "mm", widest, "asked",
                   "the profile")  # fmt: skip
    inner = max(r for r, _ in middle)
    aside = form.constant(
        "aside", "how far the middle lies inside it, in thicknesses", "",
        (widest - inner) / t.value, "of parallel curves, at the widest place",
    )  # fmt: skip
    return (
        raising.gore_length(outside, shorter, t),
        raising.gore_width(radius, aside, t, form.b.gores),
        (outside, shorter, radius, aside),
    )


def _defect(form: Form, middle: Points, count: int) -> Quantity:
    """How much longer a gore's edge is than the line along the form that it must follow."""
    long = edge_length(middle, count) - length(middle)
    return form.constant(
        "edge_defect", "how much the gore's edge must shrink to follow the form", "mm", long,
        "length of the gore's edge less that of its middle",
    )  # fmt: skip


def edge_length(middle: Points, count: int) -> float:
    """Length of the edge of one of `count` gores whose middle line is given [mm]."""
    half = math.pi / count
    return math.fsum(math.hypot(math.dist(a, b), half * (b[0] - a[0])) for a, b in pairwise(middle))


def gore_outline(middle: Points, count: int) -> Outline:
    """One of `count` gores lying along x: half its width is pi x radius / count, all along [mm]."""
    half = math.pi / count
    over: list[Curve] = []
    start = 0.0
    for run in runs(middle):
        reached = [start + each for each in reached_along(run)]
        edge = tuple((s, half * r) for s, (r, _) in zip(reached, run, strict=True))
        over += cubics(edge)
        start = reached[-1]
    under = [_mirrored(curve) for curve in over]
    back = [along.reverse(curve) for curve in reversed(over)]
    tips = ((under[-1].end, back[0].start), (back[-1].end, under[0].start))
    last, first = ([Line(*tip)] if math.dist(*tip) > 1e-9 else [] for tip in tips)
    outline = Outline((*under, *last, *back, *first))
    _, low, _, _ = outline.bounds
    return outline.moved(0.0, -low)


def _mirrored(curve: Curve) -> Curve:
    """A side of the gore on the other side of its middle."""
    if isinstance(curve, Cubic):
        return Cubic(*((x, -y) for x, y in curve.controls))
    (x0, y0), (x1, y1) = curve.start, curve.end
    return Line((x0, -y0), (x1, -y1))
