"""Jewellers' saw blades, and which one to take for a thickness of metal."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

from hollowright.errors import InputError
from hollowright.handbook.sources import read_data

_MM = 25.4
WANTED_TEETH = 3.0
"""Teeth that should stand in the metal at once (common practice; makers of hacksaws say it too)."""

FRAME_LIMIT = 6.0
"""Above this thickness [mm] a piercing saw is a poor tool (common practice)."""


CHART_FOR = {
    "sheet": "this sheet",
    "tube": "sheet as thick as this wall",
    "rod": "sheet as thick as this rod",
}
"""What the bench chart, which is for sheet, is asked for: by the form that is sawn."""

WITH_CARE = {
    "sheet": "thin sheet on a backing",
    "tube": "turning the work so that it meets one wall at a time",
    "rod": "the rod held down in a groove",
}
"""How metal too thin for three teeth is held, by its form (common practice)."""


@dataclass(frozen=True)
class Blade:
    """One saw blade: thickness and depth [mm], teeth a millimetre, drill that lets it through."""

    name: str
    thickness: float
    depth: float
    teeth_per_mm: float
    thickest_gauge: int
    thinnest_gauge: int
    drill_number: int
    drill: float
    source: str

    @property
    def kerf(self) -> float:
        """Width of the cut [mm]: the blade's thickness, for its teeth hardly stand proud."""
        return self.thickness

    def teeth_in(self, thickness: float) -> float:
        """Teeth that stand in metal of that thickness [mm] when the saw is held square to it."""
        return self.teeth_per_mm * thickness


@dataclass(frozen=True)
class BladePick:
    """The blade to take: teeth in the metal, kerf and drill [mm], and why in one sentence.

    three_teeth: the coarsest blade that puts three teeth in the metal, '' where none does.
    """

    name: str
    teeth: float
    kerf: float
    drill: float
    drill_number: int
    three_teeth: str
    why: str


@cache
def blades() -> tuple[Blade, ...]:
    """Every blade of the chart, finest first (from memory of the bench chart)."""
    data = read_data("blades")
    return tuple(
        Blade(
            name=row["name"],
            thickness=row["thickness"] * _MM,
            depth=row["depth"] * _MM,
            teeth_per_mm=row["teeth"] / _MM,
            thickest_gauge=row["sheet"][0],
            thinnest_gauge=row["sheet"][1],
            drill_number=row["drill"],
            drill=data["drills"][str(row["drill"])] * _MM,
            source=data["source"],
        )
        for row in data["blade"]
    )


def _gauge_of(thickness: float) -> int:
    """The Brown & Sharpe number nearest to a thickness [mm], by the formula turned round."""
    return round(36 - 39 * math.log(thickness / (0.005 * _MM)) / math.log(92))


def _by_chart(thickness: float) -> list[Blade]:
    """The blades whose sheet range holds the thickness [mm], or lies nearest to it."""
    gauge = _gauge_of(thickness)

    def outside_range(blade: Blade) -> int:
        return max(blade.thickest_gauge - gauge, gauge - blade.thinnest_gauge, 0)

    nearest = min(outside_range(blade) for blade in blades())
    return [blade for blade in blades() if outside_range(blade) == nearest]


def _a(blade: Blade) -> str:
    """The blade with its article: 'an 8/0', 'a 2/0'."""
    return f"{'an' if blade.name.startswith('8') else 'a'} {blade.name}"


def _why(blade: Blade, thickness: float, three: Blade | None, form: str) -> str:
    teeth = blade.teeth_in(thickness)
    stands = f"{teeth:.1f} teeth of {_a(blade)} stand in {thickness:.2f} mm"
    if thickness > FRAME_LIMIT:
        return f"{stands}; metal this thick is slow work for a piercing saw, think of a hacksaw."
    if teeth >= WANTED_TEETH:
        return f"{stands}, at least the three that keep it from snatching."
    chart = f"it is the finest that the bench chart gives for {CHART_FOR[form]}"
    if three is None:
        return (
            f"{stands}; no blade puts three in metal this thin, so the rule is only advice: "
            f"{chart}. Saw lightly, the blade a little aslant, {WITH_CARE[form]}."
        )
    return (
        f"{stands}; {chart}. Three teeth would want {_a(three)}, "
        f"smoother but slower and sooner broken; saw lightly or take that."
    )


def blade_for(thickness: float, strict: bool = False, form: str = "sheet") -> BladePick:
    """The saw blade for metal of a thickness [mm], by the bench chart and the three-teeth rule.

    Among the blades that the chart gives for the sheet: the coarsest that has three teeth in the
    metal, else the finest. strict: the coarsest of all that has three teeth, wherever one exists
    (from 0.86 mm up), though the chart gives it for thinner sheet. form: what is sawn, 'sheet',
    'tube' (its wall) or 'rod', for the sentence. Raises InputError for a thickness that isn't
    above 0. Source: bench-chart (memory); the rule is common practice.

    >>> blade_for(1.01).name, blade_for(1.01, strict=True).name
    ('1/0', '6/0')
    """
    if not 0 < thickness < math.inf:
        raise InputError("thickness", f"{thickness} mm isn't a thickness.", "Write 0.8 or 0.8 mm.")
    engaged = [blade for blade in blades() if blade.teeth_in(thickness) >= WANTED_TEETH]
    three = engaged[-1] if engaged else None
    chart = _by_chart(thickness)
    within = [blade for blade in chart if blade.teeth_in(thickness) >= WANTED_TEETH]
    blade = within[-1] if within else chart[0]
    if strict and three is not None:
        blade = three
    return BladePick(
        name=blade.name,
        teeth=blade.teeth_in(thickness),
        kerf=blade.kerf,
        drill=blade.drill,
        drill_number=blade.drill_number,
        three_teeth=three.name if three else "",
        why=_why(blade, thickness, three, form),
    )
