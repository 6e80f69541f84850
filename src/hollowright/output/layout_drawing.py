"""The drawing of one laid sheet to scale: its edges, every blank, names, offcuts, grain, sizes."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from hollowright.output.drawing import Drawing, Item, Label, LinearDimension, Path, moved
from hollowright.output.extent import extent
from hollowright.output.hatching import hatched
from hollowright.output.layout_labels import Named, Written, led, written_alike
from hollowright.output.layout_view import PlacedBlank, SheetView
from hollowright.output.layout_words import offcut_words, size_words, view_description, view_title
from hollowright.shapes.curves import Line, Point
from hollowright.shapes.outline import Outline

MARGIN = 4.0
"""Left round the drawing [mm]."""
OFF = 9.0
"""From the sheet's edge to its dimension lines [mm]."""
LETTERING = 2.5
ROOM = 0.4
"""Finished outlines are drawn where they stand so far inside what is sawn, on paper [mm]."""
FINE = 0.13
"""The wide line at true size [mm]: two cuts a kerf of 0.3 mm apart are seen as two."""
MARKS_FROM = 12.0
"""Lines to scribe are drawn on blanks that are so large on paper [mm]."""
PITCH = 3.0
"""Of the hatching of offcuts [mm]."""
ARROW = 24.0
"""Length of the arrow that tells the grain [mm]."""
SCALES = (1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0)
"""How many times smaller than the metal a drawing may be."""


@dataclass(frozen=True, slots=True)
class Looks:
    """What is drawn of a sheet. scale: paper over metal, 1 at most. wide: the wide line [mm].

    room: finished outlines nearer to what is sawn are left out [mm on paper].
    """

    scale: float = 1.0
    wide: float = 0.35
    sizes: bool = True
    hatched: bool = True
    room: float = ROOM


TRUE = Looks(1.0, FINE, True, False)
"""At true size, to work to: thin lines."""


def sheet_drawing(view: SheetView, looks: Looks = TRUE) -> Drawing:
    """One laid sheet, as large as it needs to be."""
    items = sheet_items(view, looks)
    low_x, low_y, high_x, high_y = extent(items)
    return Drawing(
        high_x - low_x + 2 * MARGIN,
        high_y - low_y + 2 * MARGIN,
        moved(items, MARGIN - low_x, MARGIN - low_y),
        view_title(view),
        view_description(view),
        looks.wide,
    )


def sheet_at_origin(view: SheetView) -> Drawing:
    """The sheet at true size with its lower left corner at 0, 0 and nothing moved, for machines."""
    items = sheet_items(view, Looks(1.0, FINE, False, False, 0.0))
    return Drawing(
        view.width, view.height, items, view_title(view), view_description(view), TRUE.wide
    )


def fitting(view: SheetView, width: float, height: float) -> tuple[Drawing, float]:
    """The sheet at the largest usual scale that goes in a room [mm], and how many times smaller."""
    around = 2 * MARGIN + OFF
    tall = [t for t in SCALES if view.width / t + around <= width]
    for times in [t for t in tall if view.height / t + around <= height] or SCALES[-1:]:
        drawing = sheet_drawing(view, Looks(1 / times))
        if drawing.width <= width and drawing.height <= height:
            return drawing, times
    return drawing, times


def sheet_items(view: SheetView, looks: Looks) -> tuple[Item, ...]:
    """All that is drawn, the sheet's lower left corner at 0, 0; first lines, then letters."""
    blanks = [_named(blank, looks) for blank in view.blanks]
    keeps = [_keep(i, each, view, looks) for i, each in enumerate(view.offcuts)]
    names, edge = written_alike((*blanks, *keeps)), _scaled(view.outline, looks.scale)
    waiting = [each for each, name in zip((*blanks, *keeps), names, strict=True) if name is None]
    letters: list[Item] = [item for name in names if name for item in name.items]
    letters += led(waiting, edge.width)
    boxes = names[len(blanks) :]
    return (
        *(Path("visible", ring.segments) for ring in (edge, *edge.holes)),
        *_offcuts(keeps, boxes, looks),
        *_cuts(view.blanks, looks),
        *_marks(view.blanks, looks),
        *letters,
        *_around(view, looks, edge),
    )


def bare_items(view: SheetView, scale: float) -> tuple[Item, ...]:
    """Nothing but the sheet's edges and what is sawn, for a small key."""
    edge = _scaled(view.outline, scale)
    sheet = (Path("visible", ring.segments) for ring in (edge, *edge.holes))
    return (*sheet, *_cuts(view.blanks, Looks(scale)))


def _scaled(outline: Outline, scale: float) -> Outline:
    if scale == 1.0:
        return outline
    segments = tuple(curve.scaled(scale) for curve in outline.segments)
    return Outline(segments, tuple(_scaled(hole, scale) for hole in outline.holes))


