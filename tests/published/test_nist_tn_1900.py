"""NIST Technical Note 1900 (2015), example E13: thermal expansion coefficient of a copper bar.

a = (L1 - L0) / (L0 (T1 - T0)); the inputs and the result were seen: 1.727e-5 per K, u 1.8e-6.
"""

from typing import Any

import pytest

from hollowright.quantity import formula, normal, root


@formula("expansion", "1/K")
def expansion(l0: Any, l1: Any, t0: Any, t1: Any) -> Any:
    """Coefficient of linear expansion."""
    return (l1 - l0) / (l0 * (t1 - t0))


def test_copper_bar() -> None:
    a = expansion(
        root("l0", "", "m", 1.4999, normal(0.0001)),
        root("l1", "", "m", 1.5021, normal(0.0002)),
        root("t0", "", "K", 288.15, normal(0.02)),
        root("t1", "", "K", 373.10, normal(0.05)),
    )
    # Half of the last printed digit each.
    assert a.value * 1e5 == pytest.approx(1.727, abs=0.0005)
    assert a.uncertainty * 1e6 == pytest.approx(1.8, abs=0.05)
