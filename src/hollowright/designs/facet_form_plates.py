"""A faceted form of plates cut apart: each kind's blank, its bevels marked, its bodies."""

from __future__ import annotations

import math

from hollowright.designs.facet_form_bodies import middle_of
from hollowright.designs.facet_form_kinds import EdgeKind, FaceKind, Sized
from hollowright.piece import Blank, Part, Scribe, Solid
from hollowright.quantity import Quantity
from hollowright.shapes.curves import Line, Point
from hollowright.shapes.developments.facets import around
from hollowright.shapes.outline import polygon
from hollowright.units import format_number

APART = 0.3
"""Plates are drawn apart by this part of the form's size."""

VENT_LINE = 2.5
"""Half of a vent's line at least [mm]."""


def plates(form: Sized, vent: Quantity | None) -> tuple[Part, ...]:
    """A part for each kind of face; vent: the hole in the base, or first face [mm]."""
    return tuple(_part(form, kind, vent if 0 in kind.faces else None) for kind in form.faces)


def _part(form: Sized, kind: FaceKind, vent: Quantity | None) -> Part:
    outside, _ = form.hollow.outlines(kind.faces[0])
    marks = bevel_marks(form, kind.faces[0])
    if vent is not None:
        one = "" if len(kind.faces) == 1 else ", in one of them only"
        marks += (vent_mark(middle_of(outside), vent, one),)
    blank = Blank("plate", polygon(outside), kind.sizes, marks=marks)
    return Part(kind.id, kind.name, "sheet", blank, kind.mass, len(kind.faces), _solids(form, kind))


def _solids(form: Sized, kind: FaceKind) -> tuple[Solid, ...]:
    hollow = form.hollow
    corners = hollow.form.corners
    size = max(math.dist(corners[0], corner) for corner in corners)
    found = []
    for count, face in enumerate(kind.faces, 1):
        several = len(kind.faces) > 1
        label = f"{kind.name} {count}" if several else kind.name
        body = hollow.plate(f"{kind.id}_{count}" if several else kind.id, face)
        found.append(Solid(label, body, pull=hollow.pull(face, APART * size)))
    return tuple(found)


def bevel_marks(form: Sized, face: int) -> tuple[Scribe, ...]:
    """The inner edges of a plate's bevels, each with its angle."""
    outside, inside = form.hollow.outlines(face)
    numbers = form.hollow.form.faces[face]
    found = []
    for (a, b), line, edge in zip(around(numbers), around(inside), around(outside), strict=True):
        kind = edge_at(form, (min(a, b), max(a, b)))
        if math.dist(line[0], line[1]) > 0 and not _same(line, edge):
            found.append(Scribe(Line(*line), _bevel_text(kind)))
    return tuple(found)


def _same(line: tuple[Point, Point], edge: tuple[Point, Point]) -> bool:
    """Whether the bevel is none: the inside's edge lies under the outside's."""
    return abs(
        (edge[1][0] - edge[0][0]) * (line[0][1] - edge[0][1])
        - (edge[1][1] - edge[0][1]) * (line[0][0] - edge[0][0])
    ) < 1e-6 * math.dist(*edge)


def _bevel_text(kind: EdgeKind) -> str:
    if kind.at_opening:
        return f"inside, at the opening: {lean_text(kind)}"
    return f"bevel to this line, inside: {format_number(abs(kind.bevel.value))}° from square"


def lean_text(kind: EdgeKind) -> str:
    """How an edge at an opening leans, in words; its bevel is under 0 where it leans outwards."""
    side = "outwards" if kind.bevel.value < 0 else "inwards"
    return f"{format_number(abs(kind.bevel.value))}° from square, leaning {side}"


def edge_at(form: Sized, side: tuple[int, int]) -> EdgeKind:
    """The kind of an edge."""
    return next(kind for kind in form.edges if side in kind.sides)


def vent_mark(middle: Point, vent: Quantity, more: str = "") -> Scribe:
    """The vent to drill at a face's middle, marked by a line that shows beside the drill."""
    (x, y), reach = middle, max(VENT_LINE, 1.5 * vent.value)
    text = f"vent: drill {format_number(vent.value)} mm in the middle of this line{more}"
    return Scribe(Line((x - reach, y), (x + reach, y)), text)
