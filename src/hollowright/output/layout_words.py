"""How a layout is said, in one place for every writer: metal, place, areas, prices."""

from __future__ import annotations

from collections.abc import Sequence

from hollowright.output.layout_view import SheetView
from hollowright.plan.laid import LaidSheet, Layout, NotLaid, Sheet
from hollowright.plan.orders import Batch
from hollowright.shapes.nesting.problem import Spot
from hollowright.shapes.nesting.rows import is_rectangle
from hollowright.shapes.outline import Outline
from hollowright.units import format_inch, format_number

NO_PRICE = "no price known"
FOUND = {"quick": "the quick answer", "kept": "kept from before"}
"""How a layout was found, in words."""
LONG = 0.1
"""A shorter search isn't spoken of [s]."""


def size_words(size: float | Outline, inches: bool = False) -> str:
    """A length, or how far an outline reaches across and up, with inches where they were read."""
    lengths = (size.width, size.height) if isinstance(size, Outline) else (size,)
    said = " × ".join(length_words(each) for each in lengths)
    return f"{said} ({' × '.join(format_inch(each) for each in lengths)})" if inches else said


def whole_size(outline: Outline, inches: bool = False) -> str:
    """How far an outline reaches across and up, with its unit: '300 × 150 mm'."""
    size = f"{size_words(outline)} mm"
    return f"{size} ({inch_words(outline)} in)" if inches else size


def offcut_words(offcut: Outline, inches: bool = False) -> str:
    """How large an offcut is; of one that is no rectangle, the rectangle that it lies in."""
    size = size_words(offcut, inches)
    return size if is_rectangle(offcut) else f"within {size}"


def length_words(length: float) -> str:
    """A length to a tenth of a millimetre, whole where it is whole.

    >>> length_words(300.0), length_words(57.25)
    ('300', '57.3')
    """
    return format_number(length, 1).removesuffix(".0")


def metal_words(batch: Batch) -> str:
    """What a batch is cut from: 'yellow brass (C26000) 0.71 mm, half-hard'."""
    temper = f", {batch.temper}" if batch.temper else ""
    return f"{batch.metal.name} {format_number(batch.thickness)} mm{temper}"


def sheet_name(laid: LaidSheet) -> str:
    """A laid sheet's name: its number in the drawer; (2) and so on from the second of a supply."""
    number = laid.id.partition("#")[2]
    if laid.sheet.origin == "drawer":
        return f"number {laid.sheet.label}"
    return f"{laid.sheet.label} ({number})" if number else laid.sheet.label


def sheets_words(layout: Layout) -> str:
    """The sheets that a layout takes: 'number 3 (tin 4), 2 × strip 600 x 25 mm'."""
    labels = [each.sheet.label for each in layout.sheets if each.sheet.origin != "drawer"]
    found = [_numbered(each.sheet.label) for each in layout.sheets if each.sheet.origin == "drawer"]
    found += [f"{labels.count(label)} × {label}" for label in dict.fromkeys(labels)]
    return ", ".join(found)


def _numbered(label: str) -> str:
    """A sheet of the drawer with its place: '3, tin 4' as 'number 3 (tin 4)'."""
    number, _, place = label.partition(", ")
    return f"number {number} ({place})" if place else f"number {number}"


def sheet_words(laid: LaidSheet, inches: bool = False) -> str:
    """A laid sheet with its size and where it comes from, nothing of it said twice."""
    sheet, name = laid.sheet, sheet_name(laid)
    temper = sheet.temper if sheet.temper not in name else ""
    size = where = ""
    if sheet.origin != "in hand":
        size, where = size_beside(laid, inches), where_words(sheet)
    return ", ".join(each for each in (name, size, temper, where) if each)


def size_beside(laid: LaidSheet, inches: bool = False) -> str:
    """A sheet's size as it is said beside its name: what of it the name doesn't tell; or ''."""
    sheet = laid.sheet
    if sheet.origin == "drawer":
        return whole_size(sheet.outline, inches)
    return f"{inch_words(sheet.outline)} in" if inches else ""


def inch_words(outline: Outline) -> str:
    """How far an outline reaches across and up in inches, without the unit."""
    sizes = (outline.width, outline.height)
    return " × ".join(format_inch(each).removesuffix(" in") for each in sizes)


