"""The strip that a closed wall is bent from, and what comes of the strip that was really cut."""

from __future__ import annotations

from typing import Any

from hollowright.formulas import fit
from hollowright.quantity import formula
from hollowright.quantity.maths import pi


@formula(
    "wall_length",
    "mm",
    slips={
        "the outer perimeter taken": lambda outside, turn, thickness: outside,
        "the thickness taken off twice": lambda outside, turn, thickness: (
            outside - 2 * turn * thickness
        ),
        "the thickness added instead of taken off": lambda outside, turn, thickness: (
            outside + turn * thickness
        ),
        "half the thickness taken off": lambda outside, turn, thickness: (
            outside - turn * thickness / 2
        ),
        "pi x thickness taken off at sharp corners too": lambda outside, turn, thickness: (
            outside - pi * thickness
        ),
        "the thickness taken off once, without its turn": lambda outside, turn, thickness: (
            outside - thickness
        ),
        "4 x thickness taken off": lambda outside, turn, thickness: outside - 4 * thickness,
        "8 x thickness taken off": lambda outside, turn, thickness: outside - 8 * thickness,
    },
)
def length(outside: Any, turn: Any, thickness: Any) -> Any:
    """Length of the strip of a closed wall [mm], on the middle of its thickness.

    wall length = outside - turn x thickness

    outside: length round the wall's outer face [mm]; turn: pi for a smooth outline, the sum of
    tan(half the turn) over sharp corners that are kept sharp [1]; thickness [mm].
    Source: length of the parallel curve half the thickness inside.

    >>> round(length(138.564065, 3.46410162, 1.0), 3)
    135.1
    """
    return outside - turn * thickness


@formula(
    "wall_length",
    "mm",
    slips={
        "the outer perimeter taken": lambda outside, turn, thickness, line: outside,
        "the wall's middle taken": lambda outside, turn, thickness, line: (
            outside - turn * thickness
        ),
    },
)
def length_on_line(outside: Any, turn: Any, thickness: Any, line: Any) -> Any:
    """Length of the strip of a closed wall [mm], on a neutral line that isn't mid-thickness.

    wall length = outside - 2 x turn x thickness x (1 - line)

    outside, turn, thickness as for the mid-line; line: distance of the neutral line from the inner
    face in parts of the thickness [1].
    Source: length of the parallel curve; `line` by DIN 6935 or Machinery's Handbook.

    >>> round(length_on_line(151.415927, 3.14159265, 1.0, 0.4755), 3)
    148.12
    """
    return outside - 2 * turn * thickness * (1 - line)


@formula("wall_length", "mm")
def length_less(outside: Any, folds: Any) -> Any:
    """Length of the strip of a wall whose corners are scored and folded [mm].

    wall length = outside - folds

    outside: length round the outer face [mm]; folds: what its folds (and bends) take off [mm].
    Source: plane geometry.

    >>> round(length_less(160.0, 1.0973), 2)
    158.9
    """
    return outside - folds


@formula("bend_loss", "mm", "what the bends take off")
def bend_loss(turn: Any, thickness: Any, line: Any) -> Any:
    """What the bends of a wall take off its outer length [mm].

    loss = 2 x turn x thickness x (1 - line)

    turn: half the angle of all bends together [1]; thickness [mm]; line: neutral line in parts of
    the thickness from the inner face [1].
    Source: length of the parallel curve.

    >>> round(bend_loss(1.57, 1.0, 0.45), 3)
    1.727
    """
    return 2 * turn * thickness * (1 - line)


@formula("inside_as_made", "mm", "mean across inside, as it will come out")
def inside_on_line(
    strip: Any, marking: Any, sawing: Any, thickness: Any, turn: Any, line: Any
) -> Any:
    """Mean across inside a closed wall [mm] that comes of a strip, on another neutral line.

    inside = (strip + marking + sawing) / turn - 2 x thickness x line

    strip: length between dressed ends; marking, sawing: errors of each; thickness [mm]; turn [1];
    line: neutral line from the inner face in parts of the thickness [1].
    Source: parallel curves of a closed curve.

    >>> round(inside_on_line(148.12, 0.1, 0.0, 1.0, 3.14159265, 0.4755), 3)
    46.229
    """
    return (strip + marking + sawing) / turn - 2 * thickness * line


