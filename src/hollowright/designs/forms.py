"""A walled form's outline with its numbers: length round, area, turn, and its parallels."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from hollowright.errors import PlanRefused
from hollowright.formulas import outline as law
from hollowright.quantity import Quantity, exact
from hollowright.shapes import outline as flat
from hollowright.shapes.mid_line import check_wall, parallel_length
from hollowright.shapes.offset import (
    TOLERANCE,
    ParallelRefused,
    check_bends,
    offset,
    offset_pieces,
    one_piece,
)
from hollowright.shapes.outline import Outline
from hollowright.shapes.ovals import ellipse, regular_polygon


@dataclass(frozen=True)
class Form:
    """An outline with its numbers: what is asked for, or a parallel of it.

    outline: centred on 0, 0 [mm]. sizes: as a blank names them. round: length round it [mm]; area
    [mm2]; turn: what its parallels lose round for each millimetre across [1]. flats: a regular
    polygon's sides and its across flats. drawn, inset: of a parallel, what it is the parallel of
    and how far inside it lies [mm].
    """

    shape: str
    outline: Outline
    sizes: Mapping[str, Quantity]
    round: Quantity
    area: Quantity
    turn: Quantity
    flats: tuple[Quantity, Quantity] | None = None
    corner: Quantity | None = None
    drawn: Outline | None = None
    inset: float = 0.0

    @property
    def across(self) -> Quantity:
        """Mean across [mm]: the diameter of a circle, across flats of a polygon."""
        known = {"circle": self.sizes.get("diameter"), "polygon": self.flats and self.flats[1]}
        return known.get(self.shape) or law.across(self.round, self.turn)

    @property
    def calliper(self) -> bool:
        """Whether its mean across is something that the calliper reads."""
        return self.shape in ("circle", "polygon")

    @property
    def sharp(self) -> bool:
        """Whether it has corners, inwards or outwards."""
        return any(abs(turn) > CORNER for turn in self.outline.turns)

    @property
    def word(self) -> str:
        """What its mean across is called at the bench."""
        return {"circle": "diameter", "polygon": "across flats"}.get(self.shape, "mean across")


OVAL = 2e-5
"""Arcs that stand for an oval's parallel lie this near to it [mm]: its area is then right to 1e-6.
"""

CORNER = math.radians(0.5)
"""A corner that turns by less isn't one."""


SMOOTH = exact("turn", "pi", "", math.pi, "constant", "parallel curves (Steiner)")
"""The turn of an outline without corners."""


def circle(diameter: Quantity) -> Form:
    """A round outline of a diameter [mm]."""
    area = law.oval_area(diameter, diameter)
    return Form(
        "circle", flat.disc(diameter.value), {"diameter": diameter}, law.circle_round(diameter),
        area, SMOOTH,
    )  # fmt: skip


def oval(length: Quantity, width: Quantity) -> Form:
    """A true ellipse over all [mm]."""
    return Form(
        "oval", ellipse(length.value, width.value), {"length": length, "width": width},
        law.oval_round(length, width), law.oval_area(length, width), SMOOTH,
    )  # fmt: skip


def rectangle(length: Quantity, width: Quantity, corner: Quantity | None) -> Form:
    """A rectangular outline [mm], its corners sharp or of an outside radius."""
    radius = corner.value if corner else 0.0
    drawn = flat.rectangle(length.value, width.value, radius)
    if corner:
        around = law.rounded_round(length, width, corner)
        turn = SMOOTH
    else:
        around = law.rectangle_round(length, width)
        turn = law.polygon_turn(exact("sides", "4", "", 4, "constant"))
    return Form(
        "rectangle", drawn.moved(-length.value / 2, -width.value / 2),
        {"length": length, "width": width}, around,
        law.rounded_area(length, width, corner or 0.0), turn, corner=corner,
    )  # fmt: skip


def polygon(sides: Quantity, flats: Quantity) -> Form:
    """A regular polygon [mm], a flat at the bottom."""
    count = int(sides.value)
    if count % 2:
        sizes = {"length": law.odd_length(sides, flats), "width": law.odd_width(sides, flats)}
    else:
        over = flats if count % 4 == 0 else law.across_corners(sides, flats)
        sizes = {"length": over, "width": flats}
    return Form(
        "polygon", regular_polygon(count, flats.value), sizes, law.polygon_round(sides, flats),
        law.polygon_area(sides, flats), law.polygon_turn(sides), (sides, flats),
    )  # fmt: skip


def drawn_form(outline: Outline, told: str) -> Form:
    """A form whose numbers are measured on its outline."""

    def found(id: str, label: str, unit: str, value: float) -> Quantity:
        return exact(id, label, unit, value, "asked", told, f"{label} = {told}")

    sizes = {
        "length": found("outline_length", "length", "mm", outline.width),
        "width": found("outline_width", "width", "mm", outline.height),
    }
    return Form(
        "path", outline, sizes,
        found("outside_round", "length round the outside", "mm", outline.perimeter),
        found("outline_area", "area of the outline", "mm2", outline.area),
        found("turn", "turn", "",
              sum(outline_turns(outline))),
    )  # fmt: skip


