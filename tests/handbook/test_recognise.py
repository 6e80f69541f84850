"""A reading is recognised for what it is, and for nothing it isn't."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hollowright.errors import InputError
from hollowright.handbook.gauges import gauges
from hollowright.handbook.recognise import (
    describe_thickness,
    describe_tube,
    recognise_thickness,
    recognise_tube,
)
from hollowright.handbook.tubes import sockets, tubes


def test_the_issue_s_example() -> None:
    assert describe_thickness(0.82) == "20 ga B&S (0.812), 0.8 mm"


@pytest.mark.parametrize("gauge", gauges("bs")[10:36], ids=lambda gauge: gauge.name)
def test_true_sheet_is_recognised(gauge) -> None:
    for off in (-0.02, 0, 0.02):
        reading = gauge.mm * (1 + off)
        matches = recognise_thickness(reading, tables=("bs",))
        assert matches[0].name == gauge.name
        assert matches[0].difference == pytest.approx(reading - gauge.mm)
        assert gauge.name in describe_thickness(reading)


@given(st.floats(0.2, 5))
def test_one_gauge_at_most_is_named(reading: float) -> None:
    """3 % can't reach two neighbours of a table that steps by 12 %."""
    assert describe_thickness(reading).count("ga B&S") <= 1


@given(st.floats(0.05, 5), st.floats(0, 0.1))
def test_nearest_first(reading: float, doubt: float) -> None:
    matches = recognise_thickness(reading, doubt, limit=10)
    offs = [max(abs(match.difference) - doubt, 0) for match in matches]
    assert offs == sorted(offs)
    assert matches[0].nominal + matches[0].difference == pytest.approx(reading)


def test_swg_speaks_when_nothing_else_is_near() -> None:
    assert describe_thickness(4.45) == "7 SWG (4.470)"
    assert describe_thickness(1.75) == "1.8 mm"
    assert describe_thickness(2.33) == "11 ga B&S (2.305)"


def test_sheet_that_is_none_says_so_and_how_far_off_it_is() -> None:
    assert describe_thickness(0.86) == "no standard sheet; nearest 0.9 mm, 0.04 under"
    assert describe_thickness(2.74) == "no standard sheet; nearest 10 ga B&S (2.588), 0.15 over"


def test_doubt_widens_what_is_named() -> None:
    assert describe_thickness(0.86, doubt=0.05) == "20 ga B&S (0.812), 0.9 mm"
    assert describe_thickness(0.86, doubt=0.04) == "0.9 mm"


@pytest.mark.parametrize("tube", tubes(), ids=lambda tube: tube.name)
def test_every_standard_tube_is_recognised(tube) -> None:
    for doubt in (0.0, 0.02):
        first = recognise_tube(tube.outside, tube.wall, doubt=doubt)[0]
        assert first.fits
        assert first.distance == pytest.approx(0, abs=1e-9)
        assert tube.name in describe_tube(tube.outside, tube.wall, doubt=doubt)
    assert recognise_tube(tube.outside, bore=tube.bore)[0].wall_off == pytest.approx(0, abs=1e-9)
    assert recognise_tube(wall=tube.wall, bore=tube.bore)[0].outside_off == pytest.approx(
        0, abs=1e-9
    )


def test_nothing_near_says_so_and_how_far() -> None:
    assert describe_tube(38.05, 1.01) == (
        "no standard tube is near; nearest: EN 1057 35 x 1.0 mm (outside 3.05 over, wall 0.01 over)"
    )
    assert not any(match.fits for match in recognise_tube(38.05, 1.01))


def test_near_but_not_it() -> None:
    assert describe_tube(41.5, 1.2) == (
        "nearest: ASTM B88 type M 1-1/2 in (outside 0.23 over, wall 0.04 under)"
    )
    assert describe_tube(41.95, 1.21, doubt=0.02) == (
        "EN 1057 42 x 1.2 mm (UK table X) (outside 0.05 under, wall 0.01 over)"
    )


@pytest.mark.parametrize("socket", sockets(), ids=lambda socket: socket.name)
def test_a_fitting_s_bore_is_recognised(socket) -> None:
    middle = (socket.low + socket.high) / 2
    found = recognise_tube(bore=middle, doubt=0.0)
    assert socket.name in {match.name for match in found if match.kind == "socket"}
    assert f"socket of a solder fitting, {socket.name} (bore within its limits)" in describe_tube(
        bore=middle, doubt=0.0
    )
    away = recognise_tube(bore=socket.high + 0.2, doubt=0.0)
    assert socket.name not in {match.name for match in away if match.kind == "socket"}


def test_water_tube_tables_are_copper_only() -> None:
    for name in ("brass", "sterling"):
        matches = recognise_tube(15.0, 1.0, metal=name)
        assert not any(match.fits for match in matches if match.kind == "tube")
        assert all("for copper" in match.caution for match in matches if match.kind == "tube")
        assert "water-tube standards are for copper" in describe_tube(15.0, 1.0, metal=name)
    assert recognise_tube(15.0, 1.0, metal="copper")[0].fits
    assert "for copper" not in describe_tube(15.0, 1.0, metal="C12200")


def test_brass_tube_is_told_in_its_own_sizes() -> None:
    line = describe_tube(38.05, 1.25, metal="brass")
    assert "outside 1-1/2 in (38.10) or 38 mm" in line
    assert "18 BWG (1.245)" in line


@pytest.mark.parametrize(
    "readings", [{}, {"wall": 1.0}, {"outside": 0.0}, {"outside": -3}, {"bore": float("nan")}]
)
def test_readings_that_can_t_be(readings: dict[str, float]) -> None:
    with pytest.raises(InputError):
        recognise_tube(**readings)


@given(
    st.floats(0.01, 500), st.one_of(st.none(), st.floats(0.01, 300)),
    st.one_of(st.none(), st.floats(0.01, 500)), st.sampled_from([None, "brass", "copper"]),
)  # fmt: skip
def test_any_readings_give_a_line(outside, wall, bore, metal) -> None:
    line = describe_tube(outside, wall, bore, metal=metal)
    assert "nan" not in line
    assert "None" not in line
    assert "\n" not in line
