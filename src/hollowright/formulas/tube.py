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


@formula("bore", "mm", "bore (both ways together)")
def combined_bore(reckoned: Any, direct: Any, share: Any) -> Any:
    """One bore [mm] from a reckoned one and a direct reading, weighted by their doubts.

    bore = reckoned + share x (direct - reckoned)

    reckoned: from outside and wall [mm]; direct: from the inside jaws [mm]; share: weight of the
    direct reading [1], by their variances and covariance.
    Source: generalised least squares of two estimates (JCGM 100 F.1.2 for the covariance).

    >>> round(combined_bore(36.03, 36.05, 0.25), 4)
    36.035
    """
    return reckoned + share * (direct - reckoned)


def direct_share(var_reckoned: float, var_direct: float, cov: float) -> float:
    """Weight [1] of the direct reading that leaves the least variance, kept within 0 and 1.

    var_reckoned, var_direct, cov: variances and covariance [mm2] of the two estimates.
    Source: best linear unbiased estimate of one value from two correlated ones.

    >>> direct_share(4.0, 4.0, 0.0), direct_share(9.0, 1.0, 0.0)
    (0.5, 0.9)
    """
    spread = var_reckoned + var_direct - 2 * cov
    if spread <= 0:
        return 0.5
    return min(1.0, max(0.0, (var_reckoned - cov) / spread))


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
