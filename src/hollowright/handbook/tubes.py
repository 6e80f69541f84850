"""Standard tubes and solder-fitting sockets: sizes, tolerances and published weights, in mm."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from hollowright.handbook.sources import Sourced, read_data

_MM = {"mm": 1.0, "in": 25.4}
_GRAMS_PER_METRE = {"kg/m": 1000.0, "lb/ft": 453.59237 / 0.3048}


@dataclass(frozen=True)
class StandardTube:
    """One standard size of tube. Lengths mm; tolerances are plus and minus.

    tolerance: of the mean outside diameter (hard-drawn); annealed_tolerance: when annealed;
    any_tolerance: of one reading across, ovality and all. None where the source doesn't say.
    printed_bore: the bore as the source prints it; weight: as published, in the source's unit.
    """

    standard: str
    size: str
    outside: float
    wall: float
    tolerance: float
    wall_tolerance: float
    source: str
    tolerance_source: str
    metals: tuple[str, ...]
    uk_table: str = ""
    annealed_tolerance: float | None = None
    any_tolerance: float | None = None
    printed_bore: float | None = None
    weight: Sourced | None = None

    @property
    def bore(self) -> float:
        """Bore [mm]: outside - 2 x wall."""
        return self.outside - 2 * self.wall

    @property
    def widest_tolerance(self) -> float:
        """What one reading across a sound tube may be off by [mm]."""
        return max(
            self.tolerance, self.annealed_tolerance or self.tolerance, self.any_tolerance or 0.0
        )

    @property
    def name(self) -> str:
        """As it is spoken: 'EN 1057 42 x 1.2 mm', 'ASTM B88 type L 1-1/2 in'."""
        if self.standard.startswith("EN"):
            table = f" (UK table {self.uk_table})" if self.uk_table else ""
            return f"{self.standard} {self.size} mm{table}"
        return f"{self.standard} {self.size} in"

    def grams_per_metre(self, density: float) -> float:
        """Mass of a metre [g/m] for a density [g/cm3]: pi x (outside - wall) x wall x density."""
        return math.pi * (self.outside - self.wall) * self.wall * density


@dataclass(frozen=True)
class Socket:
    """The cup of a solder fitting [mm]: limits of its bore, its least depth, the tube it takes."""

    standard: str
    size: str
    low: float
    high: float
    tube_outside: float
    depth: float | None
    source: str

    @property
    def name(self) -> str:
        """As it is spoken: 'ASME B16.22 1-1/4 in', 'EN 1254-1 35 mm'."""
        return f"{self.standard} {self.size} {'mm' if self.standard.startswith('EN') else 'in'}"


def _outside_tolerance(standard: str, outside: float) -> Mapping[str, float]:
    """The tolerances [mm] of an outside diameter [mm] in that standard."""
    for table in read_data("tubes")["outside_tolerance"]:
        if standard.startswith(table["standard"]):
            scale = _MM[table["units"]]
            for row in table["rows"]:
                if outside <= row["to"] * scale + 1e-9:
                    return {key: value * scale for key, value in row.items() if key != "to"}
    raise ValueError(f"no outside tolerance for {standard} at {outside} mm")


def _wall_tolerance(outside: float, wall: float) -> float:
    """EN 1057's tolerance of a wall [mm] where the row doesn't give its own."""
    rule = read_data("tubes")["wall_rule"]
    if wall < 1.0:
        return float(rule["under_1_mm"]) * wall
    return float(rule["under_18_outside"] if outside < 18 else rule["otherwise"]) * wall


def _tube(table: Mapping[str, Any], row: Mapping[str, Any]) -> StandardTube:
    scale = _MM[table["units"]]
    outside, wall = row["outside"] * scale, row["wall"] * scale
    own = "wall_tolerance" in row
    allowed = _outside_tolerance(table["standard"], outside)
    weight = None
    if "weight" in row:
        origin = table.get("weight_source", table["source"])
        weight = Sourced(row["weight"], table["weight_units"], origin)
    rule = read_data("tubes")["wall_rule"]["source"]
    return StandardTube(
        standard=table["standard"],
        size=row["size"],
        outside=outside,
        wall=wall,
        tolerance=allowed["drawn"],
        wall_tolerance=row["wall_tolerance"] * scale if own else _wall_tolerance(outside, wall),
        source=table["source"],
        tolerance_source=table["tolerance_source"] if own else rule,
        metals=tuple(table["metals"]),
        uk_table=row.get("uk", ""),
        annealed_tolerance=allowed.get("annealed"),
        any_tolerance=allowed.get("any"),
        printed_bore=row["bore"] * scale if "bore" in row else None,
        weight=weight,
    )


@cache
def tubes() -> tuple[StandardTube, ...]:
    """Every standard tube of the handbook, table by table, thin to thick."""
    return tuple(
        _tube(table, row) for table in read_data("tubes")["table"] for row in table["rows"]
    )


@cache
def sockets() -> tuple[Socket, ...]:
    """Every solder-fitting socket of the handbook, small to large in each standard."""
    found = []
    for table in read_data("sockets")["table"]:
        scale = _MM[table["units"]]
        for row in table["rows"]:
            depth = row["depth"] * scale if "depth" in row else None
            found.append(
                Socket(
                    standard=table["standard"],
                    size=row["size"],
                    low=row["low"] * scale,
                    high=row["high"] * scale,
                    tube_outside=row["tube"] * scale,
                    depth=depth,
                    source=row["source"],
                )
            )
    return tuple(found)


def published_grams_per_metre(weight: Sourced) -> float:
    """A published weight (kg/m or lb/ft) as grams per metre."""
    return weight.value * _GRAMS_PER_METRE[weight.unit]
