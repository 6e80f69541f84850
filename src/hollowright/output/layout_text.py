"""Layouts as text for a terminal: what comes out of which sheet, what to buy, what is wasted."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from itertools import groupby

from hollowright.output.layout_view import likeness, pieces_text
from hollowright.output.layout_words import (
    area_words,
    blank_words,
    found_words,
    gap_words,
    least_area,
    metal_words,
    missing_words,
    offcuts_words,
    price_words,
    sheet_words,
)
from hollowright.output.text import WIDTH
from hollowright.plan.laid import LaidSheet, Layout


def layout_text(layouts: Sequence[Layout], notes: Sequence[str] = ()) -> str:
    """Every batch and sheet. notes: more to mind, after the layouts' own cautions."""
    orders = {flat.order.key: flat.order for each in layouts for flat in each.task.batch.flats}
    lines = [f"Layout of {pieces_text(orders)}", "=" * WIDTH]
    for layout in layouts:
        lines += [*_batch(layout, len(orders) > 1), ""]
    lines += ["TO BUY", *_buying(layouts)]
    missing = [missing_words(each, lost) for each in layouts for lost in each.missing]
    if missing:
        lines += ["", "FOUND NO PLACE", *_listed(missing)]
    minded = [caution.text for layout in layouts for caution in layout.cautions]
    if minded or notes:
        lines += ["", "MIND", *_listed([*dict.fromkeys(minded), *notes])]
    return "\n".join(lines) + "\n"


def _batch(layout: Layout, several: bool) -> Iterator[str]:
    """One metal: what it is, how it was laid, each sheet."""
    yield metal_words(layout.task.batch)
    yield f"  {gap_words(layout)}; {found_words(layout)}"
    groups: dict[object, list[LaidSheet]] = {}
    for place, laid in enumerate(layout.sheets):
        groups.setdefault(likeness(laid, place), []).append(laid)
    for alike in groups.values():
        yield from _sheet(layout, alike[0], len(alike), several)
    if layout.sheets:
        taken, least = (
            area_words(layout, area, 0.0) for area in (layout.taken, least_area(layout))
        )
        yield from wrapped(f"taken: {taken}; the blanks alone are {least}", "  ", "    ")
        if layout.bound_text:
            yield from wrapped(layout.bound_text, "  ", "    ")


def _sheet(layout: Layout, laid: LaidSheet, count: int, several: bool) -> Iterator[str]:
    """One sheet of `count` that are alike: all figures are one's."""
    flats = [layout.task.batch.flat(spot.item) for spot in laid.spots]
    inches = any(flat.order.plan.piece.inches for flat in flats)
    alike = f" ({count} alike, of each:)" if count > 1 else ""
    yield from wrapped(f"{sheet_words(laid, inches)}{alike}", "  ", "    ")
    pinned = sum(spot.pinned for spot in laid.spots)
    also = f"; {pinned} pinned" if pinned else ""
    yield from wrapped(f"{blank_words(layout, laid.spots, several)}{also}", "    ", "      ")
    for name, area in (("blanks", laid.used), ("offcuts", laid.kept), ("waste", laid.waste)):
        if area > 0 or name != "offcuts":
            keep = ""
            if name == "offcuts":
                keep = f"; keep {offcuts_words(laid.offcuts, inches)}"
            yield from wrapped(
                f"{name.ljust(8)}{area_words(layout, area, laid.area)}{keep}", "    ", "      "
            )


def _buying(layouts: Sequence[Layout]) -> Iterator[str]:
    """What to buy with its price, and the sum where every price is known."""
    costs: list[float | None] = []
    for layout in layouts:
        ordered = sorted(layout.bought, key=lambda each: each.sheet.id)
        for _, group in groupby(ordered, key=lambda each: each.sheet.id):
            kind = list(group)
            sheet, metal = kind[0].sheet, metal_words(layout.task.batch)
            cost = None if sheet.cost is None else sheet.cost * len(kind)
            costs.append(cost)
            yield f"  {len(kind)} × {sheet.label}, {metal}: {price_words(cost)}"
    if not costs:
        lost = any(layout.missing for layout in layouts)
        nothing = "nothing that is sold takes what found no place"
        yield f"  {nothing if lost else 'nothing: the metal is there'}"
    known = [cost for cost in costs if cost is not None]
    if len(known) == len(costs) > 1:
        yield f"  together {price_words(sum(known))}"


def wrapped(text: str, first: str, rest: str) -> list[str]:
    """Lines of a terminal's width, indented."""
    return textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=rest)


def _listed(texts: Sequence[str]) -> Iterator[str]:
    for text in texts:
        yield from wrapped(f"- {text}", "  ", "    ")
