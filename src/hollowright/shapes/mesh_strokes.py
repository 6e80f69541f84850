"""Closed meshes as a drafter's strokes: creases, seams, contours, seen and hidden apart."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Sequence

import numpy as np

from hollowright.shapes.boxes import Flags
from hollowright.shapes.chains import Link, Run, chained, cut, runs
from hollowright.shapes.coincident import Placed, coincident
from hollowright.shapes.mesh_lines import KINDS, Segments, segments
from hollowright.shapes.mesh_sight import Cover, Stretches, united
from hollowright.shapes.mesh_surface import Surface, surface
from hollowright.shapes.meshes import Mesh
from hollowright.shapes.outside import outside
from hollowright.shapes.polyline import through
from hollowright.shapes.space import Vector
from hollowright.shapes.strokes import Stroke
from hollowright.shapes.view import View

CRUMB = 2.0  # tolerances: shorter strokes are given up
SEEN, HIDDEN, TWICE = "seen", "hidden", "twice"


def mesh_strokes(
    meshes: Sequence[tuple[str, Mesh]],
    view: View,
    axes: Sequence[tuple[Vector, Vector]] = (),
    *,
    tolerance: float = 0.05,
    outlined: Collection[str] = (),
) -> tuple[Stroke, ...]:
    """Everything a drafter draws of the meshes, cut into seen and hidden strokes.

    meshes: ids and closed meshes that may touch but not run through each other, `tolerance` [mm]
    how far their chords may lie off the surfaces that they stand for. axes: further straight lines
    (start, end) [mm], hidden by the meshes like the rest; their owner is "". A stroke's `outer` is
    told for the ids in `outlined` alone: its line lies between surfaces that all look out freely.
    """
    shape = surface([mesh for _, mesh in meshes], view)
    names = [id for id, _ in meshes]
    return surface_strokes(shape, names, view, axes, tolerance=tolerance, outlined=outlined)


def surface_strokes(
    shape: Surface,
    names: Sequence[str],
    view: View,
    axes: Sequence[tuple[Vector, Vector]],
    *,
    tolerance: float,
    outlined: Collection[str],
) -> tuple[Stroke, ...]:
    """The same of meshes that are one surface already; `names` are their ids in order."""
    lines = segments(shape, view, axes)
    if not len(lines):
        return ()
    told = [number for number, name in enumerate(names) if name in outlined]
    free = np.append(outside(shape, told), False)
    outer: Flags = np.all(free[lines.beside], axis=1)
    looks = _looks(lines, Cover(shape, tolerance), tolerance)
    found: list[Stroke] = []
    for (owner, kind, out), members in _alike(lines, outer).items():
        name = names[owner] if owner >= 0 else ""
        for run in _runs(lines, members, looks, CRUMB * tolerance):
            if run.look != TWICE:
                curve = through(run.points, tolerance / 10)
                found.append(Stroke(curve, run.look == SEEN, KINDS[kind], name, out))
    return tuple(found)


Looks = dict[int, list[tuple[float, float, str]]]
"""For each piece that isn't seen all along: from, to (shares of its length) and how it looks."""


def _looks(lines: Segments, cover: Cover, tolerance: float) -> Looks:
    own = united(lines.unseen)
    asked = np.ones(len(lines), dtype=bool)
    asked[own[0][own[2] - own[1] >= 1]] = False
    number = np.flatnonzero(asked)
    line, low, high = cover.stretches(lines.ends[number], lines.beside[number])
    hidden = united(_joined((number[line], low, high), own))
    hidden = united(_joined(hidden, _shared(lines, hidden, hidden, tolerance)))
    looks: Looks = defaultdict(list)
    _note(looks, hidden, HIDDEN)
    _note(looks, _shared(lines, hidden, None, tolerance), TWICE)
    return looks


def _joined(*several: Stretches) -> Stretches:
    number, low, high = (np.concatenate([each[i] for each in several]) for i in range(3))
    return number, low, high


def _note(looks: Looks, stretches: Stretches, look: str) -> None:
    for number, low, high in zip(*(column.tolist() for column in stretches), strict=True):
        looks[number].append((low, high, look))


def _shared(
    lines: Segments, hidden: Stretches, others: Stretches | None, tolerance: float
) -> Stretches:
    """Seen stretches along which another part has a line: a hidden one, or an earlier seen one.

    Where touching parts share a line it is seen only if it is for both, and it is drawn once.
    """
    seen = _seen(len(lines), hidden)
    row, first, last = united(
        coincident(
            _placed(lines, seen),
            _placed(lines, seen if others is None else others),
            2 * tolerance,
            earlier=others is None,
        )
    )
    low, width = seen[1][row], seen[2][row] - seen[1][row]
    return seen[0][row], low + first * width, low + last * width


def _placed(lines: Segments, stretches: Stretches) -> Placed:
    number, low, high = stretches
    start, span = lines.ends[number, 0], lines.ends[number, 1] - lines.ends[number, 0]
    ends = np.stack([start + low[:, None] * span, start + high[:, None] * span], axis=1)
    return Placed(ends, lines.owner[number])


def _seen(count: int, hidden: Stretches) -> Stretches:
    """What of the pieces isn't hidden."""
    number, low, high = hidden
    every = np.arange(count)
    numbers = np.concatenate([number, every, every])
    starts = np.concatenate([low, np.full(count, 1.0), np.zeros(count)])
    stops = np.concatenate([high, np.full(count, 1.0), np.zeros(count)])
    order = np.lexsort((stops, starts, numbers))
    numbers, starts, stops = numbers[order], starts[order], stops[order]
    gap = (numbers[1:] == numbers[:-1]) & (starts[1:] > stops[:-1])
    return numbers[1:][gap], stops[:-1][gap], starts[1:][gap]


Group = tuple[int, int, bool]
"""What pieces that may be chained share: owner, kind, whether they are outer ones."""


def _alike(lines: Segments, outer: Flags) -> dict[Group, list[Link]]:
    """The pieces, those that may be chained together."""
    found: dict[Group, list[Link]] = defaultdict(list)
    groups = zip(lines.owner.tolist(), lines.kind.tolist(), outer.tolist(), strict=True)
    for number, (group, (start, end)) in enumerate(zip(groups, lines.nodes.tolist(), strict=True)):
        found[group].append((number, start, end))
    return found


def _runs(lines: Segments, members: Iterable[Link], looks: Looks, crumb: float) -> Iterable[Run]:
    """Chains of pieces cut where they go out of sight or come into it."""
    paper = lines.ends[:, :, :2]
    for chain in chained(members):
        pieces: list[Run] = []
        for number, backwards in chain:
            (x0, y0), (x1, y1) = paper[number].tolist()
            parts = cut([(x0, y0), (x1, y1)], looks.get(number, ()), SEEN)
            if backwards:
                parts = [Run(part.look, part.points[::-1]) for part in reversed(parts)]
            pieces += parts
        yield from runs(pieces, crumb)
