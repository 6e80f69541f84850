"""Round walls on which other pieces sit: which wall, and whether their holes have room there."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from hollowright.errors import InputError, PlanRefused, shown
from hollowright.piece import Piece, Wall
from hollowright.units import format_number, read_length


def wall_of(host: Piece, joins: str, table: Mapping[str, Any]) -> Wall:
    """The round wall of the host that a part meets: the one at its height, else the first."""
    if not host.walls:
        raise InputError(
            "joins", f"{shown(joins)} has no round upright wall.", "Join a box or a tube, say."
        )
    sizes = table.get("sizes")
    given = sizes.get("at") if isinstance(sizes, Mapping) else None
    if given is None:
        return host.walls[0]
    at = read_length(given, "sizes.at", "30 mm").mm
    return next((w for w in host.walls if w.low <= at <= w.high), host.walls[0])


def within_the_wall(piece: Piece, wall: Wall, at: float) -> None:
    """Refuse a hole that runs over the edge of the wall."""
    for opening in piece.openings:
        low, high = opening.body.reach((1.0, 0.0, 0.0))
        if at + low < wall.low or at + high > wall.high:
            raise PlanRefused(
                "sizes.at",
                f"the hole runs from {format_number(at + low)} to {format_number(at + high)} mm "
                f"and the wall from {format_number(wall.low)} to {format_number(wall.high)} mm.",
                "Move it, or take a thinner tube.",
            )


@dataclass(frozen=True)
class Hole:
    """A hole in a round wall: whose, in which part, from where to where up it and round it [mm]."""

    name: str
    part: str
    up: tuple[float, float]
    round: tuple[float, float]


ROOM = 1.0
"""Two holes in one wall leave so much metal between them at least [mm]."""


def clear_of_others(
    piece: Piece, wall: Wall, place: tuple[float, float], name: str, holes: list[Hole]
) -> None:
    """Refuse a hole that runs into another one; remember it otherwise."""
    at, around = place
    radius = wall.diameter.value / 2
    for opening in piece.openings:
        low, high = opening.body.reach((1.0, 0.0, 0.0))
        left, right = opening.body.reach((0.0, 1.0, 0.0))
        mine = Hole(
            name, wall.part, (at + low, at + high),
            (radius * around + left, radius * around + right),
        )  # fmt: skip
        for other in holes:
            if other.part == mine.part and _meet(mine, other, 2 * math.pi * radius):
                raise PlanRefused(
                    "sizes.at", f"its hole runs into that of {other.name}.",
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
