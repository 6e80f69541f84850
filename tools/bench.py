"""Measure the speed that the project promises: medians, each beside its limit.

Commands are timed cold, one after the other in turn, so that a busy machine slows all alike. Exit
code 1 when a limit is passed. Usage: ``bench.py [rounds]``.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

PYTHON = sys.executable
COMMAND = str(Path(PYTHON).with_name("hollowright"))
NUMPY = "python -c 'import numpy'"
PLAN = "hollowright plan FILE --json"
COLD = {
    "python -c pass": [PYTHON, "-c", "pass"],
    NUMPY: [PYTHON, "-c", "import numpy"],
    PLAN: [COMMAND, "plan", "box.toml", "--json"],
    "hollowright plan FILE --out DIR": [COMMAND, "plan", "box.toml", "--out", "out"],
}


def example(folder: Path) -> None:
    """Write the example piece file that the command line itself gives."""
    done = subprocess.run([COMMAND, "designs", "tube-box"], check=True, capture_output=True)
    (folder / "box.toml").write_bytes(done.stdout)


def milliseconds(command: list[str], folder: Path) -> float:
    """Wall time of one run of a command [ms]."""
    begun = time.perf_counter()
    subprocess.run(command, cwd=folder, check=True, stdout=subprocess.DEVNULL)
    return 1000 * (time.perf_counter() - begun)


def cold(rounds: int) -> dict[str, float]:
    """Median time of each cold command [ms]; a first round, not counted, fills the disk's cache."""
    times: dict[str, list[float]] = {name: [] for name in COLD}
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        example(folder)
        for turn in range(rounds + 1):
            for what, command in COLD.items():
                taken = milliseconds(command, folder)
                times[what] += [taken] if turn else []
    return {what: statistics.median(taken) for what, taken in times.items()}


def main() -> None:
    """Print the table; fail when a limit is passed."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 9
    medians = cold(rounds)
    limits = {PLAN: 3 * medians[NUMPY]}
    print(f"medians of {rounds}, Python {sys.version.split()[0]}")
    for what, median in medians.items():
        limit = f"limit {limits[what]:7.1f}" if what in limits else ""
        print(f"{what:<40}{median:9.1f} ms   {limit}".rstrip())
    over = [what for what, limit in limits.items() if medians[what] > limit]
    if over:
        sys.exit("Over the limit: " + ", ".join(over))


if __name__ == "__main__":
    main()
