"""Which fibre of a thick wall an edge follows, and where the neutral one lies."""

from __future__ import annotations

import math
from typing import Literal

Fibre = Literal["inner", "outer", "first"]
"""The fibre of the wall that a template follows.

*inner*: for an edge cut square to the wall; *outer*: for an edge bevelled so that the outside line
shows on the joint; *first*: at each place whichever fibre meets the other part first, so that a
square cut closes there without filing.
"""


def depth(thickness: float, neutral: float) -> float:
    """How deep the neutral surface lies under the outside [mm].

    `thickness` [mm], 0 or more; `neutral` is its share of the thickness from the inside, 0.5 for
    mid-thickness. ValueError for others.
    """
    if not (math.isfinite(thickness) and thickness >= 0):
        raise ValueError(f"thickness must be 0 mm or more, not {thickness}")
    if not 0 <= neutral <= 1:
        raise ValueError(f"neutral must be a share from 0 to 1 of the thickness, not {neutral}")
    return (1 - neutral) * thickness


def radii(fibre: Fibre, inner: float, outer: float) -> tuple[float, float]:
    """Least and greatest radius [mm] of the fibres that `fibre` may follow in a round wall."""
    known = {"inner": (inner, inner), "outer": (outer, outer), "first": (inner, outer)}
    if fibre not in known:
        raise ValueError(f"fibre must be inner, outer or first, not {fibre}")
    return known[fibre]


def positive(**sizes: float) -> None:
    """ValueError naming the first size [mm] that isn't more than 0."""
    for name, size in sizes.items():
        if not (math.isfinite(size) and size > 0):
            raise ValueError(f"{name} must be more than 0 mm, not {size}")
