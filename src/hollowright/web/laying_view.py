"""Layouts as the page shows them: sheets to scale, their figures, what to buy."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from hollowright.output.layout_view import PlacedBlank, SheetView, sheet_views
from hollowright.output.layout_words import offcut_words, sheet_name, sheet_words
from hollowright.output.svg import number, path_data
from hollowright.plan.laid import LaidSheet, Layout, may_turn_over, turns_of
from hollowright.shapes.curves import Arc, Point
from hollowright.shapes.nesting.problem import Spot
from hollowright.shapes.outline import Outline
from hollowright.shapes.placing import cosine_and_sine, placed_point
from hollowright.shapes.polygons import area_of, corners_of, deepest, holding, hull_of
from hollowright.units import format_number

FOUND = {
    "quick": "a quick answer",
    "searched": "searched for",
    "kept": "found before and kept",
}

LETTER = 0.52
"""Width of a letter, in heights of the type."""

NAME_SIZES = (3.2, 2.4, 1.8)
"""Heights of letters that an offcut's size may have, in hundredths of its sheet."""

SCALES = (5, 10, 20, 50, 100, 200, 500, 1000)
"""Lengths that a scale bar may have [mm]."""

LONG = 5
"""A sheet so many times longer than wide is a long one."""

LARGEST = 6.0
"""A sheet is drawn no larger than so many dots of the screen to a millimetre."""

NARROWEST = 300.0
"""A small sheet is drawn so wide all the same, where there is room [dots]."""

BAR_ROOM = 5.0
"""Room for the scale bar under a sheet, in hundredths of its longer side."""

EDGE_FINE = 0.01
"""How finely curves count when it is told how far a blank reaches [mm]."""


@dataclass(frozen=True)
class BlankView:
    """One blank in the picture: its names, where it lies, how it may be turned, its lettering.

    shape: id of its outline's path; matrix: from that into the picture. turns: those allowed, as
    JSON. name_size: height of its name's letters [mm]; '' where there is no room. pin: its place
    among the pins, -1 when it isn't one.
    """

    id: str
    blank: PlacedBlank
    shape: str
    matrix: str
    turns: str
    over: bool
    middle: tuple[str, str]
    name_size: str
    number_size: str
    upright: bool
    pin: int

    @property
    def where(self) -> str:
        """Where it lies, in words."""
        x, y = self.blank.at
        turned = f", turned {self.blank.turn:g}°" if self.blank.turn else ""
        over = ", turned over" if self.blank.spot.mirrored else ""
        return f"x {x:.1f}, y {y:.1f} mm{turned}{over}"


@dataclass(frozen=True)
class SheetPicture:
    """One sheet as it is drawn: a view with what the template wants of it, in the page's signs.

    shapes: id, path and reach of each kind of blank. dots: how wide it is drawn where there is
    room. bar: how long its scale bar is [mm]; bar_at: how low it is drawn.
    """

    id: str
    view: SheetView
    blanks: tuple[BlankView, ...]
    shapes: tuple[tuple[str, str, str], ...]
    dots: str
    outline: str
    offcuts: tuple[tuple[str, str, tuple[str, str], str], ...]
    box: str
    bar: int
    bar_at: str
    unit: float

    @property
    def long(self) -> bool:
        """Whether it is so long that a narrow page draws it wider than itself, to be shifted."""
        return self.view.width > LONG * self.view.height

    @property
    def name(self) -> str:
        """What it is called: 'number 3, tin 4'."""
        return sheet_name(self.view.laid)

    @property
    def words(self) -> str:
        """What it is called, its size, where it comes from; nothing of it twice."""
        return sheet_words(self.view.laid, self.view.inches)

    @property
    def laid(self) -> LaidSheet:
        """The sheet with what is cut from it."""
        return self.view.laid


