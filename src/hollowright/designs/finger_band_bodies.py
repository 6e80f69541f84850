"""The body of a domed finger band: a flat inside, an arc across the outside."""

from __future__ import annotations

import math

from hollowright.shapes.curves import Point
from hollowright.shapes.solids import FRONT_LEFT, Turned

STEPS = 48
"""Sides that the drawn arc across a band has."""


def domed(
    inside: float, width: float, edge: float, rise: float, area: float, centre: float
) -> Turned:
    """A domed band standing on its edge [mm]; edge 0 for half-round wire.

    inside: diameter; edge, rise: thickness at the edges and of the dome on it; area [mm2] and
    centre: of the section, for its exact volume by Pappus.
    """
    volume = math.pi * (inside + 2 * centre) * area
    low, foot = inside / 2, inside / 2 + edge
    corners: list[Point] = [(low, 0.0), *_arc(foot, width, rise), (low, width)]
    profile = tuple(dict.fromkeys(corners))
    return Turned("band", profile, seams=(FRONT_LEFT,), exact_volume=volume)


def _arc(foot: float, width: float, rise: float) -> list[Point]:
    """Points of (radius, height) across a dome whose chord is at radius `foot` [mm]."""
    radius = (width * width / 4 + rise * rise) / (2 * rise)
    half = 2 * math.atan(2 * rise / width)
    middle = foot + rise - radius
    angles = [half * (2 * i / STEPS - 1) for i in range(1, STEPS)]
    inner = [(middle + radius * math.cos(a), width / 2 + radius * math.sin(a)) for a in angles]
    return [(foot, 0.0), *inner, (foot, width)]
