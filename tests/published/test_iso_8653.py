"""ISO 8653, ring sizes: the size is the inside circumference in mm, clause 3; its table's rows.

Table of inside diameters as printed in open copies of the standard's tables, to 0.1 mm. The row of
41 prints 13.0 where 41 / pi is 13.051, so the printed rows may be a whole last digit off; the rest
are rounded.
"""

import pytest

from hollowright.errors import InputError
from hollowright.handbook.ring_sizes import ring_size


@pytest.mark.parametrize(
    ("size", "printed", "near"),
    [
        (41, 13.0, 0.1), (49, 15.6, 0.05), (50, 15.9, 0.05), (52, 16.6, 0.05), (54, 17.2, 0.05),
        (60, 19.1, 0.05), (72, 22.9, 0.05),
    ],
)  # fmt: skip
def test_inside_diameters(size: int, printed: float, near: float) -> None:
    # Half of the last digit printed, and a whole one for the first row.
    made = ring_size(f"ISO {size}")
    assert made.diameter == pytest.approx(printed, abs=near)
    assert made.circumference == pytest.approx(size, abs=1e-12)


def test_the_ring_stick_s_range() -> None:
    # 41 to 76 on the stick: both ends are sizes, one beyond is none.
    assert ring_size("ISO 41").circumference < ring_size("ISO 76").circumference
    for size in ("ISO 40", "ISO 77"):
        with pytest.raises(InputError, match="ISO 41 to ISO 76"):
            ring_size(size)
