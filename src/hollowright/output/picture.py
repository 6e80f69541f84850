"""The picture of a piece: assembled, and drawn apart, each part with its name."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from hollowright.output.drawing import Drawing, Item, Label, moved
from hollowright.output.extent import extent
from hollowright.output.leaders import leaders
from hollowright.output.picture_axes import axis_of, widest
from hollowright.output.picture_layout import MARGIN, Layout, Sheet, Size, layout
from hollowright.output.picture_views import PicturePart, seen_views
from hollowright.shapes.apart import STILL, shifts
from hollowright.shapes.bodies import Body
from hollowright.shapes.curves import Point
from hollowright.shapes.space import Vector
from hollowright.shapes.view import dimetric

GAP = 0.42  # between parts drawn apart, as a share of the widest one
WIDE_LINE = 0.35  # [mm]
CAPTIONS = ("assembled", "drawn apart")


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

    def fit(sizes: Sequence[Size]) -> Layout:
        return _fitting(sizes, sheet, captions)

    views, dots = seen_views(parts, dimetric(), lambda sizes: fit(sizes).scale, bool(captions))
    placed = fit([view.size for view in views])
    items: list[Item] = [item for at, view in enumerate(views) for item in view.placed(placed, at)]
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


def _fitting(sizes: Sequence[Size], sheet: Sheet, captions: Sequence[str]) -> Layout:
    placed = layout(sizes, sheet, captions)
    if placed.scale <= 0:
        raise ValueError(
            f"{sheet.width} x {sheet.most_height} mm is too little for the picture and its names"
        )
    return placed


def _description(names: Sequence[str], feet: Sequence[Point]) -> str:
    listed = ", ".join(names)
    if len(feet) == 1:
        return f"The piece: {listed}."
    first, second = (
        ("On top", "below") if feet[0][1] > feet[1][1] else ("On the left", "on the right")
    )
    return f"{first} the piece assembled, {second} its parts drawn apart: {listed}."