MOST_OFFCUTS = 4


def offcuts_words(offcuts: Sequence[Outline], inches: bool = False) -> str:
    """The sizes of offcuts, the largest first; of many, how many more there are."""
    ordered = sorted(offcuts, key=lambda each: -each.area)
    said = [offcut_words(each, inches) for each in ordered[:MOST_OFFCUTS]]
    if len(ordered) > MOST_OFFCUTS:
        said.append(f"{len(ordered) - MOST_OFFCUTS} smaller")
    return ", ".join(said)


def where_words(sheet: Sheet) -> str:
    """Where the metal comes from."""
    return {"drawer": "from the drawer", "in hand": "in hand", "to buy": "to buy"}[sheet.origin]


def price_words(cost: float | None) -> str:
    """A price in the shop's own money."""
    return NO_PRICE if cost is None else f"{cost:,.2f}"


def area_words(layout: Layout, area: float, whole: float) -> str:
    """An area with its share and its weight: '4321 mm2, 56 %, 25.9 g'."""
    share = f", {100 * area / whole:.0f} %" if whole > 0 else ""
    return f"{area:.0f} mm2{share}, {grams_words(layout.grams(area))}"


def share_words(layout: Layout, area: float, whole: float) -> str:
    """The same, or 'none'."""
    return area_words(layout, area, whole) if area > 0 else "none"


def grams_words(grams: float) -> str:
    """A weight to three figures or so.

    >>> grams_words(3.456), grams_words(345.6)
    ('3.46 g', '346 g')
    """
    return f"{grams:.{0 if grams >= 100 else 1 if grams >= 10 else 2}f} g"


def gap_words(layout: Layout) -> str:
    """The gaps kept."""
    rules = layout.task.rules
    between, edge = format_number(rules.between), format_number(rules.edge)
    return f"{between} mm kerf between blanks, {edge} mm left at the edges"


def found_words(layout: Layout) -> str:
    """How the layout was found: 'searched for 10 s'."""
    time = f"{layout.seconds:.{0 if layout.seconds >= 2 else 1}f} s"
    if layout.found == "kept" and layout.seconds >= LONG:
        return f"{FOUND['kept']}, searched for {time} then"
    return f"searched for {time}" if layout.found == "searched" else FOUND[layout.found]


def least_area(layout: Layout) -> float:
    """The blanks' own area, all of them [mm2]: no layout takes less metal."""
    return sum(flat.outline.area * flat.count for flat in layout.task.batch.flats)


def counted(names: Sequence[str]) -> str:
    """Names with how often each comes: '12 ring, 2 cap'."""
    return ", ".join(f"{names.count(name)} {name}" for name in dict.fromkeys(names))


def blank_words(layout: Layout, spots: Sequence[Spot], several: bool) -> str:
    """The blanks that lie on spots, counted; with their pieces' titles where several are laid."""
    flats = [layout.task.batch.flat(spot.item) for spot in spots]
    return counted(
        [f"{flat.order.plan.piece.title}: {flat.name}" if several else flat.name for flat in flats]
    )


def missing_words(layout: Layout, lost: NotLaid) -> str:
    """Which blanks found no place, why, and what would do."""
    flat = layout.task.batch.flat(lost.flat)
    name = f"{flat.order.plan.piece.title}: {flat.name}"
    return f"{lost.count} × {name}: {lost.why} {lost.remedy}".strip()


def view_title(view: SheetView) -> str:
    """What a drawing of a laid sheet is called; with the sheet's temper where it tells more."""
    batch, own = view.layout.task.batch, view.laid.sheet.temper
    temper = f", {own}" if own and own != batch.temper else ""
    return f"{view.pieces}: {metal_words(batch)}, {sheet_name(view.laid)}{temper}"


def view_description(view: SheetView) -> str:
    """What it shows, in words."""
    names = counted([blank.name for blank in view.blanks])
    kept = f"; {len(view.offcuts)} offcuts to keep" if view.offcuts else ""
    waste = area_words(view.layout, view.laid.waste, view.laid.area)
    size = size_words(view.outline, view.inches)
    return f"Sheet {size}: {names}{kept}; waste {waste}."
