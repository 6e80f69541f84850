"""Solids of revolution as a drafter's strokes: exact curves on the paper, seen and hidden apart."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hollowright.shapes.bodies import Body
from hollowright.shapes.curves import TURN, Arc, Curve, EllipseArc, Line, extremes
from hollowright.shapes.rims import Kind, Rim, bends
from hollowright.shapes.solids import Turned
from hollowright.shapes.space import Vector
from hollowright.shapes.view import View
from hollowright.shapes.visible import FLATTEST, NEAR, Piece, pieces

MOST_SIDES = 60  # of all profiles together: with more, meshes are drawn in less time


@dataclass(frozen=True, slots=True)
class Stroke:
    """A piece of a projected curve [mm], wholly seen or wholly hidden.

    `owner` is the solid's id; `outer` tells that the curve isn't one of a bore.
    """

    curve: Curve
    visible: bool
    kind: Kind
    owner: str
    outer: bool


def strokes(
    solids: Sequence[Turned], view: View, axes: Sequence[tuple[Vector, Vector]] = ()
) -> tuple[Stroke, ...]:
    """Everything a drafter draws of the solids, cut into seen and hidden pieces.

    `axes` are further straight lines (start, end) [mm], hidden by the solids like the rest; their
    owner is "". The solids may touch but not run through each other.
    """
    found: list[Stroke] = []
    for piece in pieces(solids, view, axes):
        source = piece.source
        curve = _projected(piece, view)
        if curve is None or (isinstance(source, Rim) and not source.drawn):
            continue
        kind: Kind = "rim" if isinstance(source, Rim) else source.kind
        owner = solids[source.owner].id if source.owner >= 0 else ""
        found.append(Stroke(curve, not piece.hidden, kind, owner, source.outer))
    return tuple(found)


def turned_only(bodies: Sequence[Body]) -> tuple[Turned, ...] | None:
    """The bodies when `strokes` serves them best: all turned, of few sides, none a smooth bend."""
    solids = tuple(body for body in bodies if isinstance(body, Turned))
    sides = sum(len(solid.profile) for solid in solids)
    if len(solids) < len(bodies) or sides > MOST_SIDES or any(bends(solid) for solid in solids):
        return None
    return solids


def _projected(piece: Piece, view: View) -> Curve | None:
    """A piece on the paper; None when it is seen end on."""
    if isinstance(piece.source, Rim):
        return _projected_arc(piece.source, piece, view)
    start, end = (view.project(piece.at(t)) for t in (piece.start, piece.end))
    return Line(start, end) if math.dist(start, end) > NEAR else None


def _projected_arc(source: Rim, piece: Piece, view: View) -> Curve:
    centre, major, minor = (view.project(p) for p in (source.centre, source.u, source.v))
    sweep = piece.end - piece.start
    if sweep > TURN - NEAR:
        sweep = TURN
    slim = math.hypot(*minor) / math.hypot(*major)
    if slim < 10 * FLATTEST:
        arc = EllipseArc(centre, major, minor, piece.start, sweep)
        turns = extremes(0.0, piece.start, sweep, 2)
        across = sorted((arc.start, arc.end, *(arc.at(t) for t in turns)))
        return Line(across[0], across[-1])
    if abs(slim - 1) < NEAR:
        left = math.copysign(1.0, major[0] * minor[1] - major[1] * minor[0])
        first = math.atan2(major[1], major[0]) + left * piece.start
        return Arc(centre, math.hypot(*major), first, left * sweep)
    return EllipseArc(centre, major, minor, piece.start, sweep)
