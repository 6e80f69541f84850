"""The pages of a layout as PDF: an overview, then each sheet at true size on pages to join."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from hollowright.output.card import BLOCK, BOTTOM, LEFT, PAPERS, RIGHT, SLIM, TEMPLATES, TOP, Paper
from hollowright.output.drawing import Drawing, moved
from hollowright.output.layout_drawing import bare_items, fitting
from hollowright.output.layout_page_data import Data, summary_data
from hollowright.output.layout_tiles import Tiling, Window, tiling
from hollowright.output.layout_view import SheetView, alike, all_views
from hollowright.output.svg import svg
from hollowright.plan.laid import Layout

PAD = 4.0
"""From the frame to what stands in it on the pages at true size [mm]."""
HEAD, STRIP = 8.0, 27.0
"""What the page's name takes above, bar and key below [mm]."""
NAMED = 9.0
"""What its name takes over each of several windows on one page [mm]."""
KEY = (44.0, 21.0)
"""The largest key of the pages [mm]."""
KEY_LINE = 0.2
SHOWN = 105.0
"""The highest that an overview's drawing may be [mm]."""
OVERVIEW_PAD = 7.0


def layout_pdf(layouts: Sequence[Layout], paper: str = "a4", came_in: Sequence[int] = ()) -> bytes:
    """Every laid sheet as PDF, the same bytes every time. paper: 'a4' or 'letter'.

    came_in: the offcuts' numbers in the drawer, once it is cut.
    """
    import typst

    files: Any = layout_files(layouts, PAPERS[paper], came_in)
    pdf: bytes = typst.compile(files, format="pdf", ignore_system_fonts=True)
    return pdf


def layout_files(
    layouts: Sequence[Layout], paper: Paper, came_in: Sequence[int] = ()
) -> dict[str, bytes]:
    """All that the pages are set from, by name: templates, words and figures, drawings."""
    groups = alike(all_views(layouts, came_in))
    data = summary_data(layouts, groups)
    data |= {"layout": _room(paper), "page-word": "Page"}
    drawings: dict[str, Drawing] = {}
    for number, (group, entry) in enumerate(zip(groups, data["sheets"], strict=True)):
        view = group[0] if len(group) == 1 else replace(group[0], numbers=())
        shown, times = fitting(view, paper.room[0], SHOWN)
        drawings[f"sheet-{number}"] = shown
        entry["drawing"] = {**_measures(f"sheet-{number}", shown), "scale": f"1:{times:g}"}
        turned, tiles = best_tiling(view, paper)
        drawings[f"true-{number}"] = tiles.drawing
        drawings[f"key-{number}"], key = _key(f"key-{number}", tiles, view)
        entry["true"] = {
            **_measures(f"true-{number}", tiles.drawing),
            "turned": turned,
            "key": key,
            "windows": [_window(window) for window in tiles.windows],
            "pages": [
                [window.name for window in page]
                for page in pages_of(tiles, page_room(_lying(paper) if turned else paper)[1])
            ],
        }
    return {
        **_templates(),
        "layout.json": json.dumps(data).encode(),
        **{f"{name}.svg": svg(drawing).encode() for name, drawing in drawings.items()},
    }


def best_tiling(view: SheetView, paper: Paper) -> tuple[bool, Tiling]:
    """The sheet on as few pages as may be; whether the paper lies on its side for it.

    Of as many pages, those with fewer joins.
    """
    tilings = []
    for turned, sheet in ((False, paper), (True, _lying(paper))):
        room = page_room(sheet)
        tiles = tiling(view, *room)
        tilings.append((len(pages_of(tiles, room[1])), len(tiles.printed), turned, tiles))
    _, _, turned, tiles = min(tilings, key=lambda each: each[:3])
    return turned, tiles


def _lying(paper: Paper) -> Paper:
    """The paper on its side."""
    return Paper(paper.height, paper.width)


def pages_of(tiles: Tiling, room: float) -> tuple[tuple[Window, ...], ...]:
    """Which windows stand on which page, low ones over each other. room: a page's height [mm]."""
    tallest = max((window.height for window in tiles.printed), default=room)
    many = max(1, int(room / (tallest + NAMED)))
    return tuple(tiles.printed[at : at + many] for at in range(0, len(tiles.printed), many))


def page_room(paper: Paper) -> tuple[float, float]:
    """The largest part of a drawing that goes on one page at true size [mm]."""
    across = paper.width - LEFT - RIGHT - 2 * PAD
    return across, paper.height - TOP - BOTTOM - SLIM - 2 * PAD - HEAD - STRIP


def _key(name: str, tiles: Tiling, view: SheetView) -> tuple[Drawing, Data]:
    """The whole sheet, small, and where the drawing at true size lies on it."""
    left, low, right, high = tiles.sheet
    drawing, rim = tiles.drawing, KEY_LINE
    low_x, low_y = min(0.0, left), min(0.0, low)
    high_x, high_y = max(drawing.width, right), max(drawing.height, high)
    scale = min(KEY[0] / (high_x - low_x), KEY[1] / (high_y - low_y))
    place = ((left - low_x) * scale + rim, (low - low_y) * scale + rim)
    lines = moved(bare_items(view, scale), *place)
    size = ((high_x - low_x) * scale + 2 * rim, (high_y - low_y) * scale + 2 * rim)
    drawn = Drawing(*size, lines, "The pages and where they lie", "", KEY_LINE)
    return drawn, {
        **_measures(name, drawn),
        "scale": scale,
        "left": -low_x * scale + rim,
        "top": (high_y - drawing.height) * scale + rim,
    }


def _measures(name: str, drawing: Drawing) -> Data:
    return {
        "name": name,
        "width": drawing.width,
        "height": drawing.height,
        "alt": drawing.description or drawing.title,
    }


def _window(window: Window) -> Data:
    return {
        "name": window.name,
        "left": window.left,
        "top": window.top,
        "width": window.width,
        "height": window.height,
        "joins": [{"side": side, "name": name, "at": at} for side, name, at in window.joins],
        "crosses": [list(point) for point in window.crosses],
        "empty": window.empty,
    }


def _templates() -> dict[str, bytes]:
    names = ("layout.typ", "look.typ", "blanks.typ")
    read = {name: (TEMPLATES / name).read_bytes() for name in names}
    return {"main.typ": read.pop("layout.typ"), **read}


def _room(paper: Paper) -> Data:
    return {
        "width": paper.width,
        "height": paper.height,
        "frame": {"left": LEFT, "right": RIGHT, "top": TOP, "bottom": BOTTOM},
        "block": BLOCK,
        "slim": SLIM,
        "pad": OVERVIEW_PAD,
        "true-pad": PAD,
        "head": HEAD,
        "strip": STRIP,
        "named": NAMED,
        "text": paper.room[0],
    }
