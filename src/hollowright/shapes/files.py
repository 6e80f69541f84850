"""An outline from a drawing file: SVG or DXF, with its unit told, closed and free of crossings."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from hollowright.errors import UnknownName
from hollowright.shapes.curves import Curve, Point
from hollowright.shapes.drawn import MM, Drawn, FileRefused
from hollowright.shapes.joining import closed_loops
from hollowright.shapes.outline import Outline

Kind = Literal["svg", "dxf"]
LARGEST = 1_000_000  # bytes


@dataclass(frozen=True, slots=True)
class FileOutline:
    """An outline read from a file, its lower left corner at 0, 0 [mm], y upwards.

    `mm` is one unit of the file [mm], `unit` says in words where that comes from; `notes` tell what
    was left out.
    """

    outline: Outline
    mm: float
    unit: str
    notes: tuple[str, ...]


def read_outline(
    data: bytes, kind: Kind, unit: str | None = None, scale: float = 1.0
) -> FileOutline:
    """The outline that a file draws: one outer closed curve and any holes in it.

    `kind` is "svg" or "dxf". `unit` (mm, cm, m, in, ft, px, pt, pc) says what one unit of the file
    is; without it an SVG's width, height and viewBox decide (plain pixels are 1/96 in), or a DXF's
    $INSUNITS (none stated: mm). `scale` enlarges what is read. Ends within 0.01 mm are joined.

    FileRefused, an InputError and ValueError, for what isn't one outline: open (with the gap),
    crossing itself (with the place), several; and for hostile or overlarge files.
    """
    if kind not in get_args(Kind):
        raise UnknownName("kind", kind, get_args(Kind))
    if unit is not None and unit not in MM:
        raise UnknownName("unit", unit, tuple(MM))
    if not (math.isfinite(scale) and scale > 0):
        raise ValueError(f"scale must be more than 0, not {scale}")
    if len(data) > LARGEST:
        raise FileRefused(
            f"it is larger than {LARGEST / 1e6:.0f} MB.", "Save the outline by itself."
        )
    drawn = _read(data, kind, unit, scale)
    outline = _outline(drawn)
    low_x, low_y, _, _ = outline.bounds
    return FileOutline(outline.moved(-low_x, -low_y), drawn.mm, drawn.unit, _notes(drawn))


def _read(data: bytes, kind: Kind, unit: str | None, scale: float) -> Drawn:
    if kind == "svg":
        from hollowright.shapes.svg_file import read_svg

        return read_svg(data, unit, scale)
    from hollowright.shapes.dxf_file import read_dxf

    return read_dxf(data, unit, scale)


def _outline(drawn: Drawn) -> Outline:
    """The outer edge with its holes; FileRefused when they aren't one outline."""
    loops = [_loop(curves, drawn) for curves in closed_loops(drawn)]
    if not loops:
        left = ", ".join(_notes(drawn))
        raise FileRefused(
            f"it draws no curve{f' ({left})' if left else ''}.",
            "Turn text and blocks into curves, then save it again.",
        )
    loops.sort(key=lambda loop: -loop.area)
    alone = _without_doubles(loops, drawn)
    outer, *holes = alone
    _check_apart(outer, holes, drawn)
    return Outline(outer.segments, tuple(holes))


def _loop(curves: Sequence[Curve], drawn: Drawn) -> Outline:
    from hollowright.shapes.polygons import crossing

    made = Outline(tuple(curves))
    place = crossing(made)
    if place:
        raise FileRefused(
            f"its path crosses or touches itself at {drawn.told(place)}.",
            "Take the loop or the spike out.",
            drawn.placed(place),
        )
    return made.run_anticlockwise()


def _without_doubles(loops: Sequence[Outline], drawn: Drawn) -> list[Outline]:
    """Loops, largest first, each once though it be drawn twice."""
    found: list[Outline] = []
    for loop in loops:
        if any(_alike(loop, other) for other in found):
            drawn.left_out["curve drawn twice"] += 1
        else:
            found.append(loop)
    return found


def _alike(a: Outline, b: Outline) -> bool:
    near = all(abs(p - q) < 1e-3 for p, q in zip(a.bounds, b.bounds, strict=True))
    return near and abs(a.area - b.area) < 1e-3 * a.size


def _check_apart(outer: Outline, holes: Sequence[Outline], drawn: Drawn) -> None:
    from hollowright.shapes.polygons import inside, meeting

    edges = [outer, *holes]
    for i, edge in enumerate(edges):
        for other in edges[i + 1 :]:
            at = meeting(edge, other)
            if at:
                raise _refused(f"two of its curves meet at {drawn.told(at)}", at, drawn)
    for i, hole in enumerate(holes):
        at = hole.segments[0].start
        if not inside(hole, outer):
            raise _refused(f"it has a second outline at {drawn.told(at)}", at, drawn)
        if any(inside(hole, other) for other in holes[:i]):
            raise _refused(f"it has something inside a hole at {drawn.told(at)}", at, drawn)


def _refused(problem: str, at: Point, drawn: Drawn) -> FileRefused:
    return FileRefused(
        f"{problem}.", "One outer curve and holes inside it make an outline.", drawn.placed(at)
    )


def _notes(drawn: Drawn) -> tuple[str, ...]:
    """What was left out, counted."""
    return tuple(f"{count} × {kind} left out" for kind, count in sorted(drawn.left_out.items()))
