"""Random outlines of every kind of curve, for the tests that compare with the polygon library."""

import math
import random

import shapely

from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Arc, Line
from hollowright.shapes.outline import Outline, rectangle
from hollowright.shapes.ovals import ellipse, regular_polygon

FINE = 5e-4


def bulged(start, end, bulge):
    """The arc between two points whose sweep is 4 atan(bulge); a line for a flat one."""
    if abs(bulge) < 1e-3:
        return Line(start, end)
    sweep = 4 * math.atan(bulge)
    chord = math.dist(start, end)
    radius = chord / (2 * math.sin(sweep / 2))
    heading = math.atan2(end[1] - start[1], end[0] - start[0]) - sweep / 2
    centre = (start[0] - radius * math.sin(heading), start[1] + radius * math.cos(heading))
    first = math.atan2(start[1] - centre[1], start[0] - centre[0])
    return Arc(centre, abs(radius), first, sweep)


def star(rng, count):
    """Corners round 0, 0 at uneven angles and distances."""
    angles = sorted(rng.uniform(0, math.tau) for _ in range(count))
    radii = [rng.uniform(6, 30) for _ in angles]
    return [(r * math.cos(a), r * math.sin(a)) for a, r in zip(angles, radii, strict=True)]


def with_arcs(rng):
    corners = star(rng, rng.randint(3, 9))
    pairs = zip(corners, corners[1:] + corners[:1], strict=True)
    return Outline(tuple(bulged(a, b, rng.choice((0, rng.uniform(-0.5, 0.8)))) for a, b in pairs))


def free(rng):
    """Cubics through corners, smooth at most of them and sharp at some."""
    corners = star(rng, rng.randint(3, 7))
    count = len(corners)
    chain = []
    for i in range(count):
        before, a, b, after = (corners[(i + k) % count] for k in (-1, 0, 1, 2))
        pull = rng.uniform(0.1, 0.25)
        leaving = (b[0] - before[0], b[1] - before[1])
        arriving = (after[0] - a[0], after[1] - a[1])
        sharp = i % 3 == 0
        turn = rng.uniform(-0.3, 0.3) if sharp else 0.0
        c, s = math.cos(turn), math.sin(turn)
        leaving = (c * leaving[0] - s * leaving[1], s * leaving[0] + c * leaving[1])
        control = (a[0] + pull * leaving[0], a[1] + pull * leaving[1])
        control_end = (b[0] - 0.2 * arriving[0], b[1] - 0.2 * arriving[1])
        chain.append(Cubic(a, control, control_end, b))
    return Outline(tuple(chain))


def plain(rng):
    width, height = rng.uniform(10, 60), rng.uniform(10, 60)
    radius = rng.uniform(0, min(width, height) / 2)
    return rng.choice(
        (
            lambda: ellipse(width, height),
            lambda: rectangle(width, height, radius),
            lambda: rectangle(width, height),
            lambda: regular_polygon(rng.randint(3, 12), width),
        )
    )()


def fine(outline, tolerance=FINE):
    return shapely.Polygon(outline.points(tolerance))


def random_outline(seed, kinds=(with_arcs, free, plain)):
    """The first outline that doesn't cross or nearly touch itself, from a seed."""
    rng = random.Random(seed)
    while True:
        made = rng.choice(kinds)(rng)
        polygon = fine(made, 1e-5)
        if polygon.is_valid and polygon.area > 40 and max(map(abs, made.turns)) < 3:
            return made
