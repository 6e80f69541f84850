"""The drawer on the terminal: a table of items, one item with its record, the cuttings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hollowright.handbook.metals import metal
from hollowright.store import Change, Cutting, Item, Page
from hollowright.units import format_number

GRAIN = {0.0: "along its length", 90.0: "along its width"}
HEADS = ("no", "form", "metal", "size (mm)", "temper", "place", "cost", "note")
RIGHT = ("no", "cost")
WIDEST_NOTE = 40


def page_text(page: Page) -> str:
    """A page of items as a table."""
    if not page.items:
        return "Nothing here." if page.total == 0 else f"There are {page.pages} pages."
    table = columns([HEADS, *map(_row, page.items)], RIGHT)
    many = "1 item" if page.total == 1 else f"{page.total} items"
    where = f", page {page.page} of {page.pages} (--page N)" if page.pages > 1 else ""
    return f"{table}\n{many}{where}."


def _row(item: Item) -> tuple[str, ...]:
    note = item.note if item.there else f"gone: {_how(item.gone_how)}, {item.gone_why}"
    short = note if len(note) <= WIDEST_NOTE else note[: WIDEST_NOTE - 1] + "…"
    size = item.size_text + (", cut shape" if item.outline else "")
    return (
        str(item.number),
        item.form,
        metal(item.metal).name,
        size,
        item.temper,
        item.place,
        "" if item.cost is None else format_number(item.cost),
        short,
    )


def columns(rows: Sequence[Sequence[str]], right: Sequence[str] = ()) -> str:
    """Rows as a table: the first names the columns; an empty column is left out."""
    kept = [i for i, _ in enumerate(rows[0]) if any(row[i] for row in rows[1:])]
    widths = {i: max(len(row[i]) for row in rows) for i in kept}
    lines = (
        "  ".join(
            row[i].rjust(widths[i]) if rows[0][i] in right else row[i].ljust(widths[i])
            for i in kept
        )
        for row in rows
    )
    return "\n".join(line.rstrip() for line in lines)


def item_text(item: Item, changes: Sequence[Change] = ()) -> str:
    """One item, everything that is known of it, and its record."""
    known = metal(item.metal)
    lines = [f"{item.label}: {item.form}, {known.name} ({known.id}), {item.size_text} mm"]
    told = {
        "temper": item.temper,
        "shape": f"cut, {format_number(item.area, 0)} mm² in all" if item.outline else "",
        "grain": _grain(item.grain),
        "square ends": "" if item.flat else str(item.square_ends),
        **{f"{name.replace('_', ' ')} read": "; ".join(t) for name, t in item.readings.items()},
        "cost": "" if item.cost is None else format_number(item.cost),
        "note": item.note,
        "cut from": str(item.cut_from or ""),
        "gone": "" if item.there else f"{_how(item.gone_how)}: {item.gone_why}",
    }
    lines += [f"  {name:<22}{value}" for name, value in told.items() if value]
    lines += [f"  {change.at:%Y-%m-%d %H:%M}      {_change(change)}" for change in changes]
    return "\n".join(lines)


def _grain(grain: float | None) -> str:
    return "" if grain is None else GRAIN.get(grain, f"{grain:g}° from its length")


def _change(change: Change) -> str:
    told = change.told
    if change.what == "changed":
        return "changed: " + ", ".join(_old_new(name, told[name]) for name in sorted(told))
    by = f", cutting {told['cutting']}" if "cutting" in told else ""
    why = f": {told['why']}" if told.get("why") else ""
    return f"{_how(change.what)}{why}{by}"


def _how(what: str) -> str:
    """What happened, in the word that we have for it."""
    return "taken back" if what == "undone" else what


def _old_new(name: str, both: Sequence[Any]) -> str:
    if name in ("outline", "readings"):
        return name
    old, new = ("nothing" if each in (None, "") else each for each in both)
    return f"{name} from {old} to {new}"


def cuttings_text(cuttings: Sequence[Cutting]) -> str:
    """The cuttings, newest first."""
    if not cuttings:
        return "Nothing has been cut yet."
    heads = ("no", "when (UTC)", "for", "out", "left over", "")
    rows = [
        (
            str(each.number),
            f"{each.at:%Y-%m-%d %H:%M}",
            each.made_for,
            numbers(each.out),
            numbers(each.came_in),
            "taken back" if each.undone else "",
        )
        for each in cuttings
    ]
    return columns([heads, *rows], ("no",))


def numbers(given: Sequence[int]) -> str:
    """Items' numbers in a line: '17, 21'."""
    return ", ".join(map(str, given)) or "none"


def cutting_text(cutting: Cutting, left: Mapping[int, Item]) -> str:
    """What a cutting did: what went out, what to write on what is left."""
    lines = [f"Cutting {cutting.number}: out of the drawer: {numbers(cutting.out)}."]
    lines += [
        f"  write {number} on what is left: {left[number].size_text}" for number in cutting.came_in
    ]
    return "\n".join(lines)
