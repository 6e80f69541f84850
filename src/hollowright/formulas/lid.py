"""Lids that follow an outline: the strips of a ring inside, a band outside, a wall over it."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import pi


@formula(
    "ring_length",
    "mm",
    slips={
        "the thickness forgotten": lambda turn, outside, thickness: turn * outside,
        "the thickness taken off twice": lambda turn, outside, thickness: (
            turn * (outside - 2 * thickness)
        ),
        "the thickness added instead of taken off": lambda turn, outside, thickness: (
            turn * (outside + thickness)
        ),
        "the thickness taken off without its turn": lambda turn, outside, thickness: (
            turn * outside - thickness
        ),
        "pi x thickness taken off at sharp corners too": lambda turn, outside, thickness: (
            turn * outside - pi * thickness
        ),
    },
)
def ring_length(turn: Any, outside: Any, thickness: Any) -> Any:
    """Length of the strip of a ring that follows any outline [mm], on its middle.

    length = turn x (outside - thickness)

    turn: what is lost round for each mm across [1]; outside: mean across the ring, its length round
    over turn [mm]; thickness [mm].
    Source: length of the parallel curve half the thickness inside.

    >>> round(ring_length(3.46410162, 37.97, 0.64), 3)
    129.315
    """
    return turn * (outside - thickness)


@formula("ring_length", "mm")
def ring_length_on_line(turn: Any, outside: Any, thickness: Any, line: Any) -> Any:
    """Length of the strip of a ring that follows any outline [mm], on another neutral line.

    length = turn x (outside - 2 x thickness x (1 - line))

    turn, outside, thickness as for the mid-line; line: from the inner face in parts of it [1].
    Source: length of the parallel curve.

    >>> round(ring_length_on_line(3.14159265, 48.42, 0.64, 0.35), 3)
    149.502
    """
    return turn * (outside - 2 * thickness * (1 - line))


@formula("ring_length", "mm")
def ring_length_folded(turn: Any, outside: Any, lost: Any) -> Any:
    """Length of the strip of a ring whose corners are scored and folded [mm].

    length = turn x outside - lost

    turn, outside as for a bent one; lost: what folds (and bends) take off the outer length [mm].
    Source: plane geometry.

    >>> round(ring_length_folded(4.0, 37.97, 1.097), 3)
    150.783
    """
    return turn * outside - lost


@formula(
    "over_length",
    "mm",
    slips={
        "the thickness forgotten": lambda turn, inside, thickness: turn * inside,
        "the thickness added twice": lambda turn, inside, thickness: (
            turn * (inside + 2 * thickness)
        ),
        "the thickness taken off instead of added": lambda turn, inside, thickness: (
            turn * (inside - thickness)
        ),
        "the thickness added without its turn": lambda turn, inside, thickness: (
            turn * inside + thickness
        ),
    },
)
def over_length(turn: Any, inside: Any, thickness: Any) -> Any:
    """Length of the strip of a wall that goes over another [mm], on its middle.

    length = turn x (inside + thickness)

    turn: what is gained round for each mm across [1]; inside: its mean across inside [mm];
    thickness [mm].
    Source: length of the parallel curve half the thickness outside.

    >>> round(over_length(3.14159265, 40.03, 0.8), 3)
    128.271
    """
    return turn * (inside + thickness)


@formula("over_length", "mm")
def over_length_on_line(turn: Any, inside: Any, thickness: Any, line: Any) -> Any:
    """Length of the strip of a wall that goes over another [mm], on another neutral line.

    length = turn x (inside + 2 x thickness x line)

    turn, inside, thickness as for the mid-line; line: from the inner face in parts of it [1].
    Source: length of the parallel curve.

    >>> round(over_length_on_line(3.14159265, 40.03, 0.8, 0.35), 3)
    127.517
    """
    return turn * (inside + 2 * thickness * line)


@formula("over_length", "mm")
def over_length_folded(turn: Any, inside: Any, thickness: Any, lost: Any) -> Any:
    """Length of the strip of a folded wall that goes over another [mm].

    length = turn x (inside + 2 x thickness) - lost

    turn, inside, thickness as for a bent one; lost: what folds (and bends) take off the outer
    length [mm].
    Source: plane geometry.

    >>> round(over_length_folded(4.0, 40.03, 0.8, 1.097), 3)
    165.423
    """
    return turn * (inside + 2 * thickness) - lost


@formula("over_inside", "mm", "mean across inside")
def over_inside(outside: Any, clearance: Any) -> Any:
    """Inside of a part that goes over another [mm].

    inside = outside + clearance

    outside: of what it goes over; clearance: across [mm].
    Source: definition of clearance, ISO 286-1.

    >>> round(over_inside(40.02, 0.03), 2)
    40.05
    """
    return outside + clearance


@formula("over_outside", "mm", "mean across outside")
def over_outside(inside: Any, thickness: Any) -> Any:
    """Outside of a closed wall from its inside [mm].

    outside = inside + 2 x thickness

    inside: mean across inside; thickness [mm].
    Source: plane geometry.

    >>> round(over_outside(40.05, 0.64), 2)
    41.33
    """
    return inside + 2 * thickness


@formula("cap_body_wall", "mm", "body's wall")
def cap_body_wall(height: Any, base: Any, top: Any) -> Any:
    """Height of the body's wall [mm] of a box whose lid goes over it, plates on the ends.

    body wall = height - base - top

    height: of the closed box; base, top: thickness of the two plates [mm].
    Source: plane geometry: the lid's plate rests on the body's rim.

    >>> round(cap_body_wall(32.0, 0.71, 0.82), 2)
    30.47
    """
    return height - base - top


@formula("cap_body_wall", "mm", "body's wall")
def cap_body_wall_let_in(height: Any, top: Any) -> Any:
    """Height of the body's wall [mm] of a box whose lid goes over it, plates let in.

    body wall = height - top

    height: of the closed box; top: thickness of the lid's plate [mm].
    Source: plane geometry: the lid's plate rests on the body's rim.

    >>> round(cap_body_wall_let_in(32.0, 0.71), 2)
    31.29
    """
    return height - top


@formula(
    "band_width", "mm", "width of the rim", slips={"the lap forgotten": lambda lap, reach: reach}
)
def band_width(lap: Any, reach: Any) -> Any:
    """Width of a band that lies on the lid's wall and reaches down over the body [mm].

    width = lap + reach

    lap: how far it lies on the lid; reach: how far it goes over the body [mm].
    Source: plane geometry.

    >>> band_width(3.0, 2.5)
    5.5
    """
    return lap + reach


@formula("let_in_depth", "mm", "how far inside the outline a let-in plate lies",
         slips={"the gap on each side": lambda wall, gap: wall + gap,
                "the gap forgotten": lambda wall, gap: wall})  # fmt: skip
def let_in_depth(wall: Any, gap: Any) -> Any:
    """How far inside the outline the edge of a plate lies that is let into the wall [mm].

    depth = wall + gap / 2

    wall: thickness of the wall; gap: for the solder, across [mm].
    Source: plane geometry.

    >>> round(let_in_depth(0.82, 0.1), 2)
    0.87
    """
    return wall + gap / 2


@formula("plate_mass", "g")
def plate_mass(area: Any, thickness: Any, density: Any) -> Any:
    """Mass of a flat, or of an upright wall by its section and height [g].

    mass = area x thickness x density / 1000

    area [mm2]; thickness: of the flat, or the wall's height [mm]; density [g/cm3].
    Source: volume of a prism.

    >>> round(plate_mass(1478.54, 0.82, 8.53), 2)
    10.34
    """
    return area * thickness * density / 1000


@formula("diameter_per_length", "mm", "what a change of length does across")
def across_of(change: Any, turn: Any) -> Any:
    """Change of a closed strip's mean across [mm] for a change of its length.

    change across = change / turn

    change: of the strip's length [mm]; turn: what it changes round for each mm across [1].
    Source: mean width of a convex curve (Cauchy).

    >>> round(across_of(0.1, 3.4641), 3)
    0.029
    """
    return change / turn


@formula("seating_force", "N", "push of that air on the lid")
def seating_push(pressure: Any, area: Any) -> Any:
    """Force [N] of an overpressure on a lid of any outline.

    force = pressure x area / 1000

    pressure [kPa]; area: that it acts on [mm2].
    Source: definition of pressure.

    >>> round(seating_push(4.5, 1017.9), 2)
    4.58
    """
    return pressure * area / 1000
