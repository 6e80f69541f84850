"""The flat base that a seamed vessel's wall stands on: a disc, trimmed and filed to the wall."""

from __future__ import annotations

import math

from hollowright.designs.vessel_form import Form
from hollowright.designs.vessel_lines import above, below, volume
from hollowright.formulas import dome, raising
from hollowright.piece import Blank, Joint, Part, Solid
from hollowright.quantity import Quantity
from hollowright.shapes.outline import disc
from hollowright.shapes.solids import Turned


def base_part(form: Form) -> tuple[Part, tuple[Quantity, ...]]:
    """The base as a part; its diameter, its mean radius within the profile, its metal."""
    t, profile = form.thickness, form.profile
    upper = above(profile.fine, t.value)[0][0]
    diameter = form.constant(
        "base_diameter", "diameter of the base", "mm", 2 * max(profile.flat_base, upper),
        "the outside where the wall stands on it",
    )  # fmt: skip
    slab = volume(below(profile.fine, t.value))
    radius = form.constant(
        "base_radius", "mean radius of the base, its edge filed to the form", "mm",
        math.sqrt(slab / math.pi / t.value), "of the profile below its upper face",
    )  # fmt: skip
    metal = raising.slab(radius, t)
    weight = raising.metal_mass(metal, form.density).named("base_mass", "weight of the base")
    section = (*below(profile.fine, t.value), (0.0, t.value))
    body = Turned("base", section)
    blank = Blank("disc", disc(diameter.value), {"diameter": diameter}, trimmed=True)
    part = Part("base", "base", "sheet", blank, weight, 1, (Solid("base", body),))
    return part, (diameter, radius, metal)


def base_joint(form: Form, foot: Quantity, wall: str, after: tuple[str, ...]) -> Joint:
    """The seam between the base and the wall that stands on it."""
    length = dome.girdle(foot).named("base_round", "seam round the base")
    return Joint("base", "base to the wall", ("base", wall), length, form.thickness, after=after)
