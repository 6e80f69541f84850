"""The mid line of a wall that follows an outline, and the exact length of any parallel.

The outline is the wall's outer face. Its mid line is the parallel curve half the thickness in: on a
smooth convex outline shorter than the outer edge by pi x thickness, at sharp corners by more.
"""

from __future__ import annotations

import math

from hollowright.shapes.curves import Arc, Line
from hollowright.shapes.legs import Leg, legs
from hollowright.shapes.legs import parallel_length as length_of_legs
from hollowright.shapes.offset import (
    TOLERANCE,
    Chain,
    Corners,
    chain_of,
    check_bends,
    offset_pieces,
    one_piece,
    outer_loops,
)
from hollowright.shapes.outline import Outline, positive
from hollowright.shapes.untangle import rolls

FINEST = 1e-6  # tolerance where a length can't be had from the theorem [mm]


def mid_line(
    outline: Outline, thickness: float, line: float = 0.5, tolerance: float = TOLERANCE
) -> Outline:
    """The mid line of a wall [mm] whose outer face is the outline; corners stay sharp.

    `line` is its distance from the inner face in parts of the thickness. Ellipses and cubics become
    arcs within `tolerance` [mm]. ParallelRefused when the wall is thicker than a bend allows or
    its inner face isn't one piece.

    >>> from hollowright.shapes.outline import rectangle
    >>> round(mid_line(rectangle(50, 30, 5), 1.0).perimeter, 3)
    148.274
    """
    outer = Outline(outline.segments)
    depth, asked = check_wall(outer, thickness, line)
    if depth == 0:
        return outer
    return one_piece(offset_pieces(outer, -depth, "sharp", tolerance), outer, -depth, asked)


def mid_length(outline: Outline, thickness: float, line: float = 0.5) -> float:
    """Length of the mid line of a wall [mm], exact; arguments and refusals as for `mid_line`.

    Source: parallel curves (a smooth closed convex one is shorter by 2 pi x distance); at a sharp
    corner between straight sides that turns by theta, 2 x distance x tan(theta / 2) is lost.

    >>> from hollowright.shapes.ovals import ellipse, regular_polygon
    >>> round(mid_length(ellipse(60, 40), 1.0), 3), round(mid_length(regular_polygon(6, 40), 1), 3)
    (155.513, 135.1)
    """
    outer = Outline(outline.segments)
    depth, _ = check_wall(outer, thickness, line)
    return parallel_length(outer, -depth)


def parallel_length(outline: Outline, distance: float, corners: Corners = "sharp") -> float:
    """Length of the outer edge's parallel [mm], `distance` [mm] outwards or, negative, inwards.

    Exact from the true curves; only where a side vanishes beside an ellipse or cubic is it measured
    on arcs within a millionth of a millimetre. ParallelRefused as for `offset`.
    """
    outer = Outline(outline.segments)
    if distance == 0:
        return outer.perimeter
    check_bends(outer, distance)
    chain, found = exact_legs(outer, distance, corners)
    if found is not None:
        return length_of_legs(found, distance, corners == "sharp")
    exact = all(isinstance(segment, Line | Arc) for segment in outer.segments)
    if not exact:
        chain = chain_of(outer, FINEST)
    (loop,) = outer_loops(chain, distance, corners)
    return sum(link.curve.length() for link in loop)


def exact_legs(
    outline: Outline, distance: float, corners: Corners = "sharp"
) -> tuple[Chain, tuple[Leg, ...] | None]:
    """The outline's chain and the legs of its parallel; no legs when some side vanishes.

    ParallelRefused when the parallel isn't one piece.
    """
    chain = chain_of(outline)
    loops = outer_loops(chain, distance, corners)
    if len(loops) != 1:
        one_piece(offset_pieces(outline, distance, corners), outline, distance)
    return chain, legs(chain, loops[0], distance)


def check_wall(outline: Outline, thickness: float, line: float) -> tuple[float, str]:
    """How far in the line lies [mm], and what the wall is called in an error.

    ParallelRefused when the wall is thicker than a bend allows or its inner face isn't one piece.
    """
    positive(thickness=thickness)
    if not 0 <= line <= 1:
        raise ValueError(f"line must lie between 0 and 1, not {line}")
    asked = f"a wall of {thickness:.6g} mm"
    check_bends(outline, -thickness, asked)
    if not rolls(chain_of(outline).curves, -thickness):
        one_piece(offset_pieces(outline, -thickness), outline, -thickness, asked)
    depth = (1 - line) * thickness
    return (depth if depth > math.ulp(thickness) else 0.0), asked
