"""The cups of a doming block, until the user has measured their own."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from hollowright.handbook.sources import read_data


@dataclass(frozen=True)
class Cup:
    """One cup of a block: across its mouth and deep [mm], part of a sphere."""

    mouth: float
    depth: float
    source: str

    @property
    def ball(self) -> float:
        """Diameter of the ball that fills it [mm]."""
        return self.mouth * self.mouth / (4 * self.depth) + self.depth


@cache
def cups() -> tuple[Cup, ...]:
    """Every cup of a usual block, widest first (common practice, no source)."""
    data = read_data("doming")
    return tuple(Cup(float(mouth), float(depth), data["source"]) for mouth, depth in data["cups"])
