"""The picture of a plan's piece: which bodies, by which names, in which order."""

from __future__ import annotations

from hollowright.output.drawing import Drawing
from hollowright.output.picture import picture, picture_parts
from hollowright.plan.plan import Plan
from hollowright.shapes.apart import UP

PICTURE_WIDTH = 150.0
"""Width of the picture on a card or a wide page [mm]."""

TALLEST = 1.35
"""How high it may be unless said, as a share of its width."""


def plan_picture(
    plan: Plan,
    width: float = PICTURE_WIDTH,
    lettering: float = 2.5,
    most_height: float | None = None,
) -> Drawing:
    """The piece assembled and drawn apart, hidden lines right, within a width and a height [mm]."""
    high = TALLEST * width if most_height is None else most_height
    solids = [solid for part in plan.parts for solid in part.solids]
    solids.sort(key=lambda solid: sum(solid.body.reach(UP)))
    parts = picture_parts(
        [solid.body for solid in solids],
        [solid.label for solid in solids],
        [solid.body.id for solid in solids if solid.show_hidden],
        [solid.pull for solid in solids],
        [solid.rides for solid in solids],
    )
    return picture(
        parts, width=width, most_height=high, lettering=lettering, title=plan.piece.title
    )
