"""A turned vessel: raised from one disc, or seamed from stacked cones, or from gores."""

from __future__ import annotations

from collections.abc import Callable

from hollowright.designs import outlines, vessel_cones, vessel_gores, vessel_raised
from hollowright.designs.brief import Brief
from hollowright.designs.drawings import unit_taken
from hollowright.designs.fields import Design, Example, Field, asked_by
from hollowright.designs.stocks import sheet_fields, sheet_stock
from hollowright.designs.vessel_form import Form, Made
from hollowright.designs.vessel_profile import Profile, from_curves, from_points, through
from hollowright.errors import InputError
from hollowright.formulas import capacity
from hollowright.piece import Piece, by_id
from hollowright.quantity import Quantity, exact
from hollowright.shapes.drawn import FileRefused
from hollowright.units import format_number

WAYS: dict[str, Callable[[Form], Made]] = {
    "raised": vessel_raised.made,
    "cones": vessel_cones.made,
    "gores": vessel_gores.made,
}

_ALL = (
    *sheet_fields("sheet", "sheet", "0.9 mm"),
    Field(
        "sizes.way", "way", "choice", "way to make it",
        "raised from one disc, seamed from cones, or from gores", "raised", default="raised",
        choices=tuple(WAYS),
    ),
    Field(
        "sizes.profile", "profile", "points", "profile",
        "outside: distance from the axis and height, from the middle of the base to the rim",
        "0 0; 21 0; 27 24; 24 46",
    ),
    Field(
        "sizes.between", "between", "choice", "between the points",
        "straight sides with corners, or one curve bent evenly through them", "straight",
        default="straight", choices=("straight", "curved"),
    ),
    Field(
        "sizes.curve", "curve", "drawing", "profile from a file",
        "instead of points: an SVG or DXF line from the axis to the mouth, the outside's right "
        "half", "cup.svg",
    ),
    Field(
        "sizes.curve_unit", "curve_unit", "choice", "unit of the file", "left out: as it says",
        "mm", choices=outlines.UNITS,
    ),
    Field(
        "sizes.gores", "gores", "count", "number of gores", "more bend easier; fewer seams", "8",
        default="8", low=3, high=36,
    ),
    Field(
        "sizes.cone_off", "cone_off", "length", "how far a cone may lie off the curve",
        "smaller makes more cones", "0.5 mm", default="0.5 mm", low=0.02, high=20,
    ),
    Field(
        "sizes.fill_level", "fill_level", "length", "level to fill to",
        "from the table; left empty, a little below the brim", "40 mm", low=1, high=1000,
    ),
)  # fmt: skip

FIELDS = asked_by("way", {"gores": ("gores",), "cone_off": ("cones",)}, _ALL)


def build(b: Brief) -> Piece:
    """The piece of a brief: every size net, every number with its working."""
    form = _form(b)
    try:
        made = WAYS[b.word("way")](form)
        holds = _holds(form, made)
    except ValueError as fault:
        raise _cannot_follow(form.b, form.field, fault) from None
    return Piece(
        title=b.title,
        design="vessel",
        quantities=by_id(
            form.thickness, form.height, form.mouth, form.across, form.level, *made.quantities,
            *holds,
        ),
        stocks=(sheet_stock(b, "sheet", "sheet"),),
        parts=made.parts,
        joints=made.joints,
        fits=(),
        work=made.work,
        cautions=(*b.cautions, *made.cautions),
        changes=tuple(b.changes),
        inches=b.inches,
        walls=made.walls,
    )  # fmt: skip


def _form(b: Brief) -> Form:
    """The brief's profile with its outside sizes; refused where no vessel has such a one."""
    field = "curve" if b.has("curve") else "profile"
    profile = _profile(b, field)
    try:
        profile.inside(b.sheet_thickness.value)
    except ValueError as fault:
        raise _cannot_follow(b, field, fault) from None
    height = _told("height", "height over all", profile.height, "the profile's rim")
    level = b.fill_level if b.has("fill_level") else capacity.fill_level(
        height, b.shop("fill_room"))  # fmt: skip
    low = b.sheet_thickness.value
    if low >= profile.height:
        raise b.refuse(
            "sheet_thickness",
            f"{format_number(low)} mm leaves no inside in a form {format_number(profile.height)} "
            "mm high.",
            "Take thinner sheet, or make the profile higher.",
        )
    if not low < level.value <= profile.height + 1e-9:
        raise b.refuse(
            "fill_level" if b.has("fill_level") else field,
            f"a level of {format_number(level.value)} mm isn't within the vessel.",
            f"Between its floor, {format_number(low)} mm, and its rim, "
            f"{format_number(profile.height)} mm.",
        )
    return Form(
        b, field, profile, b.sheet_thickness, height,
        _told("mouth_diameter", "outside diameter of the mouth", 2 * profile.mouth,
              "twice the rim's distance from the axis"),
        _told("across", "greatest outside diameter", 2 * profile.widest,
              "twice the greatest distance from the axis"),
        level,
    )  # fmt: skip