@dataclass(frozen=True)
class BatchView:
    """One batch as the page shows it."""

    id: str
    title: str
    layout: Layout
    sheets: tuple[SheetPicture, ...]
    to_buy: tuple[tuple[int, str, str], ...]

    @property
    def wasted(self) -> float:
        """Metal that is neither blank nor offcut [mm2]."""
        return sum(each.waste for each in self.layout.sheets)

    @property
    def area(self) -> float:
        """All sheets used [mm2]."""
        return sum(each.area for each in self.layout.sheets)

    @property
    def used(self) -> float:
        """Metal in the blanks [mm2]."""
        return sum(each.used for each in self.layout.sheets)

    @property
    def kept(self) -> float:
        """Metal in offcuts that are kept [mm2]."""
        return sum(each.kept for each in self.layout.sheets)

    @property
    def found(self) -> str:
        """How the layout was found, in words."""
        return FOUND.get(self.layout.found, self.layout.found)


def pins_of(layouts: Sequence[Layout]) -> tuple[Spot, ...]:
    """Every pin of the layouts, in the order in which the page counts them."""
    return tuple(pin for layout in layouts for pin in layout.task.pins)


def batch_views(layouts: Sequence[Layout], several: bool = False) -> tuple[BatchView, ...]:
    """Each layout as the page shows it. several: whether blanks' names tell their pieces apart."""
    pins = pins_of(layouts)
    return tuple(_batch(layout, place, several, pins) for place, layout in enumerate(layouts))


def _batch(layout: Layout, place: int, several: bool, pins: tuple[Spot, ...]) -> BatchView:
    batch = layout.task.batch
    views = sheet_views(layout, several)
    temper = f", {batch.temper}" if batch.temper else ""
    return BatchView(
        f"batch-{place}",
        f"{batch.metal.name}, {format_number(batch.thickness)} mm{temper}",
        layout,
        tuple(_sheet(view, f"sheet-{place}-{count}", pins) for count, view in enumerate(views)),
        tuple(_to_buy(layout)),
    )


def _to_buy(layout: Layout) -> list[tuple[int, str, str]]:
    """How many of which sheets to buy, and what they cost together."""
    counts = Counter(each.sheet.id for each in layout.bought)
    sheets = {each.sheet.id: each.sheet for each in layout.bought}
    return [
        (count, sheets[id].label, "" if cost is None else format_number(count * cost))
        for id, count in counts.items()
        for cost in (sheets[id].cost,)
    ]


def _sheet(view: SheetView, id: str, pins: tuple[Spot, ...]) -> SheetPicture:
    width, height = view.width, view.height
    shapes = {blank.flat.id: blank.flat for blank in view.blanks}
    places = {flat: f"{id}-shape-{count}" for count, flat in enumerate(shapes)}
    unit = max(width, height) / 100
    bar = max((each for each in SCALES if each <= width / 3), default=SCALES[0])
    return SheetPicture(
        id,
        view,
        tuple(_blank(view, blank, places[blank.flat.id], unit, pins) for blank in view.blanks),
        tuple(
            (places[flat.id], _data(flat.outline, 0.0), _reach(flat.outline))
            for flat in shapes.values()
        ),
        f"{max(NARROWEST, LARGEST * (width + 2 * unit)):.0f}",
        _data(view.outline, height),
        tuple(_offcut(each, height, unit) for each in view.offcuts),
        " ".join(map(number, (-unit, -unit, width + 2 * unit, height + (1 + BAR_ROOM) * unit))),
        bar,
        number(height + (BAR_ROOM - 1.5) * unit),
        unit,
    )


@lru_cache(maxsize=512)
def _reach(outline: Outline) -> str:
    """What tells how far a blank reaches however it is turned, as JSON: its hull's corners.

    Of a disc its middle alone, from which it is marked out.
    """
    first = outline.segments[0]
    if len(outline.segments) == 1 and isinstance(first, Arc) and first.closed:
        return json.dumps([list(first.centre)])
    hull = corners_of(hull_of(area_of(outline, EDGE_FINE)))
    return json.dumps([[round(float(x), 3), round(float(y), 3)] for x, y in hull])


