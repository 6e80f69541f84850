"""Flats packed into a strip of fixed height to least length, by a solver in its own process.

The solver is spyrrow, the Python face of sparrow (J. Gardeyn, G. Vanden Berghe, T. Wauters, "An
open-source heuristic to reboot 2D nesting research", arXiv 2509.13329). It stops by the clock, so
its answers differ from run to run: store the spots, don't solve again. It doesn't turn flats over,
lays none in holes, and knows no length of sheet; `strip_bins` uses it for sheets. Beside it, in a
process of its own too, an engine of ours looks at flats that lie on a lattice (`lattice`); the
better strip counts.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from hollowright.shapes.curves import union
from hollowright.shapes.nesting.lattice import lattice
from hollowright.shapes.nesting.problem import Item, Spot
from hollowright.shapes.nesting.strip_processes import Processes
from hollowright.shapes.nesting.strip_shapes import Shape, checked, extent, fineness, shapes
from hollowright.shapes.placing import placed_point
from hollowright.shapes.polygons import overlapping

WORKER = "hollowright.shapes.nesting.strip_worker"
LATTICE_WORKER = "hollowright.shapes.nesting.lattice_worker"
LATTICE_LEAST = 3.0
"""In less time the lattice's engine isn't worth its start [s]."""

LONG = 30.0
"""Who gives this much time wants all of it used [s]."""

TRIED = 0.25
"""After so much of the time an engine that is far behind gives its processor to the other."""

FAR_BEHIND = 0.02
"""An engine is far behind whose strip is longer by so much of the other's."""

NEAR = 1e-9
"""A strip no longer than this beyond the least, relative to it, is the least."""

ASKED = 0.05
"""How often it is asked whether to stop [s]."""


class StripFailed(ValueError):
    """The solver found nothing: says why."""


@dataclass(frozen=True)
class Strip:
    """Flats in a strip: from its lower left corner, x along it, all within `length` and `height`.

    The spots' bin is 'strip'.
    """

    length: float
    height: float
    spots: tuple[Spot, ...] = ()


def pack_strip(
    items: Sequence[Item],
    height: float,
    between: float,
    seconds: float,
    *,
    longest: float | None = None,
    keep_on: bool = False,
    over: bool = False,
    report: Callable[[Strip], None] = lambda _: None,
    stop: Callable[[], bool] = lambda: False,
    seed: int = 0,
    workers: int = 2,
) -> Strip:
    """The shortest strip [mm] found for all items within so many seconds (at least about 1).

    height, between: what the flats may take across the strip, and the gap between two [mm]; to the
    strip's edges none is kept. Gaps hold between the true curves. longest: it ends as soon as the
    strip is no longer [mm], unless `keep_on`. over: half of the copies of those items that may be
    turned over are laid face down, else none. report: told each shorter strip. stop: asked some
    20 times a second whether to end with what is there.

    ValueError for a flat that is too high in every turn, crosses itself, or isn't sized in numbers;
    StripFailed (a ValueError too) when nothing was found.
    """
    ends = time.monotonic() + max(1.0, seconds)
    checked(items, height, between, seconds)
    wanted = [item for item in items if item.count]
    if not wanted:
        return Strip(0.0, height)
    fine = fineness(wanted, height)
    kinds = shapes(wanted, height, between / 2 + fine, fine, over)
    engines = [_free(kinds, height, between, fine)]
    grid = None
    if seconds >= LATTICE_LEAST:
        exact = shapes(wanted, height, between / 2, fine, over)
        grid = lattice(exact, height, between)
    if grid:
        engines.append(Engine(LATTICE_WORKER, grid.task(), exact, height + between, fine))
    enough = _least_length(kinds, height) if longest is None or keep_on else longest
    with Processes() as processes:
        run = _Run(processes, height, enough * (1 + NEAR), report)
        run.start(engines, workers, seconds, seed)
        while run.going and time.monotonic() < ends and not stop():
            run.hear(min(ASKED, max(0.0, ends - time.monotonic())))
            left = ends - time.monotonic()
            if LATTICE_LEAST < left < seconds - max(LATTICE_LEAST, TRIED * seconds):
                run.behind_ended(left, workers, seed + 1)
    if run.best is None:
        why = run.why or f"no strip was found in {seconds:g} s"
        raise StripFailed(f"the strip can't be packed: {why}")
    return run.best


