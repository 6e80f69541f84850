"""Repeated readings become a quantity by the GUM's rules (JCGM 100): mean, type A, type B.

Below four readings the scatter tells nothing reliable (Student's t with 1 or 2 degrees of freedom
has no finite variance), so the shop's pooled repeatability is used; from four on their own
scatter, as a scaled Student t (JCGM 101 6.4.9). Readings round a tube are not repeats of one
thing: what they differ by beyond the instrument is the tube's ovality.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from hollowright.errors import Caution
from hollowright.quantity.core import Quantity, formula, root
from hollowright.quantity.doubt import Doubt, normal, rectangular, student
from hollowright.quantity.statistics import mean_and_spread, spread_beyond, stranger
from hollowright.units import format_number

OVALITY_CEILING = 0.02
"""A 'tube' further out of round than this part of its diameter is a misreading instead."""


@dataclass(frozen=True)
class Instrument:
    """A measuring instrument of the shop [mm].

    mpe: largest permissible error of the reading (DIN 862, DIN 863); resolution: step of the
    display; repeatability: pooled standard deviation of one reading; zero: how far its zero may
    be off, shared by everything read with it; jaw: width of flat jaws, 0 for ball or knife edge.
    """

    id: str
    name: str
    mpe: float
    resolution: float
    repeatability: float
    zero: float = 0.0
    inside_mpe: float = 0.0
    jaw: float = 0.0
    inside_flat: float = 0.0
    source: str = ""

    def zero_error(self) -> Quantity:
        """The one zero error that all readings with this instrument share, as a root."""
        return root(
            f"{self.id}_zero", f"zero of the {self.name}", "mm", 0.0, rectangular(self.zero),
            kind="doubt", source=self.source,
        )  # fmt: skip


@dataclass(frozen=True)
class Reading:
    """A quantity made of readings, with what was noticed on the way."""

    quantity: Quantity
    values: tuple[float, ...]
    cautions: tuple[Caution, ...] = ()
    ovality: float = 0.0
    around: bool = False
    step: float = 0.0


@formula("", "mm")
def _as_corrected(mean: Any, scatter: Any, scale: Any, rounding: Any, zero: Any) -> Any:
    """The true size: outside jaws and inside jaws alike show it plus the zero error.

    reading = mean + scatter + scale + rounding - zero
    """
    return mean + scatter + scale + rounding - zero


def from_readings(
    id: str,
    label: str,
    values: Sequence[float],
    instrument: Instrument,
    zero: Quantity,
    around: bool = False,
    inside: bool = False,
    step: float = 0.0,
    fraction: float = 0.0,
    source: str = "",
) -> Reading:
    """Readings [mm] of one dimension with one instrument as a quantity.

    around: they were taken round a tube. inside: with the inside jaws (larger permissible error).
    zero: the instrument's shared zero error. step: of the last digit written; fraction: the step
    of a reading written as a fraction of an inch, whose rounding counts. A reading that doesn't
    belong is pointed out, never
    dropped.
    """
    mpe = instrument.mpe + (instrument.inside_mpe if inside else 0.0)
    found, ovality = _noticed(id, label, values, mpe, instrument, around)
    cautions = () if found is None else (found,)
    scatter = type_a(values, instrument.repeatability, pooled=ovality > 0)
    if found is not None and not ovality:  # they contradict each other: the pool doesn't hold
        scatter = max(scatter, normal((max(values) - min(values)) / 2), key=lambda d: d.standard)
    mean, _ = mean_and_spread(values)
    parts = (
        root("", label, "mm", mean, normal(0.0)),
        root(f"{id}_scatter", f"{label}: scatter", "mm", 0.0, scatter, "doubt", of=id),
        root(f"{id}_scale", f"{label}: {instrument.name}", "mm", 0.0, rectangular(mpe), "doubt",
             of=id),
        root(f"{id}_rounding", f"{label}: last digit", "mm", 0.0,
             rectangular(max(instrument.resolution, fraction) / 2), "doubt", of=id),
        zero,
    )  # fmt: skip
    quantity = _as_reading(
        _as_corrected(*parts), id, label, values, mean, source or instrument.source
    )
    return Reading(quantity, tuple(values), cautions, ovality, around, step)


def _as_reading(
    made: Quantity, id: str, label: str, values: Sequence[float], mean: float, source: str
) -> Quantity:
    shown = ", ".join(format_number(v, 3 if round(v, 2) != round(v, 4) else 2) for v in values)
    told = f"{label} = mean of {shown}" if len(values) > 1 else f"{label} = one reading"
    return dataclasses.replace(
        made,
        id=id,
        label=label,
        value=mean,
        kind="reading",
        told=told,
        source=source,
        readings=tuple(values),
    )


def type_a(values: Sequence[float], repeatability: float, pooled: bool = False) -> Doubt:
    """The doubt of the mean from its scatter: pooled below four readings, Student's t from four.

    repeatability: the shop's pooled standard deviation of one reading [mm]. pooled: use it
    whatever the number (readings round an oval tube scatter by its shape).
    Source: JCGM 100:2008 4.2; JCGM 101:2008 6.4.9.
    """
    count = len(values)
    if count < 4 or pooled:
        return normal(repeatability / math.sqrt(count))
    _, spread = mean_and_spread(values)
    return student(spread / math.sqrt(count), count - 1)


def _noticed(
    id: str,
    label: str,
    values: Sequence[float],
    mpe: float,
    instrument: Instrument,
    around: bool,
) -> tuple[Caution | None, float]:
    """What the readings say of themselves: a stranger, ovality, a pair that disagrees."""
    single = math.hypot(
        instrument.repeatability, mpe / math.sqrt(3.0), instrument.resolution / math.sqrt(12.0)
    )
    explained = 2.0 * mpe + instrument.resolution
    odd = stranger(values, explained)
    spread = max(values) - min(values)
    mean = math.fsum(values) / len(values)
    beyond = spread_beyond(values, single)
    if around and beyond and spread <= OVALITY_CEILING * mean:
        return _oval_caution(id, label, spread, len(values)), spread
    if odd is not None:
        return _stranger_caution(id, label, values, odd), 0.0
    if not beyond:
        return None, 0.0
    return _apart_caution(id, label, values), 0.0


def _stranger_caution(id: str, label: str, values: Sequence[float], odd: int) -> Caution:
    others = [v for i, v in enumerate(values) if i != odd]
    text = (
        f"{label}: {format_number(values[odd])} doesn't belong to the others "
        f"({', '.join(format_number(v) for v in others)}) by Grubbs's test. It is still counted. "
        "Measure again, or strike it out yourself."
    )
    return Caution(f"{id}_stranger", text, "reading", id)


def _oval_caution(id: str, label: str, spread: float, count: int) -> Caution:
    evenly = {2: "the two were taken square to each other", 3: "the three were 60 degrees apart"}
    text = (
        f"{label}: the readings differ by {format_number(spread)} mm, more than the instrument "
        "can: it is out of round by about that much. The mean still gives the right length round "
        f"it if {evenly.get(count, 'they were taken evenly round it')}; halves of it fit one way "
        "only, a ring is rounded up on the mandrel and read again."
    )
    return Caution(f"{id}_oval", text, "reading", id)


def _apart_caution(id: str, label: str, values: Sequence[float]) -> Caution:
    text = (
        f"{label}: the readings {', '.join(format_number(v) for v in values)} differ more than "
        "the instrument can explain. One of them may be misread, or the metal isn't even: "
        "measure again."
    )
    return Caution(f"{id}_apart", text, "reading", id)
