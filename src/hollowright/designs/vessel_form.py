"""What every way of making a vessel shares: the asked form, and what a way makes of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from hollowright.designs.brief import Brief
from hollowright.designs.stocks import density, temper_of
from hollowright.designs.vessel_profile import Profile, Skin, skin_of
from hollowright.errors import Caution, InputError
from hollowright.formulas import raising
from hollowright.piece import Joint, Part, Wall, Work
from hollowright.quantity import Quantity, exact

UPRIGHT = 5.0
"""An upright stretch from this length on [mm] can carry a spout (common practice, no source)."""

MetalBelow = Callable[[float, float], float]
"""Metal below a level [mm3] for a thickness and a level [mm]."""


@dataclass(frozen=True)
class Form:
    """A vessel as asked: its profile, its sheet, its outside sizes, the level it is filled to."""

    b: Brief
    field: str
    profile: Profile
    thickness: Quantity
    height: Quantity
    mouth: Quantity
    across: Quantity
    level: Quantity

    @property
    def density(self) -> Quantity:
        """The sheet's density [g/cm3]."""
        return density(self.b.metal("sheet_metal"))

    def refuse(self, problem: str, remedy: str) -> InputError:
        """An error about the profile."""
        return self.b.refuse(self.field, problem, remedy)

    def constant(self, id: str, label: str, unit: str, value: float, how: str) -> Quantity:
        """A number of the profile itself, exact, found by summing or quadrature."""
        return exact(id, label, unit, value, "formula", "Pappus's theorem", f"{label} = {how}")

    def skin(self, name: str, of: str, metal: Callable[[float], float]) -> tuple[Quantity, ...]:
        """The three numbers of a skin as quantities: area, closing, slowing."""
        found: Skin = skin_of(metal, self.thickness.value)
        return (
            self.constant(f"{name}_area", f"area of the outside {of}", "mm2", found.area,
                          "2 pi x integral of radius along the profile"),
            self.constant(f"{name}_closing", f"shrinking of that area inwards {of}", "mm",
                          found.closing, "area lost for each millimetre of depth"),
            self.constant(f"{name}_slowing", f"slowing of that shrinking {of}", "",
                          found.slowing, "from the areas at three depths"),
        )  # fmt: skip

    def metal(self, id: str, label: str, below: MetalBelow, level: float) -> Quantity:
        """The metal below a level as a quantity that follows the thickness [mm3]."""
        numbers = self.skin(id, f"({label})", lambda thickness: below(thickness, level))
        return raising.metal(*numbers, self.thickness).named(id, label)

    def walls(self, part: str) -> tuple[Wall, ...]:
        """The upright stretches that another design may be joined to, the longest first."""
        floor = self.thickness.value
        found = [
            Wall(
                part,
                exact("upright_diameter", "outside diameter of the upright wall", "mm", 2 * radius),
                self.thickness,
                self.b.metal("sheet_metal"),
                max(low, floor),
                high,
                temper=temper_of(self.b, "sheet"),
            )
            for radius, low, high in self.profile.uprights(UPRIGHT)
        ]
        return tuple(sorted(found, key=lambda wall: wall.low - wall.high))


@dataclass(frozen=True)
class Made:
    """What a way of making gives: numbers, parts, seams, work, walls; the metal below a level."""

    quantities: tuple[Quantity, ...]
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...]
    work: tuple[Work, ...]
    metal_below: MetalBelow
    outside: Profile
    walls: tuple[Wall, ...] = ()
    cautions: tuple[Caution, ...] = ()
