"""What a cone of sheet weighs: open at both ends, closed at its apex, or cut slanting."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import pi, sqrt


@formula(
    "mass",
    "g",
    slips={
        "one end's radius taken twice": lambda a, b, s, t, d: pi * 2 * a * s * t * d / 1000,
        "diameters taken for radii": lambda a, b, s, t, d: pi * 2 * (a + b) * s * t * d / 1000,
    },
)
def open_cone_mass(base_mid: Any, top_mid: Any, slant: Any, thickness: Any, density: Any) -> Any:
    """Mass of a frustum of sheet, its ends filed flat [g].

    mass = pi x (base_mid + top_mid) x slant x thickness x density / 1000

    base_mid, top_mid: mid-thickness radii of the ends [mm]; slant, thickness [mm]; density
    [g/cm3]. Exact while the inside is open at both ends.
    Source: lateral area of a frustum (Longfield, Sheet Metal Drafting, 1921, sec. 38).

    >>> round(open_cone_mass(19.586, 11.586, 31.048, 0.8, 8.53), 3)
    20.749
    """
    return pi * (base_mid + top_mid) * slant * thickness * density / 1000


@formula("mass", "g")
def closed_cone_mass(wide: Any, narrow: Any, height: Any, hollow: Any, density: Any) -> Any:
    """Mass of a cone of sheet whose inside comes to a point [g].

    mass = (pi x height / 12 x (wide^2 + wide x narrow + narrow^2) - hollow) x density / 1000

    wide, narrow: outside diameters [mm]; height [mm]; hollow: the cone inside [mm3]; density
    [g/cm3].
    Source: volumes of a frustum and of a cone.

    >>> round(closed_cone_mass(50, 0.7, 60, 35831.6, 8.53), 3)
    34.084
    """
    solid = pi * height / 12 * (wide * wide + wide * narrow + narrow * narrow)
    return (solid - hollow) * density / 1000


@formula("cone_volume", "mm3", "solid cone on the base")
def whole_cone(base: Any, taper: Any) -> Any:
    """Volume of the solid cone on a base, out to its apex [mm3].

    volume = pi / 24 x base^3 / taper

    base: its diameter [mm]; taper [1], not 0.
    Source: volume of a cone.

    >>> round(whole_cone(40, 0.25), 2)
    33510.32
    """
    return pi / 24 * base * base * base / taper


@formula("apex_height", "mm", "apex above the cut")
def apex_above(base: Any, taper: Any, cut_height: Any) -> Any:
    """Height of a cone's apex above the place where a cut crosses its axis [mm].

    apex above = base / (2 x taper) - cut_height

    base: diameter at height 0 [mm]; taper [1], not 0; cut_height [mm].
    Source: similar triangles.

    >>> apex_above(40, 0.25, 21)
    59.0
    """
    return base / (2 * taper) - cut_height


@formula("above_volume", "mm3", "solid cone above the cut")
def above_cut(apex: Any, taper: Any, lean: Any) -> Any:
    """Volume of a solid cone between its apex and a slanting plane [mm3].

    volume = pi / 3 x apex^3 x taper^2 / (1 - (taper x lean)^2)^1.5

    apex: its height above the place where the plane crosses the axis [mm]; taper [1]; lean:
    height that the plane gains per length [1], crossing every line of the cone.
    Source: a third of the elliptic section times the apex's distance from it.

    >>> round(above_cut(59, 0.25, 0.36397), 2)
    13610.71
    """
    left = 1 - taper * taper * lean * lean
    return pi / 3 * apex * apex * apex * taper * taper / (left * sqrt(left))


@formula("mass", "g")
def slanting_mass(outer: Any, above: Any, inner: Any, inside: Any, density: Any) -> Any:
    """Mass of a cone of sheet from its flat base to a slanting cut [g].

    mass = (outer - above - inner + inside) x density / 1000

    outer, inner: solid cones on the outside and the inside of the base; above, inside: what lies
    above the cut of either [mm3]; density [g/cm3].
    Source: addition of volumes.

    >>> round(slanting_mass(33510.3, 13605.8, 29521.9, 10987.6, 8.53), 3)
    11.688
    """
    return (outer - above - inner + inside) * density / 1000
