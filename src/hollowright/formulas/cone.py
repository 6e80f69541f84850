"""Cones and frusta of sheet: slant, mid-thickness radii, the flat sector, what it holds.

*wide* and *narrow* are the outside diameters of the wider and the narrower end, whichever is below.
"""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import degree, pi, sin, sqrt, tan


@formula(
    "slant",
    "mm",
    slips={
        "the diameters' difference taken instead of the radii's": lambda w, n, h: sqrt(
            (w - n) * (w - n) + h * h
        ),
        "the upright height taken for the slant": lambda w, n, h: h,
        "the wide end's radius taken alone": lambda w, n, h: sqrt(w * w / 4 + h * h),
        "height and the radii's difference added": lambda w, n, h: (w - n) / 2 + h,
    },
)
def slant(wide: Any, narrow: Any, height: Any) -> Any:
    """Length of a cone's side from end to end [mm].

    slant = sqrt(((wide - narrow) / 2)^2 + height^2)

    wide, narrow: diameters of the ends [mm]; height [mm], square to them.
    Source: Pythagoras.

    >>> round(slant(40, 24, 30), 3)
    31.048
    """
    return sqrt((wide - narrow) * (wide - narrow) / 4 + height * height)


@formula(
    "mid_radius",
    "mm",
    slips={
        "the outside taken instead of mid-thickness": lambda d, t, s, h: d / 2,
        "the slope of the sheet forgotten": lambda d, t, s, h: d / 2 - t / 2,
        "the whole thickness taken off": lambda d, t, s, h: d / 2 - t * s / h,
        "the thickness added instead of taken off": lambda d, t, s, h: d / 2 + t / 2 * s / h,
        "the diameter taken for the radius": lambda d, t, s, h: d - t / 2 * s / h,
    },
)
def mid_radius(outside: Any, thickness: Any, slant: Any, height: Any) -> Any:
    """Radius of the sheet's middle at a flat end of a cone [mm].

    mid radius = outside / 2 - thickness / 2 x slant / height

    outside: diameter of that end [mm]; thickness [mm], square to the side: along the end the sheet
    measures thickness x slant / height; slant, height [mm].
    Source: similar triangles.

    >>> round(mid_radius(40, 0.8, 31.048, 30), 3)
    19.586
    """
    return outside / 2 - thickness / 2 * slant / height


@formula(
    "inside_diameter",
    "mm",
    slips={
        "the thickness taken off once": lambda d, t, s, h: d - t * s / h,
        "the slope of the sheet forgotten": lambda d, t, s, h: d - 2 * t,
    },
)
def inside_diameter(outside: Any, thickness: Any, slant: Any, height: Any) -> Any:
    """Inside diameter at a flat end of a cone [mm].

    inside diameter = outside - 2 x thickness x slant / height

    outside, thickness, slant, height [mm], as for the mid radius.
    Source: similar triangles.

    >>> round(inside_diameter(40, 0.8, 31.048, 30), 3)
    38.344
    """
    return outside - 2 * thickness * slant / height


@formula(
    "sector_angle",
    "deg",
    slips={
        "diameters and 360 taken together": lambda w, n, s: 360 * (w - n) / s,
        "radii and 180 taken together": lambda w, n, s: 90 * (w - n) / s,
        "the wide end taken alone": lambda w, n, s: 180 * w / s,
        "the narrow end taken alone": lambda w, n, s: 180 * n / s,
        "the ends added": lambda w, n, s: 180 * (w + n) / s,
        "the rest of the circle, the waste, taken": lambda w, n, s: 360 - 180 * (w - n) / s,
    },
)
def sector_angle(wide: Any, narrow: Any, slant: Any) -> Any:
    """Angle of the flat sector that a cone unrolls to [deg].

    sector angle = 180 x (wide - narrow) / slant

    wide, narrow: diameters of the ends [mm]; slant: of the side between them [mm]. It is 360
    times the sine of the half angle, the same for every fibre of the sheet.
    Source: development of the cone, plane geometry.

    >>> round(sector_angle(40, 24, 31.048), 2)
    92.76
    """
    return 180 * (wide - narrow) / slant


@formula(
    "sector_outer_radius",
    "mm",
    slips={
        "180 taken for 360": lambda r, a: 180 * r / a,
        "the angle left of the circle taken": lambda r, a: 360 * r / (360 - a),
    },
)
def sector_radius(mid_radius: Any, sector_angle: Any) -> Any:
    """Radius of an arc of the flat sector [mm]: the arc goes once round the sheet's middle.

    sector radius = 360 x mid_radius / sector_angle

    mid_radius [mm]; sector_angle [deg].
    Source: arc length, plane geometry.

    >>> round(sector_radius(19.586, 92.759), 2)
    76.01
    """
    return 360 * mid_radius / sector_angle


