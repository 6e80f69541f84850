"""Cut lists: what fits a bar to the hair, square ends at no cost, impossible asks, prices."""

import pytest

from hollowright.plan.bars import Bar, BarRules
from hollowright.plan.cutlist import cut_list, least_bar
from hollowright.plan.sawing import arranged, fits, room, sawn
from tests.plan.bar_cases import NO_LOSS, bar, batch, endless, length, plain, run

RULES = BarRules(0.3, 0.4, 1.0, 20.0)


@pytest.mark.parametrize(
    ("square", "least"),
    [
        # Two pieces of 20: 40 net, one kerf between them 0.3; four ends less the square ones are
        # trued by 0.4; each end that isn't square is trimmed by 1. Worked by hand.
        (0, 40 + 0.3 + 4 * 0.4 + 2.0),
        (1, 40 + 0.3 + 3 * 0.4 + 1.0),
        (2, 40 + 0.3 + 2 * 0.4),
    ],
)
def test_what_fits_to_the_hair(square: int, least: float) -> None:
    pieces = [run(1, length("a", 20.0)), run(1, length("b", 20.0))]
    assert fits(bar(least, square), pieces, RULES)
    assert not fits(bar(least - 0.001, square), pieces, RULES)


def test_n_pieces_take_n_cuts_where_something_is_left() -> None:
    pieces = [run(1, length("a", 20.0)), run(1, length("b", 12.5))]
    found = sawn(bar(100.0, 1), pieces, RULES)
    # From the square end: 20.4, kerf, 13.3, kerf; the rest has the end that isn't square.
    assert [(p.start, p.end) for p in found.pieces] == [
        (0.0, pytest.approx(20.4)), (pytest.approx(20.7), pytest.approx(34.0)),
    ]  # fmt: skip
    assert found.rest_at == pytest.approx(34.3)
    assert found.rest == pytest.approx(65.7)
    assert found.lost == pytest.approx(0.6)
    assert (found.kept, found.rest_square) == (True, 0)


def test_what_is_left_keeps_the_second_square_end_that_nobody_wants() -> None:
    found = sawn(bar(100.0, 2), [run(1, length("a", 20.0))], RULES)
    assert (found.pieces[0].low_square, found.rest_square) == (True, 1)


def test_two_that_want_a_square_end_are_sawn_from_both() -> None:
    pieces = [run(1, length("a", 20.0, 1)), run(1, length("b", 12.5, 1))]
    the_bar = bar(100.0, 2)
    found = sawn(the_bar, arranged(pieces, the_bar), RULES)
    assert [(p.low_square, p.high_square) for p in found.pieces] == [(True, False), (False, True)]
    assert found.pieces[1].end == 100.0
    # 100 - 20.4 - 12.9 between them, a cut on each side.
    assert found.rest == pytest.approx(66.1)


def test_a_run_lies_side_by_side_with_its_square_end_outside() -> None:
    lid, body = length("lid", 15.0, 1), length("body", 36.0, 1)
    found = cut_list(batch(run(2, lid, body)), [bar(200.0, 2)], RULES)
    (the_bar,) = found.bars
    assert [piece.length for piece in the_bar.pieces] in (
        ["lid", "body", "lid", "body"], ["body", "lid", "body", "lid"],
        ["lid", "body", "body", "lid"], ["body", "lid", "lid", "body"],
    )  # fmt: skip
    first, second, third, fourth = the_bar.pieces
    assert (first.run, second.run, third.run, fourth.run) == (0, 0, 1, 1)
    assert second.start - first.end == pytest.approx(0.3)
    assert fourth.start - third.end == pytest.approx(0.3)
    assert (found.square_asked, found.square_given) == (4, 2)


def test_a_class_of_twelve_takes_no_twelve_bars() -> None:
    """Trade note 36: 24 ends that want to be square, 0.6 m of tube: one bar, not twelve."""
    lid, body = length("lid", 17.0, 1), length("body", 29.0, 1)
    found = cut_list(batch(run(12, lid), run(12, body)), [endless(600.0), endless(1000.0)], RULES)
    assert [each.bar.length for each in found.bars] == [600.0]
    assert found.square_given == 2
    assert found.proven


