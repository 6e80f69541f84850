"""A setting for a stone: its strip, the seat in it, how high they stand, its base."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import pi


@formula(
    "strip_length",
    "mm",
    "length of the strip",
    slips={
        "the thickness forgotten": lambda girdle, gap, thickness: girdle + pi * gap,
        "the thickness added twice": lambda girdle, gap, thickness: (
            girdle + pi * (gap + 2 * thickness)
        ),
        "the thickness taken off": lambda girdle, gap, thickness: girdle + pi * (gap - thickness),
        "the room round the stone forgotten": lambda girdle, gap, thickness: (
            girdle + pi * thickness
        ),
        "the stone's girdle alone": lambda girdle, gap, thickness: girdle,
        "room and thickness added without pi": lambda girdle, gap, thickness: (
            girdle + gap + thickness
        ),
        "twice the thickness added without pi": lambda girdle, gap, thickness: (
            girdle + gap + 2 * thickness
        ),
    },
)
def strip_length(girdle: Any, gap: Any, thickness: Any) -> Any:
    """Length of the strip that is bent round a stone [mm], on the middle of its thickness.

    strip length = girdle + pi x (gap + thickness)

    girdle: length round the stone [mm], of any smooth convex outline; gap: room between stone and
    metal, across the stone [mm]; thickness: of the strip [mm].
    Source: parallel curves (Steiner); common practice for the line in the middle, no source.

    >>> round(strip_length(28.8943, 0.1, 0.42), 3)
    30.528
    """
    return girdle + pi * (gap + thickness)


@formula("room_round", "mm", "room round the stone as built")
def room_round(met: Any, girdle: Any, thickness: Any) -> Any:
    """Room round a stone, across it [mm], in a strip whose ends have met.

    room = (met - girdle) / pi - thickness

    met: length of the strip on its middle [mm]; girdle: length round the stone [mm]; thickness: of
    the strip [mm].
    Source: parallel curves (Steiner).

    >>> round(room_round(30.6, 28.8943, 0.42), 3)
    0.123
    """
    return (met - girdle) / pi - thickness


@formula(
    "seat_length",
    "mm",
    "length of the seat's strip",
    slips={
        "the thickness taken off once": lambda strip, thickness: strip - pi * thickness,
        "the strip's own length taken": lambda strip, thickness: strip,
        "the thickness taken off without pi": lambda strip, thickness: strip - 2 * thickness,
        "the thickness added": lambda strip, thickness: strip + 2 * pi * thickness,
    },
)
def seat_length(strip: Any, thickness: Any) -> Any:
    """Length of the strip for the seat [mm], which lies against the inside of the setting.

    seat length = strip - 2 x pi x thickness

    strip: length of the setting's own strip [mm]; thickness: of both [mm]: from middle to middle.
    Source: parallel curves (Steiner).

    >>> round(seat_length(30.528, 0.42), 3)
    27.889
    """
    return strip - 2 * pi * thickness


@formula(
    "seat_width",
    "mm",
    "height of the seat",
    slips={
        "the room under the stone forgotten": lambda depth, room: depth,
        "the room taken off": lambda depth, room: depth - room,
    },
)
def seat_width(depth: Any, room: Any) -> Any:
    """Height of the seat on which the girdle rests [mm].

    seat width = depth + room

    depth: of the stone under its girdle [mm], 0 for a cabochon; room: left below it [mm].
    Source: plane geometry.

    >>> round(seat_width(3.6, 0.5), 2)
    4.1
    """
    return depth + room


@formula(
    "strip_width",
    "mm",
    "height of the setting",
    slips={
        "what goes over the girdle forgotten": lambda seat, over: seat,
        "the seat forgotten": lambda seat, over: over,
        "what goes over the girdle counted twice": lambda seat, over: seat + 2 * over,
    },
)
def strip_width(seat: Any, over: Any) -> Any:
    """Height of the setting [mm]: the seat, and what is pressed over the girdle.

    strip width = seat + over

    seat: height of the seat [mm]; over: how far the metal stands over the girdle's seat [mm].
    Source: plane geometry.

    >>> round(strip_width(4.1, 1.15), 2)
    5.25
    """
    return seat + over


@formula("ledge", "mm", "ledge under the girdle")
def ledge(thickness: Any, gap: Any) -> Any:
    """Width on which the girdle rests [mm] while the stone lies in the middle.

    ledge = thickness - gap / 2

    thickness: of the seat [mm]; gap: room round the stone, across it [mm].
    Source: plane geometry.

    >>> round(ledge(0.42, 0.1), 2)
    0.37
    """
    return thickness - gap / 2


@formula(
    "outside_length",
    "mm",
    "outside of the setting",
    slips={
        "one thickness added": lambda stone, gap, thickness: stone + gap + thickness,
        "the room forgotten": lambda stone, gap, thickness: stone + 2 * thickness,
    },
)
def outside(stone: Any, gap: Any, thickness: Any) -> Any:
    """Outside of the setting across the stone [mm].

    outside = stone + gap + 2 x thickness

    stone: across it [mm]; gap: room round it, across it [mm]; thickness [mm].
    Source: plane geometry.

    >>> round(outside(10.2, 0.1, 0.42), 2)
    11.14
    """
    return stone + gap + 2 * thickness


@formula("reach", "mm", "from the stone to the setting's outside")
def reach(gap: Any, thickness: Any) -> Any:
    """How far a setting's outside lies round the stone [mm].

    reach = gap / 2 + thickness

    gap: room round the stone, across it [mm]; thickness [mm].
    Source: plane geometry.

    >>> round(reach(0.1, 0.42), 2)
    0.47
    """
    return gap / 2 + thickness


@formula("mass", "g")
def plate_mass(area: Any, girdle: Any, reach: Any, thickness: Any, density: Any) -> Any:
    """Mass of a base trimmed to the setting's outside [g].

    mass = (area + girdle x reach + pi x reach^2) x thickness x density / 1000

    area: of the stone's outline [mm2]; girdle: length round it [mm]; reach: how far the base lies
    round it [mm]; thickness [mm]; density [g/cm3].
    Source: parallel curves (Steiner).

    >>> round(plate_mass(64.889, 28.8943, 0.47, 0.42, 10.36), 3)
    0.344
    """
    return (area + girdle * reach + pi * reach * reach) * thickness * density / 1000
