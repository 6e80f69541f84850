"""The strip that a wall of any outline is bent from: its length and where along it to bend or fold.

The outline is the wall's outer face. Straight stretches keep their length; a bend takes its turn
times the radius of its neutral line; a corner is bent sharp on the mid line, or scored and folded
about the web that the groove leaves.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from hollowright.shapes import along
from hollowright.shapes.biarcs import natural_stops
from hollowright.shapes.curves import Arc, Curve, Line, Point
from hollowright.shapes.legs import Leg
from hollowright.shapes.mid_line import check_wall, exact_legs
from hollowright.shapes.offset import ParallelRefused, told
from hollowright.shapes.outline import Outline

NeutralLine = float | Callable[[float, float], float]
"""Distance of the neutral line from a bend's inner face in parts of the thickness: a number, or a
function of the bend's inner radius and the thickness [mm]."""

Kind = Literal["bend", "curve", "fold", "corner"]

FLAT = math.radians(0.5)  # a corner that turns by less isn't marked
NODES = ((-math.sqrt(0.6), 5 / 9), (0.0, 8 / 9), (math.sqrt(0.6), 5 / 9))
PARTS = 16  # of a stretch whose neutral line moves: where Gauss-Legendre's three points are taken


@dataclass(frozen=True, slots=True)
class Scored:
    """Corners scored and folded: under the groove a `web` [mm] is left, that folds.

    `factor` is the distance of its neutral line from the groove's bottom in parts of the web.
    """

    web: float
    factor: float


@dataclass(frozen=True, slots=True)
class Mark:
    """A place along the developed strip to bend or fold, from `start` to `end` [mm].

    `turn` [rad] is positive for a bend outwards (convex), `radius` [mm] the bend's inner one (0 for
    a fold or corner, the tightest for a curve whose radius changes); `at` [mm] is where it begins
    on the outline.
    """

    kind: Kind
    start: float
    end: float
    turn: float
    radius: float
    at: Point

    @property
    def middle(self) -> float:
        """Middle of the mark along the strip [mm]: where a fold's groove is scored."""
        return (self.start + self.end) / 2


@dataclass(frozen=True, slots=True)
class Strip:
    """The developed strip: its length [mm], its marks in order, and where its seam sits [mm]."""

    length: float
    marks: tuple[Mark, ...]
    seam: Point


def strip(
    outline: Outline,
    thickness: float,
    line: NeutralLine = 0.5,
    scored: Scored | None = None,
    seam: float | None = None,
) -> Strip:
    """The strip for a wall [mm] whose outer face is the outline, run anticlockwise from its seam.

    `line` says where the metal keeps its length in every bend, from that bend's inner face. Sharp
    corners are bent sharp on the mid line (or on `line` when that is a number), or `scored`. `seam`
    is a length along the outer edge [mm]; without it the seam is put in the middle of the longest
    straight side. ParallelRefused when the wall is too thick for a bend or a side.

    Source: bend by bend, turn x (inner radius + line x thickness); scored corners by
    outer perimeter - sum of [2 web tan(turn / 2) - turn x factor x web].

    >>> from hollowright.shapes.outline import rectangle
    >>> round(strip(rectangle(50, 30), 1.0, scored=Scored(0.2, 0.4)).length, 2)
    158.9
    >>> folds = strip(rectangle(50, 30), 1.0, scored=Scored(0.2, 0.4)).marks
    >>> [(round(fold.start, 3), round(fold.end, 3)) for fold in folds[:2]]
    [(24.8, 24.926), (54.526, 54.651)]
    """
    whole = _from_seam(Outline(outline.segments).run_anticlockwise(), seam)
    if scored is not None and not 0 < scored.web < thickness:
        raise ValueError(f"web must be more than 0 and less than the thickness, not {scored.web}")
    fixed = line if isinstance(line, float | int) else 0.5
    check_wall(whole, thickness, fixed)
    rule = _Rule(thickness, line, fixed, scored)
    marks, length = _laid(_kept(whole, rule), rule)
    return Strip(length, tuple(_tidied(marks)), whole.segments[0].start)


@dataclass(frozen=True, slots=True)
class _Rule:
    """How bends and corners take their length."""

    thickness: float
    line: NeutralLine
    fixed: float
    scored: Scored | None

    def neutral(self, inner_radius: float) -> float:
        """Distance of the neutral line from a bend's inner face [mm]."""
        if callable(self.line):
            return self.thickness * float(self.line(max(inner_radius, 1e-9), self.thickness))
        return self.thickness * self.line

    def reach(self, turn: float) -> float:
        """What a corner adds to the straight run of each of its sides [mm]; negative: takes off.

        The sides of a sharp corner that closes are trimmed already; one that opens is reached out
        to, on the line that lies `fixed` from its own inner face, which is the outer face here.
        """
        slope = math.tan(abs(turn) / 2)
        if self.scored is not None:
            web = self.scored.web
            return -web * slope if turn > 0 else (self.thickness - web) * slope
        return 0.0 if turn > 0 else self.fixed * self.thickness * slope

    def fold(self, turn: float) -> float:
        """Length that a corner's own metal takes [mm]."""
        return abs(turn) * self.scored.factor * self.scored.web if self.scored else 0.0


