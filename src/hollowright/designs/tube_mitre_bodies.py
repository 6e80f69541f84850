"""Mitred tube in its place: a leg with one slanting end, or all the pieces of an elbow."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hollowright.formulas import tube_skin
from hollowright.shapes.curves import TURN
from hollowright.shapes.developments.cylinder import PlaneCut
from hollowright.shapes.frames import Frame
from hollowright.shapes.looped import Looped, Rail
from hollowright.shapes.space import Vector, add

ROUND = 72
"""Points round a rail: 5 degrees each."""

APART = 0.7
"""How far the pieces of an elbow are drawn apart, in diameters."""


@dataclass(frozen=True)
class Cut:
    """How the ends of a tube are cut [mm]: `angle` [rad] from square, `how`: bevelled and so on.

    outer, inner: least and greatest radius of the fibres that the finished end's outer and inner
    edge may follow; of each pair the one that the plane meets first.
    """

    outside: float
    wall: float
    angle: float
    outer: tuple[float, float]
    inner: tuple[float, float]
    how: str

    def edge(self, outer: bool) -> PlaneCut:
        """The finished edge of the wall's outside or inside, round height 0."""
        return PlaneCut(*(self.outer if outer else self.inner), self.angle)


@dataclass(frozen=True)
class Length:
    """One piece of tube along its axis [mm]: its length there, which of its ends are mitred."""

    length: float
    low: bool
    high: bool


def finished(outside: float, wall: float, degrees: float, cut: str) -> Cut:
    """The edges of an end that is cut bevelled, square or unfiled; sizes [mm]."""
    outer, inner = outside / 2, outside / 2 - wall
    first = (inner, outer)
    edges = {"bevelled": ((outer, outer), (inner, inner)), "square": (first, (inner, inner))}
    return Cut(outside, wall, math.radians(degrees), *edges.get(cut, (first, first)), cut)


@dataclass(frozen=True)
class Skin:
    """The whole surface of a piece [mm2], worked out when it is asked for."""

    cut: Cut
    piece: Length

    def __call__(self) -> float:
        """Both lateral areas by their mean lengths, and both ends."""
        cut, piece = self.cut, self.piece
        outer, inner = cut.outside / 2, cut.outside / 2 - cut.wall
        sizes = (cut.how, outer, inner, cut.angle)
        ends = piece.low + piece.high
        falls = tube_skin.mitre_fall(*sizes)
        sides = outer * (piece.length - ends * falls[0]) + inner * (piece.length - ends * falls[1])
        square = math.pi * (outer * outer - inner * inner)
        mitred = tube_skin.mitre_end(*sizes) if ends else 0.0
        return TURN * sides + ends * mitred + (2 - ends) * square


def looped(id: str, cut: Cut, piece: Length, volume: float) -> Looped:
    """A piece standing on 0, 0, 0, its long sides towards x."""
    outer, inner = cut.outside / 2, cut.outside / 2 - cut.wall
    rails = (
        _rail(cut, outer, piece, high=False), _rail(cut, outer, piece, high=True),
        _rail(cut, inner, piece, high=True), _rail(cut, inner, piece, high=False),
    )  # fmt: skip
    return Looped(id, rails, exact_volume=volume, exact_surface=Skin(cut, piece))


def _rail(cut: Cut, radius: float, piece: Length, high: bool) -> Rail:
    mitred = piece.high if high else piece.low
    edge = cut.edge(outer=radius == cut.outside / 2)
    points = []
    for i in range(ROUND):
        turn = i * TURN / ROUND
        rise = edge(turn) if mitred else 0.0
        z = piece.length + rise if high else -rise
        points.append((radius * math.cos(turn), radius * math.sin(turn), z))
    return tuple(points)


def frames(pieces: Sequence[Length], angle: float) -> tuple[Frame, ...]:
    """Where each piece of an elbow goes: the first upright, the bend towards -x."""
    found = []
    origin: Vector = (0.0, 0.0, 0.0)
    for number, piece in enumerate(pieces):
        turn = 2 * angle * number
        up = (-math.sin(turn), 0.0, math.cos(turn))
        found.append(Frame(origin, up, (math.cos(turn), 0.0, math.sin(turn))))
        origin = add(origin, up, piece.length)
    return tuple(found)


def pulls(count: int, angle: float, outside: float) -> tuple[Vector, ...]:
    """How far and which way each piece is drawn apart [mm]: square to every mitre before it."""
    found: list[Vector] = [(0.0, 0.0, 0.0)]
    for number in range(1, count):
        turn = angle * (2 * number - 1)
        way = (-math.sin(turn), 0.0, math.cos(turn))
        found.append(add(found[-1], way, APART * outside))
    return tuple(found)