@formula(
    "square_extra",
    "mm",
    "extra for an edge cut square",
    slips={"the whole thickness, or the diameters, taken": lambda t, w, n, h: t * (w - n) / 2 / h},
)
def square_extra(thickness: Any, wide: Any, narrow: Any, height: Any) -> Any:
    """What an edge cut square to the sheet needs more at each arc, to be filed flat [mm].

    extra = thickness / 2 x (wide - narrow) / (2 x height)

    thickness, wide, narrow, height [mm]: half the thickness times the tangent of the half angle.
    Source: similar triangles.

    >>> round(square_extra(0.8, 40, 24, 30), 4)
    0.1067
    """
    return thickness / 2 * (wide - narrow) / (2 * height)


@formula("sector_outer_radius", "mm", slips={"the extra forgotten": lambda r, e: r})
def with_extra(radius: Any, extra: Any) -> Any:
    """Radius of the sector's longer arc, its edge cut square [mm].

    radius with extra = radius + extra

    radius, extra [mm].
    Source: similar triangles.

    >>> round(with_extra(76.014, 0.107), 3)
    76.121
    """
    return radius + extra


@formula(
    "sector_inner_radius",
    "mm",
    slips={"the extra forgotten": lambda r, e: r, "the extra added": lambda r, e: r + e},
)
def less_extra(radius: Any, extra: Any) -> Any:
    """Radius of the sector's shorter arc, its edge cut square [mm].

    radius less extra = radius - extra

    radius, extra [mm].
    Source: similar triangles.

    >>> round(less_extra(44.966, 0.107), 3)
    44.859
    """
    return radius - extra


@formula(
    "sector_chord",
    "mm",
    "chord of the longer arc",
    slips={
        "the whole angle taken": lambda r, a: 2 * r * sin(a * degree),
        "the radius taken once": lambda r, a: r * sin(a / 2 * degree),
    },
)
def chord(outer: Any, angle: Any) -> Any:
    """Straight across from end to end of the sector's longer arc [mm].

    chord = 2 x outer x sin(angle / 2 x pi / 180)

    outer: the arc's radius [mm]; angle: the sector's [deg].
    Source: chord of a circle.

    >>> round(chord(76.014, 92.759), 2)
    110.06
    """
    return 2 * outer * sin(angle / 2 * degree)


@formula(
    "sector_step",
    "mm",
    "step of the dividers along the longer arc",
    slips={
        "the whole arc taken for one step": lambda r, a, n: 2 * r * sin(a / 2 * degree),
        "the arc itself taken": lambda r, a, n: r * a / n * degree,
        "the whole step's angle taken": lambda r, a, n: 2 * r * sin(a / n * degree),
    },
)
def step(outer: Any, angle: Any, steps: Any) -> Any:
    """What the dividers are set to, to step the sector's longer arc off in equal parts [mm].

    step = 2 x outer x sin(angle / (2 x steps) x pi / 180)

    outer: the arc's radius [mm]; angle: the sector's [deg]; steps: how many make the whole [1].
    One chord can't set off a wide angle: near 180 degrees it hardly grows with it, and past that
    it is as long the other way round.
    Source: chord of a circle.

    >>> round(step(76.014, 300.0, 4), 3)
    92.549
    """
    return 2 * outer * sin(angle / (2 * steps) * degree)


@formula(
    "capacity",
    "ml",
    slips={
        "the ends' mean taken for a cylinder": lambda w, n, h: pi * h * (w + n) * (w + n) / 16000,
        "radius and diameter mixed": lambda w, n, h: pi * h / 3 * (w * w + w * n + n * n) / 1000,
    },
)
def capacity(wide: Any, narrow: Any, height: Any) -> Any:
    """What a cone holds, brim to brim [ml].

    capacity = pi x height / 12 x (wide^2 + wide x narrow + narrow^2) / 1000

    wide, narrow: inside diameters of the ends [mm]; height [mm].
    Source: volume of a frustum.

    >>> round(capacity(38.344, 22.344, 30), 3)
    22.198
    """
    return pi * height / 12 * (wide * wide + wide * narrow + narrow * narrow) / 1000


