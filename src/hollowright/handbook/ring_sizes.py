"""Ring sizes: 'US 7 1/4', 'UK N 1/2', 'ISO 54' to an inside diameter [mm], scale by scale."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Any

from hollowright.errors import InputError, UnknownName, shown
from hollowright.handbook.sources import read_data

TABLES = ("metric", "inch")
"""Two laws stand for US sizes and for UK letters: in millimetres, and the older one in inches."""

EXAMPLES = "ISO 54, US 7 1/4, UK N 1/2, CH 14 or JP 12"
_MM = {"mm": 1.0, "in": 25.4}
_VULGAR = {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "\N{FRACTION SLASH}": "/"}
_WORDED = re.compile(r"([a-z]{2,12})[\s.:-]*(.*)", re.DOTALL)
_NUMBER = re.compile(r"(\d{1,3}(?:\.\d{0,4})?)?(?:(?:^|[\s-]+)(\d)/(\d))?")
_LETTER = re.compile(r"([a-z])(?:\s*\+\s*(\d))?(?:\s*(\.5|1/2))?")


@dataclass(frozen=True)
class RingLaw:
    """How a scale's sizes become lengths [mm]: measure = first + (size - start) x step, or rows.

    table: 'metric' or 'inch'; measures: 'diameter' or 'circumference' of the inside; rows: whole
    letters' measures where there is no law, a half size `half` above its letter.
    """

    table: str
    measures: str
    first: float
    start: float
    step: float
    source: str
    rows: Mapping[str, float]
    half: float

    def measure(self, number: float) -> float | None:
        """Diameter or circumference [mm] of a size by its number; None for one that isn't made."""
        if not self.rows:
            return self.first + (number - self.start) * self.step
        place, over = divmod(number - 1, 1)
        sizes = list(self.rows.values())
        if place >= len(sizes):
            return None
        found = sizes[int(place)] + (self.half if over else 0.0)
        if over and int(place) + 1 < len(sizes) and found > sizes[int(place) + 1] - self.half / 2:
            return None  # it would be the next letter itself
        return found


@dataclass(frozen=True)
class RingScale:
    """One scale: its words, how far it runs, the smallest part of a size, its laws."""

    id: str
    name: str
    also: tuple[str, ...]
    example: str
    low: float
    high: float
    part: float
    letters: bool
    laws: tuple[RingLaw, ...]

    def law(self, table: str) -> RingLaw:
        """The law of that table, or the only one there is."""
        return next((each for each in self.laws if each.table == table), self.laws[0])

    def spoken(self, number: float) -> str:
        """A size as it is spoken: 'US 7 1/4', 'UK N 1/2', 'UK Z+2', 'ISO 54.5'."""
        if self.id == "ISO":
            return f"ISO {number:g}"
        whole, over = divmod(number, 1)
        fraction = {0.25: " 1/4", 0.5: " 1/2", 0.75: " 3/4"}.get(over, "")
        if not self.letters:
            return f"{self.id} {int(whole)}{fraction}" if whole else f"{self.id}{fraction or ' 0'}"
        letter = chr(64 + int(whole)) if whole <= 26 else f"Z+{int(whole) - 26}"
        return f"{self.id} {letter}{fraction}"


@dataclass(frozen=True)
class RingSize:
    """A ring's size: its scale and law, its number (letters count from A = 1), its measure [mm].

    bare: it was written without a scale's name.
    """

    scale: RingScale
    law: RingLaw
    number: float
    measure: float
    bare: bool = False

    @property
    def text(self) -> str:
        """As it is spoken."""
        return self.scale.spoken(self.number)

    @property
    def diameter(self) -> float:
        """Inside diameter [mm]."""
        return self.measure if self.law.measures == "diameter" else self.measure / math.pi

    @property
    def circumference(self) -> float:
        """Inside circumference [mm]."""
        return math.pi * self.diameter


@cache
def scales() -> tuple[RingScale, ...]:
    """Every scale of the handbook, in the file's order."""
    return tuple(_scale(row) for row in read_data("ring_sizes")["scale"])


