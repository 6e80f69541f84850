"""Weights from sizes and density."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import pi


@formula("mass", "g")
def tube_mass(outside: Any, wall: Any, length: Any, density: Any) -> Any:
    """Mass of a piece of tube [g].

    mass = pi x (outside - wall) x wall x length x density / 1000

    outside, wall, length [mm]; density [g/cm3].
    Source: volume of a hollow cylinder.

    >>> round(tube_mass(38.05, 1.01, 30.0, 8.53), 2)
    30.08
    """
    return pi * (outside - wall) * wall * length * density / 1000


@formula("mass", "g")
def strip_mass(length: Any, width: Any, thickness: Any, density: Any) -> Any:
    """Mass of a strip [g].

    mass = length x width x thickness x density / 1000

    length, width, thickness [mm]; density [g/cm3].
    Source: volume of a box.

    >>> round(strip_mass(111.06, 16.29, 0.64, 8.53), 2)
    9.88
    """
    return length * width * thickness * density / 1000


@formula("mass", "g")
def disc_mass(diameter: Any, thickness: Any, density: Any) -> Any:
    """Mass of a disc [g].

    mass = pi x diameter^2 / 4 x thickness x density / 1000

    diameter, thickness [mm]; density [g/cm3].
    Source: volume of a cylinder.

    >>> round(disc_mass(38.05, 0.71, 8.53), 2)
    6.89
    """
    return pi * diameter * diameter / 4 * thickness * density / 1000
