"""A vessel raised from one disc: its blank by equal area, its courses, how thin it gets."""

from __future__ import annotations

import math

from hollowright.designs.vessel_form import Form, Made
from hollowright.designs.vessel_work import raised_work
from hollowright.errors import Caution
from hollowright.formulas import raising
from hollowright.piece import Blank, Part, Solid
from hollowright.quantity import Quantity, exact
from hollowright.shapes.outline import disc
from hollowright.shapes.solids import Turned
from hollowright.units import format_number


def made(form: Form) -> Made:
    """The disc, the courses and the work."""
    profile, t = form.profile, form.thickness

    def metal_below(thickness: float, level: float) -> float:
        return profile.filled(0.0, level) - profile.filled(thickness, level)

    skin = form.skin("outside", "", lambda depth: metal_below(depth, profile.height))
    area = raising.mid_area(*skin, t)
    blank = raising.blank(area, form.across, form.height)
    metal = raising.metal(*skin, t)
    mass = raising.metal_mass(metal, form.density).named("vessel_mass", "weight of the vessel")
    body = Turned(
        "vessel", profile.section(t.value), exact_volume=metal.value if profile.curved else None
    )
    part = Part(
        "vessel", "vessel", "sheet",
        Blank("disc", disc(blank.value), {"diameter": blank}, trimmed=True, rim="raising_rim",
              shaped=True),
        mass, 1, (Solid("vessel", body, show_hidden=True),),
    )  # fmt: skip
    stages = _stages(form, blank)
    thin = [
        raising.thinned(t, form.b.shop(f"raising_thinning_{end}")).named(
            f"wall_{end_of}", f"wall's thickness, at {end_of}"
        )
        for end, end_of in (("most", "least"), ("least", "most"))
    ]
    return Made(
        (*skin, area, blank, form.b.shop("raising_rim"), *thin, *stages),
        (part,), (), raised_work(round(stages[0].value), len(stages) > 2), metal_below, profile,
        form.walls("vessel"),        _cautions(form, blank),
    )  # fmt: skip


def _stages(form: Form, blank: Quantity) -> tuple[Quantity, ...]:
    """Courses and annealings; round a flat base each course's angle, height and mouth too."""
    base = form.profile.flat_base
    if not 0 < 2 * base < blank.value:
        return _counted(form, min(90.0, math.degrees(form.profile.steepest)))
    flat = form.constant("base_diameter", "diameter of the flat base", "mm", 2 * base,
                         "twice the flat's edge from the axis")  # fmt: skip
    rim = raising.rim_squares(blank, flat)
    last = raising.last_angle(form.across, flat, rim)
    counted = _counted(form, last.value)
    found = [*counted, flat, rim, last]
    count = round(counted[0].value)
    for number in range(1, count + 1):
        id, label = f"course_{number}", f"course {number}"
        angle = raising.course_angle(last, number, count).named(f"{id}_angle", f"{label}, angle")
        slant = raising.course_slant(flat, rim, angle)
        high, wide = raising.course_height(slant, angle), raising.course_mouth(flat, slant, angle)
        found += [
            angle,
            high.named(f"{id}_height", f"{label}, height"),
            wide.named(f"{id}_mouth", f"{label}, mouth"),
        ]
    return tuple(found)


def _counted(form: Form, last: float) -> tuple[Quantity, Quantity]:
    """How many courses bring the wall to its last angle [deg], and how many annealings."""
    step = form.b.shop("course_angle")
    count = max(1, math.ceil(last / step.value - 1e-9))
    told = (
        f"courses = {format_number(last, 0)} degrees from flat to the last one, at most "
        f"{format_number(step.value, 0)} at a time"
    )
    return (
        exact("courses", "courses", "", count, "shop", step.source, told),
        exact("anneals", "annealings", "", count, "shop", step.source,
              "annealings = one before each course"),
    )  # fmt: skip


def _cautions(form: Form, blank: Quantity) -> tuple[Caution, ...]:
    """What to mind of a wall that closes in, and of a very tall one."""
    found = []
    if form.profile.steepest > math.radians(95):
        found.append(Caution(
            "closes_in",
            "The wall closes in towards its mouth: raise it upright first, then draw it in over a "
            "stake that fits the shoulder, course by course; the wall thickens there.",
            "raising", "courses",
        ))  # fmt: skip
    if blank.value > 2.6 * form.across.value:
        found.append(Caution(
            "tall",
            "Its blank is more than two and a half times as wide as the form: a long raising, with "
            "more courses than reckoned. Seaming it from cones is quicker.",
            "raising", "blank_diameter",
        ))  # fmt: skip
    return tuple(found)
