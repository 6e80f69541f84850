"""The layout page as HTML: whole, the part that changes, and how far a search is."""

from __future__ import annotations

import json
import secrets
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from starlette.responses import HTMLResponse

from hollowright.output.layout_page_data import NOTES
from hollowright.plan.laid import Layout
from hollowright.plan.orders import Order
from hollowright.plan.safety import DEFERS
from hollowright.web.laying_ask import MOST_SECONDS, Ask, written_spots
from hollowright.web.laying_cut import Cut
from hollowright.web.laying_files import sheet_files
from hollowright.web.laying_jobs import Search
from hollowright.web.laying_source import could_strip, ordered, strips_of
from hollowright.web.laying_view import batch_views, pins_of
from hollowright.web.laying_work import Bench, Laid
from hollowright.web.pages import rendered

MOST_WHY = 400
"""A reason in the bar of tools is no longer [letters]."""

TURNING_WORDS = {
    "free": "any way",
    "quarter": "by quarter turns",
    "grain": "with the grain only",
}
"""How blanks may be turned, in words."""


def layout_page(
    laid: Laid, bench: Bench, status: int = 200, typed: Mapping[str, str] | None = None
) -> HTMLResponse:
    """The whole page. typed: what stands in boxes that are emptied once it is taken."""
    if not laid.ask.page:
        laid = replace(laid, ask=replace(laid.ask, page=secrets.token_urlsafe(9)))
    return HTMLResponse(
        rendered("layout.html", **_context(laid, bench) | {"typed": typed or {}}), status
    )


def laid_part(laid: Laid, bench: Bench) -> HTMLResponse:
    """What changes when something was chosen; where it can't be, only why: the rest stays."""
    shown = rendered("layout_part.html", **_context(laid, bench))
    nothing = not laid.layouts and not laid.ask.strips
    wrong = laid.fault or laid.ask.faults or nothing
    return HTMLResponse(shown, headers=_stays(laid) if wrong else {})


def _stays(laid: Laid) -> dict[str, str]:
    """Headers that let the sheets stand, and tell the bar of tools why."""
    faults = [laid.fault] if laid.fault else list(laid.ask.faults.values())
    why = " ".join(f"{each.problem} {each.remedy}".strip() for each in faults)[:MOST_WHY]
    return {"hx-reswap": "none", "hx-trigger": json.dumps({"notso": {"why": why}})}


def search_part(search: Search, seen: int) -> HTMLResponse:
    """How far a search is; with the sheets, when they are better than what the page has seen."""
    version = search.version
    shown: dict[str, Any] = {"search": search, "version": version, "again": True}
    if version > seen:
        shown |= _sheets(search.layouts)
    shown["better"] = version > seen
    return HTMLResponse(rendered("layout_search.html", **shown))


def cut_page(cut: Cut, status: int = 200) -> HTMLResponse:
    """Whether it shall be cut, or that it was, or why it can't be."""
    shown = {
        "cut": cut,
        "ask": cut.ask,
        "spots": written_spots(cut.ask.spots),
        "pins": written_spots(cut.ask.pins),
    }
    return HTMLResponse(rendered("layout_cut.html", **shown), status)


def _context(laid: Laid, bench: Bench) -> dict[str, Any]:
    return {
        "ask": laid.ask,
        "laid": laid,
        "shop": bench.shop,
        "turning_words": TURNING_WORDS,
        "most_seconds": MOST_SECONDS,
        "flats": _flats(laid),
        "strips": _strips(laid.ask),
        **_sheets(laid.layouts),
    }


def _sheets(layouts: Sequence[Layout]) -> dict[str, Any]:
    """What the pictures want."""
    orders = {flat.order.key for each in layouts for flat in each.task.batch.flats}
    spots = [spot for each in layouts for spot in each.spots]
    return {
        "batches": batch_views(layouts, len(orders) > 1),
        "several": len(orders) > 1,
        "spots": written_spots(spots),
        "pins": written_spots(pins_of(layouts)),
        "piece_names": _piece_names([f.order for each in layouts for f in each.task.batch.flats]),
        "typed": {},
        "hand": NOTES[-1],
        "defers": DEFERS,
        "files": sheet_files(layouts),
    }


def _piece_names(orders: Iterable[Order]) -> dict[str, str]:
    """What tells pieces apart, by key: titles, and the keys where two have the same."""
    keyed = {order.key: order.plan.piece.title for order in orders}
    counts = Counter(keyed.values())
    return {key: title if counts[title] == 1 else key for key, title in keyed.items()}


def _strips(ask: Ask) -> list[tuple[str, str, bool]]:
    """Each blank that could be sawn from strip: its id, its name, whether it is."""
    several = len(ask.pieces) > 1
    wanted = ordered(ask)
    could, chosen = could_strip(wanted), strips_of(ask, wanted)
    names = _piece_names(wanted)
    return [
        (id, f"{names[order.key]}: {part.name}" if several else part.name, id in chosen)
        for order in wanted
        for part in order.plan.parts
        if (id := f"{order.key}.{part.id}") in could
    ]


def _flats(laid: Laid) -> list[tuple[str, str, int]]:
    """Each kind of blank: its id, its name (with its piece's where there are several), how many."""
    several = len(laid.ask.pieces) > 1
    orders = [flat.order for layout in laid.layouts for flat in layout.task.batch.flats]
    names = _piece_names(orders)
    return [
        (flat.id, f"{names[flat.order.key]}: {flat.name}" if several else flat.name,
         flat.count)
        for layout in laid.layouts
        for flat in layout.task.batch.flats
    ]  # fmt: skip
