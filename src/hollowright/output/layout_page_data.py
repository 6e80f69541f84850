"""What the pages of a layout say: summary, what to buy, a table of each sheet's blanks."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Any

from hollowright import __version__
from hollowright.output.card_data import glued, printable, unlettered
from hollowright.output.layout_view import PlacedBlank, SheetView, pieces_text
from hollowright.output.layout_words import (
    area_words,
    blank_words,
    found_words,
    gap_words,
    grams_words,
    inch_words,
    length_words,
    metal_words,
    missing_words,
    offcut_words,
    price_words,
    share_words,
    sheet_name,
    sheets_words,
    size_beside,
    where_words,
)
from hollowright.plan.laid import LaidSheet, Layout
from hollowright.plan.safety import DEFERS
from hollowright.quantity.working import number_text
from hollowright.units import format_inch, format_number

Data = dict[str, Any]


def summary_data(layouts: Sequence[Layout], groups: Sequence[Sequence[SheetView]]) -> Data:
    """All that is said, of the sheets too; texts are plain texts, never markup.

    groups: the sheets, those together that are alike.
    """
    orders = {flat.order.key: flat.order for each in layouts for flat in each.task.batch.flats}
    title = f"{pieces_text(orders)}: layout"
    words = {
        "maker": f"Hollowright {__version__}",
        "batches": [_batch(layout, len(orders) > 1) for layout in layouts],
        "bought": list(_bought(layouts)),
        "missing": [missing_words(each, lost) for each in layouts for lost in each.missing],
        "cautions": [
            *dict.fromkeys(c.text for each in layouts for c in each.cautions),
            *unlettered(title),
        ],
        "notes": NOTES,
        "defers": DEFERS,
        "sheets": [_sheet(number, group) for number, group in enumerate(groups, 1)],
    }
    return {"title": _together(printable(title)), **squared(glued(words))}


def _together(words: str) -> str:
    """The same with every count and what it counts on one line."""
    return re.sub(r"(\d) × ", "\\1\u00a0×\u00a0", words)


def squared(data: Any) -> Any:
    """The same data with square millimetres as print has them."""
    if isinstance(data, str):
        return re.sub(r"\b([cm]m)2\b", r"\1²", data)
    if isinstance(data, dict):
        return {name: squared(value) for name, value in data.items()}
    return [squared(each) for each in data]


NOTES = tuple(
    """
Saw on the waste side of each thick line, then dress to it. A thin line with two dots is the \
finished outline; where it would lie closer than 0.4 mm, it is left out. Other thin lines are to \
scribe or fold. Dashed: where an offcut \
may be parted from the waste. A dot in a circle: pinned by hand.
Distances are measured from the sheet's lower left corner: to a disc's middle, to the left and the \
lowest edge of any other blank.
File burrs off before you handle sheet; clamp small pieces, never hold them at the saw.
""".strip().splitlines()
)


def _batch(layout: Layout, several: bool) -> Data:
    """One line of the summary for a metal: how much is taken, how much of it is blank."""
    area = sum(each.area for each in layout.sheets)
    sums = {name: sum(getattr(each, name) for each in layout.sheets) for name in SHARES}
    return {
        "metal": metal_words(layout.task.batch),
        "blanks": blank_words(layout, layout.spots, several),
        "sheets": _together(sheets_words(layout)),
        **{name: share_words(layout, value, area) for name, value in sums.items()},
        "found": found_words(layout),
        "taken": area_words(layout, layout.taken, 0.0),
        "bound": layout.bound_text,
    }


SHARES = ("used", "kept", "waste")


def _bought(layouts: Sequence[Layout]) -> Iterator[Data]:
    """What to buy: each kind of sheet once, how many, its price."""
    for layout in layouts:
        for _, group in groupby(layout.bought, key=lambda each: each.sheet.id):
            members = list(group)
            sheet = members[0].sheet
            cost = None if sheet.cost is None else sheet.cost * len(members)
            yield {
                "count": f"{len(members)} ×",
                "what": f"{sheet.label}, {metal_words(layout.task.batch)}",
                "price": price_words(cost),
            }


def _sheet(number: int, group: Sequence[SheetView]) -> Data:
    """One laid sheet, or several alike: what stands over its drawing, and its table."""
    view = group[0]
    layout, laid = view.layout, view.laid
    return {
        "number": str(number),
        "name": sheet_name(laid),
        "where": where_words(laid.sheet) + (f"; {len(group)} alike" if len(group) > 1 else ""),
        "metal": metal_words(layout.task.batch),
        "size": size_beside(laid, view.inches),
        "gaps": gap_words(layout),
        "pieces": view.pieces,
        "weights": _weights(layout, laid),
        "offcuts": [_offcut(group, place) for place in range(len(view.offcuts))],
        "rows": [_row(blank, view.inches) for blank in view.blanks],
    }  # fmt: skip


def _offcut(group: Sequence[SheetView], place: int) -> str:
    """An offcut with its number or numbers, once it has some: '6, 9: within 40 × 22, 4.7 g'."""
    view = group[0]
    offcut = view.offcuts[place]
    numbers = ", ".join(str(each.numbers[place]) for each in group if each.numbers)
    size, grams = offcut_words(offcut, view.inches), view.layout.grams(offcut.area)
    return f"{numbers}{': ' if numbers else ''}{size}, {grams_words(grams)}"


def _weights(layout: Layout, laid: LaidSheet) -> list[list[str]]:
    return [
        [name, share_words(layout, area, laid.area)]
        for name, area in (("blanks", laid.used), ("offcuts", laid.kept), ("waste", laid.waste))
    ]


def _row(blank: PlacedBlank, inches: bool) -> Data:
    """One blank in the table: where to mark it from, its size as it lies, how it is turned."""
    return {
        "number": str(blank.number),
        "name": blank.name,
        "figures": [format_number(at, 1) for at in blank.at] + [_size(blank)],
        "inches": [format_inch(at) for at in blank.at] + [_inches(blank)] if inches else [],
        "turn": f"{blank.turn:g}°" if blank.turn else "",
        "notes": ", ".join(_notes(blank)),
    }


def _size(blank: PlacedBlank) -> str:
    """A disc's diameter to its middle, else how far it reaches across and up as it lies."""
    sizes = blank.flat.sizes
    if blank.round and "diameter" in sizes:
        return f"⌀{number_text(sizes['diameter'])}"
    return f"{length_words(blank.cut.width)} × {length_words(blank.cut.height)}"


def _inches(blank: PlacedBlank) -> str:
    """The same in inches."""
    diameter = blank.flat.sizes.get("diameter")
    if blank.round and diameter is not None:
        return f"⌀{format_inch(diameter.value)}"
    return f"{inch_words(blank.cut)} in"


def _notes(blank: PlacedBlank) -> Iterator[str]:
    if blank.spot.mirrored:
        yield "face down"
    if blank.spot.pinned:
        yield "pinned"
