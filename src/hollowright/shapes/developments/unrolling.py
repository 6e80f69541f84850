"""A strip of straight lines between two rails, unrolled exactly where it can be without stretching.

The strip's flat turns by the part of the straight lines' turning that lies in the surface, so one
integration along the rails unrolls cylinders, cones, oblique cones and everything between them.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Curve, Point
from hollowright.shapes.developments.tracing import hermite, sides, without_repeats
from hollowright.shapes.outline import Outline
from hollowright.shapes.space import Vector, add, cross, dot

Rail = Callable[[float], tuple[Vector, Vector]]
"""Point [mm] and slope [mm] of a rail, from the share 0 to 1 of the patch."""

State = tuple[float, float, float]
"""Direction of the straight line in the flat [rad] and the low rail's point there [mm]."""

States = tuple[State, ...]

START: State = (math.pi / 2, 0.0, 0.0)
SETTLED = 1e-8  # mm and radians: how far the end may move when the steps are halved
MOST_STEPS = 256
ROUNDING = 1e-12  # mm
NEAR = 1e-6  # mm off a straight line, or share beyond its ends, that a point of the flat may lie

# Gauss-Legendre with three nodes: sixth order (Hairer, Norsett and Wanner, Solving Ordinary
# Differential Equations I, section II.7).
_ROOT = math.sqrt(15)
_NODES = (0.5 - _ROOT / 10, 0.5, 0.5 + _ROOT / 10)
_WEIGHTS = (5 / 18, 4 / 9, 5 / 18)
_INNER = (
    (5 / 36, 2 / 9 - _ROOT / 15, 5 / 36 - _ROOT / 30),
    (5 / 36 + _ROOT / 24, 2 / 9, 5 / 36 - _ROOT / 24),
    (5 / 36 + _ROOT / 30, 2 / 9 + _ROOT / 15, 5 / 36),
)


@dataclass(frozen=True, slots=True)
class Patch:
    """Part of a strip: its two rails, and in how many steps it is unrolled (at least).

    A `plane` one has straight rails in one plane; it keeps its shape and takes one step.
    """

    low: Rail
    high: Rail
    steps: int = 8
    plane: bool = False


