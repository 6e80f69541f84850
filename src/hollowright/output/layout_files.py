"""Writes all that layouts leave in a folder: pages, each sheet as SVG and DXF, JSON."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Mapping, Sequence

from hollowright.output.files import made_folder, put_whole
from hollowright.output.layout_block import sheet_to_keep
from hollowright.output.layout_data import layouts_data
from hollowright.output.layout_drawing import sheet_at_origin
from hollowright.output.layout_pages import layout_pdf
from hollowright.output.layout_view import SheetView, all_views
from hollowright.output.svg import svg
from hollowright.plan.laid import Layout

PAGES = "layout.pdf"
DATA = "layout-plan.json"


def write_layouts(
    layouts: Sequence[Layout],
    folder: str,
    paper: str = "a4",
    keys: Sequence[str] = (),
    extra: Mapping[str, str] | None = None,
    came_in: Sequence[int] = (),
) -> list[str]:
    """Write every file of these layouts into `folder`, made if need be, and return their paths.

    paper: 'a4' or 'letter'. keys: what each layout is stored by. extra: more texts to leave beside
    them, by file name. came_in: the offcuts' numbers in the drawer, once it is cut. Each file is
    whole or not there. InputError when the folder can't be made or written into.
    """
    place = made_folder(folder)
    contents = {
        **layout_contents(layouts, paper, keys, came_in),
        **{name: text.encode() for name, text in (extra or {}).items()},
    }
    return [str(put_whole(place / name, data)) for name, data in contents.items()]


def layout_contents(
    layouts: Sequence[Layout],
    paper: str = "a4",
    keys: Sequence[str] = (),
    came_in: Sequence[int] = (),
) -> dict[str, bytes]:
    """Every file's bytes by its name."""
    from hollowright.output.dxf import dxf

    views = all_views(layouts, came_in)
    contents: dict[str, bytes] = {}
    if views:
        contents[PAGES] = layout_pdf(layouts, paper, came_in)
    for name, view in zip(sheet_names(views), views, strict=True):
        contents[f"{name}.svg"] = svg(sheet_to_keep(view)).encode()
        contents[f"{name}.dxf"] = dxf(sheet_at_origin(view))
    data = layouts_data(layouts, keys)
    text = json.dumps(data, ensure_ascii=False, allow_nan=False, indent=1) + "\n"
    contents[DATA] = text.encode()
    return contents


def sheet_names(views: Sequence[SheetView]) -> list[str]:
    """A file's name for each sheet: its metal and its own name, numbered where two share one."""
    names = [
        re.sub(r"[^A-Za-z0-9.]+", "-", f"{view.layout.task.batch.id}-{view.laid.id}").strip("-.")
        for view in views
    ]
    plain = [f"sheet-{name[:80]}" for name in names]
    met: Counter[str] = Counter()
    found = []
    for name in plain:
        met[name.lower()] += 1
        found.append(name if met[name.lower()] == 1 else f"{name}-{met[name.lower()]}")
    return found
