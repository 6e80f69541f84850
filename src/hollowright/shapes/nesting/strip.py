"""Flats packed into a strip of fixed height to least length, by a solver in its own process.

The solver is spyrrow, the Python face of sparrow (J. Gardeyn, G. Vanden Berghe, T. Wauters, "An
open-source heuristic to reboot 2D nesting research", arXiv 2509.13329). It stops by the clock, so
its answers differ from run to run: store the spots, don't solve again. It doesn't turn flats over,
lays none in holes, and knows no length of sheet; `strip_bins` uses it for sheets.
"""

from __future__ import annotations

import contextlib
import json
import queue
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import IO, Any, Self

from hollowright.shapes.curves import union
from hollowright.shapes.nesting.problem import Item, Spot
from hollowright.shapes.nesting.strip_shapes import Shape, checked, extent, fineness, shapes
from hollowright.shapes.placing import placed_point
from hollowright.shapes.polygons import overlapping

WORKER = "hollowright.shapes.nesting.strip_worker"
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
    task: dict[str, Any] = {
        "height": height + between + 3 * fine,
        "items": [
            {"corners": each.corners, "count": each.count, "turns": each.turns} for each in kinds
        ],
        "workers": workers,
        "seed": seed,
        **_times(seconds),
    }
    enough = _least_length(kinds, height) if longest is None or keep_on else longest
    best, why = None, f"no strip was found in {seconds:g} s"
    with _Solver(task) as solver:
        while time.monotonic() < ends and not stop():
            answer = solver.answer(min(ASKED, max(0.0, ends - time.monotonic())))
            if answer is None:
                continue
            if "width" not in answer:
                why = answer.get("failed", why)
                break
            strip = _strip(kinds, height, task["height"], answer["spots"], fine)
            if strip is None or (best is not None and strip.length >= best.length):
                continue
            best = strip
            report(best)
            if best.length <= enough:
                break
    if best is None:
        raise StripFailed(f"the strip can't be packed: {why}")
    return best


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


def _strip(
    kinds: Sequence[Shape],
    height: float,
    solved: float,
    given: Sequence[tuple[int, float, float, float]],
    fine: float,
) -> Strip | None:
    """The solver's spots, in its higher strip, as a strip against its left end; None if unsound.

    A flat that was rounded over an edge is moved in. Measured: where flats are just as high as the
    strip, the solver takes two that lie on each other for apart, since no edge crosses another; so
    their polygons are looked at again.
    """
    spots, sizes, rings = [], [], []
    lower = (solved - height) / 2
    for number, x, y, turn in given:
        kind = kinds[number]
        spot = Spot(kind.item, "strip", x, y - lower, kind.allowed(turn), kind.mirrored)
        rings.append([placed_point(corner, x, y, spot.turn) for corner in kind.corners])
        low_x, low_y, high_x, high_y = replace(spot, mirrored=False).place(kind.outline).bounds
        up = -min(0.0, low_y) - max(0.0, high_y - height)
        spots.append(replace(spot, y=spot.y + up))
        sizes.append((low_x, low_y, high_x, high_y))
    if overlapping(rings, 4 * fine * solved):
        return None
    low_x, _, high_x, _ = union(sizes)
    moved = tuple(replace(spot, x=spot.x - low_x) for spot in spots)
    return Strip(high_x - low_x, height, moved)


class _Solver:
    """The solver's process; ended when its block is left."""

    def __init__(self, task: Mapping[str, Any]) -> None:
        self._lines: queue.Queue[str] = queue.Queue()
        self._process = subprocess.Popen(  # noqa: S603
            [sys.executable, "-P", "-m", WORKER],  # -P: no module of the folder it runs in
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
        )
        self._input, self._output = _there(self._process.stdin), _there(self._process.stdout)
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()
        with contextlib.suppress(OSError):  # it ended at once: its answer tells
            self._input.write(json.dumps(task) + "\n")
            self._input.flush()

    def _read(self) -> None:
        for line in self._output:
            self._lines.put(line)
        self._lines.put('{"failed": "the solver ended without an answer"}')

    def answer(self, wait: float) -> Mapping[str, Any] | None:
        """The next answer that comes within so many seconds."""
        try:
            answer: dict[str, Any] = json.loads(self._lines.get(timeout=wait))
        except queue.Empty:
            return None
        return answer

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
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