def test_square_ends_are_given_where_they_cost_nothing() -> None:
    wants, other = length("wants", 30.0, 1), length("other", 31.0)
    found = cut_list(batch(run(4, wants), run(4, other)), [bar(140.0, 2, 2)], RULES)
    assert len(found.bars) == 2
    assert (found.square_asked, found.square_given) == (4, 4)


def test_the_drawer_before_what_is_bought() -> None:
    found = cut_list(plain({40.0: 3}), [bar(130.0, 2), endless(1000.0)], NO_LOSS)
    assert [each.bar.origin for each in found.bars] == ["drawer"]
    assert found.bound_text.startswith("Nothing to buy.")


def test_the_cheapest_where_all_are_priced_else_the_fewest() -> None:
    short, long = bar(100.0, 2, None, 4.0, True), bar(250.0, 2, None, 9.0, True)
    priced = cut_list(plain({45.0: 4}), [short, long], NO_LOSS)
    assert (len(priced.bars), priced.cost) == (2, 8.0)
    assert "8.00 to buy, the least there is" in priced.bound_text
    unpriced = [endless(100.0), endless(250.0)]
    assert [each.bar.length for each in cut_list(plain({45.0: 4}), unpriced, NO_LOSS).bars] == [250]
    assert [each.bar.length for each in cut_list(plain({45.0: 2}), unpriced, NO_LOSS).bars] == [100]


def test_a_kept_offcut_is_no_waste() -> None:
    """50, 30, 30 from two bars of 100, kept from 30 on: 50 alone leaves 50, 30 + 30 leave 40."""
    found = cut_list(plain({50.0: 1, 30.0: 2}), [bar(100.0, 2, 2)], BarRules(0, 0, 0, 30.0))
    assert sorted(each.rest for each in found.bars) == pytest.approx([40.0, 50.0])
    assert found.waste == pytest.approx(0.0)  # 50 + 30 would leave 20, too short to keep
    assert found.proven_waste


def test_a_piece_longer_than_any_bar_is_named_and_the_rest_is_listed() -> None:
    found = cut_list(plain({340.0: 2, 40.0: 3}), [bar(300.0, 1)], RULES)
    (lost,) = found.missing
    assert (lost.flat, lost.count) == ("340", 2)
    assert "sawn 340.80 mm long" in lost.why
    assert "longest bar is 300.00 mm" in lost.why
    # Both ends trimmed and trued: 340 + 2 x 0.4 + 2 x 1.
    assert "from 342.8 mm on" in lost.remedy
    assert [len(each.pieces) for each in found.bars] == [3]


def test_no_bar_of_that_metal_and_section() -> None:
    found = cut_list(plain({40.0: 3}), [], RULES)
    (lost,) = found.missing
    assert "there is no tube of" in lost.why
    assert "34.93" in lost.remedy
    assert found.bars == ()


def test_what_the_drawer_has_no_more_room_for() -> None:
    found = cut_list(plain({40.0: 5}), [bar(100.0, 2), bar(50.0, 2)], NO_LOSS)
    (lost,) = found.missing
    assert (lost.flat, lost.count) == ("40", 2)
    assert sum(len(each.pieces) for each in found.bars) == 3
    assert found.proven


def test_halves_that_no_bar_holds_together_are_sawn_apart_and_said() -> None:
    lid, body = length("lid", 50.0, 1), length("body", 60.0, 1)
    found = cut_list(batch(run(1, lid, body)), [bar(70.0, 2, 2)], RULES)
    assert len(found.bars) == 2
    assert [caution.id for caution in found.cautions] == ["sawn_apart"]
    assert found.missing == ()


def test_an_exact_length_needs_no_saw() -> None:
    found = cut_list(plain({100.0: 1}), [bar(100.0, 2)], RULES)
    (piece,) = found.bars[0].pieces
    assert (piece.long, piece.low_square, piece.high_square) == (100.0, True, True)