def _from_seam(outline: Outline, seam: float | None) -> Outline:
    if seam is not None:
        return outline.started_at(seam)
    best, place, gone = 0.0, 0.0, 0.0
    for segment in outline.segments:
        size = along.length(segment)
        if isinstance(segment, Line) and size > best * (1 + 1e-9):
            best, place = size, gone + size / 2
        gone += size
    return outline.started_at(place) if best else outline


def _kept(outline: Outline, rule: _Rule) -> tuple[Leg, ...]:
    """The curves with what corners leave of them; whole for scored corners."""
    depth = (1 - rule.fixed) * rule.thickness
    if rule.scored is not None or depth == 0:
        turns = (*outline.turns[1:], outline.turns[0])
        pairs = zip(outline.segments, turns, strict=True)
        return tuple(Leg(segment, 0.0, 1.0, turn) for segment, turn in pairs)
    _, found = exact_legs(outline, -depth)
    if found is None:
        raise ParallelRefused(
            "side",
            f"one of its sides is shorter than a wall of {rule.thickness:.6g} mm takes up.",
            "Leave the side out, or make it longer.",
        )
    return found


def _laid(found: tuple[Leg, ...], rule: _Rule) -> tuple[list[Mark], float]:
    """Marks along the strip, and its whole length."""
    marks: list[Mark] = []
    gone = 0.0
    before = found[-1].turn
    for leg in found:
        size = _developed(leg, rule)
        straight = size + _reach(before, rule) + _reach(leg.turn, rule)
        if straight <= 0:
            at = told(along.place(leg.curve, 0.5))
            raise ParallelRefused("side", f"its side at {at} is too short to fold.", "", None)
        start = gone + _reach(before, rule)
        if not isinstance(leg.curve, Line):
            end = min(start + size, gone + straight)
            marks.append(_bend(leg, max(start, gone), end, rule))
        gone += straight
        taken = rule.fold(leg.turn)
        if abs(leg.turn) > FLAT:
            kind: Kind = "fold" if rule.scored else "corner"
            marks.append(Mark(kind, gone, gone + taken, leg.turn, 0.0, leg.curve.end))
        gone += taken
        before = leg.turn
    return marks, gone


def _reach(turn: float, rule: _Rule) -> float:
    return rule.reach(turn) if turn else 0.0


def _bend(leg: Leg, start: float, end: float, rule: _Rule) -> Mark:
    curve, first, last = leg.curve, leg.first, leg.last
    turn = along.turning(curve, first, last)
    at = along.place(curve, first)
    bend, _ = along.sharpest(curve, 1 if turn > 0 else -1, first, last)
    outer = 1 / bend if bend > 0 else math.inf
    inner = outer - rule.thickness if turn > 0 else outer
    return Mark("bend" if isinstance(curve, Arc) else "curve", start, end, turn, inner, at)


def _developed(leg: Leg, rule: _Rule) -> float:
    """Length that the kept stretch of a curve takes on the strip [mm]."""
    curve, first, last = leg.curve, leg.first, leg.last
    if isinstance(curve, Line):
        return along.part_length(curve, first, last)
    if isinstance(curve, Arc):
        turn = abs(along.turning(curve, first, last))
        inner = curve.radius - (rule.thickness if curve.sweep > 0 else 0.0)
        return turn * (inner + rule.neutral(inner))
    stops = [first, *(u for u in natural_stops(curve) if first < u < last), last]
    pairs = pairwise(stops)
    if callable(rule.line):
        return sum(_moving(curve, a, b, rule) for a, b in pairs)
    total = along.part_length(curve, first, last)
    for a, b in pairs:
        turn = along.turning(curve, a, b)
        share = 1 - rule.fixed if turn > 0 else rule.fixed
        total -= turn * share * rule.thickness
    return total


def _moving(curve: Curve, first: float, last: float, rule: _Rule) -> float:
    """The same where the neutral line moves with the radius, by quadrature."""
    half = (last - first) / PARTS / 2
    total = 0.0
    for i in range(PARTS):
        middle = first + (2 * i + 1) * half
        for x, weight in NODES:
            u = middle + half * x
            total += weight * half * _rate(curve, u, rule)
    return total


def _rate(curve: Curve, u: float, rule: _Rule) -> float:
    """Developed length for each step of u [mm]."""
    speed, bend = math.hypot(*along.velocity(curve, u)), along.curvature(curve, u)
    if abs(bend) < 1e-12:
        return speed
    if bend > 0:
        inner = 1 / bend - rule.thickness
        return speed * bend * (inner + rule.neutral(inner))
    return speed * -bend * (-1 / bend + rule.neutral(-1 / bend))


def _tidied(marks: Iterable[Mark]) -> list[Mark]:
    """Neighbours that are one bend made one: equal radii, or curves whose radius changes anyway."""
    found: list[Mark] = []
    for mark in marks:
        before = found[-1] if found else None
        if before and before.kind == mark.kind and before.turn * mark.turn > 0:
            follows = mark.start - before.end < 1e-6
            alike = mark.kind == "curve" or (
                mark.kind == "bend" and math.isclose(before.radius, mark.radius, rel_tol=1e-6)
            )
            if follows and alike:
                radius, turn = min(before.radius, mark.radius), before.turn + mark.turn
                found[-1] = replace(before, end=mark.end, turn=turn, radius=radius)
                continue
        found.append(mark)
    return found