def outline_turns(outline: Outline) -> tuple[float, float]:
    """Half the turn of all its bends, and the sum of tan(half the turn) over its corners [1]."""
    corners = [turn for turn in outline.turns if abs(turn) > CORNER]
    return math.pi - sum(corners) / 2, sum(math.tan(turn / 2) for turn in corners)


def check(form: Form, *layers: tuple[str, float]) -> None:
    """Refuse an outline bent tighter than what is to lie inside it, layer by layer.

    layers: what each is called in the error, and how deep it goes [mm], the deepest last.
    """
    try:
        check_wall(form.outline, layers[-1][1], 0.0)
    except ParallelRefused as fault:
        if len(layers) > 1:
            check(form, *layers[:-1])
        raise refused(form, fault, layers[-1][0]) from None


def refused(form: Form, fault: ParallelRefused, what: str) -> PlanRefused:
    """The error of an outline that has no parallel, with the field to change."""
    name = {
        "circle": "diameter", "oval": "width", "polygon": "across_flats", "path": "file",
        "rectangle": "corner_radius" if form.corner else "width",
    }[form.shape]  # fmt: skip
    return PlanRefused(f"sizes.outline.{name}", f"{what}: {fault.problem}", fault.remedy)


def parallel(form: Form, depth: Quantity, what: str, prefix: str = "") -> Form:
    """The form that lies a depth inside another all round (outside it where that is under 0) [mm].

    what: it is for, in an error; prefix: of its quantities' ids.
    """
    exactly = {"circle": _inner_circle, "polygon": _inner_polygon, "rectangle": _inner_rectangle}
    try:
        made = exactly.get(form.shape, _offset)(form, depth)
    except (ParallelRefused, ValueError) as fault:
        if isinstance(fault, ParallelRefused):
            raise refused(form, fault, what) from None
        raise PlanRefused(f"sizes.outline.{_smallest(form)}",
                          f"{what}: nothing is left of the outline.",
                          "Make it larger, or the metal thinner.") from None  # fmt: skip
    return named(made, prefix) if prefix else made


def named(form: Form, prefix: str) -> Form:
    """The form with its sizes under a part's name: base_length for 'base'."""
    sizes = {}
    for name, size in form.sizes.items():
        label = f"{prefix.replace('_', ' ')} {name}"
        sizes[name] = replace(
            size.named(f"{prefix}_{name}", label), told=size.told.replace(size.label, label, 1)
        )
    return replace(form, sizes=sizes)


def _smallest(form: Form) -> str:
    return {"circle": "diameter", "polygon": "across_flats", "path": "file"}.get(
        form.shape, "width"
    )


def _inner_circle(form: Form, depth: Quantity) -> Form:
    return circle(law.inner_size(form.sizes["diameter"], depth))


def _inner_polygon(form: Form, depth: Quantity) -> Form:
    sides, flats = form.flats or (form.turn, form.across)
    return polygon(sides, law.inner_size(flats, depth))


def _inner_rectangle(form: Form, depth: Quantity) -> Form:
    length, width = (law.inner_size(form.sizes[name], depth) for name in ("length", "width"))
    corner = None
    if form.corner:
        corner = form.corner - depth
        if corner.value < 0:
            check_wall(form.outline, depth.value, 0.0)
    return rectangle(length, width, corner)


def _offset(form: Form, depth: Quantity) -> Form:
    """The parallel of an oval or a path, its numbers by the theorem of parallel curves."""
    whole, inset = form.drawn or form.outline, form.inset + depth.value
    outline = _parallel(whole, -inset, OVAL if form.shape == "oval" else TOLERANCE)
    if form.shape == "oval":
        sizes = {name: law.inner_size(size, depth) for name, size in form.sizes.items()}
        around = law.inner_round(form.round, form.turn, depth)
        area = law.inner_area(form.area, form.round, form.turn, depth)
        return Form(
            "oval", outline, sizes, around, area, form.turn, drawn=whole, inset=inset
        )  # fmt: skip
    made = drawn_form(outline, "from the drawing, parallel")
    turn = form.turn
    if depth.value:
        lost = (form.round.value - outline.perimeter) / (2 * depth.value)
        turn = replace(turn, value=lost)
    return replace(
        made, round=law.inner_round(form.round, turn, depth), turn=form.turn, drawn=whole,
        inset=inset,
    )  # fmt: skip


@lru_cache(maxsize=64)
def _parallel(outline: Outline, distance: float, tolerance: float) -> Outline:
    """The parallel, outwards; inwards, most bends are known to be wide enough at a glance."""
    if distance >= 0:
        return offset(outline, distance, tolerance=tolerance)
    if outline.tightest().radius < -distance:
        check_bends(outline, distance)
    pieces = offset_pieces(outline, distance, tolerance=tolerance)
    return one_piece(pieces, outline, distance)


def settled(form: Form, depth: float) -> Form:
    """The form with the turn that a drawn outline's parallel has at a depth [mm], measured there.

    Where curved sides meet in a corner, what is lost round isn't quite in proportion to the depth.
    """
    if form.shape != "path" or depth == 0:
        return form
    whole = parallel_length(form.outline, -depth)
    return replace(form, turn=replace(form.turn, value=(form.round.value - whole) / (2 * depth)))
