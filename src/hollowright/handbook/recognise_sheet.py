"""What a thickness probably is: the nearest gauges and round metric sheet."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hollowright.errors import InputError
from hollowright.handbook.gauges import Gauge, gauges

NEAR_SHARE = 0.03
"""How far off a sheet may be and still be named, as a share of the size.

Mills roll thin sheet to about 3 to 5 % and gauge numbers are 12 % apart, so 3 % takes in most true
sheet and can't reach the next number.
"""
LEAST_NEAR = 0.01
"""... and never less than this [mm], the last digit of a calliper."""

ROUNDING = 1e-9
"""A difference that is exactly on a limit stays within it [mm]."""

ALL_TABLES = ("bs", "swg", "metric")
SHEET_TABLES = ("bs", "metric")
"""The tables that sheet is described by, unless nothing there is near: then SWG too."""


@dataclass(frozen=True)
class Match:
    """A standard thickness near a reading: its name, nominal [mm], reading - nominal [mm]."""

    name: str
    nominal: float
    difference: float
    table: str
    source: str

    @property
    def text(self) -> str:
        """For people: '20 ga B&S (0.812)', '0.8 mm'."""
        return self.name if self.table == "metric" else f"{self.name} ({self.nominal:.3f})"


def positive(value: float, field: str) -> float:
    """The value, if it is a size [mm] at all. Raises InputError naming the field."""
    if not 0 < value < math.inf:
        raise InputError(
            field, f"{value} isn't a size.", "Write millimetres above 0, such as 0.82."
        )
    return value


def _match(gauge: Gauge, mm: float) -> Match:
    return Match(gauge.name, gauge.mm, mm - gauge.mm, gauge.table, gauge.source)


def recognise_thickness(
    mm: float, doubt: float = 0.0, tables: Sequence[str] = ALL_TABLES, limit: int = 6
) -> tuple[Match, ...]:
    """The standard thicknesses nearest to a reading [mm], nearest first, at most `limit`.

    doubt: the reading's own doubt [mm]; sizes within it count as equally near, and then stand in
    the order of the tables. tables: of 'bs', 'swg', 'bwg', 'metric'. Raises InputError for a
    reading that isn't above 0.
    """
    positive(mm, "thickness")
    found = [gauge for table in tables for gauge in gauges(table)]
    found.sort(key=lambda gauge: max(abs(mm - gauge.mm) - doubt, 0.0))
    return tuple(_match(gauge, mm) for gauge in found[:limit])


def near_thicknesses(mm: float, doubt: float, tables: Sequence[str]) -> list[Match]:
    """The matches of those tables within the tolerance that NEAR_SHARE explains."""
    matches = recognise_thickness(mm, doubt, tables)
    reach = max(NEAR_SHARE * mm, LEAST_NEAR, doubt) + ROUNDING
    return [match for match in matches if abs(match.difference) <= reach]


def describe_thickness(mm: float, doubt: float = 0.0, tables: Sequence[str] = SHEET_TABLES) -> str:
    """What a thickness [mm] probably is, in a few words for people.

    Names what lies within 3 % of the reading, or within its doubt [mm] if that is more.

    >>> describe_thickness(0.82)
    '20 ga B&S (0.812), 0.8 mm'
    """
    near = near_thicknesses(mm, doubt, tables) or near_thicknesses(mm, doubt, ALL_TABLES)
    if near:
        order = sorted(near, key=lambda match: (match.table == "metric", abs(match.difference)))
        return ", ".join(match.text for match in order)
    nearest = recognise_thickness(mm, doubt, tables, limit=1)[0]
    return f"no standard sheet; nearest {nearest.text}, {off_text(nearest.difference)}"


def off_text(difference: float) -> str:
    """A difference in words: '0.05 over', '0.19 under', 'exact'."""
    if abs(difference) < 0.005:
        return "exact"
    return f"{abs(difference):.2f} {'over' if difference > 0 else 'under'}"
