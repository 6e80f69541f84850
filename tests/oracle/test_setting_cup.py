"""Settings for stones against a CAD kernel: build123d (OpenCASCADE) draws the girdle's parallels.

1e-6 relative throughout.
"""

import math

import pytest

from tests.oracle import kernel
from tests.oracle.cases import CLOSE, Case, cases, same_bodies

pytestmark = pytest.mark.oracle

CASES = cases(
    "setting-cup",
    oval_on_plate={"sizes__base": "plate", "sizes__stone_length": ["17.3"],
                   "sizes__stone_width": ["12.9"], "stock__sheet__thickness": ["0.53"]},
    round_open={"sizes__stone_width": None, "sizes__stone_length": ["7.31", "7.29"]},
)  # fmt: skip
named = pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)


@named
def test_every_body(case: Case) -> None:
    same_bodies(case)


@named
def test_strips_are_the_middle_s_length(case: Case) -> None:
    from tests.oracle.kernel_lines import parallel
    from tests.oracle.kernel_small import stone

    q = case.q
    girdle = stone(q)
    assert q["girdle"] == pytest.approx(kernel.length(*girdle.edges()), rel=CLOSE)
    gap, t = q["stone_gap"] / 2, q["sheet_thickness"]
    for id, depth in (("strip_length", -gap - t / 2), ("seat_length", t / 2 - gap)):
        found = kernel.length(*parallel(girdle, depth).edges())
        assert q[id] == pytest.approx(found, rel=CLOSE), id


@named
def test_outside_and_ledge(case: Case) -> None:
    from build123d import GeomType

    q = case.q
    box = case.theirs["setting"].bounding_box().size
    assert q["outside_length"] == pytest.approx(max(box.X, box.Y), abs=1e-4)
    if "outside_width" in q:
        assert q["outside_width"] == pytest.approx(min(box.X, box.Y), abs=1e-4)
    seat = case.theirs["seat"]
    if "outside_width" not in q:
        inner = min(face.radius for face in seat.faces().filter_by(GeomType.CYLINDER))
        assert q["ledge"] == pytest.approx(q["stone_length"] / 2 - inner, rel=CLOSE)
    metal = math.fsum(part.blank.outline.area for part in case.plan.parts) * q["sheet_thickness"]
    theirs = math.fsum(map(kernel.volume, case.theirs.values()))
    assert metal == pytest.approx(theirs, rel=CLOSE)
