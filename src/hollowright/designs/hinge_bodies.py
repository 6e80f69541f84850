"""A hinge's knuckles and pin as bodies on an edge, and what they are soldered to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hollowright.piece import Solid
from hollowright.shapes.solids import Turned
from hollowright.shapes.space import Vector, add

NOWHERE: Vector = (0.0, 0.0, 0.0)

KNUCKLES_OUT, PIN_OUT = 1.6, 3.0
"""Knuckles and pin are drawn apart by so many of their diameters."""


@dataclass(frozen=True)
class Leaf:
    """What knuckles are soldered to: a part's id, its name in words, which way it lies.

    way: unit vector from the pin to the leaf. rides: a body whose shift the knuckles follow.
    """

    part: str
    name: str
    way: Vector
    rides: str = ""


@dataclass(frozen=True)
class Place:
    """The pin's axis: where the first knuckle begins [mm], and the unit vector along it.

    pin: how far and which way the pin is drawn apart [mm]; a little along itself unless said.
    """

    start: Vector
    along: Vector
    pin: Vector | None = None


def knuckle_solids(
    tube: tuple[float, float], lengths: Sequence[float], gap: float, count: int,
    leaves: tuple[Leaf, Leaf], place: Place,
) -> tuple[tuple[Solid, ...], tuple[Solid, ...]]:  # fmt: skip
    """The outer leaf's knuckles and the inner leaf's; tube: outside diameter and wall [mm]."""
    outer, inner = tube[0] / 2, tube[0] / 2 - tube[1]
    found: tuple[list[Solid], list[Solid]] = ([], [])
    at = 0.0
    for number in range(count):
        which = number % 2
        length, leaf = lengths[which], leaves[which]
        profile = ((inner, 0.0), (outer, 0.0), (outer, length), (inner, length))
        start = add(place.start, place.along, at)
        body = Turned(f"knuckle_{number + 1}", profile, start, place.along)
        pull = add(NOWHERE, leaf.way, KNUCKLES_OUT * tube[0])
        label = f"knuckle {number + 1}, {('outer', 'inner')[which]}"
        found[which].append(Solid(label, body, pull=pull, rides=leaf.rides))
        at += length + gap
    return tuple(found[0]), tuple(found[1])


def pin_solid(diameter: float, length: float, spare: float, place: Place) -> Solid:
    """The pin before it is riveted, standing out by `spare` at each end [mm]."""
    radius = diameter / 2
    profile = ((0.0, 0.0), (radius, 0.0), (radius, length), (0.0, length))
    body = Turned("hinge_pin", profile, add(place.start, place.along, -spare), place.along)
    pull = place.pin or add(NOWHERE, place.along, PIN_OUT * diameter)
    return Solid("pin", body, show_hidden=True, pull=pull)
