"""Monte Carlo of a whole graph: its roots drawn, every node re-evaluated on arrays (JCGM 101)."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from hollowright.quantity.core import Quantity
from hollowright.quantity.evaluate import ancestry, evaluate

SEED = 20_101
"""A fixed seed, so that the same plan draws the same samples everywhere."""


def simulate(
    targets: Iterable[Quantity], count: int = 100_000, seed: int = SEED
) -> dict[Quantity, Any]:
    """Samples [own unit] of every node under the targets.

    Each node has an array of `count`, or a float where nothing under it is in doubt.
    """
    import numpy

    order = ancestry(targets)
    generator = numpy.random.Generator(numpy.random.SFC64(seed))
    drawn = {
        node: node.value + node.doubt.sample(count, generator)
        for node in order
        if node.doubt.standard
    }
    return evaluate(order, drawn)
