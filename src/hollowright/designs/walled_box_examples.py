"""Examples of walled boxes, each with numbers worked by hand or published."""

from __future__ import annotations

import math

from hollowright.designs.fields import Example

RECTANGLE = Example(
    "striker tray",
    """title = "Striker tray with a lid"
design = "walled-box"

[stock.wall_sheet]
metal = "C26000"
thickness = ["0.98", "1.00", "0.99"]

[stock.plate_sheet]
metal = "C26000"
thickness = ["0.81", "0.82"]

[stock.ring_sheet]
metal = "C26000"
thickness = ["0.64", "0.65"]

[sizes]
outline = {shape = "rectangle", length = "52 mm", width = "31 mm", corner_radius = "6 mm"}
height = "27 mm"
lid_share = "0.3"
plates = "on-end"          # or: "let-in"
lid = "inner-ring"
ring_stand = "2.5 mm"
fit = "easy"
""",
    {
        "wall_length": 2 * (52 + 31) - 8 * 6 + 2 * math.pi * 6 - math.pi * 0.99,
        "lid_depth": 27 * 0.3 - 0.815,
        "base_length": 52,
        "base_width": 31,
    },
    "plane geometry, worked by hand from the readings' means",
)

EXAMPLES = (RECTANGLE,)