def test_a_third_of_a_millimetre_thirty_times_fits_ten() -> None:
    found = cut_list(plain({10.0 / 3.0: 3}), [bar(10.0, 2)], NO_LOSS)
    assert len(found.bars) == 1
    assert found.missing == ()


def test_the_shortest_bar_said_is_the_shortest_that_does() -> None:
    one = run(1, length("a", 33.3))
    assert fits(bar(least_bar(one, RULES), 0), [one], RULES)
    assert not fits(bar(least_bar(one, RULES) - 0.01, 0), [one], RULES)


def test_no_time_still_lists_every_piece() -> None:
    wanted = {15.1: 12, 35.6: 12, 22.2: 5}
    bars = [bar(180.0, 2), endless(500.0), endless(1000.0)]
    found = cut_list(plain(wanted), bars, RULES, seconds=1e-9)
    cut = [piece.length for each in found.bars for piece in each.pieces]
    assert {size: cut.count(f"{size:g}") for size in wanted} == wanted


def test_the_same_list_every_time() -> None:
    bars = [bar(180.0, 2), endless(500.0), endless(1000.0)]
    wanted = plain({15.1: 12, 35.6: 12, 22.2: 5})
    first, second = (cut_list(wanted, bars, RULES) for _ in range(2))
    assert first.bars == second.bars


def test_many_small_pieces_in_long_bars_still_meet_the_bound() -> None:
    """Patterns by the million: column generation finds and proves it."""
    wanted = plain({8.0: 60, 11.3: 50, 9.1: 60, 25.4: 24, 31.75: 24})
    found = cut_list(wanted, [endless(1000.0)], RULES, seconds=60)
    assert found.proven
    assert len(found.bars) == 4


def test_a_bar_in_hand_serves_whole_as_its_plan_says() -> None:
    # Its ends are trued like any sawn end; another bar with raw ends is trimmed by 1 at each.
    rules = BarRules(0.3, 0.4, 1.0, 20.0)
    hand = Bar("h", "", "in hand", "tube", "C26000", {}, 100.0)
    drawer = Bar("d", "", "drawer", "tube", "C26000", {}, 100.0)
    assert (hand.trimmed_ends, drawer.trimmed_ends) == (0, 2)
    assert room(hand, rules) - room(drawer, rules) == pytest.approx(2.0)
    assert room(hand, rules) == pytest.approx(100.0 + 0.3)


def test_a_class_of_twelve_elbows_is_proven_at_once() -> None:
    """A bar in hand and one bought: all ways are weighed, none loses less than the saw takes."""
    hand = Bar("h", "", "in hand", "tube", "C26000", {}, 160.0)
    wanted = batch(*(run(12, length(name, net, 1)) for name, net in (
        ("leg", 36.428), ("middle", 21.365), ("last", 23.928)
    )))  # fmt: skip
    bars = [hand, endless(500.0), endless(1000.0), endless(2000.0)]
    found = cut_list(wanted, bars, BarRules(0.3, 0.3, 1.0, 20.0), seconds=60)
    assert [each.bar.length for each in found.bars] == [160.0, 1000.0]
    assert (found.proven, found.proven_waste, found.square_given) == (True, True, 2)
    # A cut after each of the 36 pieces but the last, which ends at the bar's own second end, and
    # one more beside what is left: 36 cuts, and nothing that is too short to keep.
    assert found.waste == pytest.approx(36 * 0.3)
    assert found.seconds < 3


def test_one_bar_that_holds_all_is_proven_at_once() -> None:
    """Many patterns, but only one way to cut one bar; the shortest that does is taken."""
    wanted = plain({6.9: 120, 7.3: 60, 8.8: 60, 9.4: 40})
    bars = [bar(107.1, 0), endless(2000.0), endless(2500.0), endless(3000.0)]
    found = cut_list(wanted, bars, NO_LOSS, seconds=60)
    assert [each.bar.length for each in found.bars] == [2500.0]
    assert (found.proven, found.proven_waste) == (True, True)
