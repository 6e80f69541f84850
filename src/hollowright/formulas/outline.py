"""The outline of a walled form: the length round it, its area, and what its parallels lose."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import cos, pi, sin, sqrt, tan


def elliptic_e(m: Any) -> Any:
    """Complete elliptic integral of the second kind E(m) [1], m = k2 below 1, slopes and all.

    Eight steps of the arithmetic-geometric mean, which is exact to rounding from m -40 to 0.9999.
    Source: NIST DLMF 19.8.6.

    >>> round(elliptic_e(0.5), 12)
    1.350643881048
    """
    a, g, power, rest = 1.0, sqrt(1 - m), 0.5, m / 2
    for _ in range(8):
        c = (a - g) / 2
        a, g = (a + g) / 2, sqrt(a * g)
        power *= 2
        rest = rest + power * c * c
    return pi / (2 * a) * (1 - rest)


@formula(
    "outside_round",
    "mm",
    "length round the outside",
    slips={
        "3.14 taken for pi": lambda diameter: 3.14 * diameter,
        "3 taken for pi": lambda diameter: 3 * diameter,
        "the radius used for the diameter": lambda diameter: pi * diameter / 2,
    },
)
def circle_round(diameter: Any) -> Any:
    """Length round a circle [mm].

    round = pi x diameter

    diameter [mm].
    Source: plane geometry.

    >>> round(circle_round(38.05), 3)
    119.538
    """
    return pi * diameter


@formula(
    "outside_round",
    "mm",
    "length round the outside",
    slips={
        "pi times the mean of length and width taken": lambda length, width: (
            pi * (length + width) / 2
        ),
        "the short rule with the squares' mean taken": lambda length, width: (
            pi * sqrt((length * length + width * width) / 2)
        ),
        "a circle of the length taken": lambda length, width: pi * length,
        "a circle of the width taken": lambda length, width: pi * width,
        "half an oval taken": lambda length, width: (
            length * elliptic_e(1 - width * width / (length * length))
        ),
    },
)
def oval_round(length: Any, width: Any) -> Any:
    """Length round a true ellipse [mm].

    round = 2 x length x elliptic_e(1 - width^2 / length^2)

    length, width: over all [mm], in either order.
    Source: NIST DLMF 19.30.5.

    >>> round(oval_round(60.0, 40.0), 6)
    158.654396
    """
    return 2 * length * elliptic_e(1 - width * width / (length * length))


@formula(
    "outside_round",
    "mm",
    "length round the outside",
    slips={
        "the corners taken sharp": lambda length, width, corner: 2 * (length + width),
        "the corners' arcs left out": lambda length, width, corner: (
            2 * (length + width) - 8 * corner
        ),
        "one length and one width taken": lambda length, width, corner: (
            length + width - (8 - 2 * pi) * corner
        ),
        "the arcs added to whole sides": lambda length, width, corner: (
            2 * (length + width) + 2 * pi * corner
        ),
    },
)
def rounded_round(length: Any, width: Any, corner: Any) -> Any:
    """Length round a rectangle with rounded corners [mm].

    round = 2 x (length + width) - (8 - 2 x pi) x corner

    length, width: over all; corner: outside radius of its corners [mm].
    Source: plane geometry.

    >>> round(rounded_round(50.0, 30.0, 5.0), 3)
    151.416
    """
    return 2 * (length + width) - (8 - 2 * pi) * corner


@formula(
    "outside_round",
    "mm",
    "length round the outside",
    slips={
        "one length and one width taken": lambda length, width: length + width,
        "three sides taken": lambda length, width: 2 * length + width,
    },
)
def rectangle_round(length: Any, width: Any) -> Any:
    """Length round a rectangle with sharp corners [mm].

    round = 2 x (length + width)

    length, width: over all [mm].
    Source: plane geometry.

    >>> rectangle_round(50.0, 30.0)
    160.0
    """
    return 2 * (length + width)


@formula(
    "outside_round",
    "mm",
    "length round the outside",
    slips={
        "across corners taken for across flats": lambda sides, flats: (
            sides * flats * sin(pi / sides)
        ),
        "across flats taken for a side": lambda sides, flats: sides * flats,
        "half across flats taken for a side": lambda sides, flats: sides * flats / 2,
        "a circle taken": lambda sides, flats: pi * flats,
        "one side left out": lambda sides, flats: (sides - 1) * flats * tan(pi / sides),
    },
)
def polygon_round(sides: Any, flats: Any) -> Any:
    """Length round a regular polygon [mm].

    round = sides x flats x tan(pi / sides)

    sides: how many [1]; flats: across flats [mm].
    Source: plane geometry.

    >>> round(polygon_round(6.0, 40.0), 3)
    138.564
    """
    return sides * flats * tan(pi / sides)


@formula("outline_area", "mm2", "area of the outline")
def oval_area(length: Any, width: Any) -> Any:
    """Area of an ellipse, or of a circle whose length is its width [mm2].

    area = pi x length x width / 4

    length, width: over all [mm].
    Source: plane geometry.

    >>> round(oval_area(60.0, 40.0), 3)
    1884.956
    """
    return pi * length * width / 4


@formula("outline_area", "mm2", "area of the outline")
def rounded_area(length: Any, width: Any, corner: Any) -> Any:
    """Area of a rectangle with rounded corners [mm2].

    area = length x width - (4 - pi) x corner^2

    length, width: over all; corner: radius of its corners [mm], 0 when they are sharp.
    Source: plane geometry.

    >>> round(rounded_area(50.0, 30.0, 5.0), 3)
    1478.54
    """
    return length * width - (4 - pi) * corner * corner


@formula("outline_area", "mm2", "area of the outline")
def polygon_area(sides: Any, flats: Any) -> Any:
    """Area of a regular polygon [mm2].

    area = sides x flats^2 x tan(pi / sides) / 4

    sides: how many [1]; flats: across flats [mm].
    Source: plane geometry.

    >>> round(polygon_area(6.0, 40.0), 3)
    1385.641
    """
    return sides * flats * flats * tan(pi / sides) / 4


@formula("turn", "", "turn")
def polygon_turn(sides: Any) -> Any:
    """What the length round a polygon loses for each millimetre that it is smaller across [1].

    turn = sides x tan(pi / sides)

    sides: how many [1]. At each corner 2 x distance x tan(half the turn) is lost; a smooth outline
    loses pi instead.
    Source: parallel curves of a polygon.

    >>> round(polygon_turn(6.0), 4)
    3.4641
    """
    return sides * tan(pi / sides)


@formula("across_corners", "mm", "across corners")
def across_corners(sides: Any, flats: Any) -> Any:
    """A regular polygon across corners, for an even number of sides [mm].

    across = flats / cos(pi / sides)

    sides: how many [1]; flats: across flats [mm].
    Source: plane geometry.

    >>> round(across_corners(6.0, 40.0), 3)
    46.188
    """
    return flats / cos(pi / sides)


@formula("odd_length", "mm", "over all, along its flat")
def odd_length(sides: Any, flats: Any) -> Any:
    """A regular polygon of an odd number of sides over all, along one of its flats [mm].

    length = flats x cos(pi / sides / 2) / cos(pi / sides)

    sides: how many [1]; flats: diameter of the circle that touches every flat from inside [mm].
    Source: plane geometry.

    >>> round(odd_length(5.0, 40.0), 3)
    47.023
    """
    return flats * cos(pi / sides / 2) / cos(pi / sides)


@formula("odd_width", "mm", "from a flat to the corner")
def odd_width(sides: Any, flats: Any) -> Any:
    """A regular polygon of an odd number of sides from a flat to the corner across from it [mm].

    width = flats / 2 x (1 + 1 / cos(pi / sides))

    sides: how many [1]; flats: diameter of the circle that touches every flat from inside [mm].
    Source: plane geometry.

    >>> round(odd_width(5.0, 40.0), 3)
    44.721
    """
    return flats / 2 * (1 + 1 / cos(pi / sides))


@formula("inside_round", "mm", "length round the inside")
def inner_round(outside: Any, turn: Any, depth: Any) -> Any:
    """Length round the parallel of an outline [mm].

    round = outside - 2 x turn x depth

    outside: length round the outline [mm]; turn: what is lost for each mm across [1]; depth: how
    far inside it lies [mm], under 0 for outside it.
    Source: parallel curves (Steiner).

    >>> round(inner_round(158.654396, 3.14159265, 0.5), 3)
    155.513
    """
    return outside - 2 * turn * depth


@formula("inside_area", "mm2", "area of the parallel outline")
def inner_area(area: Any, outside: Any, turn: Any, depth: Any) -> Any:
    """Area of the parallel of an outline [mm2].

    area inside = area - outside x depth + turn x depth^2

    area, outside: of the outline and round it [mm2, mm]; turn [1]; depth: how far inside [mm].
    Source: parallel curves (Steiner).

    >>> round(inner_area(1478.539816, 151.415927, 3.14159265, 1.0), 4)
    1330.2655
    """
    return area - outside * depth + turn * depth * depth


@formula("inside_size", "mm", "size of the parallel outline")
def inner_size(size: Any, depth: Any) -> Any:
    """Size over all of the parallel of an outline [mm].

    size inside = size - 2 x depth

    size: of the outline, over all; depth: how far inside the parallel lies [mm].
    Source: plane geometry.

    >>> inner_size(60.0, 1.5)
    57.0
    """
    return size - 2 * depth


@formula("depth", "mm", "how far inside it lies")
def depth_of(outside: Any, across: Any) -> Any:
    """How far inside an outline a smaller one lies all round [mm].

    depth = (outside - across) / 2

    outside, across: of the one and the other, length round over turn [mm].
    Source: plane geometry.

    >>> depth_of(40.0, 37.5)
    1.25
    """
    return (outside - across) / 2


@formula("mean_across", "mm", "mean across")
def across(outside: Any, turn: Any) -> Any:
    """The mean across of a closed outline [mm]: its length round over its turn.

    across = outside / turn

    outside: length round it [mm]; turn [1]. Of a circle it is the diameter, of a regular polygon
    across flats, of an oval the mean of its widths all ways round.
    Source: mean width of a convex curve (Cauchy).

    >>> round(across(158.654396, 3.14159265), 3)
    50.501
    """
    return outside / turn


@formula("length_round", "mm", "length round")
def around(across: Any, turn: Any) -> Any:
    """Length round an outline [mm] of this mean across.

    round = across x turn

    across: mean across [mm]; turn [1].
    Source: mean width of a convex curve (Cauchy).

    >>> round(around(38.48, 3.4641), 3)
    133.299
    """
    return across * turn
