"""Tube: its bore, its metal, and what the calliper's jaws do to a wall reading."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import pi


@formula(
    "bore",
    "mm",
    slips={
        "the wall taken off once instead of twice": lambda outside, wall: outside - wall,
        "the wall added instead of taken off": lambda outside, wall: outside + 2 * wall,
        "the wall forgotten": lambda outside, wall: outside,
        "half the wall taken off": lambda outside, wall: outside - wall / 2,
        "the wall taken off four times": lambda outside, wall: outside - 4 * wall,
    },
)
def bore(outside: Any, wall: Any) -> Any:
    """Bore of a tube [mm].

    bore = outside - 2 x wall

    outside: outside diameter [mm]; wall: thickness of the wall [mm], less than half the outside.
    Source: plane geometry (EN 1057 and ASTM B88 define their bores so).

    >>> round(bore(38.05, 1.01), 3)
    36.03
    """
    return outside - 2 * wall


@formula("wall", "mm", slips={"the jaws not corrected for": lambda read, jaw, outside: read})
def wall_under_flat_jaw(read: Any, jaw: Any, outside: Any) -> Any:
    """Wall of a tube [mm] when one jaw bears flat across the hollow of the bore.

    wall = read - jaw^2 / (8 x (outside / 2 - read))

    read: what the calliper shows [mm]; jaw: width of the flat jaw along the chord [mm], small
    against the bore; outside: outside diameter [mm]. The flat bridges a sagitta of b^2 / (8 R).
    Source: sagitta of a chord, plane geometry.

    >>> round(wall_under_flat_jaw(1.07, 3.0, 38.05), 4)
    1.0073
    """
    return read - jaw * jaw / (8 * (outside / 2 - read))


@formula("bore", "mm", slips={"the jaws not corrected for": lambda read, flat: read})
def bore_under_flat_jaws(read: Any, flat: Any) -> Any:
    """Bore [mm] read with inside jaws that have small flats: they read short.

    bore = read + flat^2 / (2 x read)

    read: what the calliper shows [mm]; flat: width of each jaw's flat [mm], small against the bore.
    Source: two sagittas of b^2 / (4 D) each, plane geometry.

    >>> round(bore_under_flat_jaws(12.00, 0.5), 4)
    12.0104
    """
    return read + flat * flat / (2 * read)


@formula(
    "wall", "mm", slips={"the bore taken off without halving": lambda outside, bore: outside - bore}
)
def wall_from_bore(outside: Any, bore: Any) -> Any:
    """Wall of a tube [mm] whose outside and bore were read.

    wall = (outside - bore) / 2

    outside, bore: diameters [mm].
    Source: plane geometry.

    >>> round(wall_from_bore(38.05, 36.03), 3)
    1.01
    """
    return (outside - bore) / 2


@formula("half_bore", "mm")
def half_bore(bore: Any) -> Any:
    """Bore of one half of a box [mm], the tube's own until it is read by itself.

    half's bore = bore

    bore: of the tube [mm].
    Source: adjacent pieces of one tube.

    >>> half_bore(36.03)
    36.03
    """
    return bore


@formula("tube_section", "mm2", "section of the tube")
def section(outside: Any, wall: Any) -> Any:
    """Area of metal in a tube's cross-section [mm2].

    section = pi x (outside - wall) x wall

    outside: outside diameter [mm]; wall [mm].
    Source: ring area, plane geometry; the rule of ASTM B88's theoretical weights.

    >>> round(section(12.7, 0.889), 3)
    32.987
    """
    return pi * (outside - wall) * wall