def _cannot_follow(b: Brief, field: str, fault: ValueError) -> InputError:
    """What is told where sheet of this thickness has no room in the profile."""
    return b.refuse(
        field, f"sheet of {format_number(b.sheet_thickness.value)} mm can't follow it: {fault}.",
        "Take thinner sheet, or a rounder profile.",
    )  # fmt: skip


def _profile(b: Brief, field: str) -> Profile:
    """The profile from points or from a file."""
    if b.has("curve") == b.has("profile"):
        raise b.refuse(
            field, "give the profile either as points or as a file.",
            "Write sizes.profile = \"0 0; 21 0; 27 24; 24 46\", say, or sizes.curve, not both.",
        )  # fmt: skip
    remedy = "Give the outside from the middle of the base out and up to the rim."
    try:
        if field == "profile":
            return (from_points if b.word("between") == "straight" else through)(
                b.points("profile")
            )
        return _from_file(b)
    except FileRefused as fault:
        raise b.refuse(field, fault.problem, fault.remedy) from None
    except ValueError as fault:
        raise b.refuse(field, f"{fault}.", remedy) from None


def _from_file(b: Brief) -> Profile:
    """The profile that a file draws; asks where its unit was taken for granted."""
    from hollowright.shapes.profile_file import read_profile

    drawing = b.drawing("curve")
    unit = b.word("curve_unit") if b.has("curve_unit") else None
    read = read_profile(drawing.data, drawing.kind, unit)
    profile = from_curves(read.curves)
    b.cautions += unit_taken(read.unit, 2 * profile.widest, profile.height, "curve")
    return profile


def _told(id: str, label: str, value: float, how: str) -> Quantity:
    """A size read off the profile, exact as it was asked for."""
    return exact(id, label, "mm", value, "asked", "the profile", f"{label} = {how}")


def _holds(form: Form, made: Made) -> tuple[Quantity, ...]:
    """What it holds to the level, and to the brim, with the numbers they come from."""
    found: list[Quantity] = []
    for name, label, height in (
        ("", "the level", form.level.value),
        ("brim_", "the brim", form.profile.height),
    ):
        outside = exact(
            f"{name}outside_volume", f"volume of the outside to {label}", "mm3",
            made.outside.filled(0.0, height), "formula", "Pappus's theorem",
            f"volume of the outside to {label} = pi x integral of radius^2 up to it",
        )  # fmt: skip
        metal = form.metal(f"{name}wet_metal", f"metal below {label}", made.metal_below, height)
        holds = capacity.capacity(outside, metal)
        found += [outside, metal, holds.named(f"{name}capacity", f"holds to {label}")]
    return tuple(found)


RAISED = Example(
    "raised oil cup",
    """title = "Oil cup for the bench"
design = "vessel"

[stock.sheet]
metal = "C11000"
thickness = ["0.92", "0.90", "0.91"]
length = "160 mm"
width = "130 mm"

[sizes]
way = "raised"           # or: cones, gores
# from the middle of the base to the rim: distance from the axis, height, both outside [mm]
profile = [[0, 0], [17, 0], [23.5, 9], [26, 21], [26, 33], [22.5, 44]]
between = "curved"       # or: straight
fill_level = "38 mm"
""",
    {"across": 52.78206, "blank_diameter": 99.92066, "capacity": 65.86390},
    "SciPy's Hermite spline through the points, its parallels at 0.455 and 0.91 mm turned by sums",
)

CONES = Example(
    "beaker from cones",
    """title = "Water beaker in three cones"
design = "vessel"

[stock.sheet]
metal = "C26000"
thickness = ["0.71", "0.72", "0.70"]

[sizes]
way = "cones"
profile = "0 0; 22.5 0; 31 27; 31 41; 35.5 58"
""",
    {
        "cone_1_low": 45.44704,
        "cone_1_sector_angle": 108.10292,
        "cone_1_outer_radius": 101.99555,
        "cone_1_inner_radius": 74.43355,
        "cone_2_length": 192.54821,
        "capacity": 135.44602,
    },
    "development of the cone and cone frusta, worked by hand",
)

GORES = Example(
    "gored bowl",
    """title = "Striker's water bowl in gores"
design = "vessel"

[stock.sheet]
metal = "C11000"
thickness = "20 ga"

[sizes]
way = "gores"
gores = 8
curve = '''<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="50mm" viewBox="0 0 60 50">
<path d="M0 50 H19.5 C31 47 44 41 44 26 C44 18 41 12 38 6"/></svg>'''
""",
    {"height": 44.0, "mouth_diameter": 76.0, "across": 88.0, "gore_width": 34.23873},
    "read off the drawing; gore = pi x (88 - 0.81182) / 8",
)

DESIGN = Design(
    id="vessel",
    title="Turned vessel",
    summary="A cup, bowl or beaker from its profile: raised from a disc, or from cones, or gores.",
    fields=FIELDS,
    build=build,
    examples=(RAISED, CONES, GORES),
)
