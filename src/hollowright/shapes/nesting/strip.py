"""Flats packed into a strip of fixed height to least length, by a solver in its own process.

The solver is spyrrow, the Python face of sparrow (J. Gardeyn, G. Vanden Berghe, T. Wauters, "An
open-source heuristic to reboot 2D nesting research", arXiv 2509.13329). It stops by the clock, so
its answers differ from run to run: store the spots, don't solve again. It doesn't turn flats over,
lays none in holes, and knows no length of sheet; `strip_bins` uses it for sheets. Beside it, in a
process of its own too, an engine of ours looks at flats that lie on a lattice (`lattice`); the
better strip counts.
"""

from __future__ import annotations

import contextlib
import json
import os
import queue
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import IO, Any, Self

from hollowright.shapes.curves import union
from hollowright.shapes.nesting.lattice import lattice
from hollowright.shapes.nesting.problem import Item, Spot
from hollowright.shapes.nesting.strip_shapes import Shape, checked, extent, fineness, shapes
from hollowright.shapes.placing import placed_point
from hollowright.shapes.polygons import overlapping

WORKER = "hollowright.shapes.nesting.strip_worker"
LATTICE_WORKER = "hollowright.shapes.nesting.lattice_worker"
LATTICE_LEAST = 3.0
"""In less time the lattice's engine isn't worth its start [s]."""

NEAR = 1e-9
"""A strip no longer than this beyond the least, relative to it, is the least."""

ONE_THREAD = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}
"""An engine's small sums are slower on two threads than on one."""

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
    if seconds >= LATTICE_LEAST:
        exact = shapes(wanted, height, between / 2, fine, over)
        grid = lattice(exact, height, between)
        if grid:
            task = grid.task(seconds, seed)
            engines.append(Engine(LATTICE_WORKER, task, exact, height + between, fine))
    engines[0].task.update(seed=seed, workers=max(1, workers - len(engines) + 1), **_times(seconds))
    enough = _least_length(kinds, height) if longest is None or keep_on else longest
    best, why = None, f"no strip was found in {seconds:g} s"
    with _Solvers(engines) as solvers:
        while solvers.going and time.monotonic() < ends and not stop():
            answer = solvers.answer(min(ASKED, max(0.0, ends - time.monotonic())))
            if answer is None:
                continue
            engine, said = answer
            why = said.get("failed", why)
            strip = engine.strip(said["spots"], height) if "width" in said else None
            if strip is None or (best is not None and strip.length >= best.length):
                continue
            best = strip
            report(best)
            if best.length <= enough * (1 + NEAR):
                break
    if best is None:
        raise StripFailed(f"the strip can't be packed: {why}")
    return best


def _free(kinds: Sequence[Shape], height: float, between: float, fine: float) -> Engine:
    """The engine that lays flats anywhere."""
    higher = height + between + 3 * fine
    items = [{"corners": each.corners, "count": each.count, "turns": each.turns} for each in kinds]
    return Engine(WORKER, {"height": higher, "items": items}, kinds, higher, fine)


def _times(seconds: float) -> dict[str, int]:
    """How long to explore and to compress, four parts and one, in whole seconds."""
    whole = max(1, int(seconds))
    compressing = max(1, round(whole / 5))
    return {"exploring": max(1, whole - compressing), "compressing": compressing}


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


class _Solvers:
    """The engines' processes; ended when their block is left."""

    def __init__(self, engines: Sequence[Engine]) -> None:
        self._lines: queue.Queue[tuple[Engine, str]] = queue.Queue()
        self._solvers = [_Solver(engine, self._lines) for engine in engines]
        self.going = len(engines)

    def answer(self, wait: float) -> tuple[Engine, Mapping[str, Any]] | None:
        """The next answer of any of them that comes within so many seconds."""
        try:
            engine, line = self._lines.get(timeout=wait)
        except queue.Empty:
            return None
        answer: dict[str, Any] = json.loads(line)
        self.going -= "ended" in answer
        return engine, answer

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        for solver in self._solvers:
            solver.end()


class _Solver:
    """One engine's process, and a thread that passes on what it says."""

    def __init__(self, engine: Engine, lines: queue.Queue[tuple[Engine, str]]) -> None:
        self._engine, self._lines = engine, lines
        self._process = subprocess.Popen(  # noqa: S603
            [sys.executable, "-P", "-m", engine.module],  # -P: no module of the folder it runs in
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env=os.environ | ONE_THREAD,
            text=True,
        )
        self._input, self._output = _there(self._process.stdin), _there(self._process.stdout)
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()
        with contextlib.suppress(OSError):  # it ended at once: its answer tells
            self._input.write(json.dumps(engine.task) + "\n")
            self._input.flush()

    def _read(self) -> None:
        done = False
        for line in self._output:
            done = done or '"done"' in line or '"failed"' in line
            self._lines.put((self._engine, line))
        why = {} if done else {"failed": "the solver ended without an answer"}
        self._lines.put((self._engine, json.dumps({"ended": True, **why})))

    def end(self) -> None:
        """End the process, whatever it does."""
        self._process.kill()
        self._process.wait()
        self._reader.join(1.0)
        for pipe in (self._input, self._output):
            with contextlib.suppress(OSError):  # what an ended process hadn't read
                pipe.close()


def _there(pipe: IO[str] | None) -> IO[str]:
    if pipe is None:
        raise StripFailed("the solver's process has no pipes")
    return pipe
