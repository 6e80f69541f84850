"""The edge of a branch of tube on a main of tube: its depth at any place, its extremes, its means.

What has no closed form is searched or summed here, in plain floats; sizes are millimetres, angles
between the axes degrees.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

TURN = 2 * math.pi
SAMPLES = 24
GOLDEN = (math.sqrt(5) - 1) / 2
STEPS = 27
ROUND = 64


@dataclass(frozen=True, slots=True)
class Rim:
    """Where the fibres of a branch, from `inner` to `outer` radius, first meet the main.

    seat: radius of the main's surface that is met; offset: of the axes from each other; angle
    between them [deg]. t [rad] runs round the branch from the foot's side, as `Crossing`'s does.
    """

    seat: float
    inner: float
    outer: float
    angle: float
    offset: float

    def depth(self, radius: float, t: float) -> float:
        """Distance from the main's axis along the branch [mm] where a fibre meets the main."""
        turn = self.angle * math.pi / 180
        y = self.offset + radius * math.sin(t)
        above = math.sqrt(max(0.0, (self.seat - y) * (self.seat + y)))
        return (above - radius * math.cos(t) * math.cos(turn)) / math.sin(turn)

    def touching(self, t: float) -> float:
        """Radius of the fibre that meets the main first at t [mm]: there the depth is greatest."""
        if self.inner == self.outer:
            return self.inner
        across, lean = math.sin(t), math.cos(t) * math.cos(self.angle * math.pi / 180)
        if abs(across) < 1e-12:
            return self.outer if lean < 0 else self.inner
        k = -lean / across
        best = (self.seat * k / math.hypot(1.0, k) - self.offset) / across
        return min(max(best, self.inner), self.outer)

    def __call__(self, t: float) -> float:
        """Depth of the edge at t [mm]."""
        return self.depth(self.touching(t), t)

    def along(self, t: float) -> float:
        """Place along the main's axis where the outer fibre meets the main [mm]."""
        turn = self.angle * math.pi / 180
        depth = self.depth(self.outer, t)
        return depth * math.cos(turn) - self.outer * math.cos(t) * math.sin(turn)

    def slope(self, radius: float, t: float) -> float:
        """By how much the depth of a fibre's line on the main grows per t [mm]."""
        turn = self.angle * math.pi / 180
        y = self.offset + radius * math.sin(t)
        height = math.sqrt(max(0.0, (self.seat - y) * (self.seat + y)))
        up = -y * radius * math.cos(t) / height if height else 0.0
        return (up + radius * math.sin(t) * math.cos(turn)) / math.sin(turn)

    def speed(self, t: float) -> float:
        """Length of the outer fibre's curve on the main per t [mm]."""
        return math.hypot(self.slope(self.outer, t), self.outer)


def most(function: Callable[[float], float]) -> float:
    """Greatest value [its own unit] of a smooth function of a whole turn [rad].

    Source: golden section between the neighbours of the best of 24 samples.

    >>> round(most(lambda t: 3 + math.cos(t - 0.7)), 9)
    4.0
    """
    step = TURN / SAMPLES
    highest, number = max((function(i * step), i) for i in range(SAMPLES))
    best = number * step
    low, high = best - step, best + step
    a, b = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
    at_a, at_b = function(a), function(b)
    for _ in range(STEPS):
        if at_a > at_b:
            high, b, at_b = b, a, at_a
            a = high - GOLDEN * (high - low)
            at_a = function(a)
        else:
            low, a, at_a = a, b, at_b
            b = low + GOLDEN * (high - low)
            at_b = function(b)
    return max(at_a, at_b, highest)


def least(function: Callable[[float], float]) -> float:
    """Least value [its own unit] of a smooth function of a whole turn [rad].

    Source: as `most`.

    >>> round(least(lambda t: 3 + math.cos(t - 0.7)), 9)
    2.0
    """
    return -most(lambda t: -function(t))


def mean(function: Callable[[float], float], samples: int = ROUND) -> float:
    """Mean value [its own unit] of a smooth function of a whole turn [rad].

    Source: trapezoid rule, which gains digits with every sample of a smooth periodic function.

    >>> round(mean(lambda t: 1 / (2 + math.cos(t))), 12)
    0.57735026919
    """
    return sum(function(i * TURN / samples) for i in range(samples)) / samples
