"""What can be taken away of layouts: true-size pages, each sheet as SVG and DXF, the numbers."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from starlette.responses import Response

from hollowright.job.layout_json import layout_data, task_key
from hollowright.output.layout_view import SheetView, sheet_views
from hollowright.output.layout_words import metal_words, sheet_name
from hollowright.plan.laid import Layout
from hollowright.web.downloads import SVG

PAPERS = ("a4", "letter")


def views_of(layouts: Sequence[Layout]) -> list[SheetView]:
    """Every laid sheet of the layouts, as drawings show it."""
    several = len({flat.order.key for each in layouts for flat in each.task.batch.flats}) > 1
    return [view for each in layouts for view in sheet_views(each, several)]


def sheet_files(layouts: Sequence[Layout]) -> list[tuple[str, str]]:
    """Name of each sheet's file (without its ending) and what it is called on the page."""
    from hollowright.output.layout_files import sheet_names

    views = views_of(layouts)
    return [
        (name, _called(view, len(layouts) > 1))
        for name, view in zip(sheet_names(views), views, strict=True)
    ]


def _called(view: SheetView, several: bool) -> str:
    """A sheet's name; with its metal, where sheets of several are laid."""
    name = sheet_name(view.laid)
    return f"{name}, {metal_words(view.layout.task.batch)}" if several else name


def layout_file(layouts: Sequence[Layout], what: str) -> Response | None:
    """A file of the layouts by name, None when there is none of that name.

    what: 'layout-a4.pdf', 'layout-letter.pdf', 'layout.json' (where all lies, to be kept),
    'layout-plan.json' (its numbers), or a sheet's name with '.svg' or '.dxf'.
    """
    if what in (f"layout-{paper}.pdf" for paper in PAPERS):
        from hollowright.output.layout_pages import layout_pdf

        paper = what.removeprefix("layout-").removesuffix(".pdf")
        return _file(what, layout_pdf(layouts, paper), "application/pdf")
    if what == "layout.json":
        return _file(what, _json(layout_data(layouts)), "application/json")
    if what == "layout-plan.json":
        from hollowright.output.layout_data import layouts_data

        keys = [task_key(layout.task) for layout in layouts]
        return _file(what, _json(layouts_data(layouts, keys)), "application/json")
    name, _, kind = what.rpartition(".")
    return _sheet_file(layouts, name, kind) if kind in ("svg", "dxf") else None


def _json(data: dict[str, Any]) -> bytes:
    return json.dumps(data, ensure_ascii=False, allow_nan=False, indent=1).encode()


def _sheet_file(layouts: Sequence[Layout], name: str, kind: str) -> Response | None:
    from hollowright.output.layout_files import sheet_names

    views = views_of(layouts)
    view = dict(zip(sheet_names(views), views, strict=True)).get(name)
    if view is None:
        return None
    if kind == "svg":
        from hollowright.output.layout_block import sheet_to_keep
        from hollowright.output.svg import svg

        return _file(f"{name}.svg", svg(sheet_to_keep(view)).encode(), SVG)
    from hollowright.output.dxf import dxf
    from hollowright.output.layout_drawing import sheet_at_origin

    return _file(f"{name}.dxf", dxf(sheet_at_origin(view)), "image/vnd.dxf")


def _file(name: str, body: bytes, kind: str) -> Response:
    headers = {"content-disposition": f'attachment; filename="{name}"'}
    return Response(body, media_type=kind, headers=headers)
