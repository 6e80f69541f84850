"""Measure every design: its plan beside its limit, and beside the same solids in the CAD kernel.

For each example, in one process: the plan of its piece file; the plan with the volume of every
solid; the solids alone, made and measured (volume and area of each); the picture as SVG; the solids
as GLB; and, where build123d is installed, the same solids made and measured (volume and area of
each) in the kernel, by what the oracle tests compare with (tests/oracle). Ours are made anew from
their numbers, as the design makes them: outlines drawn, parallels found, sections and rails
reckoned, every body put together from its parts (`solids_anew`); readings, workings and doubts are
left out, as they are in the kernel's. Two ratios: the kernel's time over that of the solids, which
has a limit, and over that of the whole plan with all volumes (which also holds every number's
working and doubt, flats, fits and steps). Medians: 15 runs of ours, 3 of the kernel's, of pictures
and of GLB, after one that isn't counted. Curves and meshes that are kept from one plan to the next
are forgotten before each run. Exit code 1 when a limit is passed. Usage:
``bench_designs.py [rounds]``.
"""

from __future__ import annotations

import os
import statistics
import sys
import time
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from solids_anew import solids_anew

ROOT = Path(__file__).resolve().parent.parent
ROUNDS, KERNEL_ROUNDS = 15, 3
PLAN_LIMIT, CURVE_LIMIT = 20.0, 100.0
"""Of a plan [ms]; of one whose curve comes from a file."""

FASTER = 30.0
"""At least so many times as fast are the solids made and measured as in the kernel, each design's
first example."""

PLAINLY = {"tube-saddle": {"cut": "bevelled"}}
"""Sizes changed for the kernel: a plain cut by the main's cylinder is its quickest saddle."""


@dataclass(frozen=True)
class Row:
    """One example's times [ms]; the kernel's only where it is installed."""

    design: str
    number: int
    drawn: bool
    plan: float
    with_volumes: float
    solids: float
    picture: float
    glb: float
    kernel: float | None

    @property
    def name(self) -> str:
        """The design and the number of its example."""
        return f"{self.design} {self.number}"

    @property
    def limit(self) -> float:
        """What its plan may take [ms]."""
        return CURVE_LIMIT if self.drawn else PLAN_LIMIT

    @property
    def ratio(self) -> float | None:
        """How many times as fast as the kernel: the plan with all volumes."""
        return None if self.kernel is None else self.kernel / self.with_volumes

    @property
    def ratio_of_solids(self) -> float | None:
        """How many times as fast as the kernel: the solids made and measured. It has a limit."""
        return None if self.kernel is None else self.kernel / self.solids

    @property
    def over(self) -> Iterable[str]:
        """What passes its limit, in words."""
        if self.plan > self.limit:
            yield f"{self.name}: plan {self.plan:.1f} ms, limit {self.limit:.0f}"
        ratio = self.ratio_of_solids
        if ratio is not None and self.number == 1 and ratio < FASTER:
            yield f"{self.name}: {ratio:.0f} x as fast as the kernel, limit {FASTER:.0f}"


def rows(rounds: int = ROUNDS) -> list[Row]:
    """Every example of every design, measured."""
    from hollowright.designs import designs

    return [
        row(design, number, example.text, rounds)
        for design in designs()
        for number, example in enumerate(design.examples, 1)
    ]


def row(design: Any, number: int, text: str, rounds: int) -> Row:
    """One example, measured."""
    from hollowright.job.job import plan_tables, read_tables
    from hollowright.output.glb import glb
    from hollowright.output.plan_picture import plan_picture
    from hollowright.output.svg import svg

    tables = read_tables(text)
    plan = plan_tables(tables)

    def with_volumes() -> object:
        made = plan_tables(tables)
        return [solid.body.volume for part in made.parts for solid in part.solids]

    make = solids_anew(lambda: plan_tables(tables), forget)

    def solids() -> object:
        return [(body.volume, body.surface) for body in make()]

    return Row(
        design.id,
        number,
        any(field.kind == "drawing" and _filled(tables, field.path) for field in design.fields),
        median(lambda: plan_tables(tables), rounds),
        median(with_volumes, rounds),
        median(solids, rounds),
        median(lambda: svg(plan_picture(plan)), KERNEL_ROUNDS),
        median(lambda: glb(plan), KERNEL_ROUNDS),
        median(_in_kernel(plan, tables), KERNEL_ROUNDS) if find_spec("build123d") else None,
    )


def _filled(tables: Mapping[str, Any], path: str) -> bool:
    """Whether a field stands in a piece file."""
    found: Any = tables
    for name in path.split("."):
        if not isinstance(found, Mapping) or name not in found:
            return False
        found = found[name]
    return True


def _in_kernel(plan: Any, tables: Mapping[str, Any]) -> Callable[[], object]:
    """All solids made and measured by the kernel, each that stands for several but once."""
    kernel = import_module("tests.oracle.kernel")
    sizes = tables["sizes"] | PLAINLY.get(plan.piece.design, {})
    changed = {**tables, "sizes": sizes}

    def work() -> object:
        bodies = kernel.kernel_bodies(plan, changed).values()
        return [(body.volume, body.area) for body in {id(body): body for body in bodies}.values()]

    return work


def median(task: Callable[[], object], rounds: int) -> float:
    """Median wall time of a task [ms], after one run that isn't counted; nothing remembered."""
    taken = []
    for turn in range(rounds + 1):
        forget()
        begun = time.perf_counter()
        task()
        taken += [1000 * (time.perf_counter() - begun)] if turn else []
    return statistics.median(taken)


def forget() -> None:
    """Empty what shapes and designs keep of curves and meshes once worked out."""
    rooms = ("hollowright.shapes.", "hollowright.designs.")
    for name, module in list(sys.modules.items()):
        if name.startswith(rooms):
            for each in list(vars(module).values()):
                if getattr(each, "__module__", "") == name and hasattr(each, "cache_clear"):
                    each.cache_clear()


HEADS = ("plan", "limit", "+volumes", "kernel", "ratio", "solids", "ratio", "picture", "GLB")


def table(measured: Iterable[Row]) -> Iterable[str]:
    """The rows as lines of text."""
    yield f"{'milliseconds':<18}" + "".join(f"{head:>9}" for head in HEADS)
    for each in measured:
        cells = (
            f"{each.plan:.1f}", f"{each.limit:.0f}", f"{each.with_volumes:.1f}",
            "" if each.kernel is None else f"{each.kernel:.1f}", _times(each.ratio),
            f"{each.solids:.3f}", _times(each.ratio_of_solids), f"{each.picture:.1f}",
            f"{each.glb:.1f}",
        )  # fmt: skip
        yield f"{each.name:<18}" + "".join(f"{cell:>9}" for cell in cells)


def _times(ratio: float | None) -> str:
    return "" if ratio is None else f"{ratio:.0f} x"


def report(rounds: int = ROUNDS) -> list[str]:
    """Print the table; what is over its limit, in words."""
    sys.path.insert(0, str(ROOT))
    measured = rows(rounds)
    load = os.getloadavg()[0]
    print(f"\nevery design's examples, medians of {rounds} (load of the machine {load:.1f})")
    print(*table(measured), sep="\n")
    if measured and measured[0].kernel is None:
        print("The kernel's columns are left out: build123d isn't installed (make oracle).")
    return [fault for each in measured for fault in each.over]


def main() -> None:
    """Print the table; fail when a limit is passed."""
    over = report(int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS)
    if over:
        sys.exit("Over the limit: " + "; ".join(over))


if __name__ == "__main__":
    main()
