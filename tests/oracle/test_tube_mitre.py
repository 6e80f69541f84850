"""Mitred tube and elbows against a CAD kernel: build123d (OpenCASCADE) cuts tubes by planes.

Volumes, surfaces, weights, lengths: 1e-6 relative.
"""

import math

import pytest

from tests.oracle import kernel
from tests.oracle.cases import CLOSE, Case, cases, same_bodies

pytestmark = pytest.mark.oracle

ONE = {
    "sizes__bend": None, "sizes__pieces": None, "sizes__radius": None, "sizes__last_length": None,
    "sizes__angle": "33.7 deg", "sizes__length": "41.3 mm",
}  # fmt: skip
CASES = cases(
    "tube-mitre",
    square_elbow={"sizes__cut": "square", "sizes__pieces": 4, "sizes__radius": "31 mm"},
    unfiled_elbow={"sizes__cut": "unfiled", "sizes__last_length": None},
    steep=ONE,
    steep_square=ONE | {"sizes__cut": "square", "sizes__angle": "52.1 deg"},
    steep_unfiled=ONE | {"sizes__cut": "unfiled", "sizes__length_to": "short-side"},
    two_thick=ONE | {"sizes__pieces": 2, "stock__tube__wall": ["3.1"], "sizes__cut": "square"},
)
named = pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)


@named
def test_every_piece(case: Case) -> None:
    same_bodies(case)


@named
def test_the_seam_is_the_ellipse_in_the_middle_of_the_wall(case: Case) -> None:
    from build123d import GeomType

    q = case.q
    across = q["tube_outside_diameter"] - q["tube_wall"]
    cut = kernel.below(kernel.cylinder(across, 9 * across), 4 * across, math.radians(q["angle"]))
    (seam,) = cut.edges().filter_by(GeomType.ELLIPSE)
    assert q["joint_length"] == pytest.approx(kernel.length(seam), rel=CLOSE)
    for joint in case.plan.piece.joints:
        assert joint.length.value == pytest.approx(kernel.length(seam), rel=CLOSE)


@named
def test_the_mouth(case: Case) -> None:
    from build123d import GeomType

    q = case.q
    outside = q["tube_outside_diameter"]
    cut = kernel.below(kernel.cylinder(outside, 9 * outside), 4 * outside, math.radians(q["angle"]))
    (edge,) = cut.edges().filter_by(GeomType.ELLIPSE)
    ellipse = edge.geom_adaptor().Ellipse()
    if case.tables["sizes"].get("cut", "bevelled") == "bevelled":
        assert q["mouth_length"] == pytest.approx(2 * ellipse.MajorRadius(), rel=CLOSE)
    else:  # the outside's long and short side as the kernel has them cut, apart along the tube
        long, short = sides(case)
        assert q["mouth_length"] == pytest.approx(math.hypot(outside, long - short), rel=CLOSE)
    assert outside == pytest.approx(2 * ellipse.MinorRadius(), rel=CLOSE)


def sides(case: Case) -> tuple[float, float]:
    """Lengths of the first leg's outside on its long and on its short side [mm]."""
    from build123d import Plane, section

    q = case.q
    (first,) = [body for id, body in case.theirs.items() if id in ("leg", "leg_1")]
    outside = q["tube_outside_diameter"] / 2
    upright = [
        (edge.center().X, kernel.length(edge))
        for edge in section(first, Plane.XZ).edges()
        if abs(abs(edge.center().X) - outside) < 1e-6
    ]
    lengths = {x > 0: length for x, length in upright}
    return lengths[True], lengths[False]


@named
def test_long_and_short_side(case: Case) -> None:
    found = sides(case)
    assert [case.q["long_side"], case.q["short_side"]] == pytest.approx(found, rel=CLOSE)


@named
def test_the_template_is_the_paper_unrolled(case: Case) -> None:
    """Paper round a tube, its line as high as the fibre's that it follows (one fibre alone)."""
    from build123d import GeomType

    q = case.q
    if "followed_on_short" in q:
        assert case.tables["sizes"]["cut"] == "unfiled"
        return
    across = q["template_length"] / math.pi
    lean = math.atan(q["followed_radius"] * math.tan(math.radians(q["angle"])) / (across / 2))
    height = q["ordinate_90"]
    paper = kernel.below(kernel.cylinder(across, 5 * height + 5 * across), height, lean)
    (side,) = paper.faces().filter_by(GeomType.CYLINDER)
    template = next(t for t in case.plan.piece.templates if t.id == "mitre_template")
    (line,) = paper.edges().filter_by(GeomType.ELLIPSE)
    near = CLOSE * kernel.area(side) + 1e-3 * kernel.length(line)  # cubics keep within 0.001 mm
    assert template.outline.area == pytest.approx(kernel.area(side), abs=near)
    drawn = [s for s in template.outline.segments if type(s).__name__ == "Cubic"]
    assert sum(s.length() for s in drawn) == pytest.approx(kernel.length(line), rel=2e-5)


@named
def test_every_piece_stands_where_the_kernel_puts_it(case: Case) -> None:
    from build123d import Pos, Rot

    q = case.q
    at, turn = (0.0, 0.0), 0.0
    order = sorted(case.ours, key=lambda id: id.rsplit("_", 1)[-1])
    first = q.get("axis_length", q["length"])
    for place, id in enumerate(order):
        body = Pos(at[0], 0, at[1]) * (Rot(0, -math.degrees(turn), 0) * case.theirs[id])
        box = body.bounding_box()
        for axis, low, high in (
            ((1.0, 0.0, 0.0), box.min.X, box.max.X),
            ((0.0, 0.0, 1.0), box.min.Z, box.max.Z),
        ):
            assert case.ours[id].reach(axis) == pytest.approx((low, high), abs=1e-4), id
        length = q["middle_length"] if 0 < place < len(order) - 1 else first
        at = (at[0] - length * math.sin(turn), at[1] + length * math.cos(turn))
        turn += 2 * math.radians(q["angle"])
