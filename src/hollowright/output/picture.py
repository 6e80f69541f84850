"""The picture of a piece: assembled and, drawn apart along its axis, each part with its name."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from hollowright.output.drawing import Anchor, Drawing, Item, Label, Path, Role, moved, text_width
from hollowright.output.extent import extent
from hollowright.output.leaders import SHELF, SPACE, leaders
from hollowright.shapes.curves import Bounds, Point, shift, times, union
from hollowright.shapes.solids import Turned, reach, spread
from hollowright.shapes.space import Vector, add, dot
from hollowright.shapes.spots import spots
from hollowright.shapes.strokes import Stroke, strokes
from hollowright.shapes.view import dimetric

MARGIN = 3.0  # [mm]
ELBOW = 5.0  # from the parts to the elbows of their leaders [mm]
OVERRUN = 0.25  # of the axis beyond the outermost parts, as a share of the widest diameter
GUTTER = 0.25  # between the two views, as a share of the assembled one's width
GAP = 0.42  # between parts drawn apart, as a share of the widest diameter
LARGEST = 2.0  # times true size: small pieces aren't blown up further
WIDE_LINE = 0.35  # [mm]
CAPTIONS = ("assembled", "drawn apart")


@dataclass(frozen=True, slots=True)
class PicturePart:
    """A part with its name, where it sits in the piece and where it is shown drawn apart.

    With `show_hidden` its hidden outer outlines are dashed in the assembled view.
    """

    name: str
    assembled: Turned
    exploded: Turned
    show_hidden: bool = False


def picture_parts(
    solids: Sequence[Turned], names: Sequence[str], show_hidden: Sequence[str] = ()
) -> tuple[PicturePart, ...]:
    """Parts in their assembled places, to be drawn apart along the first one's axis in this order.

    `show_hidden` lists the ids of the solids whose hidden outlines are dashed.
    """
    gap = GAP * _widest(solids)
    return tuple(
        PicturePart(name, solid, shown, solid.id in show_hidden)
        for name, solid, shown in zip(names, solids, spread(solids, gap), strict=True)
    )


def picture(
    parts: Sequence[PicturePart],
    *,
    width: float = 120.0,
    most_height: float = 240.0,
    lettering: float = 2.5,
    title: str = "",
) -> Drawing:
    """Both views side by side, as large as `width` and `most_height` [mm] allow.

    `lettering` is the height of capitals [mm]; it doesn't shrink with the picture, so ask for a
    narrow picture (some 90 mm) where the paper or the screen is narrow.
    """
    if not parts:
        raise ValueError("a picture needs one part at least")
    names = [part.name for part in parts]
    whole, pulled, dots = _seen(parts)
    room = ELBOW + SHELF + SPACE + max(text_width(name, lettering) for name in names)
    foot = MARGIN + 3 * lettering
    scale = min(
        LARGEST,
        (width - 2 * MARGIN - room) / (whole.width * (1 + GUTTER) + pulled.width),
        (most_height - foot - MARGIN - 2 * lettering) / max(whole.height, pulled.height),
    )
    if scale <= 0:
        raise ValueError(f"{width} x {most_height} mm is too little for the picture and its names")
    middles = _middles(width, room, scale * whole.width, scale * pulled.width, lettering)
    right = middles[1] + scale * pulled.width / 2
    items = (
        *whole.placed(scale, middles[0], foot),
        *pulled.placed(scale, middles[1], foot),
        *leaders(
            names, pulled.placed_points(dots, scale, middles[1], foot), right + ELBOW, lettering
        ),
        *_captions(middles, lettering),
    )
    _, low, _, high = extent(items)
    raised = moved(items, 0.0, MARGIN - low)
    return Drawing(width, high - low + 2 * MARGIN, raised, title, _description(names), WIDE_LINE)


def _middles(
    width: float, room: float, whole: float, pulled: float, lettering: float
) -> tuple[float, float]:
    """Where the middles of the two views stand, their captions clear of each other."""
    first, second = (text_width(caption, lettering) for caption in CAPTIONS)
    left, right = max(whole, first), max(pulled, second)
    between = max(GUTTER * whole - (left - whole) / 2 - (right - pulled) / 2, lettering)
    start = max(MARGIN, (width - room - left - between - right) / 2)
    return start + left / 2, start + left + between + right / 2


@dataclass(frozen=True, slots=True)
class _Seen:
    """One view at true size, not yet in place, and its bounds [mm]."""

    paths: tuple[Path, ...]
    bounds: Bounds

    @property
    def width(self) -> float:
        return self.bounds[2] - self.bounds[0]

    @property
    def height(self) -> float:
        return self.bounds[3] - self.bounds[1]

    def placed(self, scale: float, middle: float, foot: float) -> tuple[Item, ...]:
        """The view to scale, the middle of its lower edge put at middle, foot."""
        dx, dy = self._shift(scale, middle, foot)
        larger = (
            Path(path.role, tuple(curve.scaled(scale) for curve in path.curves))
            for path in self.paths
        )
        return moved(larger, dx, dy)

    def placed_points(
        self, points: Iterable[Point], scale: float, middle: float, foot: float
    ) -> list[Point]:
        """Points of the view where `placed` puts them."""
        dx, dy = self._shift(scale, middle, foot)
        return [shift(times(point, scale), dx, dy) for point in points]

    def _shift(self, scale: float, middle: float, foot: float) -> Point:
        low_x, low_y, high_x, _ = self.bounds
        return (middle - scale * (low_x + high_x) / 2, foot - scale * low_y)


def _seen(parts: Sequence[PicturePart]) -> tuple[_Seen, _Seen, list[Point]]:
    """The assembled view, the one drawn apart, and a spot on each part of the latter."""
    view = dimetric()
    together = [part.assembled for part in parts]
    apart = [part.exploded for part in parts]
    dashed = {part.assembled.id for part in parts if part.show_hidden}
    whole = _paths(strokes(together, view), dashed)
    pulled = _paths(strokes(apart, view, [_axis(apart)]), set())
    return whole, pulled, [view.project(spot) for spot in spots(apart, view)]


def _paths(drawn: Iterable[Stroke], dashed: set[str]) -> _Seen:
    """Strokes sorted into paths, hidden ones below; those not wanted left out."""
    groups: dict[Role, list[Stroke]] = {"hidden": [], "centre": [], "visible": []}
    for stroke in drawn:
        if stroke.visible:
            groups["centre" if stroke.kind == "axis" else "visible"].append(stroke)
        elif stroke.owner in dashed and stroke.outer:
            groups["hidden"].append(stroke)
    paths = tuple(
        Path(role, tuple(stroke.curve for stroke in members))
        for role, members in groups.items()
        if members
    )
    return _Seen(paths, union(path.bounds() for path in paths))


def _axis(solids: Sequence[Turned]) -> tuple[Vector, Vector]:
    """The first solid's axis from a little below all of them to a little above."""
    axis, origin = solids[0].axis, solids[0].origin
    ends = [end for solid in solids for end in reach(solid, axis)]
    beyond = OVERRUN * _widest(solids)
    base = dot(origin, axis)
    return (
        add(origin, axis, min(ends) - beyond - base),
        add(origin, axis, max(ends) + beyond - base),
    )


def _widest(solids: Iterable[Turned]) -> float:
    return 2 * max(solid.radius for solid in solids)


def _captions(middles: Sequence[float], height: float) -> tuple[Label, ...]:
    anchor: Anchor = "middle"
    return tuple(
        Label(text, (x, MARGIN + height / 2), height, "note", anchor)
        for text, x in zip(CAPTIONS, middles, strict=True)
    )


def _description(names: Sequence[str]) -> str:
    listed = ", ".join(names)
    return f"On the left the piece assembled, on the right its parts drawn apart: {listed}."