@dataclass(frozen=True)
class Unrolled:
    """Patches side by side, each beginning on the straight line where the one before ends.

    The surface must be developable: along a straight line both rails' slopes lie in one plane with
    it. `twist` tells by how much they don't. Made by `unroll`. Parameters: `along`, the patch's
    number plus the share of it; `share`, 0 on the low rail to 1 on the high one.
    """

    patches: tuple[Patch, ...]
    states: tuple[States, ...]

    def flat(self, along: float, share: float) -> Point:
        """The point of the flat [mm]."""
        direction, x, y = self.state(along)
        reach = share * _size(self._ruling(*self._split(along)))
        return (x + reach * math.cos(direction), y + reach * math.sin(direction))

    def space(self, along: float, share: float) -> Vector:
        """The point on the form [mm]."""
        patch, t = self._split(along)
        return add(self.patches[patch].low(t)[0], self._ruling(patch, t), share)

    def surface(self, point: Point) -> tuple[float, float]:
        """Parameters (along, share) of a point of the flat; ValueError for one far off it."""
        for number, states in enumerate(self.states):
            steps = len(states) - 1
            for i in range(steps):
                if _between(point, states[i], states[i + 1]):
                    along = number + self._found(point, number, i / steps, (i + 1) / steps)
                    share = self._share(point, along)
                    if -NEAR <= share <= 1 + NEAR and abs(_side(point, self.state(along))) < NEAR:
                        return (along, share)
        raise ValueError(f"the point {point} lies outside the flat")

    def rail(self, share: int) -> tuple[Cubic, ...]:
        """The low (0) or high (1) rail in the flat, a cubic a step, each with its own slopes."""
        found = []
        for number, states in enumerate(self.states):
            steps = len(states) - 1
            knots = [self._knot(number, i / steps, state, share) for i, state in enumerate(states)]
            found += [
                hermite(a, _scaled(da, 1 / steps), b, _scaled(db, 1 / steps))
                for (a, da), (b, db) in pairwise(knots)
                if math.dist(a, b) > 1e-9
            ]
        return tuple(found)

    def rulings(self) -> tuple[tuple[Point, Point], ...]:
        """The straight lines in the flat [mm] where patches meet, first and last included."""
        places = range(len(self.patches) + 1)
        return tuple((self.flat(i, 0), self.flat(i, 1)) for i in places)

    def points(self, tolerance: float = 1e-3) -> tuple[Point, ...]:
        """The flat as a polygon, chords within `tolerance` [mm] of `outline`."""
        return without_repeats(self.outline().points(tolerance))

    def outline(self) -> Outline:
        """The flat's outline: the rails as cubics, the seam's two edges as lines."""
        low, high = self.rail(0), self.rail(1)
        back = [Cubic(*cubic.controls[::-1]) for cubic in reversed(high)]
        last = len(self.patches)
        ends = [[self.flat(i, share) for share in (0, 1)] for i in (last, 0)]
        right, left = sides(ends[0]), sides(ends[1][::-1])
        curves: list[Curve] = [*low, *right, *back, *left]
        return Outline(tuple(curves))

    @property
    def twist(self) -> float:
        """Greatest angle [rad] between the two rails' tangent planes along a straight line."""
        return max(
            _twist(patch, i / patch.steps) for patch in self.patches for i in range(patch.steps + 1)
        )

    def state(self, along: float) -> State:
        """Direction of a straight line in the flat [rad] and its low end [mm]."""
        return self._state(*self._split(along))

    def _split(self, along: float) -> tuple[int, float]:
        patch = min(max(int(along), 0), len(self.patches) - 1)
        return patch, along - patch

    def _ruling(self, patch: int, t: float) -> Vector:
        return add(self.patches[patch].high(t)[0], self.patches[patch].low(t)[0], -1)

    def _state(self, patch: int, t: float) -> State:
        steps = self.patches[patch].steps
        step = min(max(round(t * steps), 0), steps)
        start = self.states[patch][step]
        rest = t - step / steps
        return _step(self.patches[patch], start, step / steps, rest) if rest else start

    def _knot(self, number: int, t: float, state: State, share: int) -> tuple[Point, Point]:
        """Place and slope of a rail in the flat."""
        patch = self.patches[number]
        direction, x, y = state
        c, s = math.cos(direction), math.sin(direction)
        frame = _frame(patch, t)
        slope = frame.high if share else frame.low
        reach = share * frame.size
        return (
            (x + reach * c, y + reach * s),
            (slope[0] * c + slope[1] * s, slope[0] * s - slope[1] * c),
        )

    def _share(self, point: Point, along: float) -> float:
        direction, x, y = self.state(along)
        reach = (point[0] - x) * math.cos(direction) + (point[1] - y) * math.sin(direction)
        return reach / _size(self._ruling(*self._split(along)))

    def _found(self, point: Point, number: int, low: float, high: float) -> float:
        """The share of a patch, between two, at which the straight line passes through a point."""

        def off(t: float) -> float:
            return _side(point, self._state(number, t))

        ends = (off(low), off(high))
        if abs(ends[0]) < ROUNDING or abs(ends[1]) < ROUNDING or ends[0] * ends[1] > 0:
            return low if abs(ends[0]) <= abs(ends[1]) else high
        for _ in range(60):
            t = low - ends[0] * (high - low) / (ends[1] - ends[0])
            here = off(t)
            if abs(here) < ROUNDING:
                break
            # Illinois: halve the kept end's value, so that both ends move in.
            if here * ends[1] < 0:
                low, high, ends = high, t, (ends[1], here)
            else:
                high, ends = t, (ends[0] / 2, here)
        return t


def unroll(patches: Sequence[Patch]) -> Unrolled:
    """Unroll patches, the line in the middle upright and its low end at 0, 0 [mm].

    ValueError where a straight line has no length.
    """
    settled = [_settled(patch) for patch in patches]
    taken = tuple(patch for patch, _ in settled)
    chained: list[States] = []
    last = START
    for _, states in settled:
        chained.append(tuple(_carried(state, last) for state in states))
        last = chained[-1][-1]
    trial = Unrolled(taken, tuple(chained))
    direction, x, y = trial.state(len(patches) / 2)
    turn = START[0] - direction
    c, s = math.cos(turn), math.sin(turn)
    start = (START[0] + turn, s * y - c * x, -(s * x + c * y))
    return Unrolled(taken, tuple(tuple(_carried(state, start) for state in r) for r in chained))


