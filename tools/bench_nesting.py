"""Measure the strip engine on open irregular-packing instances, each beside the best length known.

The ESICUP instances (EURO Special Interest Group on Cutting and Packing) are read where they lie,
``../shared/nesting`` beside the project or the folder that is named; they are no part of it. Each
is packed for 60 s with two workers through `pack_strip`, with the turns it allows and no gap, and
judged by shapely alone: every copy there, turned as allowed, inside the strip, none over another.
Best lengths: the records kept with sparrow (J. Gardeyn, G. Vanden Berghe, T. Wauters, "An
open-source heuristic to reboot 2D nesting research", arXiv 2509.13329), the best of many runs of 20
minutes. Exit code 1 when a strip is over its limit, or unsound. The figures hang on how much of two
cores the solver gets: that is printed (`cores`). Usage:
``bench_nesting.py [--instances DIR] [--seconds S] [NAME ...]``.
"""

from __future__ import annotations

import argparse
import json
import math
import os
import sys
import time
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
INSTANCES = ROOT.parent / "shared" / "nesting"
SECONDS = 60.0
OVER = 3.0
"""By how much a strip may be longer than the best one known [%]."""

BEST = {
    "albano": 9692.056,
    "marques": 75.176,
    "shapes0": 57.012,
    "shirts": 59.393,
    "jakobs1": 10.980,
    "mao": 1696.802,
    "swim": 5597.349,
    "trousers": 235.833,
}
"""The best length known of each, on the height of its file (of shapes0 and jakobs1 0.01 % over 40,
as in the records). Of swim and trousers: the records in earlier states of the same project."""

NEAR = 1e-4
"""How deep one flat may reach into another or over an edge, of the strip's height: the solver
reckons in single precision."""


@dataclass(frozen=True)
class Row:
    """One instance packed: length, density [%] and what is wrong with it."""

    name: str
    pieces: int
    height: float
    length: float
    density: float
    faults: Sequence[str]
    cores: float

    @property
    def over(self) -> float | None:
        """How much longer it is than the best one known [%]."""
        best = BEST.get(self.name)
        return None if best is None else 100 * (self.length / best - 1)


def read(path: Path) -> tuple[str, float, list[Any]]:
    """An instance's name, the strip's height, and its items."""
    from hollowright.shapes.nesting.problem import Item
    from hollowright.shapes.outline import polygon

    given = json.loads(path.read_text())
    items = []
    for each in given["items"]:
        corners = [(float(x), float(y)) for x, y in each["shape"]["data"]]
        corners = corners[:-1] if corners[0] == corners[-1] else corners
        turns = tuple(each["allowed_orientations"])
        items.append(Item(str(each["id"]), polygon(corners), each["demand"], turns))
    return given["name"], float(given["strip_height"]), items


def packed(path: Path, seconds: float) -> Row:
    """One instance packed and judged."""
    from hollowright.shapes.nesting.strip import pack_strip

    name, height, items = read(path)
    before, begun = busy(), time.monotonic()
    strip = pack_strip(items, height, 0.0, seconds, seed=1, workers=2)
    cores = (busy() - before) / (time.monotonic() - begun)
    area = sum(item.outline.area * item.count for item in items)
    pieces = sum(item.count for item in items)
    density = 100 * area / (height * strip.length)
    return Row(name, pieces, height, strip.length, density, list(faults(items, strip)), cores)


def busy() -> float:
    """Processor time that the children ended so far took [s]."""
    times = os.times()
    return times.children_user + times.children_system


def faults(items: Sequence[Any], strip: Any) -> Iterator[str]:
    """What is wrong with a strip, by shapely alone."""
    import shapely
    from shapely import affinity

    by, shapes = {item.id: item for item in items}, []
    if Counter(s.item for s in strip.spots) != Counter({i.id: i.count for i in items}):
        yield "not every copy is there"
    for spot in strip.spots:
        item = by[spot.item]
        if spot.mirrored or not any(math.isclose(spot.turn, turn % 360) for turn in item.turns):
            yield f"{spot.item} turned by {spot.turn}"
        flat = shapely.Polygon([segment.start for segment in item.outline.segments])
        turned = affinity.rotate(flat, spot.turn, origin=(0, 0))
        shapes.append(affinity.translate(turned, spot.x, spot.y))
    near = NEAR * strip.height
    low_x, low_y, high_x, high_y = shapely.MultiPolygon(shapes).bounds
    if max(-low_x, -low_y, high_x - strip.length, high_y - strip.height) > near:
        yield "a flat lies over the strip's edge"
    cores = [shape.buffer(-near / 2, join_style="mitre") for shape in shapes]
    for a, b in shapely.STRtree(cores).query(cores, predicate="intersects").T:
        if a < b and not cores[a].is_empty:
            yield f"flats {a} and {b} overlap"


def table(rows: Iterable[Row]) -> Iterator[str]:
    """The rows as lines of text, each as soon as it is there."""
    yield (
        f"{'instance':<10}{'pieces':>7}{'height':>10}{'length':>11}{'best known':>12}"
        f"{'over':>8}{'density':>9}{'cores':>7}  judged"
    )
    for row in rows:
        best = f"{BEST[row.name]:.3f}" if row.name in BEST else "-"
        over = "-" if row.over is None else f"{row.over:.2f} %"
        yield (
            f"{row.name:<10}{row.pieces:>7}{row.height:>10.3f}{row.length:>11.3f}{best:>12}"
            f"{over:>8}{row.density:>7.2f} %{row.cores:>7.2f}  "
            + ("; ".join(row.faults[:3]) or "sound")
        )


def report(
    folder: Path = INSTANCES, seconds: float = SECONDS, names: Sequence[str] = ()
) -> list[str]:
    """Print the table; what is over its limit or unsound, in words."""
    files = sorted(folder.glob("*.json")) if folder.is_dir() else []
    files = [file for file in files if not names or file.stem in names]
    if not files:
        print(f"\nNo packing instances in {folder}: the strips are left out.")
        return []
    load = os.getloadavg()[0]
    print(f"\nopen packing instances, {seconds:g} s each (load of the machine {load:.1f})")
    rows: list[Row] = []

    def measured() -> Iterator[Row]:
        for file in files:
            rows.append(packed(file, seconds))
            yield rows[-1]

    for line in table(measured()):
        print(line, flush=True)
    return [fault for row in rows for fault in wrong(row)]


def wrong(row: Row) -> Iterator[str]:
    """What passes its limit, in words."""
    if row.faults:
        yield f"{row.name}: unsound"
    if row.over is not None and row.over > OVER:
        yield f"{row.name}: {row.over:.2f} % over the best length known, limit {OVER:g} %"


def main() -> None:
    """Print the table; fail when a limit is passed."""
    asked = argparse.ArgumentParser(description="Strips beside the best lengths known.")
    asked.add_argument("names", nargs="*", help="only these instances")
    asked.add_argument("--instances", type=Path, default=INSTANCES, help="a folder of instances")
    asked.add_argument("--seconds", type=float, default=SECONDS, help="for each of them")
    given = asked.parse_args()
    over = report(given.instances, given.seconds, given.names)
    if over:
        sys.exit("Over the limit: " + "; ".join(over))


if __name__ == "__main__":
    main()
