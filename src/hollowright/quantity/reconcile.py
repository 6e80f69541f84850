"""Two ways to one dimension: combined by doubts and what they share, or a misreading found."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence
from typing import Any

from hollowright.errors import Caution
from hollowright.quantity.budget import budget, covariance
from hollowright.quantity.core import Quantity, formula, root
from hollowright.quantity.doubt import normal
from hollowright.quantity.evaluate import ancestry, evaluate
from hollowright.quantity.misreads import misreads
from hollowright.units import format_number

ALLOWED = 2.576
"""How many standard uncertainties two ways may lie apart: 1 in 100 good pairs lie further."""


@formula("", "mm")
def combined(reckoned: Any, direct: Any, share: Any, apart: Any) -> Any:
    """One dimension [mm] from a reckoned one and a direct reading, weighted by their doubts.

    combined = reckoned + share x (direct - reckoned)

    share: weight of the direct reading [1]; apart: error term for a disagreement [mm].
    Source: generalised least squares of two correlated estimates (JCGM 100 F.1.2).

    >>> round(combined(36.03, 36.05, 0.25, 0.0), 4)
    36.035
    """
    return reckoned + share * (direct - reckoned) + apart


def direct_share(var_reckoned: float, var_direct: float, cov: float) -> float:
    """Weight [1] of the direct reading that leaves the least variance, kept within 0 and 1.

    var_reckoned, var_direct, cov: variances and covariance [mm2] of the two estimates.
    Source: best linear unbiased estimate of one value from two correlated ones.

    >>> direct_share(4.0, 4.0, 0.0), direct_share(9.0, 1.0, 0.0)
    (0.5, 0.9)
    """
    spread = var_reckoned + var_direct - 2 * cov
    if spread <= 0:
        return 0.5
    return min(1.0, max(0.0, (var_reckoned - cov) / spread))


def reconcile(
    reckoned: Quantity, direct: Quantity, readings: Mapping[str, tuple[float, int]]
) -> tuple[Quantity, tuple[Caution, ...]]:
    """A reckoned and a directly read dimension [mm] as one quantity, and what to say of them.

    readings: by id the last digit's step [mm] and how many were taken, for the search of a
    misreading. When they
    differ beyond what both doubts allow, the suspect is named and half the difference becomes
    doubt.
    """
    share = direct_share(
        reckoned.uncertainty**2, direct.uncertainty**2, covariance(reckoned, direct)
    )
    gap = reckoned - direct
    allowed = ALLOWED * gap.uncertainty
    cautions: tuple[Caution, ...] = ()
    apart: Quantity | float = 0.0
    if abs(gap.value) > allowed:
        cautions = (_disagreement(reckoned, direct, gap, allowed, readings),)
        apart = root(
            f"{reckoned.id}_apart", f"{reckoned.label}: the two ways differ", "mm", 0.0,
            normal(abs(gap.value) / 2), kind="doubt", of=direct.id,
        )  # fmt: skip
    joined = combined(reckoned, direct, round(share, 6), apart)
    both = f"{reckoned.label} = both ways by their doubts: {format_number(reckoned.value)} reckoned"
    told = f"{both}, {format_number(direct.value)} read, weight {share:.2f} on the reading"
    named = dataclasses.replace(joined, id=reckoned.id, label=reckoned.label, told=told)
    return named, cautions


def _disagreement(
    reckoned: Quantity,
    direct: Quantity,
    gap: Quantity,
    allowed: float,
    readings: Mapping[str, tuple[float, int]],
) -> Caution:
    text = (
        f"{reckoned.label}: {format_number(reckoned.value)} from the other readings, "
        f"{format_number(direct.value)} read directly: {format_number(abs(gap.value))} apart, "
        f"where both doubts allow {format_number(allowed)}. {suspect(gap, allowed, readings)}"
    )
    return Caution(f"{reckoned.id}_misread", text, "reading", reckoned.id)


def suspect(gap: Quantity, allowed: float, readings: Mapping[str, tuple[float, int]]) -> str:
    """Which reading is likeliest wrong, in a sentence.

    readings: by id the last digit's step [mm] and how many were taken. It is one that was taken
    once and whose misreading would close the gap; else one that was taken once; else any whose
    misreading would close it; else the one that carries most of the gap's doubt.
    """
    order = ancestry([gap])
    taken = [node for node in order if node.kind == "reading" and node.id in readings]
    once = [node for node in taken if readings[node.id][1] == 1]
    steps = {node: readings[node.id][0] for node in taken}
    if found := _closing(order, gap, allowed, steps, once):
        return found
    if once:
        worst = max(once, key=lambda node: node.uncertainty)
        return f"Suspect: {worst.label}, read once only. Measure it again."
    if found := _closing(order, gap, allowed, steps, taken):
        return found
    shares = budget(gap, lambda node: (node.of or node.id, node.of or node.label))
    name = (shares[0].label if shares else gap.label).replace("_", " ")
    return f"Suspect: {name}, which weighs most in the difference. Measure it again."


def _closing(
    order: Sequence[Quantity],
    gap: Quantity,
    allowed: float,
    steps: Mapping[Quantity, float],
    tried: Sequence[Quantity],
) -> str:
    """The likeliest misreading among these that closes the gap, in a sentence; '' when none."""
    found = []
    for reading in tried:
        for slip in misreads(reading.value, steps[reading]):
            left = evaluate(order, {reading: slip.value})[gap]
            if abs(left) <= allowed:
                found.append((slip.cost, abs(left), reading.label, slip.value))
    if not found:
        return ""
    _, _, label, right = min(found)
    return f"Suspect: {label}; at {format_number(right)} the two would agree. Measure it again."
