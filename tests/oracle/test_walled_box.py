"""Walled boxes against a CAD kernel: build123d (OpenCASCADE) makes each wall and plate itself.

Volumes, surfaces, weights, lengths: 1e-6 relative; 5e-6 for an outline from a file, whose parallels
are cubics on our side (within 0.0001 mm) and splines at corners on the kernel's. Where its curved
sides meet in a corner, strips are reckoned with the corner's loss at one depth: 2e-5.
"""

from typing import Any

import pytest

from tests.oracle import kernel
from tests.oracle.cases import CLOSE, Case, cases, same_bodies

pytestmark = pytest.mark.oracle

LEAF = """<svg xmlns="http://www.w3.org/2000/svg" width="70mm" height="50mm" viewBox="0 0 70 50">
<path d="M5 25 C18 4 45 3 65 22 C52 44 24 48 5 25 Z"/></svg>"""
PEBBLE = """<svg xmlns="http://www.w3.org/2000/svg" width="70mm" height="50mm" viewBox="0 0 70 50">
<path d="M6 24 C6 12 20 5 35 5 C50 5 63 13 63 25 C63 38 48 44 33 44 C17 44 6 36 6 24 Z"/></svg>"""


def outline(**sizes: Any) -> dict[str, Any]:
    return {"sizes__outline": sizes}


HINGE = {
    "stock__hinge_tube": {"metal": "C26000", "outside_diameter": ["2.57"], "wall": ["0.41"]},
    "stock__hinge_pin": {"metal": "C26000", "diameter": ["1.71"]},
    "sizes__hinge": {"width": "23.3 mm", "knuckles": 3},
}
CASES = cases(
    "walled-box",
    oval=outline(shape="oval", length="61.3", width="42.7"),
    oval_rim=outline(shape="oval", length="57.2", width="33.9") | {"sizes__lid": "outer-rim"},
    sharp=outline(shape="rectangle", length="52.1", width="33.4")
    | {"sizes__lid": "cap", "sizes__plates": "let-in"},
    pentagon=outline(shape="polygon", sides=5, across_flats="43.9"),
    octagon_cap=outline(shape="polygon", sides=8, across_flats="61.7") | {"sizes__lid": "cap"},
    circle=outline(shape="circle", diameter="51.9") | {"sizes__lid": "outer-rim"},
    hinged=outline(shape="polygon", sides=6, across_flats="71.3")
    | {"sizes__lid": "hinged", "sizes__fit": None, "stock__ring_sheet": None}
    | HINGE,
    leaf=outline(shape="path", file=LEAF),
    pebble=outline(shape="path", file=PEBBLE) | {"sizes__plates": "let-in"},
    off_the_middle=outline(shape="oval", length="52.7", width="31.4")
    | {"sizes__neutral_line": "soft"},
    pebble_cap=outline(shape="path", file=PEBBLE) | {"sizes__lid": "cap"},
)
named = pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)


def near(case: Case) -> float:
    return 5e-6 if case.tables["sizes"]["outline"]["shape"] == "path" else CLOSE


def strips(case: Case) -> float:
    return 2e-5 if case.name == "leaf" or "A33" in str(case.tables) else near(case)


def faces(case: Case) -> dict[str, tuple[float, float]]:
    """Each strip's outer face, how far inside the outline it lies, and its sheet [mm]."""
    q = case.q
    found = {"wall_length": (0.0, q["wall_sheet_thickness"])}
    if "ring_length" in q:
        found["ring_length"] = (
            q["wall_sheet_thickness"] + q["lid_gap"] / 2, q["ring_thickness"],
        )  # fmt: skip
    if "rim_length" in q:
        found["rim_length"] = (-q["clearance"] / 2 - q["ring_thickness"], q["ring_thickness"])
    if "lid_wall_length" in q:
        sheet = q["wall_sheet_thickness"]
        found["lid_wall_length"] = (-q["clearance"] / 2 - sheet, sheet)
    return found


@named
def test_every_body(case: Case) -> None:
    # Seats of a hinge: the surface is a mesh's, within 0.005 mm.
    surfaces = 5e-5 if "hinge_width" in case.q else near(case)
    same_bodies(case, near(case), surfaces, near(case))


@named
def test_strips_are_the_neutral_line_s_length(case: Case) -> None:
    """The kernel's own parallel; at a scored corner, round the web that is left."""
    from build123d import Kind

    from tests.oracle.kernel_boxes import outline as drawn
    from tests.oracle.kernel_lines import parallel

    line = case.q.get("neutral_line", 0.5)  # from the inner face, in thicknesses
    face = drawn(case.q, case.tables["sizes"]["outline"])
    for id, (depth, thickness) in faces(case).items():
        if "score_web" in case.q:
            web, share = case.q["score_web"], float(case.tables["sizes"]["score_line"])
            corner = parallel(face, depth)
            bent = corner.fillet_2d(web, corner.vertices())
            found = bent.offset_2d(-web * (1 - share), Kind.INTERSECTION)
        else:
            found = parallel(face, depth + (1 - line) * thickness)
        assert case.q[id] == pytest.approx(kernel.length(*found.edges()), rel=strips(case)), id


@named
def test_blanks_hold_the_metal(case: Case) -> None:
    """Area x thickness: plates always, strips whose middle keeps its length."""
    q = case.q
    for part in case.plan.parts:
        plate = part.blank.form == "plate"
        if part.blank.form in ("tube", "rod") or (part.id == "wall" and "hinge_width" in q):
            continue
        if not plate and ("score_web" in q or "neutral_line" in case.tables["sizes"]):
            continue
        stock = next(s for s in case.plan.piece.stocks if s.id == part.stock)
        metal = part.blank.outline.area * stock.sizes["thickness"].value
        theirs = sum(kernel.volume(case.theirs[solid.body.id]) for solid in part.solids)
        assert metal == pytest.approx(theirs, rel=near(case) if plate else strips(case)), part.id


@named
def test_lengths_round_and_inside(case: Case) -> None:
    from tests.oracle.kernel_boxes import outline as drawn

    face = drawn(case.q, case.tables["sizes"]["outline"])
    around = kernel.length(*face.edges())
    assert case.q["outside_round"] == pytest.approx(around, rel=CLOSE)
    box = face.bounding_box().size
    base = next(part for part in case.plan.parts if part.id == "base").blank.outline
    if "let_in_depth" not in case.q:
        assert (base.width, base.height) == pytest.approx((box.X, box.Y), abs=1e-4)
