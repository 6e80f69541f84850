"""BS 3737:1964 (withdrawn), Imperial standard wire gauge: SWG (Order in Council, 1883).

Numbers 0 to 30 and the steps of 30 to 39 were read (seen). The other sizes are compared with the
open library fluids 1.3.1, whose British table is BSWG; its 'SWG' is the American steel wire gauge.
A table fixed in inches is exact: the tolerance is the rounding of floats.
"""

from itertools import pairwise

import pytest

from hollowright.handbook.gauges import GAUGES

TABLE = {
    0: 0.324, 1: 0.300, 2: 0.276, 3: 0.252, 4: 0.232, 5: 0.212, 6: 0.192, 7: 0.176, 8: 0.160,
    9: 0.144, 10: 0.128, 11: 0.116, 12: 0.104, 13: 0.092, 14: 0.080, 15: 0.072, 16: 0.064,
    17: 0.056, 18: 0.048, 19: 0.040, 20: 0.036, 21: 0.032, 22: 0.028, 23: 0.024, 24: 0.022,
    25: 0.020, 26: 0.018, 27: 0.0164, 28: 0.0149, 29: 0.0136, 30: 0.0124,
}  # fmt: skip


def inches(text: str) -> float:
    return GAUGES["swg"](text) / 25.4


@pytest.mark.parametrize(("number", "size"), TABLE.items())
def test_the_printed_table(number: int, size: float) -> None:
    assert inches(str(number)) == pytest.approx(size, rel=1e-12)


def test_the_anchors() -> None:
    assert inches("7/0") == pytest.approx(0.500, rel=1e-12)
    assert inches("1") == pytest.approx(0.300, rel=1e-12)
    assert inches("50") == pytest.approx(0.001, rel=1e-12)


def test_the_step_from_30_to_39() -> None:
    for thick, thin in pairwise(range(30, 40)):
        assert inches(str(thick)) - inches(str(thin)) == pytest.approx(0.0008, abs=1e-12)


def test_millimetres() -> None:
    # Half of the last printed digit.
    assert GAUGES["swg"]("18") == pytest.approx(1.2192, abs=0.00005)
    assert GAUGES["swg"]("27") == pytest.approx(0.4166, abs=0.00005)


def test_every_size_against_fluids() -> None:
    piping = pytest.importorskip("fluids.piping")
    table = dict(zip(piping.BSWG_gauges, piping.BSWG_inch, strict=True))
    thick = {0.143: "7/0", 0.167: "6/0", 0.2: "5/0", 0.25: "4/0", 0.33: "3/0", 0.5: "2/0"}
    assert len(table) == 57
    for key, size in table.items():
        assert inches(thick.get(key) or str(int(key))) == pytest.approx(size, rel=1e-12)


def test_it_is_not_the_american_steel_wire_gauge() -> None:
    assert inches("18") == pytest.approx(0.0480, rel=1e-12)
    assert inches("18") != pytest.approx(0.0475, abs=1e-4)
