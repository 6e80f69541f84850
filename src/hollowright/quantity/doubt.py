"""The doubt of one root: its distribution, standard uncertainty and degrees of freedom."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Doubt:
    """A distribution round a root's value; `standard` is its standard deviation [unit].

    kind: 'exact', 'normal', 'rectangular' (JCGM 100 4.3.7) or 'student' (JCGM 101 6.4.9).
    dof: degrees of freedom for the Welch-Satterthwaite formula (JCGM 100 G.4).
    """

    kind: str
    standard: float
    dof: float = math.inf

    @property
    def scale(self) -> float:
        """The standard uncertainty by JCGM 100: s / sqrt n for a mean of few readings [unit]."""
        if self.kind == "student":
            return self.standard / math.sqrt(self.dof / (self.dof - 2.0))
        return self.standard

    def sample(self, count: int, generator: Any) -> Any:
        """Deviations from the root's value: an array of `count` [unit]."""
        if self.kind == "rectangular":
            half = self.standard * math.sqrt(3.0)
            return generator.uniform(-half, half, count)
        if self.kind == "student":
            return self.scale * generator.standard_t(self.dof, count)
        return self.standard * generator.standard_normal(count)


EXACT = Doubt("exact", 0.0)


def normal(standard: float, dof: float = math.inf) -> Doubt:
    """A normal doubt with this standard uncertainty [unit]."""
    return Doubt("normal", standard, dof) if standard else EXACT


def rectangular(half_width: float) -> Doubt:
    """Anywhere within plus or minus half_width [unit]: u = half_width / sqrt 3 (JCGM 100 4.3.7)."""
    return Doubt("rectangular", half_width / math.sqrt(3.0)) if half_width else EXACT


def student(scale: float, dof: float) -> Doubt:
    """The mean of few readings: scaled Student t (JCGM 101 6.4.9), dof above 2.

    scale: s / sqrt n [unit]. The standard uncertainty is scale x sqrt(dof / (dof - 2)), so that
    the law of propagation and Monte Carlo speak of the same spread.
    """
    if dof <= 2:
        raise ValueError("Student's t has no finite variance below 3 degrees of freedom")
    return Doubt("student", scale * math.sqrt(dof / (dof - 2.0)), dof) if scale else EXACT
