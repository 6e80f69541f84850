"""Triplets after Falkenauer, J. Heuristics 2 (1996) 5-30: three pieces fill each bin to the last.

The published files aren't at hand. The instances here are made as the paper says: a bin is parted
at random in three, 380 to 490 the first, at least 250 each of the others of 1,000 (from memory), so
that the least is a third of the pieces by construction, and no bin has any waste.
"""

import random
from collections import Counter

import pytest

from hollowright.plan.cutlist import cut_list
from tests.plan.bar_cases import NO_LOSS, endless, plain


def triplets(bins: int, seed: int) -> dict[float, int]:
    dice = random.Random(seed)
    pieces: list[float] = []
    for _ in range(bins):
        first = dice.randint(380, 490)
        second = dice.randint(250, (1000 - first) // 2)
        pieces += [float(first), float(second), float(1000 - first - second)]
    return dict(Counter(pieces))


@pytest.mark.parametrize(("bins", "seed"), [(10, 1), (10, 2), (20, 3), (20, 4)])
def test_a_third_of_the_pieces(bins: int, seed: int) -> None:
    found = cut_list(plain(triplets(bins, seed)), [endless(1000.0)], NO_LOSS, seconds=60)
    assert (len(found.bars), found.proven) == (bins, True)
    assert found.waste == pytest.approx(0.0, abs=1e-6)
    assert found.bound == pytest.approx(bins, abs=1e-6)  # the material alone fills them
