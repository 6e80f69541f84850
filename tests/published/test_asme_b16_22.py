"""ASME B16.22, Wrought copper solder-joint pressure fittings: the sockets.

Limits of the inside diameter for 1/4, 3/8, 1/2 and 3/4 were read (seen); 1 to 2 are from memory.
Cup depths: Copper Development Association, Copper Tube Handbook, Table 14.10 (seen).
Printed in inches and exact in the standard: the tolerance is the rounding of floats.
"""

import pytest

from hollowright.handbook.sources import source
from hollowright.handbook.tubes import sockets, tubes

SEEN = {"1/4": (0.377, 0.381), "3/8": (0.502, 0.506), "1/2": (0.627, 0.631), "3/4": (0.877, 0.881)}
MEMORY = {
    "1": (1.128, 1.132),
    "1-1/4": (1.378, 1.382),
    "1-1/2": (1.628, 1.633),
    "2": (2.128, 2.133),
}
DEPTHS = {"1/4": 0.310, "3/8": 0.380, "1/2": 0.500, "5/8": 0.620, "3/4": 0.750, "1": 0.910,
          "1-1/4": 0.970, "1-1/2": 1.090, "2": 1.340}  # fmt: skip
OURS = {socket.size: socket for socket in sockets() if socket.standard == "ASME B16.22"}


@pytest.mark.parametrize(("size", "limits"), (SEEN | MEMORY).items())
def test_limits_of_the_bore(size: str, limits: tuple[float, float]) -> None:
    assert OURS[size].low / 25.4 == pytest.approx(limits[0], abs=1e-9)
    assert OURS[size].high / 25.4 == pytest.approx(limits[1], abs=1e-9)
    assert source(OURS[size].source).status == ("seen" if size in SEEN else "memory")


@pytest.mark.parametrize(("size", "depth"), DEPTHS.items())
def test_depth_of_the_cup(size: str, depth: float) -> None:
    assert OURS[size].depth == pytest.approx(depth * 25.4, abs=1e-9)


def test_gap_round_a_half_inch_drawn_tube() -> None:
    # Worked out from the two standards: 0.627..0.631 less 0.624..0.626 is 0.001 to 0.007 in.
    tube = next(t for t in tubes() if t.standard == "ASTM B88 type L" and t.size == "1/2")
    socket = OURS["1/2"]
    narrow = (socket.low - (tube.outside + tube.tolerance)) / 25.4
    wide = (socket.high - (tube.outside - tube.tolerance)) / 25.4
    assert (narrow, wide) == (pytest.approx(0.001, abs=1e-9), pytest.approx(0.007, abs=1e-9))
