"""A hollow finger ring of sleeve, shell and two sides: widths, sides, seams, what it weighs."""

from __future__ import annotations

from typing import Any

from hollowright.formulas.saddle_search import hole_volume
from hollowright.quantity import formula
from hollowright.quantity.maths import pi


@formula(
    "sleeve_width",
    "mm",
    slips={
        "one side's thickness taken off": lambda width, side: width - side,
        "the sides' thickness forgotten": lambda width, side: width,
        "the sides' thickness added": lambda width, side: width + 2 * side,
    },
)
def between_sides(width: Any, side: Any) -> Any:
    """Width of sleeve and shell [mm] whose edges the sides lie on.

    sleeve width = width - 2 x side

    width: of the band, over all [mm]; side: thickness of each side [mm].
    Source: plane geometry.

    >>> round(between_sides(7.3, 0.52), 2)
    6.26
    """
    return width - 2 * side


@formula(
    "side_outside",
    "mm",
    "outside diameter of a side",
    slips={
        "the shell's thickness taken off once": lambda outside, shell, gap: outside - shell - gap,
        "the gap forgotten": lambda outside, shell, gap: outside - 2 * shell,
        "the gap added": lambda outside, shell, gap: outside - 2 * shell + gap,
    },
)
def side_in_shell(outside: Any, shell: Any, gap: Any) -> Any:
    """Outside diameter of a side [mm] that is let in between sleeve and shell.

    side outside = outside - 2 x shell - gap

    outside: diameter of the band [mm]; shell: its thickness [mm]; gap: for the solder, on the
    diameter [mm].
    Source: Machinery's Handbook 31st ed. Table 1a for the gap (0.05 to 0.13 mm a joint).

    >>> round(side_in_shell(24.94, 0.52, 0.1), 2)
    23.8
    """
    return outside - 2 * shell - gap


@formula(
    "side_hole",
    "mm",
    "hole of a side",
    slips={
        "the sleeve's thickness added once": lambda inside, sleeve, gap: inside + sleeve + gap,
        "the gap forgotten": lambda inside, sleeve, gap: inside + 2 * sleeve,
        "the gap taken off": lambda inside, sleeve, gap: inside + 2 * sleeve - gap,
    },
)
def side_on_sleeve(inside: Any, sleeve: Any, gap: Any) -> Any:
    """Diameter of the hole [mm] in a side that is let in between sleeve and shell.

    side hole = inside + 2 x sleeve + gap

    inside: diameter of the band [mm]; sleeve: its thickness [mm]; gap: for the solder, on the
    diameter [mm].
    Source: Machinery's Handbook 31st ed. Table 1a for the gap (0.05 to 0.13 mm a joint).

    >>> round(side_on_sleeve(18.14, 0.52, 0.1), 2)
    19.28
    """
    return inside + 2 * sleeve + gap


@formula(
    "side_seam",
    "mm",
    "seam of a side",
    slips={
        "the sleeve's seam left out": lambda inside, outside: pi * outside,
        "the shell's seam left out": lambda inside, outside: pi * inside,
    },
)
def side_seam(inside: Any, outside: Any) -> Any:
    """Length of seam of a side, along sleeve and shell [mm].

    side seam = pi x (inside + outside)

    inside, outside: diameters of the band [mm]. On the edges' mid lines and in the corners alike:
    what the one gains the other loses.
    Source: plane geometry.

    >>> round(side_seam(18.14, 24.94), 2)
    135.34
    """
    return pi * (inside + outside)


@formula("mass", "g")
def side_mass(outside: Any, hole: Any, thickness: Any, density: Any) -> Any:
    """Mass of a flat ring [g].

    mass = pi x (outside^2 - hole^2) / 4 x thickness x density / 1000

    outside, hole: diameters [mm]; thickness [mm]; density [g/cm3].
    Source: volume of a hollow cylinder.

    >>> round(side_mass(24.94, 18.14, 0.52, 8.53), 3)
    1.021
    """
    return pi * (outside * outside - hole * hole) / 4 * thickness * density / 1000


@formula("vent_volume", "mm3", "metal that a vent takes out of the sleeve", plain=True)
def vent_volume(inside: float, thickness: float, vent: float) -> float:
    """Metal that a hole takes out of the sleeve, drilled square to it [mm3].

    vent volume = metal over inside, thickness deep, within vent

    inside: diameter of the band [mm]; thickness: of the sleeve [mm]; vent: its diameter [mm], under
    the inside's.
    Source: volume integral over the hole's section, as for a branch's hole in its main.

    >>> round(vent_volume(18.14, 0.52, 1.1), 4)
    0.4944
    """
    return float(hole_volume(inside / 2 + thickness, inside / 2, vent / 2, 90.0, 0.0))


@formula("mass", "g", slips={
    "one vent taken for two": lambda strip, vents, volume, density: (
        strip - volume * density / 1000
    ),
})  # fmt: skip
def vented_mass(strip: Any, vents: Any, volume: Any, density: Any) -> Any:
    """Mass of the sleeve with its vents drilled [g].

    mass = strip - vents x volume x density / 1000

    strip: mass of its strip [g]; vents: how many [1]; volume: what one takes out [mm3]; density
    [g/cm3].
    Source: subtraction.

    >>> round(vented_mass(1.63, 2.0, 0.4944, 8.53), 4)
    1.6216
    """
    return strip - vents * volume * density / 1000


@formula(
    "solid_mass",
    "g",
    "weight if it were solid",
    slips={
        "the hole left in": lambda outside, inside, width, density: (
            pi * outside * outside / 4 * width * density / 1000
        ),
    },
)
def solid_mass(outside: Any, inside: Any, width: Any, density: Any) -> Any:
    """What the band would weigh if it were solid [g].

    solid mass = pi x (outside^2 - inside^2) / 4 x width x density / 1000

    outside, inside: diameters [mm]; width [mm]; density [g/cm3].
    Source: volume of a hollow cylinder.

    >>> round(solid_mass(24.94, 18.14, 7.3, 8.53), 2)
    14.33
    """
    return pi * (outside * outside - inside * inside) / 4 * width * density / 1000


@formula(
    "lighter",
    "%",
    "lighter than solid by",
    slips={
        "what is left taken": lambda hollow, solid: 100 * hollow / solid,
        "reckoned on the hollow one": lambda hollow, solid: 100 * (solid / hollow - 1),
    },
)
def lighter(hollow: Any, solid: Any) -> Any:
    """How much lighter a hollow band is than a solid one of its size [%].

    lighter = 100 x (1 - hollow / solid)

    hollow: weight of all its parts [g]; solid: weight if it were solid [g].
    Source: definition.

    >>> round(lighter(5.6, 14.33), 1)
    60.9
    """
    return 100 * (1 - hollow / solid)


@formula("hollow_volume", "ml", "hollow inside it")
def hollow_volume(outside: Any, inside: Any, sheet: Any, between: Any) -> Any:
    """The hollow between sleeve, shell and sides [ml].

    hollow volume = pi x ((outside - 2 x sheet)^2 - (inside + 2 x sheet)^2) / 4 x between / 1000

    outside, inside: diameters of the band [mm]; sheet: thickness [mm]; between: from side to side
    [mm].
    Source: volume of a hollow cylinder.

    >>> round(hollow_volume(24.94, 18.14, 0.52, 6.26), 4)
    0.9997
    """
    shell, sleeve = outside - 2 * sheet, inside + 2 * sheet
    return pi * (shell * shell - sleeve * sleeve) / 4 * between / 1000
