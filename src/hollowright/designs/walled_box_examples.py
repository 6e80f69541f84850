"""Examples of walled boxes, each with numbers worked by hand."""

from __future__ import annotations

import math

from hollowright.designs.fields import Example

RECTANGLE = Example(
    "striker tray",
    """title = "Striker tray"
design = "walled-box"

[stock.wall_sheet]
metal = "C26000"
thickness = ["0.98", "1.00", "0.99"]

[stock.plate_sheet]        # for base and top
metal = "C26000"
thickness = ["0.81", "0.82"]

[stock.ring_sheet]
metal = "C26000"
thickness = ["0.64", "0.65"]

[sizes]
height = "27 mm"
lid_share = "0.32"
plates = "on-end"          # or: "let-in"
lid = "inner-ring"         # or: "outer-rim", "cap"
ring_stand = "2.5 mm"
fit = "easy"
corners = "bent"           # or: "scored", of sharp corners

[sizes.outline]            # seen from above, outside
shape = "rectangle"        # or: "circle", "oval", "polygon", "path"
length = "52 mm"
width = "31 mm"
corner_radius = "6 mm"
""",
    {
        "wall_length": 2 * (52 + 31) - 8 * 6 + 2 * math.pi * 6 - math.pi * 0.99,
        "lid_depth": 27 * 0.32 - 0.815,
        "wall_width": 27 - 2 * 0.815,
        "base_length": 52,
        "ring_length": 2 * (52 + 31)
        - 8 * 6
        + 2 * math.pi * 6
        - math.pi * (2 * 0.99 + 0.0675 + 0.645),
    },
    "plane geometry, worked by hand from the readings' means",
)

HINGED = Example(
    "hinged flint box",
    """title = "Hinged flint box"
design = "walled-box"

[stock.wall_sheet]
metal = "C26000"
thickness = ["0.91", "0.92"]

[stock.plate_sheet]
metal = "C26000"
thickness = ["0.71", "0.72"]

[stock.hinge_tube]
metal = "C26000"
outside_diameter = ["3.05", "3.04"]
wall = ["0.51", "0.52"]

[stock.hinge_pin]
metal = "C26000"
diameter = ["1.95", "1.96"]

[sizes]
height = "24 mm"
lid_share = "0.3"
lid = "hinged"             # knuckles along the longest straight side

[sizes.hinge]
width = "31.6 mm"          # over all knuckles, along the pin
knuckles = 5

[sizes.outline]
shape = "rectangle"
length = "61 mm"
width = "37 mm"
corner_radius = "7 mm"
""",
    {
        "wall_length": 2 * (61 + 37) - 8 * 7 + 2 * math.pi * 7 - math.pi * 0.915,
        "knuckle_length": (31.6 - 4 * 0.05) / 5,
        "hinge_bore": 3.045 - 2 * 0.515,
    },
    "plane geometry, worked by hand from the readings' means",
)

OVAL = Example(
    "spill box in inches",
    """title = "Spill box"
design = "walled-box"

[stock.wall_sheet]
metal = "C26000"
thickness = ["0.0400 in", "0.0404 in"]

[stock.plate_sheet]
metal = "C26000"
thickness = "20 ga"

[sizes]
height = "1 5/8 in"
lid_share = "1/4"
plates = "let-in"
lid = "cap"
fit = "easy"

[sizes.outline]
shape = "oval"
length = "2 3/8 in"
width = "1 5/8 in"
""",
    # 2.375 x 1.625 in: 4 a E(1 - b2/a2) = 160.999 mm by SciPy's ellipe; less pi x 1.02108.
    {"wall_length": 160.99869 - math.pi * 1.02108, "body_wall_height": 41.275 - 0.8118},
    "SciPy's elliptic integral, and plane geometry by hand",
)

POLYGON = Example(
    "six-sided caddy",
    """title = "Six-sided caddy"
design = "walled-box"

[stock.wall_sheet]
metal = "C26000"
thickness = ["1.02", "1.01"]

[stock.plate_sheet]
metal = "C26000"
thickness = ["0.71", "0.72"]

[stock.ring_sheet]
metal = "C26000"
thickness = ["0.52", "0.53"]

[sizes]
height = "38 mm"
lid_share = "0.35"
lid = "outer-rim"
rim_reach = "3.5 mm"
rim_lap = "3 mm"
fit = "easy"
corners = "scored"
score_web = "0.25 mm"
score_line = "0.4"

[sizes.outline]
shape = "polygon"
sides = 6
across_flats = "42 mm"
""",
    {
        "groove_angle": 60,
        "groove_depth": 1.015 - 0.25,
        "wall_length": 12 * 21 * math.tan(math.pi / 6)
        - 6 * (2 * 0.25 * math.tan(math.pi / 6) - math.pi / 3 * 0.4 * 0.25),
        "rim_width": 6.5,
    },
    "plane geometry, worked by hand from the readings' means",
)

CIRCLE = Example(
    "round tinder box",
    """title = "Round tinder box"
design = "walled-box"

[stock.wall_sheet]
metal = "C26000"
thickness = ["0.91", "0.92", "0.91"]

[stock.plate_sheet]
metal = "C26000"
thickness = ["0.81", "0.82"]

[stock.ring_sheet]
metal = "C26000"
thickness = ["0.63", "0.65"]

[sizes]
height = "33 mm"
lid_share = "0.3"
plates = "let-in"
lid = "inner-ring"
fit = "snug"

[sizes.outline]
shape = "circle"
diameter = "47 mm"
""",
    {
        "wall_length": math.pi * (47 - 0.91333333),
        "base_diameter": 47 - 2 * 0.91333333 - 0.1,
        "ring_length": math.pi * (47 - 2 * 0.91333333 - 0.03 - 0.64),
    },
    "plane geometry, worked by hand from the readings' means",
)

LEAF = Example(
    "leaf box from a drawing",
    """title = "Leaf box"
design = "walled-box"

[stock.wall_sheet]
metal = "C26000"
thickness = ["0.81", "0.80"]

[stock.plate_sheet]
metal = "C26000"
thickness = ["0.71", "0.70"]

[stock.ring_sheet]
metal = "C26000"
thickness = ["0.52", "0.53"]

[sizes]
height = "24 mm"
lid_share = "0.35"
fit = "easy"

[sizes.outline]
shape = "path"
scale = 1.25
# a file's name, leaf.svg, or the drawing itself:
file = '''
<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40">
<path d="M4 20 A33 33 0 0 1 56 20 A33 33 0 0 1 4 20 Z"/></svg>
'''
""",
    # Two arcs of radius 41.25 over a chord of 65: half angle asin(32.5 / 41.25).
    {
        "outside_round": 4 * 41.25 * math.asin(32.5 / 41.25),
        # The mid line: arcs of radius 41.25 - 0.4025 about the same centres, where they meet.
        "wall_length": 4 * 40.8475 * math.acos(math.sqrt(41.25**2 - 32.5**2) / 40.8475),
    },
    "two arcs meeting in points, worked by hand",
)

EXAMPLES = (RECTANGLE, HINGED, OVAL, POLYGON, CIRCLE, LEAF)