def _data(outline: Outline, height: float) -> str:
    """Path data of an outline and its holes, y downwards from `height`."""
    rings = (outline, *outline.holes)
    return "".join(path_data(ring.segments, height) for ring in rings)


def _offcut(outline: Outline, height: float, unit: float) -> tuple[str, str, tuple[str, str], str]:
    """An offcut's path, its size in words where there is room, where that stands, how high."""
    words = offcut_words(outline)
    at = named_at(outline)
    sizes = [share * unit for share in NAME_SIZES]
    boxes = [_box(at, LETTER * len(words) * size, 1.2 * size) for size in sizes]
    held = holding(outline, boxes)
    size = sizes[held.index(True)] if any(held) else 0.0
    shown = words if size else ""
    return _data(outline, height), shown, (number(at[0]), number(height - at[1])), number(size)


def _box(at: Point, wide: float, high: float) -> list[Point]:
    """The corners of a box round its middle."""
    signs = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    return [(at[0] + a * wide / 2, at[1] + b * high / 2) for a, b in signs]


def named_at(outline: Outline) -> Point:
    """Where a name stands in an outline: in its middle, or in its deepest place."""
    low_x, low_y, high_x, high_y = outline.bounds
    x, y = (low_x + high_x) / 2, (low_y + high_y) / 2
    box = _box((x, y), 0.4 * (high_x - low_x), 0.3 * (high_y - low_y))
    return (x, y) if holding(outline, [box])[0] else deepest(outline)


@lru_cache(maxsize=512)
def _own_place(outline: Outline) -> Point:
    """Where a name stands in a blank, in its own axes."""
    return named_at(outline)


def _blank(
    view: SheetView, blank: PlacedBlank, shape: str, unit: float, pins: tuple[Spot, ...]
) -> BlankView:
    task, spot, flat = view.layout.task, blank.spot, blank.flat
    low_x, low_y, _, _ = view.laid.sheet.outline.bounds
    c, s = cosine_and_sine(spot.turn)
    side = -1.0 if spot.mirrored else 1.0
    # the shape is drawn with y downwards already, so both its y and the picture's are turned over
    matrix = (c * side, -s * side, s, c, spot.x - low_x, view.height - (spot.y - low_y))
    turns = turns_of(task, flat.id, view.laid.sheet)
    left, lowest, right, highest = blank.cut.bounds
    across, up = right - left, highest - lowest
    upright = up > 1.3 * across
    room, tall = (up, across) if upright else (across, up)
    size = min(
        0.42 * tall, 0.86 * room / (LETTER * len(f"{blank.number} {blank.short}")), 2.6 * unit
    )
    return BlankView(
        f"{shape.rpartition('-shape-')[0]}-blank-{blank.number}",
        blank,
        shape,
        " ".join(number(each) for each in matrix),
        json.dumps(turns),
        may_turn_over(task, flat.id),
        _in_picture(view, spot.x - low_x, spot.y - low_y, blank),
        number(size) if size >= 1.5 * unit else "",
        number(min(0.7 * min(across, up), 6.0 * unit)),
        upright,
        _pin_of(spot, pins),
    )


def _in_picture(view: SheetView, x: float, y: float, blank: PlacedBlank) -> tuple[str, str]:
    """Where a blank's name stands in the picture."""
    spot = blank.spot
    across, up = placed_point(_own_place(blank.flat.outline), x, y, spot.turn, spot.mirrored)
    return number(across), number(view.height - up)


def _pin_of(spot: Spot, pins: tuple[Spot, ...]) -> int:
    """A spot's place among the pins; -1 when it isn't one."""
    same = replace(spot, pinned=True)
    return next((number for number, pin in enumerate(pins) if pin == same), -1)