@formula("taper", "", slips={"the diameters taken for the radii": lambda b, t, h: (b - t) / h})
def taper(base: Any, top: Any, height: Any) -> Any:
    """Radius that a cone loses per height [1], under 0 where it widens upwards.

    taper = (base - top) / (2 x height)

    base, top: outside diameters [mm]; height [mm].
    Source: definition.

    >>> round(taper(40, 24, 30), 4)
    0.2667
    """
    return (base - top) / (2 * height)


@formula(
    "lean",
    "",
    "lean of the cut",
    slips={"the sine taken for the tangent": lambda angle: sin(angle * degree)},
)
def lean(angle: Any) -> Any:
    """Height that a slanting cut gains per length [1].

    lean = tan(angle x degree)

    angle: of the cut from square [deg].
    Source: definition.

    >>> round(lean(20), 5)
    0.36397
    """
    return tan(angle * degree)


@formula(
    "long_side",
    "mm",
    slips={
        "the slope of the side forgotten": lambda c, m, a, k, s, h: (c + m * a) * s / h,
        "the cone taken for a tube": lambda c, m, a, k, s, h: c + m * a,
        "the short side taken": lambda c, m, a, k, s, h: (c - m * a) / (1 - k * a) * s / h,
    },
)
def long_side(cut: Any, mid: Any, lean: Any, taper: Any, slant: Any, height: Any) -> Any:
    """Longest line of a cone cut slanting, along its side from the base [mm].

    long side = (cut + mid x lean) / (1 + taper x lean) x slant / height

    cut: height where the plane crosses the axis [mm]; mid: mid-thickness radius of the base [mm];
    lean: height that the cut gains per length [1]; taper [1]; slant, height: of the cone [mm].
    Source: a line and a plane in one section, plane geometry.

    >>> round(long_side(21, 19.586, 0.36397, 0.26667, 31.048, 30), 3)
    26.536
    """
    return (cut + mid * lean) / (1 + taper * lean) * slant / height


@formula(
    "short_side",
    "mm",
    slips={
        "the slope of the side forgotten": lambda c, m, a, k, s, h: (c - m * a) * s / h,
        "the cone taken for a tube": lambda c, m, a, k, s, h: c - m * a,
        "the long side taken": lambda c, m, a, k, s, h: (c + m * a) / (1 + k * a) * s / h,
    },
)
def short_side(cut: Any, mid: Any, lean: Any, taper: Any, slant: Any, height: Any) -> Any:
    """Shortest line of a cone cut slanting, along its side from the base [mm].

    short side = (cut - mid x lean) / (1 - taper x lean) x slant / height

    cut, mid, lean, taper, slant, height: as for the long side [mm, 1].
    Source: a line and a plane in one section, plane geometry.

    >>> round(short_side(21, 19.586, 0.36397, 0.26667, 31.048, 30), 3)
    15.899
    """
    return (cut - mid * lean) / (1 - taper * lean) * slant / height


@formula("high_point", "mm", "height of the slanting edge at its highest", slips={
    "the cone taken for a tube": lambda c, b, a, k: c + b / 2 * a,
    "the diameter taken": lambda c, b, a, k: (c + b * a) / (1 + k * a),
    "the low point taken": lambda c, b, a, k: (c - b / 2 * a) / (1 - k * a),
})  # fmt: skip
def high_point(cut: Any, base: Any, lean: Any, taper: Any) -> Any:
    """Upright height of a slanting cut over the base, outside on the long side [mm].

    high point = (cut + base / 2 x lean) / (1 + taper x lean)

    cut: height where the plane crosses the axis; base: its outside diameter [mm]; lean, taper: as
    for the long side [1].
    Source: a line and a plane in one section, plane geometry.

    >>> round(high_point(21, 40, 0.36397, 0.26667), 3)
    25.777
    """
    return (cut + base / 2 * lean) / (1 + taper * lean)


@formula("low_point", "mm", "height of the slanting edge at its lowest", slips={
    "the cone taken for a tube": lambda c, b, a, k: c - b / 2 * a,
    "the diameter taken": lambda c, b, a, k: (c - b * a) / (1 - k * a),
    "the high point taken": lambda c, b, a, k: (c + b / 2 * a) / (1 + k * a),
})  # fmt: skip
def low_point(cut: Any, base: Any, lean: Any, taper: Any) -> Any:
    """Upright height of a slanting cut over the base, outside on the short side [mm].

    low point = (cut - base / 2 x lean) / (1 - taper x lean)

    cut, base, lean, taper: as for the high point [mm, 1].
    Source: a line and a plane in one section, plane geometry.

    >>> round(low_point(21, 40, 0.36397, 0.26667), 3)
    15.195
    """
    return (cut - base / 2 * lean) / (1 - taper * lean)
