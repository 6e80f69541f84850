"""A turned form's profile from a drawing file: one open line from the axis up to the mouth."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from hollowright.shapes import along
from hollowright.shapes.curves import Curve, Line, Point, union
from hollowright.shapes.drawn import Drawn, FileRefused
from hollowright.shapes.joining import NEAR

LARGEST = 1_000_000  # bytes
MOST = 1_000  # curves of a profile
LEVEL = 1e-3  # a line whose ends are no further apart across or up is upright or level [mm]


@dataclass(frozen=True, slots=True)
class FileProfile:
    """Curves in (radius, height) [mm] from the axis to the mouth, lowest place at height 0.

    `mm` is one unit of the file [mm], `unit` says in words where that comes from.
    """

    curves: tuple[Curve, ...]
    mm: float
    unit: str


def read_profile(data: bytes, kind: Literal["svg", "dxf"], unit: str | None = None) -> FileProfile:
    """The profile that a file draws: the outside of the right half, the axis at its left end.

    One line, whose lower end lies on the axis and whose higher end is the mouth; or one closed
    shape, the half of the form's silhouette, whose upright line at the left is the axis and whose
    level line on top is the mouth. Ends within 0.01 mm are joined.

    FileRefused, an InputError and ValueError, for what is neither, and for hostile or large files.
    """
    if len(data) > LARGEST:
        raise FileRefused(f"it is larger than {LARGEST / 1e6:.0f} MB.", "Save the line by itself.")
    drawn = _read(data, kind, unit)
    loose = [curve for curve in drawn.loose if curve.length() > NEAR]
    if drawn.loops:
        if len(drawn.loops) > 1 or loose:
            raise _several()
        loose = _half(drawn.loops[0])
    if not loose:
        raise FileRefused("it draws no line.", "Draw the profile as one line, then save it again.")
    if len(loose) > MOST:
        raise FileRefused(f"it has more than {MOST} lines and arcs.", "Simplify the profile.")
    chain = _met(_chain(_half(loose) if _closes(loose) else loose, drawn))
    return FileProfile(_from_axis(chain), drawn.mm, drawn.unit)


def _read(data: bytes, kind: str, unit: str | None) -> Drawn:
    if kind == "svg":
        from hollowright.shapes.svg_file import read_svg

        return read_svg(data, unit, 1.0)
    from hollowright.shapes.dxf_file import read_dxf

    return read_dxf(data, unit, 1.0)


def _several() -> FileRefused:
    return FileRefused("it draws several lines.", "One line from the axis to the mouth will do.")


def _half(loop: Sequence[Curve]) -> list[Curve]:
    """A half silhouette without its axis and its open mouth."""
    low_x, _, _, high_y = union(curve.bounds() for curve in loop)

    def left_out(curve: Curve) -> bool:
        if not isinstance(curve, Line):
            return False
        xs, ys = zip(curve.start, curve.end, strict=True)
        axis = max(xs) - low_x < LEVEL
        return axis or min(ys) > high_y - LEVEL

    kept = [curve for curve in loop if not left_out(curve)]
    if len(kept) == len(loop):
        raise FileRefused(
            "it draws a closed line without an upright axis at its left.",
            "Draw the outside alone, from the axis to the mouth.",
        )
    return kept


def _closes(curves: Sequence[Curve]) -> bool:
    """Whether every end meets another one."""
    ends = [end for curve in curves for end in (curve.start, curve.end)]
    return len(curves) > 1 and all(
        sum(math.dist(end, other) <= NEAR for other in ends) > 1 for end in ends
    )


def _chain(curves: Sequence[Curve], drawn: Drawn) -> list[Curve]:
    """Curves in order and all one way, from one free end to the other."""
    left = list(curves)
    chain = [left.pop(0)]
    while left:
        tail = _next(chain[-1].end, left)
        if tail is not None:
            chain.append(tail)
            continue
        head = _next(chain[0].start, left)
        if head is None:
            at = chain[-1].end
            near = min((c.start for c in left), key=lambda end: math.dist(end, at))
            raise FileRefused(
                f"its line breaks off at {drawn.told(at)}.",
                f"Join it to the rest; gaps up to {NEAR} mm are closed for you.",
                drawn.placed(near),
            )
        chain.insert(0, along.reverse(head))
    return chain


def _next(at: Point, left: list[Curve]) -> Curve | None:
    """The curve that goes on from a point, begun there and taken out of those left."""
    for number, curve in enumerate(left):
        if math.dist(curve.start, at) <= NEAR:
            return left.pop(number)
        if math.dist(curve.end, at) <= NEAR:
            return along.reverse(left.pop(number))
    return None


def _met(chain: Sequence[Curve]) -> list[Curve]:
    """A chain whose curves are moved a hair so that each begins where the one before ends."""
    found = [chain[0]]
    for curve in chain[1:]:
        start = found[-1].end
        off = math.dist(curve.start, start)
        found.append(along.fitted(curve, start, curve.end) if off > 1e-12 else curve)
    return found


def _from_axis(chain: list[Curve]) -> tuple[Curve, ...]:
    """The chain from its lower end, that end at radius 0, its lowest place at height 0."""
    first, last = chain[0].start, chain[-1].end
    if (last[1], last[0]) < (first[1], first[0]):
        chain = [along.reverse(curve) for curve in reversed(chain)]
    axis = chain[0].start[0]
    low_x, low_y, high_x, _ = union(curve.bounds() for curve in chain)
    if axis - low_x > LEVEL or high_x - axis <= LEVEL:
        raise FileRefused(
            "its line goes to the left of the axis, where its lower end lies.",
            "Draw the right half: from the axis out and up to the mouth.",
        )
    return tuple(curve.moved(-axis, -low_y) for curve in chain)
