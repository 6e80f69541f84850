"""The tube box against a CAD kernel: build123d (OpenCASCADE), an independent builder of solids.

Tolerance 1e-6 relative: both sides are closed formulas in floats; the kernel's own geometric
tolerance is 1e-7 mm on some tens of mm.
"""

import math

import pytest

from tests.oracle.cases import CLOSE, Case, cases, same_bodies

pytestmark = pytest.mark.oracle

CASES = cases(
    "tube-box",
    let_in={
        "sizes__caps": "let-in", "sizes__height": "47 mm", "sizes__lid_share": "0.35",
        "sizes__ring_stand": "1.8 mm",
    },
    thick={
        "stock__tube__wall": ["2.31"], "sizes__height": "71.3 mm", "stock__cap_sheet__thickness":
        ["1.43"], "stock__ring_sheet__thickness": ["1.07"],
    },
    as_built={"as_built__lid_depth": ["14.62", "14.60"]},
)  # fmt: skip
named = pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)


@named
def test_volume_surface_and_weight(case: Case) -> None:
    same_bodies(case)
    weight = math.fsum(part.mass.value * part.count for part in case.plan.parts)
    assert case.plan.mass.value == pytest.approx(weight, rel=CLOSE)


@named
def test_the_strip_is_as_long_as_the_ring_s_middle(case: Case) -> None:
    from build123d import Edge, offset

    outside, thickness = (case.q[id] for id in ("ring_outside_diameter", "ring_thickness"))
    middle = offset(Edge.make_circle(outside / 2), amount=-thickness / 2)
    length = math.fsum(edge.length for edge in middle.edges())
    assert case.q["ring_length"] == pytest.approx(length, rel=CLOSE)


@named
def test_the_strip_has_the_metal_of_the_ring(case: Case) -> None:
    # A strip bent without stretching at mid-thickness keeps its volume.
    from build123d import Plane

    ring = case.theirs["ring"]
    sections = [face.area for face in ring.intersect(Plane.XZ).faces()]
    assert len(sections) == 2
    (strip,) = (part.blank.sizes for part in case.plan.parts if part.id == "ring")
    area = case.q["ring_thickness"] * strip["width"].value
    assert sections == [pytest.approx(area, rel=CLOSE)] * 2
    assert strip["length"].value == pytest.approx(ring.volume / sections[0], rel=CLOSE)


@named
def test_the_box_stands_as_high_as_asked_and_nothing_overlaps(case: Case) -> None:
    from build123d import Pos

    kernel = case.theirs
    placed = {}
    for part in case.plan.parts:
        for solid in part.solids:
            body = solid.body
            placed[body.id] = Pos(*body.origin) * kernel[body.id]
    top = max(body.bounding_box().max.Z for body in placed.values())
    bottom = min(body.bounding_box().min.Z for body in placed.values())
    read = case.q["lid_depth"] - case.plan.as_planned("lid_depth").value
    assert top - bottom == pytest.approx(case.q["height"] + read, rel=CLOSE)
    names = sorted(placed)
    for place, first in enumerate(names):
        for second in names[place + 1 :]:
            shared = placed[first].intersect(placed[second])
            volume = 0.0 if shared is None else sum(solid.volume for solid in shared.solids())
            assert volume == pytest.approx(0.0, abs=1e-6), (first, second)
