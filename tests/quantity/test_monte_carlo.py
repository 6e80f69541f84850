"""Monte Carlo re-evaluates the same graph: vectorised against one draw at a time, seeded."""

from __future__ import annotations

import numpy as np
import pytest

from hollowright.formulas import ring, tube
from hollowright.quantity import normal, rectangular, root, student
from hollowright.quantity.choices import choose
from hollowright.quantity.evaluate import ancestry, evaluate
from hollowright.quantity.montecarlo import simulate


def graph():
    outside = root("outside", "", "mm", 38.05, rectangular(0.02))
    wall = root("wall", "", "mm", 1.01, normal(0.01))
    thick = root("thick", "", "mm", 0.64, student(0.004, 5))
    bore = tube.bore(outside, wall)
    return (outside, wall, thick), ring.length(ring.outside(bore, 0.03), thick)


def test_vectorised_is_one_by_one() -> None:
    roots, length = graph()
    drawn = simulate([length], 200)
    order = ancestry([length])
    for k in range(200):
        alone = evaluate(order, {each: float(drawn[each][k]) for each in roots})
        assert float(drawn[length][k]) == pytest.approx(alone[length], rel=1e-14)


def test_mean_and_spread_agree_with_the_law() -> None:
    _, length = graph()
    drawn = simulate([length], 200_000)[length]
    # Standard error of the mean u / 447; of the spread 0.16 %.
    assert float(drawn.mean()) == pytest.approx(length.value, abs=4 * length.uncertainty / 447)
    assert float(drawn.std()) == pytest.approx(length.uncertainty, rel=0.01)


def test_the_same_seed_draws_the_same() -> None:
    _, length = graph()
    one, again = simulate([length], 50)[length], simulate([length], 50)[length]
    assert np.array_equal(one, again)
    assert not np.array_equal(one, simulate([length], 50, seed=1)[length])


def test_what_has_no_doubt_is_a_number() -> None:
    made = ring.outside(root("bore", "", "mm", 36.0, normal(0.0)), 0.03)
    assert simulate([made], 10)[made] == pytest.approx(35.97)


def test_a_decision_stays_put() -> None:
    _, length = graph()
    marked = length.decided("marked", "strip as marked")
    assert marked.uncertainty == 0.0
    assert simulate([marked], 10)[marked] == length.value


def test_evaluate_with_a_variant() -> None:
    _, length = graph()
    order = ancestry([length])
    bore = next(node for node in order if node.id == "bore")
    once = evaluate(order, {}, {bore: lambda outside, wall: outside - wall})[length]
    assert once - length.value == pytest.approx(np.pi * 1.01)


def test_choice_could_flip() -> None:
    a = root("a", "a", "mm", 10.00, normal(0.05))
    b = root("b", "b", "mm", 10.02, normal(0.05))
    taken, record = choose("big", "the big one", {"a": a, "b": b}, "largest")
    assert (taken.value, record.taken) == (10.02, "b")
    assert record.margin == pytest.approx(0.02)
    assert record.doubt == pytest.approx(0.05 * 2**0.5)
    assert record.could_flip
    assert "flip" in record.cautions()[0].text
    clear, sure = choose("small", "the small one", {"a": a, "b": b + 1.0}, "smallest")
    assert clear.value == 10.00
    assert not sure.could_flip
    assert sure.cautions() == ()


def test_a_choice_among_what_is_shared_has_no_doubt() -> None:
    a = root("a", "a", "mm", 10.00, normal(0.05))
    _, record = choose("x", "x", {"a": a, "more": a + 0.01}, "largest")
    assert record.doubt == 0.0
    assert not record.could_flip
