"""Where names stand on a laid sheet: in their outlines where there is room, else by a leader."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from hollowright.output.drawing import Item, Label, LabelRole, Path, text_width
from hollowright.output.layout_view import readable
from hollowright.output.leaders import leaders
from hollowright.shapes.curves import TURN, Arc, Curve, Point
from hollowright.shapes.outline import Outline
from hollowright.shapes.polygons import deepest, holding

HEIGHTS = (4.0, 3.0, 2.5, 2.0)
"""Heights of capitals that a whole name may have, the best first [mm]."""
LEAST = (2.5, 2.0, 1.6)
"""Heights of capitals that a short name or a number may have [mm]."""
AIR = 0.7
"""Free over and under a name together, and beside it, in heights of its capitals."""
TIGHT = 0.5
"""The same of a number alone."""
PIN = 1.7
"""Room that the sign of a pin takes beside a name, in heights of its capitals."""
GRID = 9
"""So many places across and up are tried for a name."""
COLUMN = 6.0
"""From the sheet to the elbows of the leaders [mm]."""
LED = 2.5
"""Height of the capitals of names at leaders [mm]."""
MOST_LEADERS = 16
"""More than so many leaders are drawn once for each kind of blank."""


@dataclass(frozen=True, slots=True)
class Named:
    """An outline to write a name in: the names from the fullest to the shortest, lines to miss.

    turn: a direction to write along [rad]. kind: what it shares with others like it. led: what
    stands at its leader.
    """

    names: tuple[str, ...]
    outline: Outline
    led: str
    kind: str = ""
    number: int = 0
    turn: float = 0.0
    lines: tuple[Curve, ...] = ()
    pinned: bool = False
    role: LabelRole = "name"


@dataclass(frozen=True, slots=True)
class Written:
    """A name that found room: its label, the box it takes, its sign of a pin.

    rank: which of the sizes that were tried it has; 0 is the best.
    """

    rank: int
    label: Label
    box: tuple[Point, ...]
    sign: tuple[Item, ...] = ()

    @property
    def items(self) -> tuple[Item, ...]:
        """All that is drawn."""
        return (self.label, *self.sign)


def written_alike(many: Sequence[Named]) -> list[Written | None]:
    """Each name within its outline; those of one kind in the same lettering."""
    found = [written(each) for each in many]
    worst: dict[str, int] = {}
    for each, name in zip(many, found, strict=True):
        if name:
            worst[each.kind] = max(worst.get(each.kind, 0), name.rank)
    return [
        written(each, worst[each.kind]) if name and name.rank < worst[each.kind] else name
        for each, name in zip(many, found, strict=True)
    ]


def written(named: Named, first: int = 0) -> Written | None:
    """A name within its outline, out of its holes, as large and whole as it goes; None: nowhere.

    first: the best size that is tried.
    """
    free = named.outline
    centres = list(_centres(free))
    area, longest = free.area, math.hypot(free.width, free.height)
    lines = [curve.points(0.1) for curve in named.lines]
    tries = list(enumerate(_tries(named.names)))[first:]
    for missing in [lines, []] if lines else [[]]:
        for rank, (name, height) in tries:
            wide = text_width(name, height) + (PIN * height if named.pinned else 0.0)
            air = TIGHT if name == named.names[-1] else AIR
            size = (wide + air * height, (1 + air) * height)
            if size[0] > longest or size[0] * size[1] > area:
                continue
            for angle in _angles(named.turn, free):
                boxes = [_box(at, *size, angle) for at in centres]
                held = holding(free, boxes, missing)
                if any(held):
                    place = held.index(True)
                    return _at(named, rank, name, height, centres[place], angle, boxes[place])
    return None


def _tries(names: Sequence[str]) -> Iterator[tuple[str, float]]:
    """Names with the heights of their capitals, the best first."""
    for place, name in enumerate(names):
        heights = HEIGHTS if place == 0 else LEAST if place == len(names) - 1 else LEAST[:2]
        for height in heights:
            yield name, height


def _centres(outline: Outline) -> Iterator[Point]:
    """Places for the middle of a name: the middle, the deepest place, then a grid outwards."""
    low_x, low_y, high_x, high_y = outline.bounds
    middle = ((low_x + high_x) / 2, (low_y + high_y) / 2)
    yield middle
    yield deepest(outline)
    shares = [(i + 1) / (GRID + 1) for i in range(GRID)]
    grid = [
        (low_x + a * (high_x - low_x), low_y + b * (high_y - low_y)) for a in shares for b in shares
    ]
    yield from sorted(grid, key=lambda at: (round(math.dist(at, middle), 6), at))


def _angles(turn: float, outline: Outline) -> list[float]:
    """Directions to write in: level, along the blank, upright, across it."""
    tall = outline.height > 1.5 * outline.width
    found = [0.0, readable(turn), math.pi / 2, readable(turn + math.pi / 2)]
    if tall:
        found = [found[0], *found[2:], found[1]]
    return list(dict.fromkeys(round(angle, 9) for angle in found))


def _box(at: Point, wide: float, high: float, angle: float) -> tuple[Point, ...]:
    c, s = math.cos(angle), math.sin(angle)
    corners = ((-wide / 2, -high / 2), (wide / 2, -high / 2), (wide / 2, high / 2),
               (-wide / 2, high / 2))  # fmt: skip
    return tuple((at[0] + x * c - y * s, at[1] + x * s + y * c) for x, y in corners)


def _at(
    named: Named, rank: int, name: str, height: float, at: Point, angle: float,
    box: tuple[Point, ...],
) -> Written:  # fmt: skip
    """A name with its middle here, the sign of a pin before it."""
    c, s = math.cos(angle), math.sin(angle)
    aside = PIN * height / 2 if named.pinned else 0.0
    foot = (at[0] + aside * c + height / 2 * s, at[1] + aside * s - height / 2 * c)
    label = Label(name, foot, height, named.role, "middle", angle)
    if not named.pinned:
        return Written(rank, label, box)
    left = text_width(name, height) / 2 + 0.1 * height
    return Written(rank, label, box, pin((at[0] - left * c, at[1] - left * s), height))


def pin(at: Point, height: float) -> tuple[Item, ...]:
    """The sign of a pin: a dot in a circle, as high as the capitals beside it."""
    circle = Path("leader", (Arc(at, height / 2, 0.0, TURN),))
    return (circle, Path("leader", (Arc(at, height / 5, 0.0, TURN),), filled=True))


def led(waiting: Sequence[Named], right: float) -> tuple[Item, ...]:
    """Leaders to a column right of x = `right` [mm], for names that found no room."""
    shown = [(each, each.led) for each in waiting]
    if len(shown) > MOST_LEADERS:
        shown = list(_one_a_kind(waiting))
    if not shown:
        return ()
    names = [text + (" (pinned)" if each.pinned else "") for each, text in shown]
    dots = [_dot(each.outline) for each, _ in shown]
    return leaders(names, dots, right + COLUMN, LED)


def _dot(outline: Outline) -> Point:
    """Where a leader ends: as far right in the outline as its dot has room, else its middle."""
    places = sorted(_centres(outline), key=lambda at: -at[0])
    held = holding(outline, [_box(at, 1.2, 1.2, 0.0) for at in places])
    return places[held.index(True)] if any(held) else deepest(outline)


def _one_a_kind(waiting: Iterable[Named]) -> Iterator[tuple[Named, str]]:
    """The first of each kind, with the numbers of all."""
    kinds: dict[str, list[Named]] = {}
    for each in waiting:
        kinds.setdefault(each.kind, []).append(each)
    for members in kinds.values():
        first, last = members[0], members[-1]
        many = f"{first.number} to {last.number}: {first.kind}" if last is not first else first.led
        yield first, many
