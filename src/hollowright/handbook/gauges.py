"""Gauge numbers to millimetres: Brown & Sharpe by its formula, SWG and BWG by their tables."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from hollowright.handbook.sources import read_data

MM_PER_INCH = 25.4
THICKEST_BS, THINNEST_BS = -5, 40
"""Brown & Sharpe runs here from 6/0 (counted -5) to 40."""

TABLE_NAMES: Mapping[str, str] = MappingProxyType(
    {"bs": "B&S", "swg": "SWG", "bwg": "BWG", "metric": "mm"}
)
"""Short names of the tables, as they stand after a number: '20 ga B&S', '21 SWG', '0.8 mm'."""

_LONG_NAMES = {
    "bs": "Brown & Sharpe (AWG)",
    "swg": "British standard wire (SWG)",
    "bwg": "Birmingham (BWG)",
}


@dataclass(frozen=True)
class Gauge:
    """One size that sheet or wire is sold by: its table, number, thickness [mm] and source key."""

    table: str
    number: str
    mm: float
    source: str

    @property
    def name(self) -> str:
        """As it is spoken: '20 ga B&S', '21 SWG', '18 BWG', '0.8 mm'."""
        if self.table == "metric":
            return f"{self.number} mm"
        return f"{self.number}{' ga' if self.table == 'bs' else ''} {TABLE_NAMES[self.table]}"


def bs_inches(number: float) -> float:
    """Thickness [in] of a Brown & Sharpe (AWG) number; 0 is 1/0, -1 is 2/0, and so on.

    d = 0.005 in x 92^((36 - n) / 39)

    Holds for any n; made from 6/0 (-5) to 40 here. Source: ASTM B258.

    >>> round(bs_inches(20), 5)
    0.03196
    """
    return float(0.005 * 92.0 ** ((36 - number) / 39))


def _number(text: str) -> str:
    """A gauge number in one spelling: '20', '0', '4/0'. '0000' is 4/0, '1/0' is 0."""
    plain = "".join(text.split())
    if re.fullmatch(r"0{2,9}", plain):
        return f"{len(plain)}/0"
    if plain == "1/0":
        return "0"
    if re.fullmatch(r"[0-9]/0|[0-9]{1,3}", plain):
        return plain.lstrip("0") if plain.isdigit() and plain != "0" else plain
    return plain


def _bs_number(count: int) -> str:
    return str(count) if count >= 0 else f"{1 - count}/0"


@cache
def gauges(table: str) -> tuple[Gauge, ...]:
    """Every size of one table, thick to thin: 'bs', 'swg', 'bwg' or 'metric'."""
    if table == "bs":
        return tuple(
            Gauge("bs", _bs_number(count), bs_inches(count) * MM_PER_INCH, "astm-b258")
            for count in range(THICKEST_BS, THINNEST_BS + 1)
        )
    if table == "metric":
        row = read_data("gauges")["metric"]
        return tuple(Gauge("metric", str(float(mm)), float(mm), row["source"]) for mm in row["mm"])
    return tuple(
        Gauge(table, number, inches * MM_PER_INCH, part["source"])
        for part in read_data("gauges")[table]
        for number, inches in part["inches"].items()
    )


@cache
def _by_number(table: str) -> Mapping[str, float]:
    return {each.number: each.mm for each in gauges(table)}


def gauge_mm(table: str, text: str) -> float:
    """Thickness [mm] of a gauge number in the table 'bs', 'swg' or 'bwg'.

    text: the number alone: '20', '4/0', '0000'. Raises ValueError, in a plain sentence, for a
    number that isn't in the table.
    """
    sizes = _by_number(table)
    number = _number(text)
    if number not in sizes:
        ends = tuple(sizes)
        raise ValueError(
            f"{text.strip()[:20]!r} isn't a {_LONG_NAMES[table]} gauge: "
            f"write a number from {ends[0]} to {ends[-1]}, such as 20."
        )
    return sizes[number]


GAUGES: Mapping[str, Callable[[str], float]] = MappingProxyType(
    {
        "bs": lambda text: gauge_mm("bs", text),
        "swg": lambda text: gauge_mm("swg", text),
        "bwg": lambda text: gauge_mm("bwg", text),
    }
)
"""The gauge tables: text of the number -> mm. ValueError for a number that isn't there."""
