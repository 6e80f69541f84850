"""What is seen of one laid sheet: its blanks by number and name, and where each of them lies.

Everything is measured from the sheet's lower left corner, x to the right, y upwards [mm].
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from hollowright.output.drawing import Role
from hollowright.output.sheets import blank_sheet
from hollowright.plan.laid import LaidSheet, Layout
from hollowright.plan.orders import Flat, Order
from hollowright.shapes.curves import Arc, Bounds, Curve, Point, union
from hollowright.shapes.nesting.problem import Spot
from hollowright.shapes.outline import Outline
from hollowright.shapes.placing import placed, placed_curve


@dataclass(frozen=True, slots=True)
class PlacedBlank:
    """One blank as it lies: what to saw (`cut`), its finished outline, the lines to scribe on it.

    number: it goes by on its sheet. name: with its piece's, where several pieces are laid. net:
    None where it is cut to its finished size.
    """

    number: int
    name: str
    short: str
    flat: Flat
    spot: Spot
    cut: Outline
    net: Outline | None
    marks: tuple[tuple[Curve, Role], ...]

    @property
    def round(self) -> bool:
        """Whether it is a disc, which is marked out from its middle."""
        first = self.cut.segments[0]
        return len(self.cut.segments) == 1 and isinstance(first, Arc) and first.closed

    @property
    def at(self) -> Point:
        """The point to mark it out from: a disc's middle, else its left and lowest edges [mm]."""
        low_x, low_y, high_x, high_y = self.cut.bounds
        return ((low_x + high_x) / 2, (low_y + high_y) / 2) if self.round else (low_x, low_y)

    @property
    def turn(self) -> float:
        """How it is turned [deg, 0 to 360]; a disc isn't."""
        turn = round(self.spot.turn % 360.0, 2) % 360.0
        return 0.0 if self.round else turn


@dataclass(frozen=True, slots=True)
class SheetView:
    """One laid sheet with its blanks in the order of their numbers; all in its own place [mm].

    numbers: what its offcuts go by in the drawer, once it is cut; () before.
    """

    layout: Layout
    laid: LaidSheet
    outline: Outline
    blanks: tuple[PlacedBlank, ...]
    offcuts: tuple[Outline, ...]
    numbers: tuple[int, ...] = ()

    @property
    def width(self) -> float:
        """Size along x [mm]."""
        return self.outline.width

    @property
    def height(self) -> float:
        """Size along y [mm]."""
        return self.outline.height

    @property
    def inches(self) -> bool:
        """Whether a piece on it was read in inches, so that sizes are shown in inches as well."""
        return any(blank.flat.order.plan.piece.inches for blank in self.blanks)

    @property
    def pieces(self) -> str:
        """The pieces whose blanks lie on it: '12 × Striker box, Cup'."""
        return pieces_text({blank.flat.order.key: blank.flat.order for blank in self.blanks})

    @property
    def counts(self) -> Mapping[str, int]:
        """How many of each flat lie on it, by the flats' ids."""
        return Counter(blank.flat.id for blank in self.blanks)


def alike(views: Sequence[SheetView]) -> list[list[SheetView]]:
    """Sheets in groups: those to buy on which all lies alike stand together, in their order."""
    groups: dict[object, list[SheetView]] = {}
    for place, view in enumerate(views):
        groups.setdefault((id(view.layout), likeness(view.laid, place)), []).append(view)
    return list(groups.values())


def likeness(laid: LaidSheet, place: int) -> object:
    """The same for sheets to buy on which all lies alike; each other one by its place."""
    if laid.sheet.origin != "to buy":
        return place
    spots = frozenset(
        (s.item, round(s.x, 3), round(s.y, 3), round(s.turn, 3), s.mirrored, s.pinned)
        for s in laid.spots
    )
    return laid.sheet.id, spots


def pieces_text(orders: Mapping[str, Order]) -> str:
    """Orders in words: '12 × Striker box, Cup'."""
    many = ((f"{o.copies} × " if o.copies > 1 else "", o.plan.piece.title) for o in orders.values())
    return ", ".join(f"{count}{title}" for count, title in many)


def all_views(layouts: Sequence[Layout], came_in: Sequence[int] = ()) -> tuple[SheetView, ...]:
    """Every laid sheet, pieces told apart where there are several.

    came_in: the drawer's numbers of all offcuts, in the order in which cutting put them in.
    """
    several = len({flat.order.key for each in layouts for flat in each.task.batch.flats}) > 1
    numbers = iter(came_in)
    return tuple(
        replace(
            sheet_view(each, laid, several),
            numbers=tuple(islice(numbers, len(laid.offcuts) if laid.spots else 0)),
        )
        for each in layouts
        for laid in each.sheets
    )


def sheet_view(layout: Layout, laid: LaidSheet, several: bool | None = None) -> SheetView:
    """What is seen of a laid sheet. several: whether pieces are told apart (None: by the batch)."""
    batch = layout.task.batch
    orders = {flat.order.key: flat.order for flat in batch.flats}
    apart = len(orders) > 1 if several is None else several
    titles = Counter(order.plan.piece.title for order in orders.values())
    rank = {flat.id: number for number, flat in enumerate(batch.flats)}
    low_x, low_y, _, _ = laid.sheet.outline.bounds

    def place(spot: Spot) -> tuple[int, float, float]:
        x, y, _, _ = spot.place(batch.flat(spot.item).outline).bounds
        return rank[spot.item], round(y, 3), round(x, 3)

    blanks = []
    for number, spot in enumerate(sorted(laid.spots, key=place), 1):
        flat = batch.flat(spot.item)
        order = flat.order
        title = order.plan.piece.title if titles[order.plan.piece.title] == 1 else order.key
        name = f"{title}: {flat.name}" if apart else flat.name
        blanks.append(_blank(number, name, flat, spot, -low_x, -low_y))
    return SheetView(
        layout,
        laid,
        laid.sheet.outline.moved(-low_x, -low_y),
        tuple(blanks),
        tuple(offcut.moved(-low_x, -low_y) for offcut in laid.offcuts),
    )


def _blank(number: int, name: str, flat: Flat, spot: Spot, dx: float, dy: float) -> PlacedBlank:
    """One blank with its finished outline and marks laid as its cut outline is."""
    way = (spot.x + dx, spot.y + dy, spot.turn, spot.mirrored)
    sheet = blank_sheet(flat.order.plan, flat.part)
    marks: list[tuple[Curve, Role]] = [
        (placed_curve(mark.curve, *way), mark.role) for mark in sheet.marks
    ]
    net = None if sheet.net == sheet.cut else placed(sheet.net, *way)
    return PlacedBlank(
        number, name, flat.name, flat, spot, placed(flat.outline, *way), net, tuple(marks)
    )


def sheet_views(layout: Layout, several: bool | None = None) -> tuple[SheetView, ...]:
    """Every laid sheet of a layout."""
    return tuple(sheet_view(layout, laid, several) for laid in layout.sheets)


def readable(turn: float) -> float:
    """A direction [rad] turned half round where its text would stand on its head.

    >>> round(math.degrees(readable(math.radians(170))), 6)
    -10.0
    """
    angle = math.remainder(turn, math.pi)
    return math.pi / 2 if abs(angle + math.pi / 2) < 1e-9 else angle


def view_bounds(view: SheetView) -> Bounds:
    """Bounds of all that is to be sawn [mm]."""
    return union(blank.cut.bounds for blank in view.blanks)
