"""The picture of a plan's piece: which bodies, by which names, in which order."""

from __future__ import annotations

from hollowright.output.drawing import Drawing
from hollowright.output.picture import picture, picture_parts
from hollowright.plan.plan import Plan
from hollowright.shapes.solids import reach

UP = (0.0, 0.0, 1.0)
"""The axis that pieces stand along; parts are drawn apart in the order of their middles."""

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
