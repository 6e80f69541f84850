"""ASTM B258, Standard nominal diameters of AWG sizes of solid round wires.

Section 4: d = 0.005 in x 92^((36 - n) / 39), 4/0 = 0.4600 in and 36 = 0.0050 in exactly. The table
to four decimals was read in open copies (seen); Brown & Sharpe sheet uses the same numbers.
Sizes outside 0 to 30 come from the open library fluids 1.3.1 (fluids.piping), an independent table.
"""

import pytest

from hollowright.handbook.gauges import GAUGES, bs_inches

TABLE = {
    0: 0.3249, 1: 0.2893, 2: 0.2576, 3: 0.2294, 4: 0.2043, 5: 0.1819, 6: 0.1620, 7: 0.1443,
    8: 0.1285, 9: 0.1144, 10: 0.1019, 11: 0.0907, 12: 0.0808, 13: 0.0720, 14: 0.0641, 15: 0.0571,
    16: 0.0508, 17: 0.0453, 18: 0.0403, 19: 0.0359, 20: 0.0320, 21: 0.0285, 22: 0.0253, 23: 0.0226,
    24: 0.0201, 25: 0.0179, 26: 0.0159, 27: 0.0142, 28: 0.0126, 29: 0.0113, 30: 0.0100,
}  # fmt: skip


@pytest.mark.parametrize(("number", "inches"), TABLE.items())
def test_the_printed_table(number: int, inches: float) -> None:
    # Tolerance: half of the table's last digit (it prints four decimals).
    assert bs_inches(number) == pytest.approx(inches, abs=0.00005)
    assert GAUGES["bs"](str(number)) == pytest.approx(inches * 25.4, abs=0.00005 * 25.4)


def test_the_fixed_points() -> None:
    # Tolerance: rounding of floats only; these two sizes define the series.
    assert bs_inches(-3) == pytest.approx(0.4600, rel=1e-12)
    assert bs_inches(36) == pytest.approx(0.0050, rel=1e-12)
    # The step of the series as the standard prints it, seven decimals.
    assert bs_inches(7) / bs_inches(8) == pytest.approx(1.1229322, abs=5e-8)


def test_millimetres_of_20_gauge() -> None:
    # 0.03196 in = 0.8118 mm: half of the last printed digit.
    assert GAUGES["bs"]("20") == pytest.approx(0.8118, abs=0.00005)
    assert GAUGES["bs"]("14") == pytest.approx(1.6277, abs=0.00005)


def test_every_size_against_fluids() -> None:
    piping = pytest.importorskip("fluids.piping")
    table = dict(zip(piping.AWG_gauges, piping.AWG_inch, strict=True))
    thick = {0.33: "3/0", 0.25: "4/0", 0.5: "2/0", 0.2: "5/0", 0.167: "6/0"}
    sizes = {thick[key]: table[key] for key in thick}
    sizes |= {str(n): table[float(n)] for n in range(41)}
    for text, inches in sizes.items():
        # fluids prints four decimals, five from 31 on; its 38 (0.00396) is cut, not rounded, from
        # 0.003965: one unit of the last digit.
        last = 1e-5 if text.isdigit() and int(text) > 30 else 1e-4
        room = last if text == "38" else last / 2
        assert GAUGES["bs"](text) / 25.4 == pytest.approx(inches, abs=room * 1.001), text