def ring_size(given: str, field: str = "size", table: str = "metric") -> RingSize:
    """A ring's size from its text; a bare number is read as ISO 8653, a bare letter as UK.

    field: the name of the box, for the error; table: 'metric' or 'inch', where a scale has both.
    Raises UnknownName for another scale, InputError for a size that isn't in it.
    """
    plain = given
    for sign, spelled in _VULGAR.items():
        plain = plain.replace(sign, spelled)
    plain = " ".join(plain.lower().split())
    worded = _WORDED.fullmatch(plain)
    if worded:
        word = worded[1].upper()
        if word not in _by_word():
            raise UnknownName(field, given, [each.example for each in scales()])
        scale, rest = _by_word()[word], worded[2].strip()
    else:
        scale, rest = _by_word()["UK" if plain[:1].isalpha() else "ISO"], plain
    number = _letter(rest) if scale.letters else _number(rest)
    if number is None:
        raise InputError(field, f"{shown(given)} isn't a ring size.", f"Write {EXAMPLES}.")
    law = scale.law(table)
    measure = _measure(scale, law, number, field, given, bare=worded is None)
    return RingSize(scale, law, number, measure, worded is None)


def nearest(diameter: float) -> tuple[RingSize, ...]:
    """The size nearest to an inside diameter [mm] in each scale that runs so far, by its first law.

    >>> [each.text for each in nearest(17.32)]
    ['ISO 54.4', 'US 7', 'UK N 1/2', 'CH 14 1/2', 'JP 14']
    """
    found = []
    for scale in scales():
        law = scale.laws[0]
        measured = diameter if law.measures == "diameter" else math.pi * diameter
        number = law.start + (measured - law.first) / law.step
        number = round(number / scale.part) * scale.part
        if scale.low <= number <= scale.high:
            found.append(RingSize(scale, law, number, law.first + (number - law.start) * law.step))
    return tuple(found)


def _measure(
    scale: RingScale, law: RingLaw, number: float, field: str, given: str, bare: bool
) -> float:
    """The size's measure [mm]; refused out of the scale, or between its sizes."""
    if not scale.low <= number <= scale.high:
        ends = f"{scale.spoken(scale.low)} to {scale.spoken(scale.high)}"
        whose = (
            "a bare number is read as ISO, which" if bare and scale.id == "ISO" else "that scale"
        )
        other = f"Write US {number:g} if that was meant, or" if bare else "Write another, or"
        problem = f"{shown(given)} isn't there: {whose} runs from {ends}."
        raise InputError(field, problem, f"{other} give the inside diameter instead.")
    measure = law.measure(number)
    if measure is None or abs(number / scale.part - round(number / scale.part)) > 1e-6:
        raise InputError(
            field, f"{shown(given)} isn't a size of that scale.",
            f"Write {scale.example}, say, or give the inside diameter instead.",
        )  # fmt: skip
    return measure


def _number(text: str) -> float | None:
    """A size's number: '7', '7.25', '7 1/4', '1/2'; None for anything else."""
    found = _NUMBER.fullmatch(text)
    if not text or not found or found[3] == "0":
        return None
    part = int(found[2]) / int(found[3]) if found[2] else 0.0
    return float(found[1] or 0) + part if part < 1 else None


def _letter(text: str) -> float | None:
    """A letter's number: 'c' is 3, 'n 1/2' is 14.5, 'z+2' is 28; None for anything else."""
    found = _LETTER.fullmatch(text)
    if not found or (found[2] and found[1] != "z"):
        return None
    return ord(found[1]) - 96 + int(found[2] or 0) + (0.5 if found[3] else 0.0)


@cache
def _by_word() -> Mapping[str, RingScale]:
    return {word: scale for scale in scales() for word in (scale.id, *scale.also)}


def _scale(row: Mapping[str, Any]) -> RingScale:
    return RingScale(
        row["id"], row["name"], tuple(row["also"]), row["example"], row["low"], row["high"],
        row["part"], row.get("letters", False), tuple(_law(each) for each in row["law"]),
    )  # fmt: skip


def _law(row: Mapping[str, Any]) -> RingLaw:
    unit = _MM[row["units"]]
    rows = MappingProxyType({key: value * unit for key, value in row.get("rows", {}).items()})
    return RingLaw(
        row["table"], row["measures"], row.get("first", 0) * unit, row.get("start", 0),
        row.get("step", 0) * unit, row["source"], rows, row.get("half", 0) * unit,
    )  # fmt: skip