def _settled(patch: Patch) -> tuple[Patch, States]:
    """The patch with as many steps as it takes to settle, and its states from START."""
    if patch.plane:
        patch = replace(patch, steps=1)
        return patch, _run(patch)
    before = _run(patch)
    while patch.steps < MOST_STEPS:
        patch = replace(patch, steps=2 * patch.steps)
        after = _run(patch)
        if max(abs(a - b) for a, b in zip(before[-1], after[-1], strict=True)) < SETTLED:
            return patch, after
        before = after
    return patch, before


def _run(patch: Patch) -> States:
    states = [START]
    for i in range(patch.steps):
        states.append(_step(patch, states[-1], i / patch.steps, 1 / patch.steps))
    return tuple(states)


def _carried(state: State, start: State) -> State:
    """A state reckoned from START as it is reckoned from another start."""
    turn = start[0] - START[0]
    c, s = math.cos(turn), math.sin(turn)
    direction, x, y = state
    return (direction + turn, start[1] + c * x - s * y, start[2] + s * x + c * y)


@dataclass(frozen=True, slots=True)
class _Frame:
    """At a straight line: its length, how fast it turns, each rail's slope along and across it."""

    size: float
    turning: float
    low: Point
    high: Point


def _frame(patch: Patch, t: float) -> _Frame:
    (p, dp), (q, dq) = patch.low(t), patch.high(t)
    ruling = add(q, p, -1)
    size = _size(ruling)
    if size == 0:
        raise ValueError("a straight line of the strip has no length")
    e = (ruling[0] / size, ruling[1] / size, ruling[2] / size)
    both = add(dp, dq)
    across = add(both, e, -dot(both, e))
    width = _size(across)
    if width == 0:
        return _Frame(size, 0.0, (dot(dp, e), 0.0), (dot(dq, e), 0.0))
    b = (across[0] / width, across[1] / width, across[2] / width)
    low, high = (dot(dp, e), dot(dp, b)), (dot(dq, e), dot(dq, b))
    return _Frame(size, (high[1] - low[1]) / size, low, high)


def _step(patch: Patch, state: State, t: float, step: float) -> State:
    """The state a step further, by three-node Gauss-Legendre."""
    if patch.plane:
        return _slid(patch, state, t, step)
    frames = [_frame(patch, t + step * node) for node in _NODES]
    direction, x, y = state
    for weight, row, frame in zip(_WEIGHTS, _INNER, frames, strict=True):
        here = direction - step * sum(a * f.turning for a, f in zip(row, frames, strict=True))
        c, s = math.cos(here), math.sin(here)
        x += step * weight * (frame.low[0] * c + frame.low[1] * s)
        y += step * weight * (frame.low[0] * s - frame.low[1] * c)
    turned = step * sum(w * f.turning for w, f in zip(_WEIGHTS, frames, strict=True))
    return (direction - turned, x, y)


def _slid(patch: Patch, state: State, t: float, step: float) -> State:
    """The state a step further in a plane patch, whose flat is the plane itself."""
    frame = _frame(patch, t)
    direction, x, y = state
    c, s = math.cos(direction), math.sin(direction)
    (a, b), (far, wide) = ((step * v[0], step * v[1]) for v in (frame.low, frame.high))
    turned = math.atan2(wide - b, frame.size + far - a)
    return (direction - turned, x + a * c + b * s, y + a * s - b * c)


def _twist(patch: Patch, t: float) -> float:
    (p, dp), (q, dq) = patch.low(t), patch.high(t)
    ruling = add(q, p, -1)
    square = dot(ruling, ruling)
    a, b = (add(slope, ruling, -dot(slope, ruling) / square) for slope in (dp, dq))
    return math.atan2(_size(cross(a, b)), dot(a, b)) if _size(a) * _size(b) > 1e-18 else 0.0


def _between(point: Point, start: State, end: State) -> bool:
    a, b = _side(point, start), _side(point, end)
    return min(a, b) <= 1e-9 and max(a, b) >= -1e-9


def _side(point: Point, state: State) -> float:
    direction, x, y = state
    return (point[0] - x) * math.sin(direction) - (point[1] - y) * math.cos(direction)


def _size(vector: Vector) -> float:
    return math.sqrt(dot(vector, vector))


def _scaled(point: Point, factor: float) -> Point:
    return (point[0] * factor, point[1] * factor)
