"""Flats put one by one where they reach least far from a bin's end: true shape, holes and all."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from hollowright.shapes.nesting.forms import SHARE, Form, forms_of
from hollowright.shapes.nesting.nofit import NoFit
from hollowright.shapes.nesting.poses import Pose, poses_of
from hollowright.shapes.nesting.problem import Bin, Problem, Spot
from hollowright.shapes.polygons import Area, corners_of, less, shifted, together

MOST_POSES = 12


@dataclass(frozen=True)
class Way:
    """How a bin is filled: from which side (0 left, 1 low, 2 right, 3 top), and which end of it.

    lean: how much the way along that side counts beside the way out from it.
    """

    side: int = 0
    other_end: bool = False
    lean: float = 0.05


@dataclass(frozen=True, eq=False)
class Bench:
    """A problem made ready: forms, poses, and the areas found so far."""

    problem: Problem
    forms: Mapping[tuple[str, bool], Form]
    poses: Mapping[str, tuple[Pose, ...]]
    nofit: NoFit
    _lying: dict[tuple[Spot, int, float], Area] = field(default_factory=dict, repr=False)

    def forbidden(self, spot: Spot, pose: Pose) -> Area:
        """Places forbidden to a pose by a flat at its spot."""
        key = (spot, id(pose.form), pose.turn)
        if key not in self._lying:
            if len(self._lying) > 40000:
                self._lying.clear()
            form = self.forms[spot.item, spot.mirrored]
            area = self.nofit.beside(form, spot.turn, pose.form, pose.turn)
            self._lying[key] = shifted(area, spot.x, spot.y)
        return self._lying[key]


def bench_of(
    problem: Problem, most_poses: int = MOST_POSES, share: float = SHARE, hulled: bool = False
) -> Bench:
    """A problem made ready for filling; share, hulled: see forms."""
    forms = forms_of(problem, share, hulled)
    poses = {}
    for item in problem.items:
        sides = [forms[item.id, side] for side in (False, True) if (item.id, side) in forms]
        poses[item.id] = poses_of(sides if item.mirrored else sides[:1], most_poses)
    return Bench(problem, forms, poses, NoFit(problem.between, problem.edge))


class Halted(Exception):
    """Filling was stopped before its end."""


@dataclass(eq=False)
class Filling:
    """Bins being filled: what lies in them, and the free places of each pose."""

    bench: Bench
    halt: Callable[[], bool] = lambda: False
    spots: dict[str, list[Spot]] = field(default_factory=lambda: defaultdict(list))
    _free: dict[tuple[str, int, float], tuple[int, Area]] = field(default_factory=dict)

    def free(self, name: str, pose: Pose) -> Area:
        """Places still free for a pose in a bin."""
        key, lying = (name, id(pose.form), pose.turn), self.spots[name]
        done, area = self._free.get(key) or (0, self._empty(name, pose))
        if done < len(lying) and not area.is_empty:
            taken = [self.bench.forbidden(spot, pose) for spot in lying[done:]]
            area = less(area, taken[0] if len(taken) == 1 else together(taken))
        self._free[key] = (len(lying), area)
        return area

    def put(self, item: str, name: str, way: Way) -> Spot | None:
        """Lay one item in a bin where it reaches least far; None where it finds no place."""
        best: tuple[float, Spot] | None = None
        for pose in self.bench.poses[item]:
            if self.halt():
                raise Halted
            area = self.free(name, pose)
            if area.is_empty:
                continue
            reach, x, y = _least(area, pose, way)
            if best is None or reach < best[0] - 1e-9:
                best = (reach, Spot(item, name, x, y, pose.turn, pose.form.mirrored))
        if best is None:
            return None
        self.spots[name].append(best[1])
        return best[1]

    def _empty(self, name: str, pose: Pose) -> Area:
        return self.bench.nofit.inside(self.bench.problem.bin(name), pose.form, pose.turn)


def fill(
    bench: Bench,
    lying: Iterable[Spot],
    items: Iterable[str],
    bins: Sequence[str],
    ways: Mapping[str, Way],
    halt: Callable[[], bool] = lambda: False,
) -> tuple[Spot, ...]:
    """Items laid in turn, each in the first bin (by name) that has a place beside what lies there.

    Returns all spots; an item without a place is left out. Halted is raised soon after `halt`.
    """
    filling = Filling(bench, halt)
    for spot in lying:
        filling.spots[spot.bin].append(spot)
    full: set[tuple[str, ...]] = set()
    for item in items:
        for name in bins:
            id = name.partition("#")[0]
            if (item, name) in full or (item, id, "") in full:
                continue
            if filling.put(item, name, ways[id]):
                break
            full.add((item, name) if filling.spots[name] else (item, id, ""))
    return tuple(spot for spots in filling.spots.values() for spot in spots)


def long_way(bin: Bin) -> Way:
    """A bin filled from an end of its longer side."""
    return Way(0 if bin.outline.width >= bin.outline.height else 1)


def _least(area: Area, pose: Pose, way: Way) -> tuple[float, float, float]:
    """The corner of the free places where the flat reaches least far out: its reach, x, y."""
    low_x, low_y, high_x, high_y = pose.form.bounds(pose.turn)
    corners = corners_of(area)
    x, y = corners[:, 0], corners[:, 1]
    out = (x + high_x, y + high_y, -x - low_x, -y - low_y)
    along = (way.side + 1) % 2
    beside = out[along + 2] if way.other_end else out[along]
    reach = out[way.side] + way.lean * beside
    at = int(np.argmin(reach))
    return float(reach[at]), float(corners[at, 0]), float(corners[at, 1])
