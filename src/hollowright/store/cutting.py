"""What a layout or a cut list takes out of the drawer and what of it comes back in."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from hollowright.plan.bars import Bar, CutList, SawnBar
from hollowright.plan.laid import LaidSheet, Layout, NotLaid, Sheet
from hollowright.shapes.curves import Line
from hollowright.shapes.outline import Outline
from hollowright.store.faults import DrawerRefused
from hollowright.store.items import PREFIX, Item, NewItem

AS_BEFORE = 1e-6
"""A size or area within this of what was planned with is still the same [mm, mm2]."""


@dataclass(frozen=True)
class Left:
    """What is left of a sheet or bar and worth keeping; share: of the whole's cost, 0 to 1."""

    share: float
    outline: Outline | None = None
    length: float = 0.0
    square_ends: int = 0


@dataclass(frozen=True)
class Taken:
    """A sheet or bar that is cut: its number in the drawer (None: elsewhere), what is left."""

    number: int | None
    metal: Sheet | Bar
    left: tuple[Left, ...]


def of_layouts(layouts: Sequence[Layout], keep_others: bool) -> tuple[Taken, ...]:
    """The sheets that layouts cut; keep_others: what is left of others comes in."""
    _check_whole([lost for layout in layouts for lost in layout.missing])
    laid = [sheet for layout in layouts for sheet in layout.sheets if sheet.spots]
    return _once([_sheet(each) for each in laid], keep_others)


def _check_whole(missing: Sequence[NotLaid]) -> None:
    """DrawerRefused when something found no metal: then nothing is cut."""
    for lost in missing:
        why = f"nothing was cut: {lost.count} × {lost.flat} found no metal."
        raise DrawerRefused("cut", why, "Cut when all have a place.")


def _sheet(laid: LaidSheet) -> Taken:
    if sum(each.area for each in laid.offcuts) > laid.area - laid.used + AS_BEFORE * laid.area:
        raise DrawerRefused(laid.sheet.label, "its offcuts are more than was left of it.", "")
    left = tuple(Left(each.area / laid.area, each) for each in laid.offcuts)
    return Taken(_number(laid.sheet), laid.sheet, left)


def of_cut_lists(lists: Sequence[CutList], keep_others: bool) -> tuple[Taken, ...]:
    """The bars that cut lists saw; keep_others: what is left of others comes in."""
    _check_whole([lost for each in lists for lost in each.missing])
    return _once([_bar(bar) for each in lists for bar in each.bars if bar.pieces], keep_others)


def _bar(sawn: SawnBar) -> Taken:
    if not sawn.kept:
        return Taken(_number(sawn.bar), sawn.bar, ())
    rest = Left(sawn.rest / sawn.bar.length, None, sawn.rest, sawn.rest_square)
    return Taken(_number(sawn.bar), sawn.bar, (rest,))


def _number(metal: Sheet | Bar) -> int | None:
    """The number of a drawer's item; None for metal from elsewhere."""
    if metal.origin != "drawer":
        return None
    text = metal.id.removeprefix(PREFIX)
    if not text.isdecimal():
        raise DrawerRefused(metal.label, "it isn't the drawer's.", "Lay it out anew.")
    return int(text)


def _once(taken: Sequence[Taken], keep_others: bool) -> tuple[Taken, ...]:
    """What is cut, what lies there once; DrawerRefused when it is cut twice.

    keep_others: what is left of metal that isn't the drawer's is kept as well.
    """
    single = {
        each.metal.id: f"item {each.number}" if each.number is not None else each.metal.label
        for each in taken
        if each.metal.origin != "to buy"
    }
    met = Counter(each.metal.id for each in taken)
    for id, who in single.items():
        if met[id] > 1:
            raise DrawerRefused(who, "it is cut twice.", "Lay it out anew.")
    return tuple(
        each if each.number is not None or keep_others else replace(each, left=()) for each in taken
    )


def in_hand(taken: Sequence[Taken]) -> dict[str, str]:
    """The metal in hand that is cut: its size [mm] by its id, as the record keeps both."""
    return {
        each.metal.id: _hand_size(each.metal) for each in taken if each.metal.origin == "in hand"
    }


def _hand_size(metal: Sheet | Bar) -> str:
    if isinstance(metal, Bar):
        sizes = (*metal.sizes.values(), metal.length)
    else:
        sizes = (metal.thickness, metal.outline.width, metal.outline.height, metal.outline.area)
    return " x ".join(f"{size:.2f}" for size in sizes)