@formula("outside_as_made", "mm", "mean across outside, as it will come out")
def outside_on_line(
    strip: Any, marking: Any, sawing: Any, thickness: Any, turn: Any, line: Any
) -> Any:
    """Mean across outside a closed wall [mm] that comes of a strip, on another neutral line.

    outside = (strip + marking + sawing) / turn + 2 x thickness x (1 - line)

    strip, marking, sawing, thickness, turn, line as for the inside.
    Source: parallel curves of a closed curve.

    >>> round(outside_on_line(148.12, 0.1, 0.0, 1.0, 3.14159265, 0.4755), 3)
    48.229
    """
    return (strip + marking + sawing) / turn + 2 * thickness * (1 - line)


@formula(
    "inside_as_made",
    "mm",
    "mean across inside, as it will come out",
    slips={
        "the wall taken off once instead of twice": (
            lambda strip, marking, sawing, thickness, turn, lost: (
                (strip + marking + sawing + lost) / turn - thickness
            )
        ),
        "the wall not taken off": lambda strip, marking, sawing, thickness, turn, lost: (
            (strip + marking + sawing + lost) / turn
        ),
    },
)
def inside_folded(
    strip: Any, marking: Any, sawing: Any, thickness: Any, turn: Any, lost: Any
) -> Any:
    """Mean across inside a folded wall [mm] that comes of a strip.

    inside = (strip + marking + sawing + lost) / turn - 2 x thickness

    strip, marking, sawing, thickness, turn as for a bent one; lost: what folds (and bends) take off
    the outer length [mm].
    Source: plane geometry.

    >>> round(inside_folded(158.903, 0.1, 0.0, 1.0, 4.0, 1.097), 3)
    38.025
    """
    return (strip + marking + sawing + lost) / turn - 2 * thickness


@formula("outside_as_made", "mm", "mean across outside, as it will come out")
def outside_folded(strip: Any, marking: Any, sawing: Any, turn: Any, lost: Any) -> Any:
    """Mean across outside a folded wall [mm] that comes of a strip.

    outside = (strip + marking + sawing + lost) / turn

    strip, marking, sawing, turn, lost as for the inside.
    Source: plane geometry.

    >>> round(outside_folded(158.903, 0.1, 0.0, 4.0, 1.097), 3)
    40.025
    """
    return (strip + marking + sawing + lost) / turn


@formula("section", "mm2", "metal in the section")
def section(outside: Any, thickness: Any, turn: Any) -> Any:
    """Area of a closed wall seen from above [mm2].

    section = turn x (outside - thickness) x thickness

    outside: mean across outside; thickness [mm]; turn [1].
    Source: area between parallel curves: the mid-line's length times the thickness.

    >>> round(section(48.197, 1.0, 3.14159265), 2)
    148.27
    """
    return turn * (outside - thickness) * thickness


def mean_inside(
    strip: Any, marking: Any, sawing: Any, thickness: Any, turn: Any, line: Any, lost: Any
) -> Any:
    """Mean across inside a closed wall [mm] that comes of a strip, by the way it is bent.

    line: neutral line where it isn't mid-thickness; lost: what folds take off; None where neither.
    Source: parallel curves of a closed curve.

    >>> round(mean_inside(117.0, 0.1, 0.0, 0.8, 3.141593, None, None), 3)
    36.474
    """
    if lost is not None:
        return inside_folded(strip, marking, sawing, thickness, turn, lost)
    if line is not None:
        return inside_on_line(strip, marking, sawing, thickness, turn, line)
    return fit.made_inside(strip, marking, sawing, thickness, turn)


def mean_outside(
    strip: Any, marking: Any, sawing: Any, thickness: Any, turn: Any, line: Any, lost: Any
) -> Any:
    """Mean across outside a closed wall [mm] that comes of a strip, by the way it is bent.

    line, lost as for the inside.
    Source: parallel curves of a closed curve.

    >>> round(mean_outside(111.05, 0.1, 0.0, 0.64, 3.141593, None, None), 3)
    36.02
    """
    if lost is not None:
        return outside_folded(strip, marking, sawing, turn, lost)
    if line is not None:
        return outside_on_line(strip, marking, sawing, thickness, turn, line)
    return fit.made_across(strip, marking, sawing, thickness, turn)


@formula(
    "bend_inner_radius",
    "mm",
    "inner radius of the bends",
    slips={
        "the outer radius taken": lambda corner, thickness: corner,
        "half the thickness taken off": lambda corner, thickness: corner - thickness / 2,
    },
)
def inner_corner(corner: Any, thickness: Any) -> Any:
    """Radius of the former that a rounded corner is bent round [mm].

    inner radius = corner - thickness

    corner: outer radius of the corner; thickness [mm], less than it.
    Source: parallel curves.

    >>> round(inner_corner(5.0, 0.81), 2)
    4.19
    """
    return corner - thickness
