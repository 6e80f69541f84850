"""Choices: the largest, the smallest, the one that fits. They have no slope; they have a margin."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from hollowright.errors import Caution
from hollowright.quantity.core import Quantity, formula
from hollowright.units import format_number


@dataclass(frozen=True)
class Choice:
    """What was chosen among which candidates by which rule, and how clearly."""

    id: str
    rule: str
    candidates: Mapping[str, float]
    taken: str
    margin: float
    doubt: float

    @property
    def could_flip(self) -> bool:
        """Whether the margin is smaller than the doubt of the difference."""
        return len(self.candidates) > 1 and self.margin < self.doubt

    def cautions(self) -> tuple[Caution, ...]:
        """A caution when the choice could flip."""
        if not self.could_flip:
            return ()
        text = (
            f"{self.id.replace('_', ' ')}: {self.taken} was taken by {format_number(self.margin)}, "
            f"less than the doubt of {format_number(self.doubt)}: the choice could flip."
        )
        return (Caution(f"{self.id}_could_flip", text, "choice", self.id),)


@formula("", "", "taken")
def as_it_is(chosen: Any) -> Any:
    """A quantity under a name of its own: what a choice took.

    taken = chosen
    """
    return chosen


def choose(
    id: str, label: str, candidates: Mapping[str, Quantity], rule: str
) -> tuple[Quantity, Choice]:
    """The largest or the smallest of several quantities of one unit, and the record of it.

    rule: 'largest' or 'smallest'. The quantity keeps the slopes of the one taken.
    """
    sign = 1.0 if rule == "largest" else -1.0
    ranked = sorted(candidates, key=lambda name: (-sign * candidates[name].value, name))
    best = candidates[ranked[0]]
    margin, doubt = 0.0, 0.0
    if len(ranked) > 1:
        gap = best - candidates[ranked[1]]
        margin, doubt = abs(gap.value), gap.uncertainty
    record = Choice(
        id, f"the {rule}", {n: q.value for n, q in candidates.items()}, ranked[0], margin, doubt
    )
    taken = as_it_is(best)
    told = f"{label} = {record.rule}: {ranked[0]}"
    named = dataclasses.replace(
        taken, id=id, label=label, unit=best.unit, source=best.source, told=told
    )
    return named, record
