"""The error budget: which reading carries how much of a quantity's doubt."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from hollowright.quantity.core import Quantity


@dataclass(frozen=True)
class Share:
    """One root's part in a quantity's variance: `part` of 1, `effect` in the quantity's unit."""

    id: str
    label: str
    effect: float
    part: float


def budget(
    quantity: Quantity, group: Callable[[Quantity], tuple[str, str]] | None = None
) -> tuple[Share, ...]:
    """The shares of a quantity's variance, largest first; they add up to 1 (empty when exact).

    group: root -> (id, label) under which it is added up; by default each root's own.
    """
    variances: dict[str, float] = {}
    labels: dict[str, str] = {}
    for node, slope in quantity.slopes.items():
        key, label = group(node) if group else (node.id, node.label)
        variances[key] = variances.get(key, 0.0) + (slope * node.doubt.standard) ** 2
        labels[key] = label
    total = math.fsum(variances.values())
    if not total:
        return ()
    shares = (
        Share(key, labels[key], math.sqrt(variance), variance / total)
        for key, variance in variances.items()
        if variance
    )
    return tuple(sorted(shares, key=lambda share: (-share.part, share.id)))


def by_reading(node: Quantity) -> tuple[str, str]:
    """Group error terms under the reading they belong to: (id, label)."""
    return node.of or node.id, node.label.partition(":")[0]


def covariance(a: Quantity, b: Quantity) -> float:
    """Covariance of two quantities [unit of a x unit of b] through the roots they share."""
    smaller, larger = sorted((a, b), key=lambda q: len(q.slopes))
    return math.fsum(
        slope * larger.slopes[node] * node.doubt.standard**2
        for node, slope in smaller.slopes.items()
        if node in larger.slopes
    )


def effective_dof(quantity: Quantity) -> float:
    """Effective degrees of freedom by Welch-Satterthwaite (JCGM 100 G.4.1); inf when all are."""
    terms = [
        ((slope * node.doubt.scale) ** 2, node.doubt.dof) for node, slope in quantity.slopes.items()
    ]
    below = math.fsum(term * term / dof for term, dof in terms if math.isfinite(dof))
    return math.fsum(term for term, _ in terms) ** 2 / below if below else math.inf
