"""The views of a piece at true size: what is drawn of it assembled, and of it drawn apart."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass

from hollowright.output.drawing import Item, Path, Role, moved
from hollowright.output.picture_axes import Axis, axes
from hollowright.output.picture_layout import Layout, Size
from hollowright.shapes.apart import STILL
from hollowright.shapes.bodies import Body
from hollowright.shapes.curves import Bounds, Point, around, shift, times, union
from hollowright.shapes.mesh_spots import surface_spots
from hollowright.shapes.mesh_strokes import surface_strokes
from hollowright.shapes.mesh_surface import surface
from hollowright.shapes.solids import Turned
from hollowright.shapes.space import Vector
from hollowright.shapes.spots import spots
from hollowright.shapes.strokes import Stroke, strokes, turned_only
from hollowright.shapes.view import View

CHORD = 0.02  # how far chords of curved lines may lie off them on the paper [mm]


@dataclass(frozen=True, slots=True)
class PicturePart:
    """A part with its name, in its assembled place, and how far it is moved to be drawn apart.

    With `show_hidden` its hidden outer outlines are dashed in the assembled view.
    """

    name: str
    assembled: Body
    shift: Vector = STILL
    show_hidden: bool = False


@dataclass(frozen=True, slots=True)
class Seen:
    """One view at true size, not yet in place, and its bounds [mm]."""

    paths: tuple[Path, ...]
    bounds: Bounds

    @property
    def size(self) -> Size:
        """Width and height [mm]."""
        low_x, low_y, high_x, high_y = self.bounds
        return (max(high_x - low_x, 1e-6), max(high_y - low_y, 1e-6))

    def placed(self, where: Layout, at: int) -> tuple[Item, ...]:
        """The view to scale in its place."""
        larger = (
            Path(path.role, tuple(curve.scaled(where.scale) for curve in path.curves))
            for path in self.paths
        )
        return moved(larger, *self._shift(where, at))

    def placed_points(self, points: Iterable[Point], where: Layout, at: int) -> list[Point]:
        """Points of the view where `placed` puts them."""
        dx, dy = self._shift(where, at)
        return [shift(times(point, where.scale), dx, dy) for point in points]

    def _shift(self, where: Layout, at: int) -> Point:
        low_x, low_y, high_x, _ = self.bounds
        x, y = where.feet[at]
        return (x - where.scale * (low_x + high_x) / 2, y - where.scale * low_y)


@dataclass(frozen=True, slots=True)
class _Scene:
    """How far each body is moved, the axes that are drawn, the ids whose hidden lines show."""

    shifts: tuple[Vector, ...]
    axes: tuple[Axis, ...] = ()
    dashed: frozenset[str] = frozenset()


def seen_views(
    parts: Sequence[PicturePart], view: View, scale: Callable[[Sequence[Size]], float], two: bool
) -> tuple[list[Seen], list[Point]]:
    """What is seen, and a spot on each part of the last view; assembled first if there are two.

    scale: to what scale views of these sizes will be drawn.
    """
    bodies = [part.assembled for part in parts]
    apart = tuple(part.shift for part in parts)
    dashed = frozenset(part.assembled.id for part in parts if part.show_hidden)
    scenes = [_Scene(apart, tuple(axes(list(zip(bodies, apart, strict=True)))))]
    if two:
        scenes.insert(0, _Scene((STILL,) * len(parts), (), dashed))
    solids = turned_only(bodies)
    if solids is None:
        rough = [_rough(bodies, scene, view) for scene in scenes]
        return _by_meshes(bodies, scenes, view, CHORD / scale([each.size for each in rough]))
    return _exact(solids, scenes, view)


def _exact(
    solids: Sequence[Turned], scenes: Sequence[_Scene], view: View
) -> tuple[list[Seen], list[Point]]:
    found = []
    for scene in scenes:
        placed = [body.moved(by) for body, by in zip(solids, scene.shifts, strict=True)]
        found.append(_paths(strokes(placed, view, scene.axes), scene.dashed))
    return found, [view.project(spot) for spot in spots(placed, view)]


def _by_meshes(
    bodies: Sequence[Body], scenes: Sequence[_Scene], view: View, tolerance: float
) -> tuple[list[Seen], list[Point]]:
    names = [body.id for body in bodies]
    shape = surface([body.mesh(tolerance) for body in bodies], view)
    found = []
    for scene in scenes:
        placed = shape.shifted(view, scene.shifts)
        drawn = surface_strokes(
            placed, names, view, scene.axes, tolerance=tolerance, outlined=scene.dashed
        )
        found.append(_paths(drawn, scene.dashed))
    dots = surface_spots(placed, len(names), view, tolerance)
    return found, [view.project(dot) for dot in dots]


def _rough(bodies: Sequence[Body], scene: _Scene, view: View) -> Seen:
    """A view's bounds alone, from how far each body reaches across the paper and up it."""
    points = [view.project(end) for line in scene.axes for end in line]
    for body, by in zip(bodies, scene.shifts, strict=True):
        across, up = body.reach(view.right), body.reach(view.up)
        points += [shift(corner, *view.project(by)) for corner in zip(across, up, strict=True)]
    return Seen((), around(points))


def _paths(drawn: Iterable[Stroke], dashed: Collection[str]) -> Seen:
    """Strokes sorted into paths, hidden ones below; those not wanted left out."""
    groups: dict[Role, list[Stroke]] = {"hidden": [], "centre": [], "seam": [], "visible": []}
    for stroke in drawn:
        if stroke.visible:
            groups[_role(stroke)].append(stroke)
        elif stroke.owner in dashed and stroke.outer:
            groups["hidden"].append(stroke)
    paths = tuple(
        Path(role, tuple(stroke.curve for stroke in members))
        for role, members in groups.items()
        if members
    )
    return Seen(paths, union(path.bounds() for path in paths))


def _role(stroke: Stroke) -> Role:
    if stroke.kind == "axis":
        return "centre"
    return "seam" if stroke.kind == "seam" else "visible"
