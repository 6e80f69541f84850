"""The gallery: every design as its own drawing, with the sizes that it asks for."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from hollowright.designs import Design, design, designs
from hollowright.designs.composed import EXAMPLE, SUMMARY, TITLE
from hollowright.designs.fields import Example
from hollowright.errors import UnknownName
from hollowright.web.form import COMPOSED
from hollowright.web.pages import rendered

PICTURE_WIDTH = 92.0
"""Width of a drawing in the gallery [mm]."""

HIGHEST = 66.0
"""How high it may be [mm]."""

ASKED = ("length", "angle", "number", "share", "text", "points", "drawing", "count", "choice")
"""Kinds of fields that are sizes to fill."""

MOST_SIZES = 7


@dataclass(frozen=True)
class Tile:
    """One design of the gallery: its id, what it is, the sizes that it asks for."""

    id: str
    title: str
    summary: str
    sizes: tuple[str, ...]


def tiles() -> list[Tile]:
    """Every design, and the example of several joined."""
    found = [Tile(each.id, each.title, each.summary, _sizes(each)) for each in designs()]
    return [*found, Tile(COMPOSED, TITLE, SUMMARY, ("the parts' own", "where they meet"))]


def _sizes(chosen: Design) -> tuple[str, ...]:
    """Labels of the sizes to fill, those that are needed first."""
    fields = [f for f in chosen.fields if f.group.startswith("sizes") and f.kind in ASKED]
    fields.sort(key=lambda field: not field.required)
    return tuple(dict.fromkeys(field.label for field in fields))[:MOST_SIZES]


async def gallery(_: Request) -> HTMLResponse:
    """The page of all designs."""
    return HTMLResponse(rendered("gallery.html", tiles=tiles()))


def drawing(request: Request) -> Response:
    """A design's own drawing: its first example, assembled and drawn apart."""
    id = request.path_params["id"]
    try:
        picture = example_picture(id)
    except UnknownName as fault:
        return Response(str(fault), 404, media_type="text/plain; charset=utf-8")
    return Response(picture, media_type="image/svg+xml; charset=utf-8")


@lru_cache(maxsize=64)
def example_picture(id: str) -> bytes:
    """The SVG of a design's first example; UnknownName when there is no such design."""
    from hollowright.job.job import plan_tables, read_tables
    from hollowright.output.plan_picture import plan_picture
    from hollowright.output.svg import svg

    example: Example = EXAMPLE if id == COMPOSED else design(id).examples[0]
    plan = plan_tables(read_tables(example.text))
    return svg(plan_picture(plan, PICTURE_WIDTH, most_height=HIGHEST)).encode()