def check_not_cut(taken: Sequence[Taken], before: Mapping[str, Mapping[int, str]]) -> None:
    """DrawerRefused when metal in hand was cut before, and its piece file says it is still there.

    before: by id, the sizes that standing cuttings took, each by the cutting's number.
    """
    for id, size in in_hand(taken).items():
        for number, then in before.get(id, {}).items():
            if then == size:
                label = next(each.metal.label for each in taken if each.metal.id == id)
                raise DrawerRefused(
                    label,
                    f"cutting {number} took it already, though the piece file says that it lies "
                    "there; nothing was changed.",
                    "Take its length out of the piece file, or correct it: what was left of it "
                    "lies in the drawer. If it is another piece of that size, put it in the "
                    "drawer.",
                )


def check_same(item: Item, planned: Sheet | Bar) -> None:
    """DrawerRefused when an item has gone or isn't what was planned with any more."""
    who = f"item {item.number}"
    if not item.there:
        how = f"{item.gone_how}: {item.gone_why}" if item.gone_why else item.gone_how
        raise DrawerRefused(who, f"it has gone from the drawer ({how}).", "Lay it out anew.")
    if item.metal != planned.metal or not _same_size(item, planned):
        raise DrawerRefused(who, "it has been changed since it was laid out.", "Lay it out anew.")


def _same_size(item: Item, planned: Sheet | Bar) -> bool:
    if isinstance(planned, Bar):
        pairs = [(item.length, planned.length)]
        pairs += [(item.sizes.get(name), size) for name, size in planned.sizes.items()]
        same_form = item.form == planned.form
        return same_form and all(_near(now, then) for now, then in pairs)
    now, then = item.shape, planned.outline
    pairs = [(item.thickness, planned.thickness), (now.area, then.area)]
    pairs += list(zip(now.bounds, then.bounds, strict=True))
    return item.flat and all(_near(now, then) for now, then in pairs)


def _near(now: float | None, then: float) -> bool:
    return now is not None and math.isclose(now, then, rel_tol=1e-9, abs_tol=AS_BEFORE)


def offcut(taken: Taken, left: Left, parent: Item | None, made_for: str) -> NewItem:
    """What is left as an item: of the metal, place and readings of what it was cut from."""
    if isinstance(taken.metal, Bar):
        return _rest(taken.metal, left, parent, made_for)
    sheet = taken.metal
    size, outline = plain_size(left.outline), None
    if size is None and left.outline is not None:
        low_x, low_y, _, _ = left.outline.bounds
        outline = left.outline.moved(-low_x, -low_y)
        size = (outline.width, outline.height)
    length, width = size or (0.0, 0.0)
    strip = parent is not None and parent.form == "strip" and _near(parent.width, width)
    cost = parent.cost if parent else sheet.cost
    return NewItem(
        form="strip" if strip and outline is None else "sheet",
        metal=sheet.metal,
        temper=parent.temper if parent else sheet.temper,
        thickness=sheet.thickness,
        length=length,
        width=width,
        outline=outline,
        grain=parent.grain if parent else sheet.grain,
        readings=_readings(parent, ("thickness",)),
        place=parent.place if parent else "",
        cost=None if cost is None else cost * left.share,
        note="" if parent else _note(sheet, made_for),
        cut_from=parent.number if parent else None,
    )


def _rest(bar: Bar, left: Left, parent: Item | None, made_for: str) -> NewItem:
    cost = parent.cost if parent else bar.cost
    sizes: dict[str, Any] = dict(bar.sizes)
    return NewItem(
        form=bar.form,
        metal=bar.metal,
        temper=parent.temper if parent else bar.temper,
        **sizes,
        length=left.length,
        square_ends=left.square_ends if bar.form in ("tube", "rod") else 0,
        grain=parent.grain if parent else None,
        readings=_readings(parent, tuple(bar.sizes)),
        place=parent.place if parent else "",
        cost=None if cost is None else cost * left.share,
        note="" if parent else _note(bar, made_for),
        cut_from=parent.number if parent else None,
    )


def _readings(parent: Item | None, names: Sequence[str]) -> Mapping[str, tuple[str, ...]]:
    """The readings that hold for what is left as well: of the section, not of the length."""
    if parent is None:
        return {}
    return {name: texts for name, texts in parent.readings.items() if name in names}


def _note(metal: Sheet | Bar, made_for: str) -> str:
    how = "bought" if metal.origin == "to buy" else metal.origin
    return f"left of {metal.label} ({how}), {made_for}"[:500]


def plain_size(outline: Outline | None) -> tuple[float, float] | None:
    """Length and width [mm] of an outline that is an upright rectangle; None for any other."""
    if outline is None or outline.holes:
        return None
    if not all(isinstance(curve, Line) for curve in outline.segments):
        return None
    length, width = outline.width, outline.height
    return (length, width) if math.isclose(outline.area, length * width, rel_tol=1e-12) else None
