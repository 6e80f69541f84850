"""Measure the speed that the project promises: medians, each beside its limit.

Commands are timed cold, one after the other in turn, so that a busy machine slows all alike; then
the same work is timed warm, inside one process. Exit code 1 when a limit is passed. Usage:
``bench.py [rounds]``.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

import bench_cutlist
import bench_designs
import bench_layout
import bench_nesting
import bench_store

PYTHON = sys.executable
COMMAND = str(Path(PYTHON).with_name("hollowright"))
NUMPY = "python -c 'import numpy'"
PLAN = "hollowright plan FILE --json"
CARD = "the bench card (PDF) alone"
CARD_CODE = """
from hollowright.job.job import plan_file
from hollowright.output.files import card_pdf
open("card.pdf", "wb").write(card_pdf(plan_file("box.toml"), "a4"))
"""
COLD = {
    "python -c pass": [PYTHON, "-c", "pass"],
    NUMPY: [PYTHON, "-c", "import numpy"],
    PLAN: [COMMAND, "plan", "box.toml", "--json"],
    CARD: [PYTHON, "-c", CARD_CODE],
    "hollowright plan FILE --out DIR": [COMMAND, "plan", "box.toml", "--out", "out"],
}
PLAN_WARM = "plan() of the demo piece"
SAMPLES = "Monte Carlo of its whole plan, 100,000"
CHANGE = "the page's answer to a change"
WARM_LIMITS = {PLAN_WARM: 5.0, SAMPLES: 150.0, CHANGE: 100.0}


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


def warm(rounds: int) -> dict[str, float]:
    """Median time of the same work inside one process [ms]."""
    from hollowright.designs import design
    from hollowright.job.job import plan_tables, read_tables
    from hollowright.output.data import plan_data
    from hollowright.output.files import card_pdf
    from hollowright.output.plan_picture import plan_picture
    from hollowright.output.svg import svg
    from hollowright.plan.slips import check
    from hollowright.quantity.montecarlo import simulate

    tables = read_tables(design("tube-box").examples[0].text)
    plan = plan_tables(tables)
    tasks: dict[str, Callable[[], object]] = {
        PLAN_WARM: lambda: plan_tables(tables),
        "its JSON": lambda: plan_data(plan),
        SAMPLES: lambda: simulate(plan.quantities.values(), 100_000),
        "the slip finder, one slip": lambda: check(plan, "bore", "34.02"),
        "the slip finder, nothing found": lambda: check(plan, "ring_length", "71.93"),
        "the picture as SVG": lambda: svg(plan_picture(plan)),
        "the bench card (PDF)": lambda: card_pdf(plan, "a4"),
        CHANGE: page_change(),
    }
    return {what: statistics.median(timed(task, rounds)) for what, task in tasks.items()}


def page_change() -> Callable[[], object]:
    """One change of the form, sent to the page's application in this process."""
    import warnings

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from starlette.testclient import TestClient

    from hollowright.designs import design
    from hollowright.job.job import read_tables
    from hollowright.web.app import make_app

    client = TestClient(make_app("127.0.0.1"), base_url="http://127.0.0.1:8765")
    tables = read_tables(design("tube-box").examples[0].text)
    fields = dict(flat(tables)) | {"title": tables["title"], "design": "tube-box"}

    def send() -> object:
        answer = client.post("/plan", data=fields)
        answer.raise_for_status()
        return answer

    return send


def flat(tables: Mapping[str, Any], above: str = "") -> Iterator[tuple[str, str]]:
    """A piece file's tables as the form's fields: path -> text."""
    for key, value in tables.items():
        path = f"{above}.{key}" if above else key
        if isinstance(value, dict):
            yield from flat(value, path)
        else:
            yield path, "; ".join(value) if isinstance(value, list) else str(value)


def timed(task: Callable[[], object], rounds: int) -> list[float]:
    """Wall times of a task [ms], after one run that isn't counted."""
    task()
    taken = []
    for _ in range(5 * rounds):
        begun = time.perf_counter()
        task()
        taken.append(1000 * (time.perf_counter() - begun))
    return taken


def main() -> None:
    """Print the table; fail when a limit is passed."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 9
    medians = cold(rounds)
    limits = {PLAN: 3 * medians[NUMPY], CARD: 1000.0} | WARM_LIMITS
    medians |= warm(rounds)
    print(f"medians of {rounds}, Python {sys.version.split()[0]}")
    for what, median in medians.items():
        limit = f"limit {limits[what]:7.1f}" if what in limits else ""
        print(f"{what:<40}{median:9.1f} ms   {limit}".rstrip())
    over = [what for what, limit in limits.items() if medians[what] > limit]
    over += bench_designs.report()
    over += bench_layout.report()
    over += bench_nesting.report()
    over += bench_store.report()
    over += bench_cutlist.report()
    if over:
        sys.exit("Over the limit: " + ", ".join(over))


if __name__ == "__main__":
    main()
