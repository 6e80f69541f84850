"""Measure cut lists of published instances: each proven optimal within its limit."""

from __future__ import annotations

import random
import sys
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from hollowright.plan.bars import BarRules
from hollowright.plan.cutlist import cut_list
from tests.plan.bar_cases import NO_LOSS, endless, plain
from tests.published.test_cutting_stock_ampl_book import WANTED as AMPL
from tests.published.test_cutting_stock_encyclopedia import ROLL
from tests.published.test_cutting_stock_encyclopedia import WANTED as CLASSIC
from tests.published.test_cutting_stock_triplets import triplets

LIMIT = 1.0
"""For each published instance [s]."""

SMALL = {8.0: 60, 11.3: 50, 9.1: 60, 25.4: 24, 31.75: 24}
"""Patterns by the million: small pieces in a bar of a metre."""


def uniform(count: int, seed: int) -> dict[float, int]:
    """Pieces of 20 to 100 for bins of 150, as Falkenauer's uniform class is made."""
    dice = random.Random(seed)
    return dict(Counter(float(dice.randint(20, 100)) for _ in range(count)))


def report() -> list[str]:
    """Print each instance's time, bars and bound; the names of those over the limit."""
    saw = BarRules(0.3, 0.3, 1.0, 20.0)
    cases = {
        "13 widths from rolls of 5,600 mm (encyclopedia)": (CLASSIC, ROLL, NO_LOSS, LIMIT),
        "5 widths from rolls of 110 (AMPL book)": (AMPL, 110.0, NO_LOSS, LIMIT),
        "60 pieces in triplets of 1,000 (made as Falkenauer's)": (
            triplets(20, 3), 1000.0, NO_LOSS, None,
        ),
        "120 pieces of 20 to 100, bins of 150 (made as Falkenauer's)": (
            uniform(120, 1), 150.0, NO_LOSS, None,
        ),
        "218 small pieces from 1,000 mm, saw and truing": (SMALL, 1000.0, saw, None),
    }  # fmt: skip
    over = []
    print("\ncut lists: seconds, bars, bound, proven")
    cut_list(plain({30.0: 2}), [endless(100.0)], NO_LOSS)  # the solver is loaded once
    for name, (wanted, long, rules, limit) in cases.items():
        begun = time.perf_counter()
        found = cut_list(plain(wanted), [endless(long)], rules, 30.0)
        taken = time.perf_counter() - begun
        told = f"limit {limit:.1f}" if limit else ""
        print(
            f"{name:<62}{taken:8.3f} {len(found.bars):4} {found.bound:9.4f} "
            f"{'yes' if found.proven else 'no':<4}{told}"
        )
        if limit and (taken > limit or not found.proven):
            over.append(name)
    return over


if __name__ == "__main__":
    if report():
        sys.exit(1)
