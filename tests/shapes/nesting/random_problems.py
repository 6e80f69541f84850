"""Random flats and sheets, their edges as points worked out here, and plain checks of an answer.

Nothing of the house's geometry is used to judge: edges are made from their sizes, laid out by a
matrix written out, and measured by the polygon library itself, or by plain arithmetic.
"""

from __future__ import annotations

import math
import random
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely

from hollowright.shapes.curves import Arc, Line
from hollowright.shapes.nesting.problem import Bin, Item, Packing, Problem, Spot
from hollowright.shapes.outline import Outline, annulus, disc, polygon, rectangle

NEAR = 0.006  # half a hundredth, and a thousandth for the chords of the edges here [mm]
CHORD = 0.0005  # how far a chord here lies off its curve [mm]

Points = list[tuple[float, float]]


@dataclass(frozen=True)
class Shape:
    """A random shape: as the house's outline, and as points of its edge and its holes' edges."""

    outline: Outline
    edge: Points
    holes: tuple[Points, ...] = ()


def arc(x: float, y: float, radius: float, start: float, sweep: float) -> Points:
    """Points on an arc, angles in degrees."""
    step = 2 * math.degrees(math.acos(1 - CHORD / radius))
    count = max(2, math.ceil(abs(sweep) / step))
    angles = [math.radians(start + sweep * i / count) for i in range(count + 1)]
    return [(x + radius * math.cos(a), y + radius * math.sin(a)) for a in angles]


def a_disc(rng: random.Random, low: float, high: float) -> Shape:
    d = rng.uniform(low, high)
    return Shape(disc(d), arc(0, 0, d / 2, 0, 360)[:-1])


def a_ring(rng: random.Random, low: float, high: float) -> Shape:
    d = rng.uniform(low, high)
    hole = d * rng.uniform(0.4, 0.85)
    edges = [arc(0, 0, size / 2, 0, 360)[:-1] for size in (d, hole)]
    return Shape(annulus(d, hole), edges[0], (edges[1],))


def a_strip(rng: random.Random, low: float, high: float) -> Shape:
    w, h = rng.uniform(low, high), rng.uniform(2, 8)
    return Shape(rectangle(w, h), [(0, 0), (w, 0), (w, h), (0, h)])


def an_l(rng: random.Random, low: float, high: float) -> Shape:
    w, h = rng.uniform(low, high), rng.uniform(low, high)
    a, b = w * rng.uniform(0.2, 0.7), h * rng.uniform(0.2, 0.7)
    corners = [(0.0, 0.0), (w, 0.0), (w, b), (a, b), (a, h), (0.0, h)]
    return Shape(polygon(corners), corners)


def a_sector(rng: random.Random, low: float, high: float) -> Shape:
    outer, sweep = rng.uniform(low, high) * 0.7, rng.uniform(40, 200)
    inner = outer * rng.uniform(0.3, 0.8)
    out = Arc((0.0, 0.0), outer, 0.0, math.radians(sweep))
    back = Arc((0.0, 0.0), inner, math.radians(sweep), -math.radians(sweep))
    outline = Outline((out, Line(out.end, back.start), back, Line(back.end, out.start)))
    return Shape(outline, arc(0, 0, outer, 0, sweep) + arc(0, 0, inner, sweep, -sweep))


def a_triangle(rng: random.Random, low: float, high: float) -> Shape:
    w, h, lean = rng.uniform(low, high), rng.uniform(low, high), rng.uniform(-0.5, 1.5)
    corners = [(0.0, 0.0), (w, 0.0), (w * lean, h)]
    return Shape(polygon(corners), corners)


def a_frame(rng: random.Random, low: float, high: float) -> Shape:
    w, h = rng.uniform(low, high), rng.uniform(low, high)
    rim = min(w, h) * rng.uniform(0.08, 0.3)
    hole = [(rim, rim), (w - rim, rim), (w - rim, h - rim), (rim, h - rim)]
    outer = [(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)]
    return Shape(Outline(polygon(outer).segments, (polygon(hole),)), outer, (hole,))


FLATS = (a_disc, a_ring, a_strip, an_l, a_sector, a_triangle, a_frame)


def a_bin(rng: random.Random) -> Shape:
    """A rectangle or an offcut: cut askew, notched, round, or with a hole."""
    w, h = rng.uniform(30, 160), rng.uniform(25, 100)
    box = [(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)]
    kind = rng.randrange(6)
    if kind == 1:
        corners = [(0.0, 0.0), (w, 0.0), (w * rng.uniform(0.6, 1), h), (w * 0.2, h * 0.8)]
        return Shape(polygon(corners), corners)
    if kind == 2:
        a, b = w * rng.uniform(0.3, 0.8), h * rng.uniform(0.3, 0.8)
        corners = [(0.0, 0.0), (w, 0.0), (w, b), (a, b), (a, h), (0.0, h)]
        return Shape(polygon(corners), corners)
    if kind == 3:
        return a_disc(rng, 40, 110)
    if kind == 4:
        d = min(w, h) * rng.uniform(0.2, 0.6)
        hole = disc(d).moved(w * 0.5, h * 0.5)
        edge = arc(w * 0.5, h * 0.5, d / 2, 0, 360)[:-1]
        return Shape(Outline(polygon(box).segments, (hole,)), box, (edge,))
    if kind == 5:
        return a_sector(rng, 80, 140)
    return Shape(rectangle(w, h), box)