def _named(blank: PlacedBlank, looks: Looks) -> Named:
    """What may be written in a blank: number and name, or its number alone."""
    over = ", face down" if blank.spot.mirrored else ""
    full, short = (f"{blank.number} {name}{over}" for name in (blank.name, blank.short))
    lines = [curve.scaled(looks.scale) for curve, _ in blank.marks]
    if blank.net is not None:
        for ring in (blank.net, *blank.net.holes):
            lines += [curve.scaled(looks.scale) for curve in ring.segments]
    return Named(
        tuple(dict.fromkeys((full, short, str(blank.number)))),
        _scaled(blank.cut, looks.scale),
        full,
        blank.name,
        blank.number,
        math.radians(blank.spot.turn),
        tuple(lines),
        blank.spot.pinned,
    )


def _keep(number: int, offcut: Outline, view: SheetView, looks: Looks) -> Named:
    size = offcut_words(offcut, view.inches)
    names = (f"offcut, keep: {size}", f"keep: {size}", "keep")
    if view.numbers:
        own = view.numbers[number]
        names = (f"offcut {own}, keep: {size}", f"{own}, keep: {size}", f"keep {own}")
    return Named(names, _scaled(offcut, looks.scale), names[0], f"offcut {number}", role="note")


def _offcuts(
    keeps: Sequence[Named], names: Sequence[Written | None], looks: Looks
) -> Iterable[Item]:
    for keep, name in zip(keeps, names, strict=True):
        for ring in (keep.outline, *keep.outline.holes):
            yield Path("offcut", ring.segments)
        if looks.hatched:
            yield from hatched(keep.outline, PITCH, [name.box] if name else [])


def _cuts(blanks: Sequence[PlacedBlank], looks: Looks) -> Iterable[Item]:
    for blank in blanks:
        cut = _scaled(blank.cut, looks.scale)
        yield from (Path("cut", ring.segments) for ring in (cut, *cut.holes))


def _marks(blanks: Sequence[PlacedBlank], looks: Looks) -> Iterable[Item]:
    """Finished outlines and lines to scribe, where there is room for them."""
    for blank in blanks:
        if blank.net is not None and _apart(blank) * looks.scale >= looks.room:
            net = _scaled(blank.net, looks.scale)
            yield from (Path("mark", ring.segments) for ring in (net, *net.holes))
        if looks.scale == 1.0 or blank.cut.size * looks.scale >= MARKS_FROM:
            for curve, role in blank.marks:
                yield Path(role, (curve.scaled(looks.scale),))


def _apart(blank: PlacedBlank) -> float:
    """About how far the finished outline stands inside the one that is sawn [mm]."""
    if blank.net is None:
        return 0.0
    return abs(blank.cut.area - blank.net.area) / max(blank.cut.perimeter, 1e-9)


def _around(view: SheetView, looks: Looks, edge: Outline) -> Iterable[Item]:
    """The sheet's sizes below and to the left, the arrow of its grain above."""
    if looks.sizes:
        width, height = edge.width, edge.height
        across, up = (size_words(size, view.inches) for size in (view.width, view.height))
        yield LinearDimension((0.0, 0.0), (width, 0.0), -OFF, across, "horizontal", LETTERING)
        yield LinearDimension((0.0, 0.0), (0.0, height), OFF, up, "vertical", LETTERING)
        yield from _grain(view.laid.sheet.grain, edge.height)


def _grain(grain: float | None, top: float) -> Iterable[Item]:
    """A double arrow along the grain, above the sheet's left end, named."""
    if grain is None:
        yield Label("grain: not known, taken as level", (0.0, top + 5.0), LETTERING, "name")
        return
    angle = math.radians(grain % 180.0)
    half = (ARROW / 2 * math.cos(angle), ARROW / 2 * math.sin(angle))
    reach = (abs(half[0]), top + 5.0 + abs(half[1]))
    tips = [(reach[0] + s * half[0], reach[1] + s * half[1]) for s in (-1.0, 1.0)]
    yield Path("leader", (Line(tips[0], tips[1]),))
    yield from (_head(tip, angle + turn) for tip, turn in zip(tips, (0.0, math.pi), strict=True))
    yield Label("grain", (2 * reach[0] + 3.0, reach[1] - LETTERING / 2), LETTERING, "name")


def _head(tip: Point, back: float) -> Path:
    """A filled arrowhead with its body in the direction `back` [rad]."""
    corners = [(tip[0] + 3.0 * math.cos(back + side), tip[1] + 3.0 * math.sin(back + side))
               for side in (-0.17, 0.17)]  # fmt: skip
    points = [tip, *corners]
    ways = zip(points, [*points[1:], tip], strict=True)
    return Path("leader", tuple(Line(a, b) for a, b in ways), filled=True)
