"""A plan's drawings: the picture of the piece and one sheet for each blank."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from hollowright.output.blank_drawing import BlankSheet, BlankSize, blank_drawing
from hollowright.output.drawing import Drawing
from hollowright.output.picture import picture, picture_parts
from hollowright.piece import Part
from hollowright.plan.plan import Plan
from hollowright.quantity import Quantity
from hollowright.quantity.working import number_text
from hollowright.shapes.solids import reach
from hollowright.units import format_number

UP = (0.0, 0.0, 1.0)
"""The axis that pieces stand along; parts are drawn apart in the order of their middles."""

Sizes = Mapping[str, Quantity]
SIDES: Mapping[str, Literal["width", "height", "diameter"]] = {
    "length": "width",
    "width": "height",
    "diameter": "diameter",
}
"""Along which side of the drawing each size of a blank is written."""

PICTURE_WIDTH = 150.0
"""Width of the picture on a card or a wide page [mm]."""


def plan_picture(plan: Plan, width: float = PICTURE_WIDTH, lettering: float = 2.5) -> Drawing:
    """The piece assembled and drawn apart, hidden lines right."""
    solids = [solid for part in plan.parts for solid in part.solids]
    solids.sort(key=lambda solid: sum(reach(solid.body, UP)))
    hidden = [solid.body.id for solid in solids if solid.show_hidden]
    bodies, names = [solid.body for solid in solids], [solid.label for solid in solids]
    parts = picture_parts(bodies, names, hidden)
    return picture(parts, width=width, lettering=lettering, title=plan.piece.title)


def blank_sheets(plan: Plan) -> dict[str, Drawing]:
    """A true-size drawing of each flat blank by part id; tube pieces are sawn, not laid out."""
    return {
        part.id: blank_drawing(blank_sheet(plan, part)) for part in plan.parts if part.blank.flat
    }


def _both(cut: Sizes, net: Sizes) -> tuple[tuple[Literal["cut", "net"], Sizes], ...]:
    return ("cut", cut), ("net", net)


def blank_sheet(plan: Plan, part: Part) -> BlankSheet:
    """What is drawn of one flat blank: cut and net size, where the allowance sits."""
    cut, net = plan.cuts[part.id], part.blank
    stock = plan.piece.stock(part.stock)
    thickness = format_number(stock.thickness.value)
    pieces = "1 piece" if part.count == 1 else f"{part.count} pieces"
    sizes = tuple(
        BlankSize(number_text(size), SIDES[name], of, f"{of} ")
        for of, table in _both(cut.sizes, net.sizes)
        for name, size in table.items()
    )
    dx = (cut.outline.width - net.outline.width) / 2
    dy = (cut.outline.height - net.outline.height) / 2
    inset = net.outline if net.form == "disc" else net.outline.moved(dx, dy)
    return BlankSheet(
        id=part.id,
        title=f"{plan.piece.title}: {part.name}",
        metal=f"{stock.metal.name}, {thickness} mm, {pieces}",
        net=inset,
        cut=cut.outline,
        sizes=sizes,
    )
