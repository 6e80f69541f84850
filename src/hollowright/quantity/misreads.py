"""The ways a reading is misread or miscopied, each with the number it would have given."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from hollowright.units import MM_PER_INCH


@dataclass(frozen=True)
class Misread:
    """What went wrong in words, the value [mm] it makes of the right one, how far-fetched it is."""

    text: str
    value: float
    cost: float


def misreads(value: float, step: float, across: bool = True) -> Iterator[Misread]:
    """The usual misreadings of one number [mm], likeliest first within each kind.

    step: the last digit's step. across: it's a diameter, so a radius may be taken for it. Digits
    swapped, inch for millimetre, radius for diameter, a decimal point slipped, a calliper's whole
    or half turn. Common practice, no source.
    """
    decimals = max(0, min(4, round(-_log10(step)))) if step > 0 else 3
    yield from _swapped(value, decimals)
    if across:
        yield Misread("halved (radius for diameter)", value / 2, 1.2)
        yield Misread("doubled (diameter for radius)", value * 2, 1.2)
    yield Misread("read as inches for millimetres", value * MM_PER_INCH, 1.5)
    yield Misread("read as millimetres for inches", value / MM_PER_INCH, 1.5)
    yield Misread("with the point one place right", value * 10, 1.5)
    yield Misread("with the point one place left", value / 10, 1.5)
    for off in (1.0, 0.5, 0.1):
        for sign, word in ((1, "over"), (-1, "under")):
            if value + sign * off > 0:
                yield Misread(f"read {off:g} {word}", value + sign * off, 2.5)


def _log10(x: float) -> float:
    return math.log10(x)


def _swapped(value: float, decimals: int) -> Iterator[Misread]:
    text = f"{value:.{decimals}f}"
    places = [i for i, c in enumerate(text) if c.isdigit()]
    for left, right in pairwise(places):
        if text[left] != text[right]:
            swapped = list(text)
            swapped[left], swapped[right] = swapped[right], swapped[left]
            wrong = "".join(swapped)
            yield Misread(f"read {wrong} for {text} (digits swapped)", float(wrong), 1.1)
