"""Round walls on which other pieces sit: which wall, and whether their holes have room there."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from hollowright.errors import InputError, PlanRefused, shown
from hollowright.piece import Opening, Piece, Wall
from hollowright.units import format_number, read_length


def wall_of(host: Piece, joins: str, table: Mapping[str, Any]) -> Wall:
    """The round wall of the host that a part meets: the one at its height, else the first."""
    if not host.walls:
        raise InputError(
            "joins",
            f"{shown(joins)} has no round wall that stands upright in the piece.",
            "Join a round box or can, say; a spout isn't joined to a spout.",
        )
    sizes = table.get("sizes")
    given = sizes.get("at") if isinstance(sizes, Mapping) else None
    if given is None:
        return host.walls[0]
    at = read_length(given, "sizes.at", "30 mm").mm
    return next((w for w in host.walls if w.low <= at <= w.high), host.walls[0])


def within_the_wall(piece: Piece, wall: Wall, at: float) -> None:
    """Refuse what runs over the end of the wall, or into what slides or sits there."""
    for opening in piece.openings:
        low, high = _taken(opening, 0)
        if at + low < wall.low or at + high > wall.high:
            taken, free = _span(at + low, at + high), _span(wall.low, wall.high)
            raise PlanRefused(
                "sizes.at",
                f"it takes the wall {taken} mm and the wall is free {free} mm.",
                "Move it, or take a thinner tube.",
            )


def _span(low: float, high: float) -> str:
    return f"from {format_number(low)} to {format_number(high)}"


def _taken(opening: Opening, way: int) -> tuple[float, float]:
    """From where to where the hole and what is set on it reach, along (0) or round (1) [mm]."""
    axis = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))[way]
    low, high = opening.body.reach(axis)
    return low - opening.margin[way], high + opening.margin[way]


@dataclass(frozen=True)
class Hole:
    """A hole in a round wall: whose, in which part, from where to where up it and round it [mm]."""

    name: str
    part: str
    up: tuple[float, float]
    round: tuple[float, float]


ROOM = 1.0
"""What is set on a wall keeps so far from what else is at least, for the solder [mm]."""


def clear_of_others(
    piece: Piece, wall: Wall, place: tuple[float, float], name: str, holes: list[Hole]
) -> None:
    """Refuse a hole that runs into another one; remember it otherwise."""
    at, around = place
    radius = wall.diameter.value / 2
    for opening in piece.openings:
        (low, high), (left, right) = _taken(opening, 0), _taken(opening, 1)
        mine = Hole(
            name, wall.part, (at + low, at + high),
            (radius * around + left, radius * around + right),
        )  # fmt: skip
        for other in holes:
            if other.part == mine.part and _meet(mine, other, 2 * math.pi * radius):
                raise PlanRefused(
                    "sizes.at", f"it runs into {other.name}.",
                    "Move one up or down, or round the wall.",
                )  # fmt: skip
        holes.append(mine)


def _meet(a: Hole, b: Hole, once_round: float) -> bool:
    """Whether two holes, taken as boxes on the wall, come nearer than the room between them."""
    if a.up[0] > b.up[1] + ROOM or b.up[0] > a.up[1] + ROOM:
        return False
    apart = abs(sum(a.round) - sum(b.round)) / 2 % once_round
    apart = min(apart, once_round - apart)
    halves = (a.round[1] - a.round[0] + b.round[1] - b.round[0]) / 2
    return apart < halves + ROOM
