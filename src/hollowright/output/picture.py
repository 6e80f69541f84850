"""The picture of a piece: assembled, and drawn apart, each part with its name."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from hollowright.output.drawing import Drawing, Item, Label, Path, Role, moved
from hollowright.output.extent import extent
from hollowright.output.leaders import leaders
from hollowright.output.picture_axes import Axis, axes, axis_of, widest
from hollowright.output.picture_layout import MARGIN, Layout, Sheet, layout
from hollowright.shapes.apart import STILL, shifts
from hollowright.shapes.bodies import Body
from hollowright.shapes.curves import Bounds, Point, around, shift, times, union
from hollowright.shapes.mesh_strokes import mesh_strokes
from hollowright.shapes.space import Vector
from hollowright.shapes.spots import spots
from hollowright.shapes.strokes import Stroke, strokes, turned_only
from hollowright.shapes.view import View, dimetric

GAP = 0.42  # between parts drawn apart, as a share of the widest one
WIDE_LINE = 0.35  # [mm]
CAPTIONS = ("assembled", "drawn apart")
SKETCH = 0.2  # tolerance of the meshes that only tell how large a view is [mm]
CHORD = 0.015  # how far chords of curved lines may lie off them on the paper [mm]


@dataclass(frozen=True, slots=True)
class PicturePart:
    """A part with its name, in its assembled place, and how far it is moved to be drawn apart.

    With `show_hidden` its hidden outer outlines are dashed in the assembled view.
    """

    name: str
    assembled: Body
    shift: Vector = STILL
    show_hidden: bool = False

    @property
    def exploded(self) -> Body:
        """The body where it is shown drawn apart."""
        return self.assembled.moved(self.shift)


def picture_parts(
    bodies: Sequence[Body],
    names: Sequence[str],
    show_hidden: Collection[str] = (),
    pulls: Sequence[Vector | None] = (),
    rides: Sequence[str] = (),
) -> tuple[PicturePart, ...]:
    """Parts in their assembled places, to be drawn apart along their axis or as they are pulled.

    show_hidden: ids of the bodies whose hidden outlines are dashed. pulls: how far and which way
    each body is drawn apart [mm], None for along the axis; rides: the id of the body whose own
    shift is added, "" for none; none of them pulled when left out.
    """
    gap = GAP * widest(bodies)
    moves = shifts(
        bodies, pulls or [None] * len(bodies), rides or [""] * len(bodies), gap, axis_of(bodies)
    )
    return tuple(
        PicturePart(name, body, move, body.id in show_hidden)
        for name, body, move in zip(names, bodies, moves, strict=True)
    )


def picture(
    parts: Sequence[PicturePart],
    *,
    width: float = 120.0,
    most_height: float = 240.0,
    lettering: float = 2.5,
    title: str = "",
) -> Drawing:
    """Both views, as large as `width` and `most_height` [mm] allow; one if nothing moves apart.

    They stand side by side, or one above the other where that makes them larger. `lettering` is
    the height of capitals [mm]; it doesn't shrink with the picture, so ask for a narrow picture
    (some 90 mm) where the paper or the screen is narrow.
    """
    if not parts:
        raise ValueError("a picture needs one part at least")
    sheet = Sheet(width, most_height, lettering, tuple(part.name for part in parts))
    captions = CAPTIONS if any(part.shift != STILL for part in parts) else ()
    views, dots = _seen(parts, sheet, captions)
    placed = _layout(views, sheet, captions)
    items = [item for at, view in enumerate(views) for item in view.placed(placed, at)]
    last = len(views) - 1
    points = views[-1].placed_points(dots, placed, last)
    items += leaders(sheet.names, points, placed.elbows, lettering)
    items += [
        Label(text, (x, y - 2.5 * lettering), lettering, "note", "middle")
        for text, (x, y) in zip(captions, placed.feet, strict=False)
    ]
    _, low, _, high = extent(items)
    raised = moved(items, 0.0, MARGIN - low)
    described = _description(sheet.names, placed.feet)
    return Drawing(width, high - low + 2 * MARGIN, raised, title, described, WIDE_LINE)


@dataclass(frozen=True, slots=True)
class _Seen:
    """One view at true size, not yet in place, and its bounds [mm]."""

    paths: tuple[Path, ...]
    bounds: Bounds

    @property
    def size(self) -> tuple[float, float]:
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


def _layout(views: Sequence[_Seen], sheet: Sheet, captions: Sequence[str]) -> Layout:
    placed = layout([view.size for view in views], sheet, captions)
    if placed.scale <= 0:
        raise ValueError(
            f"{sheet.width} x {sheet.most_height} mm is too little for the picture and its names"
        )
    return placed


def _seen(
    parts: Sequence[PicturePart], sheet: Sheet, captions: Sequence[str]
) -> tuple[list[_Seen], list[Point]]:
    """The views, and a spot on each part of the last: assembled and drawn apart, or one alone."""
    view = dimetric()
    apart = [part.exploded for part in parts]
    scenes: list[tuple[Sequence[Body], Sequence[Axis], set[str]]] = []
    if captions:
        dashed = {part.assembled.id for part in parts if part.show_hidden}
        scenes.append(([part.assembled for part in parts], (), dashed))
    scenes.append((apart, axes([(part.assembled, part.shift) for part in parts]), set()))
    tolerance = SKETCH
    if turned_only(apart) is None:
        rough = [_sketch(bodies, lines, view) for bodies, lines, _ in scenes]
        tolerance = CHORD / _layout(rough, sheet, captions).scale
    views = [_view(bodies, lines, dashed, view, tolerance) for bodies, lines, dashed in scenes]
    return views, [view.project(spot) for spot in spots(apart, view)]


def _sketch(bodies: Sequence[Body], lines: Sequence[Axis], view: View) -> _Seen:
    """A view's bounds alone."""
    points = [view.project(end) for line in lines for end in line]
    for body in bodies:
        points += [view.project(corner) for corner in body.mesh(SKETCH).vertices]
    return _Seen((), around(points))


def _view(
    bodies: Sequence[Body],
    lines: Sequence[Axis],
    dashed: set[str],
    view: View,
    tolerance: float,
) -> _Seen:
    solids = turned_only(bodies)
    if solids is not None:
        return _paths(strokes(solids, view, lines), dashed)
    meshes = [(body.id, body.mesh(tolerance)) for body in bodies]
    return _paths(mesh_strokes(meshes, view, lines, tolerance=tolerance, outlined=dashed), dashed)


def _paths(drawn: Iterable[Stroke], dashed: set[str]) -> _Seen:
    """Strokes sorted into paths, hidden ones below; those not wanted left out."""
    groups: dict[Role, list[Stroke]] = {"hidden": [], "centre": [], "seam": [], "visible": []}
    for stroke in drawn:
        if stroke.visible:
            role: Role = "visible"
            if stroke.kind in ("axis", "seam"):
                role = "centre" if stroke.kind == "axis" else "seam"
            groups[role].append(stroke)
        elif stroke.owner in dashed and stroke.outer:
            groups["hidden"].append(stroke)
    paths = tuple(
        Path(role, tuple(stroke.curve for stroke in members))
        for role, members in groups.items()
        if members
    )
    return _Seen(paths, union(path.bounds() for path in paths))


def _description(names: Sequence[str], feet: Sequence[Point]) -> str:
    listed = ", ".join(names)
    if len(feet) == 1:
        return f"The piece: {listed}."
    first, second = (
        ("On top", "below") if feet[0][1] > feet[1][1] else ("On the left", "on the right")
    )
    return f"{first} the piece assembled, {second} its parts drawn apart: {listed}."
