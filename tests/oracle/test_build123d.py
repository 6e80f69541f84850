"""The tube box against a CAD kernel: build123d (OpenCASCADE), an independent builder of solids.

The kernel builds each body from the plan's printed sizes in its own way (extrusions and boolean
cuts), never from our solids. Tolerance 1e-6 relative: both sides are closed formulas in floats; the
kernel's own geometric tolerance is 1e-7 mm on some tens of mm.
"""

import math
from collections.abc import Mapping
from typing import Any

import pytest

from hollowright.designs import design
from hollowright.job.job import plan_tables, read_tables
from hollowright.plan.plan import Plan

pytestmark = pytest.mark.oracle
CLOSE = 1e-6

LET_IN = {"caps": "let-in", "height": "47 mm", "lid_share": "0.35", "ring_stand": "1.8 mm"}


@pytest.fixture(scope="module", params=[{}, LET_IN], ids=["on-end", "let-in"])
def plan(request: pytest.FixtureRequest) -> Plan:
    tables = read_tables(design("tube-box").examples[0].text)
    return plan_tables({**tables, "sizes": {**tables["sizes"], **request.param}})


def kernel_tube(outside: float, inside: float, length: float) -> Any:
    """A piece of tube as the kernel makes it: an extruded disc less an extruded hole [mm]."""
    from build123d import Circle, extrude

    return extrude(Circle(outside / 2), length) - extrude(Circle(inside / 2), length)


def kernel_disc(diameter: float, thickness: float) -> Any:
    from build123d import Circle, extrude

    return extrude(Circle(diameter / 2), thickness)


def kernel_bodies(plan: Plan) -> Mapping[str, Any]:
    """Every part as the kernel makes it from the plan's quantities, by the solid's id."""
    q = {id: quantity.value for id, quantity in plan.quantities.items()}
    outside, bore = q["outside_diameter"], q["outside_diameter"] - 2 * q["wall"]
    cap = kernel_disc(q["cap_diameter"], q["cap_thickness"])
    ring_bore = q["ring_outside_diameter"] - 2 * q["ring_thickness"]
    return {
        "lid": kernel_tube(outside, bore, q["lid_length"]),
        "body": kernel_tube(outside, bore, q["body_length"]),
        "cap_low": cap,
        "cap_high": cap,
        "ring": kernel_tube(q["ring_outside_diameter"], ring_bore, q["ring_width"]),
    }


def test_volume_and_surface_of_every_solid(plan: Plan) -> None:
    kernel = kernel_bodies(plan)
    ours = {solid.body.id: solid.body for part in plan.parts for solid in part.solids}
    assert set(ours) == set(kernel)
    for id, body in ours.items():
        assert body.volume == pytest.approx(kernel[id].volume, rel=CLOSE), id
        assert body.surface == pytest.approx(kernel[id].area, rel=CLOSE), id


def test_mass_of_every_part_and_of_the_box(plan: Plan) -> None:
    kernel = kernel_bodies(plan)
    # All three stocks are one metal in the example; its density is the handbook's [g/cm3].
    (density,) = {stock.metal.density.value for stock in plan.piece.stocks}
    masses = {id: body.volume * density / 1000 for id, body in kernel.items()}
    names = {"lid": "lid", "body": "body", "cap": "cap_low", "ring": "ring"}
    for part in plan.parts:
        assert part.mass.value == pytest.approx(masses[names[part.id]], rel=CLOSE), part.id
    assert plan.mass.value == pytest.approx(math.fsum(masses.values()), rel=CLOSE)


def test_the_strip_is_as_long_as_the_ring_s_middle(plan: Plan) -> None:
    from build123d import Edge, offset

    outside, thickness = (
        plan.quantities[id].value for id in ("ring_outside_diameter", "ring_thickness")
    )
    middle = offset(Edge.make_circle(outside / 2), amount=-thickness / 2)
    length = math.fsum(edge.length for edge in middle.edges())
    assert plan.quantities["ring_length"].value == pytest.approx(length, rel=CLOSE)


def test_the_strip_has_the_metal_of_the_ring(plan: Plan) -> None:
    # A strip bent without stretching at mid-thickness keeps its volume.
    from build123d import Plane

    ring = kernel_bodies(plan)["ring"]
    sections = [face.area for face in ring.intersect(Plane.XZ).faces()]
    assert len(sections) == 2
    (strip,) = (part.blank.sizes for part in plan.parts if part.id == "ring")
    area = plan.quantities["ring_thickness"].value * strip["width"].value
    assert sections == [pytest.approx(area, rel=CLOSE)] * 2
    assert strip["length"].value == pytest.approx(ring.volume / sections[0], rel=CLOSE)


def test_the_box_stands_as_high_as_asked_and_nothing_overlaps(plan: Plan) -> None:
    from build123d import Pos

    kernel = kernel_bodies(plan)
    placed = {}
    for part in plan.parts:
        for solid in part.solids:
            body = solid.body
            placed[body.id] = Pos(*body.origin) * kernel[body.id]
    top = max(body.bounding_box().max.Z for body in placed.values())
    bottom = min(body.bounding_box().min.Z for body in placed.values())
    assert top - bottom == pytest.approx(plan.quantities["height"].value, rel=CLOSE)
    names = sorted(placed)
    for place, first in enumerate(names):
        for second in names[place + 1 :]:
            shared = placed[first].intersect(placed[second])
            volume = 0.0 if shared is None else sum(solid.volume for solid in shared.solids())
            assert volume == pytest.approx(0.0, abs=1e-6), (first, second)
