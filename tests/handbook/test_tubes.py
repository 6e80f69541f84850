"""The tube and socket tables make sense: consistent, in order, within physical limits."""

import pytest

from hollowright.handbook.metals import metal
from hollowright.handbook.tubes import Socket, StandardTube, sockets, tubes

STANDARDS = sorted({tube.standard for tube in tubes()})


def of(standard: str) -> list[StandardTube]:
    return [tube for tube in tubes() if tube.standard == standard]


@pytest.mark.parametrize("tube", tubes(), ids=lambda tube: tube.name)
def test_a_tube_is_consistent(tube: StandardTube) -> None:
    assert 0 < 2 * tube.wall < tube.outside
    assert tube.bore == pytest.approx(tube.outside - 2 * tube.wall)
    if tube.printed_bore is not None:
        assert tube.printed_bore == pytest.approx(tube.bore, abs=1e-9)
    assert 0 < tube.tolerance < tube.outside / 50
    assert tube.tolerance <= tube.widest_tolerance < 0.25
    assert 0.05 <= tube.wall_tolerance / tube.wall <= 0.16
    for each in tube.metals:
        assert metal(each).id == each


def test_the_tables_asked_for_are_there() -> None:
    assert STANDARDS == ["ASTM B88 type K", "ASTM B88 type L", "ASTM B88 type M", "EN 1057"]
    assert {tube.uk_table for tube in of("EN 1057")} == {"", "X", "Y"}


@pytest.mark.parametrize("standard", STANDARDS)
def test_a_table_runs_from_small_to_large(standard: str) -> None:
    sizes = [(tube.outside, tube.wall) for tube in of(standard)]
    assert sizes == sorted(set(sizes))
    weights = [tube.grams_per_metre(8.94) for tube in of(standard)]
    assert min(weights) > 50
    assert max(weights) < 10_000


def test_type_k_is_thicker_than_l_and_l_than_m() -> None:
    walls = {t: {each.size: each.wall for each in of(f"ASTM B88 type {t}")} for t in "KLM"}
    for size, wall in walls["L"].items():
        assert walls["K"][size] > wall
        assert size not in walls["M"] or walls["M"][size] < wall


def test_table_x_is_thinner_than_table_y() -> None:
    thin = {each.outside: each.wall for each in of("EN 1057") if each.uk_table == "X"}
    thick = {each.outside: each.wall for each in of("EN 1057") if each.uk_table == "Y"}
    assert set(thin) == set(thick)
    assert all(thin[outside] < thick[outside] for outside in thin)


def test_an_en_size_is_its_own_name() -> None:
    for tube in of("EN 1057"):
        outside, wall = tube.size.split(" x ")
        assert (float(outside), float(wall)) == (tube.outside, tube.wall)


@pytest.mark.parametrize("socket", sockets(), ids=lambda socket: socket.name)
def test_a_socket_takes_its_tube(socket: Socket) -> None:
    assert socket.tube_outside < socket.low < socket.high < socket.tube_outside + 0.4
    assert socket.depth is None or 0.3 * socket.tube_outside < socket.depth < 40
    drawn = [tube for tube in tubes() if abs(tube.outside - socket.tube_outside) < 1e-9]
    assert drawn, "no tube of that outside"
    assert all(tube.outside + tube.tolerance < socket.low for tube in drawn)


def test_sockets_run_from_small_to_large() -> None:
    for standard in {socket.standard for socket in sockets()}:
        lows = [socket.low for socket in sockets() if socket.standard == standard]
        assert lows == sorted(set(lows))
