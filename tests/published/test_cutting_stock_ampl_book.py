"""The roll trim example of Fourer, Gay and Kernighan, AMPL (the book), ch. 15 (memory).

Rolls 110 wide; 48 of 20, 35 of 45, 24 of 50, 10 of 55, 8 of 75. The linear programme needs 46.25
rolls, rounding its answer up gives 50, the least is 47. Figures from memory, solved again since.
"""

import pytest

from hollowright.plan.cutlist import cut_list
from tests.plan.bar_cases import NO_LOSS, endless, plain

WANTED = {20.0: 48, 45.0: 35, 50.0: 24, 55.0: 10, 75.0: 8}


def test_47_rolls() -> None:
    found = cut_list(plain(WANTED), [endless(110.0)], NO_LOSS)
    assert len(found.bars) == 47
    assert found.proven
    assert found.bought_bound == pytest.approx(46.25, abs=1e-9)  # a fraction of quarters: exact
    assert found.seconds < 60