class _Run:
    """Engines at work on one strip, and the best that they have found."""

    def __init__(
        self, processes: Processes, height: float, enough: float, report: Callable[[Strip], None]
    ) -> None:
        self._processes, self._height = processes, height
        self._enough, self._report = enough, report
        self._engines: dict[int, Engine] = {}
        self._shortest: dict[str, float] = {}
        self._tried = False
        self.best: Strip | None = None
        self.why = ""

    def start(self, engines: Sequence[Engine], workers: int, seconds: float, seed: int) -> None:
        """Set engines to work for so many seconds."""
        for engine in engines:
            task = engine.task | {"seed": seed, "workers": workers} | _times(seconds)
            self._engines[self._processes.start(engine.module, task)] = engine

    @property
    def going(self) -> bool:
        """Whether a shorter strip may come."""
        short = self.best is not None and self.best.length <= self._enough
        return bool(self._engines) and not short

    def hear(self, wait: float) -> None:
        """Take the next answer that comes within so many seconds."""
        said = self._processes.answer(wait)
        if said is None or said[0] not in self._engines:
            return
        number, answer = said
        self.why = answer.get("failed", self.why)
        engine = self._engines[number]
        if "ended" in answer:
            del self._engines[number]
        strip = engine.strip(answer["spots"], self._height) if "width" in answer else None
        if strip is None:
            return
        least = self._shortest.get(engine.module, strip.length)
        self._shortest[engine.module] = min(least, strip.length)
        if self.best is None or strip.length < self.best.length:
            self.best = strip
            self._report(strip)

    def behind_ended(self, left: float, workers: int, seed: int) -> None:
        """Of two engines that both found strips one that is far behind ends, once.

        The free one uses every processor by itself; the lattice's is started a second time.
        """
        if self._tried or len(self._shortest) < 2 or len(self._engines) < 2:
            return
        self._tried = True
        ahead, behind = sorted(
            self._engines.items(), key=lambda each: self._shortest[each[1].module]
        )
        least, most = (self._shortest[each[1].module] for each in (ahead, behind))
        if most <= least * (1 + FAR_BEHIND):
            return
        del self._engines[behind[0]]
        self._processes.end(behind[0])
        if ahead[1].module == LATTICE_WORKER:
            self.start([ahead[1]], workers, left, seed)


def _free(kinds: Sequence[Shape], height: float, between: float, fine: float) -> Engine:
    """The engine that lays flats anywhere."""
    higher = height + between + 3 * fine
    items = [{"corners": each.corners, "count": each.count, "turns": each.turns} for each in kinds]
    return Engine(WORKER, {"height": higher, "items": items}, kinds, higher, fine)


def _times(seconds: float) -> dict[str, Any]:
    """How long to search in all; to explore and to compress, four parts and one, in whole ones.

    early: whether spyrrow may end before, when it seems to get no further.
    """
    whole = max(1, int(seconds))
    compressing = max(1, round(whole / 5))
    exploring = max(1, whole - compressing)
    return {
        "seconds": seconds,
        "exploring": exploring,
        "compressing": compressing,
        "early": seconds < LONG,
    }


def _least_length(kinds: Sequence[Shape], height: float) -> float:
    """No strip can be shorter [mm]; a little more, where that is as good."""
    area = sum(kind.outline.area * kind.count for kind in kinds)
    across = (
        min(extent(kind.corners, turn + 90.0) for turn in kind.turns)
        for kind in kinds
        if kind.turns is not None
    )
    return max(area / height, *across, 0.0)


@dataclass(frozen=True)
class Engine:
    """One engine: its module, what it is asked, and the shapes that it lays.

    height: of the strip that it fills, for shapes that are grown [mm]. fine: what it may lose to
    rounding [mm].
    """

    module: str
    task: dict[str, Any]
    kinds: Sequence[Shape]
    height: float
    fine: float

    def strip(
        self, given: Sequence[tuple[int, float, float, float]], height: float
    ) -> Strip | None:
        """Its spots, in its higher strip, as a strip against its left end; None if unsound.

        A flat that was rounded over an edge is moved in. Measured: where flats are just as high as
        the strip, spyrrow takes two that lie on each other for apart, since no edge crosses
        another; so their polygons are looked at again.
        """
        spots, sizes, rings = [], [], []
        lower = (self.height - height) / 2
        for number, x, y, turn in given:
            kind = self.kinds[number]
            spot = Spot(kind.item, "strip", x, y - lower, kind.allowed(turn), kind.mirrored)
            rings.append([placed_point(corner, x, y, spot.turn) for corner in kind.corners])
            low_x, low_y, high_x, high_y = replace(spot, mirrored=False).place(kind.outline).bounds
            up = -min(0.0, low_y) - max(0.0, high_y - height)
            spots.append(replace(spot, y=spot.y + up))
            sizes.append((low_x, low_y, high_x, high_y))
        if overlapping(rings, 4 * self.fine * self.height):
            return None
        low_x, _, high_x, _ = union(sizes)
        moved = tuple(replace(spot, x=spot.x - low_x) for spot in spots)
        return Strip(high_x - low_x, height, moved)
