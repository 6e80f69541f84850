"""Examples of the form of plane faces: a folded finial, a plinth in inches, a bead of plates."""

from __future__ import annotations

import math

from hollowright.designs.fields import Example

_RUN, _RISE = 37.4 / 2, 61.5
_SLOPE = math.degrees(math.atan(_RISE / _RUN))
_WALLS = 180 - 2 * math.degrees(math.asin(0.5 * math.sin(math.radians(_SLOPE))))

FINIAL = Example(
    "finial of a lamp",
    """title = "Finial of the workshop's lamp"
design = "facet-form"

[stock.sheet]
metal = "C26000"
thickness = ["0.82", "0.81", "0.80"]
length = "310 mm"
width = "152 mm"

[sizes]
kind = "pyramid"           # or prism, frustum; tetrahedron, cube, octahedron, dodecahedron ...
sides = 6
across_flats = "37.4 mm"   # of the base, outside
height = "61.5 mm"         # upright
way = "folded"             # or: "plates", cut apart and bevelled
score_web = "0.2 mm"       # what the groove leaves
vent = "1.6 mm"
""",
    {
        "slant_height": math.hypot(_RUN, _RISE),
        "dihedral_base": _SLOPE,
        "dihedral": _WALLS,
        "groove": 180 - _WALLS,
        "groove_base": 180 - _SLOPE,
        "base_side": 37.4 / math.sqrt(3),
    },
    "plane geometry, worked by hand from half the base's flats and the height",
    1e-4,
)

PLINTH = Example(
    "plinth of five sides, in inches",
    """title = "Plinth for the striker box"
design = "facet-form"

[stock.sheet]
metal = "C22000"
thickness = ["0.0321 in", "0.0318 in"]

[sizes]
kind = "frustum"
sides = 5
across_flats = "2 5/8 in"      # of the base, outside: twice from the middle to a side
top_across_flats = "1 7/8 in"
height = "1 1/4 in"
way = "plates"
base = "open"
""",
    {
        "slant_height": 25.4 * math.hypot(0.375, 1.25),
        "dihedral_base": math.degrees(math.atan(1.25 / 0.375)),
        "base_side": 25.4 * 2.625 * math.tan(math.radians(36)),
        "top_side": 25.4 * 1.875 * math.tan(math.radians(36)),
        "bevel_base": 90 - math.degrees(math.atan(1.25 / 0.375)),
    },
    "plane geometry, worked by hand: three eighths across in 1 1/4 of height",
    1e-4,
)

BEAD = Example(
    "eight-faced bead",
    """title = "Octahedron bead"
design = "facet-form"

[stock.sheet]
metal = "C26000"
thickness = ["0.61", "0.62"]

[sizes]
kind = "octahedron"
edge = "23.7 mm"           # or: across_flats, between opposite faces
way = "plates"
vent = "2.4 mm"            # in one face; the cord hangs from a loop
""",
    {
        "dihedral": 109.4712,
        "bevel": 35.2644,
        "width_over_faces": 23.7 * math.sqrt(2 / 3),
    },
    "dihedral of the octahedron: Coxeter, Regular Polytopes, Table I; width: edge x sqrt(2/3)",
    1e-4,
)

EXAMPLES = (FINIAL, PLINTH, BEAD)