@dataclass(frozen=True)
class Case:
    """A problem with the shapes of its items and bins."""

    problem: Problem
    shapes: dict[str, Shape]
    bins: dict[str, Shape]


def a_case(seed: int) -> Case:
    """A random problem: a few kinds, one to three bins, kerf, edge, turns, sides."""
    rng = random.Random(seed)
    kinds = rng.choice((1, 1, 2, 2, 3, 4))
    shapes = {f"flat-{i}": rng.choice(FLATS)(rng, 6, 45) for i in range(kinds)}
    turns = (None, None, (0.0, 90.0, 180.0, 270.0), (0.0, 180.0), (35.0, 215.0))
    items = tuple(
        Item(id, shape.outline, rng.randint(1, 3), rng.choice(turns), rng.random() < 0.3)
        for id, shape in shapes.items()
    )
    bins = {f"bin-{i}": a_bin(rng) for i in range(rng.choice((1, 1, 2, 3)))}
    supplies = (1, 1, 2, None)
    there = tuple(
        Bin(id, shape.outline, round(rng.uniform(0, 9), 1), rng.choice(supplies))
        for id, shape in bins.items()
    )
    between = rng.choice((0.0, 0.3, 0.5, 2.0, rng.uniform(0, 3)))
    edge = rng.choice((0.0, 0.0, 1.0, 3.0, rng.uniform(0, 5)))
    return Case(Problem(items, there, between, edge), shapes, bins)


def pinned(case: Case, packing: Packing, rng: random.Random) -> Case:
    """The same case with some of an answer's spots pinned."""
    count = min(len(packing.spots), rng.randint(1, 2))
    pins = tuple(replace(spot, pinned=True) for spot in rng.sample(packing.spots, count))
    return replace(case, problem=replace(case.problem, pins=pins))


def lain(shape: Shape, spot: Spot) -> tuple[np.ndarray, ...]:
    """Edge and holes of a shape as it lies: turned over, turned, shifted."""
    a = math.radians(spot.turn)
    matrix = np.array([[math.cos(a), -math.sin(a)], [math.sin(a), math.cos(a)]])
    over = np.array([[-1.0 if spot.mirrored else 1.0, 0.0], [0.0, 1.0]])
    whole = (matrix @ over).T
    return tuple(np.array(ring) @ whole + (spot.x, spot.y) for ring in (shape.edge, *shape.holes))


def check(case: Case, packing: Packing) -> None:
    """An answer is sound: measured by the polygon library used plainly."""
    _check_rules(case.problem, packing)
    for name in {spot.bin for spot in packing.spots}:
        spots = packing.within(name)
        flats = [
            shapely.Polygon(r[0], r[1:]) for r in (lain(case.shapes[s.item], s) for s in spots)
        ]
        around = case.bins[name.partition("#")[0]]
        sheet = shapely.Polygon(around.edge, around.holes)
        for spot, flat in zip(spots, flats, strict=True):
            assert flat.difference(sheet.buffer(NEAR)).is_empty, f"outside: {spot}"
            gap = flat.distance(sheet.exterior) if flat.within(sheet) else 0.0
            holes = [flat.distance(hole) for hole in sheet.interiors]
            assert min([gap, *holes]) >= case.problem.edge - NEAR, f"edge: {spot}"
        _check_gaps(case.problem, spots, flats)


def _check_gaps(problem: Problem, spots: Sequence[Spot], flats: Sequence[shapely.Polygon]) -> None:
    for i, flat in enumerate(flats):
        for j in range(i):
            if problem.between > NEAR:
                enough = flat.distance(flats[j]) >= problem.between - NEAR
            else:
                enough = not flat.buffer(-NEAR / 2).intersects(flats[j].buffer(-NEAR / 2))
            assert enough, f"too near: {spots[i]} {spots[j]}"


def _check_rules(problem: Problem, packing: Packing) -> None:
    laid = Counter(spot.item for spot in packing.spots)
    items = {item.id: item for item in problem.items}
    bins = {bin.id: bin for bin in problem.bins}
    assert all(laid[id] <= item.count for id, item in items.items())
    for spot in packing.spots:
        item, (bin, _, number) = items[spot.item], spot.bin.partition("#")
        supply = bins[bin].supply
        assert number == "" or (int(number) > 1 and (supply is None or int(number) <= supply))
        assert item.mirrored or not spot.mirrored
        if item.turns is not None:
            assert min(abs(math.sin(math.radians(spot.turn - t) / 2)) for t in item.turns) < 1e-8
    assert not Counter(problem.pins) - Counter(packing.spots), "a pin isn't there"


def plainly_apart(one: Sequence[np.ndarray], other: Sequence[np.ndarray]) -> float:
    """How far the edges of two flats are apart, by plain arithmetic: ends against sides."""
    return min(min(_ends(a, b), _ends(b, a)) for a in one for b in other)


def _ends(points: np.ndarray, ring: np.ndarray) -> float:
    start, way = ring, np.roll(ring, -1, axis=0) - ring
    from_start = points[:, None, :] - start[None]
    along = np.clip((from_start * way).sum(-1) / (way**2).sum(-1), 0, 1)
    off = from_start - along[..., None] * way
    return float(np.sqrt((off**2).sum(-1).min()))
