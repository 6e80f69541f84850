"""Birmingham or Stubs iron wire gauge (BWG), by which walls of tube are sold.

Machinery's Handbook, 31st edition, wire and sheet gauges (memory), against the open library fluids
1.3.1, fluids.piping BWG_inch (seen), an independent table. Fixed in inches: the tolerance is the
rounding of floats.
"""

import pytest

from hollowright.handbook.gauges import GAUGES


def inches(text: str) -> float:
    return GAUGES["bwg"](text) / 25.4


@pytest.mark.parametrize(
    ("text", "size"),
    [("4/0", 0.454), ("0", 0.340), ("10", 0.134), ("14", 0.083), ("16", 0.065), ("18", 0.049),
     ("20", 0.035), ("22", 0.028), ("36", 0.004)],
)  # fmt: skip
def test_sizes_from_memory(text: str, size: float) -> None:
    assert inches(text) == pytest.approx(size, rel=1e-12)


def test_every_size_against_fluids() -> None:
    piping = pytest.importorskip("fluids.piping")
    table = dict(zip(piping.BWG_gauges, piping.BWG_inch, strict=True))
    thick = {0.25: "4/0", 0.33: "3/0", 0.5: "2/0"}
    sizes = {thick.get(key) or str(int(key)): size for key, size in table.items() if key != 0.2}
    assert len(sizes) == 40
    for text, size in sizes.items():
        assert inches(text) == pytest.approx(size, rel=1e-12), text
