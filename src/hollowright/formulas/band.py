"""Finger rings: from a size to the inside, from the inside to the strip; filing, mends."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import pi


@formula(
    "inside_diameter",
    "mm",
    slips={
        "one size too many": lambda first, size, start, step: first + (size - start + 1) * step,
        "one size too few": lambda first, size, start, step: first + (size - start - 1) * step,
        "half a size too many": lambda first, size, start, step: (
            first + (size - start + 0.5) * step
        ),
        "half a size too few": lambda first, size, start, step: first + (size - start - 0.5) * step,
        "a quarter of a size too many": lambda first, size, start, step: (
            first + (size - start + 0.25) * step
        ),
        "a quarter of a size too few": lambda first, size, start, step: (
            first + (size - start - 0.25) * step
        ),
        "the size read as American": lambda first, size, start, step: 11.63 + 0.8128 * size,
        "the size read as Japanese": lambda first, size, start, step: 13 + (size - 1) / 3,
        "the size read as Swiss": lambda first, size, start, step: (40 + size) / pi,
    },
)
def diameter_by_size(first: Any, size: Any, start: Any, step: Any) -> Any:
    """Inside diameter of a ring of a size [mm], on a scale that is told by diameters.

    inside diameter = first + (size - start) x step

    first: diameter of the size `start` [mm]; size: the ring's number; start: where the scale begins
    [1]; step: from one size to the next [mm].
    Source: the scale's law; see the handbook's ring sizes.

    >>> round(diameter_by_size(11.63, 7.25, 0, 0.8128), 4)
    17.5228
    """
    return first + (size - start) * step


@formula(
    "inside_circumference",
    "mm",
    slips={
        "one size too many": lambda first, size, start, step: first + (size - start + 1) * step,
        "one size too few": lambda first, size, start, step: first + (size - start - 1) * step,
        "half a size too many": lambda first, size, start, step: (
            first + (size - start + 0.5) * step
        ),
        "half a size too few": lambda first, size, start, step: first + (size - start - 0.5) * step,
        "a quarter of a size too many": lambda first, size, start, step: (
            first + (size - start + 0.25) * step
        ),
        "a quarter of a size too few": lambda first, size, start, step: (
            first + (size - start - 0.25) * step
        ),
        "counted from the scale's own zero": lambda first, size, start, step: first + size * step,
        "a whole millimetre a size": lambda first, size, start, step: first + size - start,
    },
)
def round_by_size(first: Any, size: Any, start: Any, step: Any) -> Any:
    """Inside circumference of a ring of a size [mm], on a scale that is told by circumferences.

    inside circumference = first + (size - start) x step

    first: circumference of the size `start` [mm]; size: the ring's number, letters counted from
    A = 1; start: where the scale begins [1]; step: from one size to the next [mm].
    Source: the scale's law; see the handbook's ring sizes.

    >>> round_by_size(40, 14.5, 3, 1.25)
    54.375
    """
    return first + (size - start) * step


@formula(
    "inside_diameter",
    "mm",
    slips={
        "the circumference taken for the diameter": lambda around: around,
        "3 taken for pi": lambda around: around / 3,
        "3.14 taken for pi": lambda around: around / 3.14,
        "the radius found": lambda around: around / (2 * pi),
    },
)
def diameter_of(around: Any) -> Any:
    """Inside diameter of a ring [mm] from its inside circumference.

    inside diameter = around / pi

    around: inside circumference [mm]: the size itself by ISO 8653.
    Source: ISO 8653 clause 3; circumference of a circle.

    >>> round(diameter_of(54), 3)
    17.189
    """
    return around / pi


@formula(
    "inside_circumference",
    "mm",
    slips={
        "the diameter taken for the circumference": lambda inside: inside,
        "3 taken for pi": lambda inside: 3 * inside,
        "3.14 taken for pi": lambda inside: 3.14 * inside,
    },
)
def round_of(inside: Any) -> Any:
    """Inside circumference of a ring [mm], its size by ISO 8653.

    inside circumference = pi x inside

    inside: inside diameter [mm].
    Source: circumference of a circle.

    >>> round(round_of(17.32), 3)
    54.412
    """
    return pi * inside


@formula(
    "blank_length",
    "mm",
    "length of the strip",
    slips={
        "the thickness forgotten": lambda inside, thickness: pi * inside,
        "the thickness added twice": lambda inside, thickness: pi * (inside + 2 * thickness),
        "half the thickness added": lambda inside, thickness: pi * (inside + thickness / 2),
        "the thickness taken off": lambda inside, thickness: pi * (inside - thickness),
        "the thickness added after multiplying by pi": lambda inside, thickness: (
            pi * inside + thickness
        ),
        "3 taken for pi": lambda inside, thickness: 3 * (inside + thickness),
        "3.14 taken for pi": lambda inside, thickness: 3.14 * (inside + thickness),
        "22/7 taken for pi": lambda inside, thickness: 22 / 7 * (inside + thickness),
        "the radius used for the diameter": lambda inside, thickness: pi * (inside / 2 + thickness),
        "the diameter taken for the circumference": lambda inside, thickness: (
            inside + pi * thickness
        ),
    },
)
def length(inside: Any, thickness: Any) -> Any:
    """Length of a strip that is bent to a ring of an inside diameter [mm].

    length = pi x (inside + thickness)

    inside: inside diameter [mm]; thickness: of the strip [mm]. The neutral line lies at
    mid-thickness for annealed strip bent round a mandrel.
    Source: circumference of the mid-line; common practice for the choice of line, no source.

    >>> round(length(17.32, 1.5), 2)
    59.12
    """
    return pi * (inside + thickness)


@formula(
    "blank_length",
    "mm",
    "length of the wire",
    slips={
        "the wire's height forgotten": lambda inside, middle: pi * inside,
        "the middle counted once": lambda inside, middle: pi * (inside + middle),
        "the middle taken off": lambda inside, middle: pi * (inside - 2 * middle),
        "3.14 taken for pi": lambda inside, middle: 3.14 * (inside + 2 * middle),
        "3 taken for pi": lambda inside, middle: 3 * (inside + 2 * middle),
    },
)
def length_on(inside: Any, middle: Any) -> Any:
    """Length of a wire of any section that is bent to a ring [mm].

    length = pi x (inside + 2 x middle)

    inside: inside diameter [mm]; middle: height of the section's centre of area over its inner face
    [mm]: the line that keeps its length, as in a bent bar, by assumption.
    Source: elementary theory of bending; Pappus's theorem for its volume.

    >>> round(length_on(17.32, 0.84), 2)
    59.69
    """
    return pi * (inside + 2 * middle)


@formula(
    "outside_diameter",
    "mm",
    slips={
        "the thickness added once": lambda inside, thickness: inside + thickness,
        "the thickness forgotten": lambda inside, thickness: inside,
        "the thickness taken off": lambda inside, thickness: inside - 2 * thickness,
    },
)
def outside(inside: Any, thickness: Any) -> Any:
    """Outside diameter of a ring [mm].

    outside = inside + 2 x thickness

    inside: inside diameter [mm]; thickness: from inside to outside [mm].
    Source: plane geometry.

    >>> round(outside(17.32, 1.5), 2)
    20.32
    """
    return inside + 2 * thickness


@formula(
    "eased_diameter",
    "mm",
    "inside diameter, eased for the width",
    slips={
        "the extra added to the diameter": lambda inside, extra: inside + extra,
        "the extra taken off": lambda inside, extra: inside - extra / pi,
    },
)
def eased(inside: Any, extra: Any) -> Any:
    """Inside diameter of a wide band that goes on as easily as a narrow one of its size [mm].

    eased diameter = inside + extra / pi

    inside: of the size [mm]; extra: length added for the width [mm].
    Source: common practice, no source, for the extra.

    >>> round(eased(17.32, 0.5), 3)
    17.479
    """
    return inside + extra / pi


@formula(
    "eased_length",
    "mm",
    "length of the strip, eased for the width",
    slips={
        "the extra taken off": lambda length, extra: length - extra,
        "the extra added at both ends": lambda length, extra: length + 2 * extra,
    },
)
def eased_length(length: Any, extra: Any) -> Any:
    """Length of a wide band's strip with the extra for its width [mm].

    eased length = length + extra

    length: by the size [mm]; extra [mm].
    Source: common practice, no source.

    >>> round(eased_length(59.12, 0.5), 2)
    59.62
    """
    return length + extra


@formula(
    "polished_inside",
    "mm",
    "inside diameter once polished",
    slips={
        "polishing counted on one side": lambda inside, polish: inside + polish,
        "polishing taken to close the ring": lambda inside, polish: inside - 2 * polish,
    },
)
def polished_inside(inside: Any, polish: Any) -> Any:
    """Inside diameter of a ring after its inside is filed and polished [mm].

    polished inside = inside + 2 x polish

    inside [mm]; polish: taken off a face [mm].
    Source: plane geometry; common practice for the allowance, no source.

    >>> round(polished_inside(17.32, 0.03), 2)
    17.38
    """
    return inside + 2 * polish


@formula(
    "polished_thickness",
    "mm",
    "thickness once polished",
    slips={"polishing counted on one face": lambda thickness, polish: thickness - polish},
)
def polished_thickness(thickness: Any, polish: Any) -> Any:
    """Thickness of a ring after both faces are filed and polished [mm].

    polished thickness = thickness - 2 x polish

    thickness [mm]; polish: taken off a face [mm].
    Source: plane geometry; common practice for the allowance, no source.

    >>> round(polished_thickness(1.5, 0.03), 2)
    1.44
    """
    return thickness - 2 * polish


@formula(
    "stretch",
    "%",
    "stretch to the size",
    slips={"reckoned on the size": lambda aim, made: 100 * (aim - made) / aim},
)
def stretch(aim: Any, made: Any) -> Any:
    """How far a ring that came out small is stretched to its size [%].

    stretch = 100 x (aim - made) / made

    aim: inside diameter planned [mm]; made: inside diameter read [mm].
    Source: strain, definition.

    >>> round(stretch(17.32, 17.11), 2)
    1.23
    """
    return 100 * (aim - made) / made


@formula(
    "cut_out",
    "mm",
    "to cut out at the seam",
    slips={
        "the diameters' difference cut out": lambda made, aim: made - aim,
        "twice the diameters' difference cut out": lambda made, aim: 2 * (made - aim),
    },
)
def cut_out(made: Any, aim: Any) -> Any:
    """What is sawn out at the seam of a ring that came out large [mm].

    cut out = pi x (made - aim)

    made: inside diameter read [mm]; aim: inside diameter planned [mm].
    Source: circumference of a circle.

    >>> round(cut_out(17.62, 17.32), 3)
    0.942
    """
    return pi * (made - aim)
