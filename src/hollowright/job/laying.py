"""From planned pieces and the metal there is to tasks, and from tasks to layouts."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from time import monotonic

from hollowright.errors import InputError, UnknownName, shown
from hollowright.job.job import read_text
from hollowright.piece import Stock
from hollowright.plan.buying import sold_sheets
from hollowright.plan.laid import TURNING, Layout, Rules, Sheet, Task
from hollowright.plan.layout import better_layout, first_layout, gain_left
from hollowright.plan.orders import Batch, Order, batches
from hollowright.shapes.nesting.problem import Spot
from hollowright.shapes.outline import rectangle
from hollowright.shop import Shop
from hollowright.shop.sold import Sold, default_sold, read_sold
from hollowright.units import format_number

SOLD_FILE = "sold.csv"
"""A sold list of this name beside a piece file is used for it."""

LEAST_SHARE = 0.5
"""A task isn't searched for less than this [s]."""


def sold_of(path: str | None, folder: str = "") -> Sold:
    """The sold list: the one named, else sold.csv in the folder, else the common sizes."""
    beside = os.path.join(folder, SOLD_FILE)
    if path is None and not os.path.isfile(beside):
        return default_sold()
    chosen = beside if path is None else path
    return read_sold(read_text(chosen, "sold"), os.path.basename(chosen))


def tasks(
    wanted: Sequence[Order],
    shop: Shop,
    drawer: Sequence[Sheet] = (),
    sold: Sold | None = None,
    turning: str | Sequence[str] = (),
    over: Sequence[str] = (),
    pins: Sequence[Spot] = (),
    strips: Sequence[str] = (),
) -> tuple[Task, ...]:
    """What is to be laid out: a task for each metal, thickness and temper of the orders' blanks.

    drawer: sheets that lie there, of any metal; those that suit are taken. sold: None: the common
    sizes. turning: rules as they are written, 'grain' for all or 'ring=quarter' for a part; over:
    parts that may be turned over, 'all' for all. pins: spots that a person chose. strips: ids of
    blanks left out, since they are sawn from strip (`bar_strips.strip_ids`).
    """
    rules = rules_of(wanted, shop, turning, over)
    tolerance = shop.value("sheet_tolerance")
    metal = (*drawer, *in_hand(wanted))
    found = []
    for batch in batches(wanted, tolerance, strips):
        there = tuple(sheet for sheet in metal if suits(sheet, batch, tolerance))
        bought = sold_sheets(
            default_sold() if sold is None else sold,
            batch.metal, batch.thickness, batch.temper, tolerance,
        )  # fmt: skip
        own = {flat.id for flat in batch.flats}
        pinned = tuple(replace(pin, pinned=True) for pin in pins if pin.item in own)
        found.append(Task(batch, (*there, *bought), rules, pinned))
    return tuple(found)


def suits(sheet: Sheet, batch: Batch, tolerance: float) -> bool:
    """Whether a sheet is of a batch's metal, thickness [mm] and temper (where both are said)."""
    if sheet.metal != batch.metal.id or abs(sheet.thickness - batch.thickness) > tolerance + 1e-9:
        return False
    return not (sheet.temper and batch.temper and sheet.temper != batch.temper)


def in_hand(wanted: Sequence[Order]) -> Iterator[Sheet]:
    """The sheets that piece files say lie there: those with a length and a width, each once."""
    for order in wanted:
        for stock in order.plan.piece.stocks:
            if stock.form == "sheet" and stock.length and stock.width:
                yield _hand_sheet(order, stock, stock.length.value, stock.width.value)


def _hand_sheet(order: Order, stock: Stock, length: float, width: float) -> Sheet:
    size = " x ".join(format_number(each, 1).removesuffix(".0") for each in (length, width))
    return Sheet(
        f"hand-{order.key}.{stock.id}", f"{stock.label} in hand, {size} mm", "in hand",
        stock.metal.id, stock.thickness.value, rectangle(length, width), stock.temper, None,
    )  # fmt: skip


def rules_of(
    wanted: Sequence[Order], shop: Shop, turning: str | Sequence[str], over: Sequence[str]
) -> Rules:
    """How blanks are laid out: the shop's gaps, the turning and turning over that is written.

    UnknownName for a rule or a part that there isn't.
    """
    known = _parts(wanted)
    general, single = "free", {}
    for text in [turning] if isinstance(turning, str) else turning:
        part, mark, rule = text.rpartition("=")
        if rule.strip() not in TURNING:
            raise UnknownName("turns", rule.strip(), TURNING)
        if mark:
            single[_part(part, "turns", known)] = rule.strip()
        else:
            general = rule.strip()
    named = [name for name in over if name.strip() != "all"]
    return Rules(
        shop.value("kerf"), shop.value("sheet_margin"), shop.value("offcut_least"), general,
        single, tuple(_part(name, "over", known) for name in named), len(named) < len(over),
    )  # fmt: skip


def _parts(wanted: Sequence[Order]) -> Mapping[str, None]:
    """The names of parts laid out: 'ring', and 'striker-box.ring' with its order."""
    flats = [
        (order.key, part.id) for order in wanted for part in order.plan.parts if part.blank.flat
    ]
    return dict.fromkeys([*(part for _, part in flats), *(f"{key}.{part}" for key, part in flats)])


def _part(name: str, field: str, known: Mapping[str, None]) -> str:
    if name.strip() not in known:
        raise UnknownName(field, name.strip(), tuple(known))
    return name.strip()


def lay_out(
    wanted: Sequence[Task],
    seconds: float = 0.0,
    report: Callable[[tuple[Layout, ...]], None] = lambda _: None,
    stop: Callable[[], bool] = lambda: False,
    start: Sequence[Layout | None] = (),
) -> tuple[Layout, ...]:
    """Every task laid out: at once, then better for about so many seconds in all.

    start: layouts found before, in the tasks' order, None where there is none. report: told all
    layouts when the first are there and whenever one is bettered. The time is shared among the
    tasks that can still gain.
    """
    if not 0 <= seconds <= 3600:
        raise InputError("seconds", f"{shown(seconds)} can't be.", "Write 0 to 3600.")
    before = [*start, *[None] * (len(wanted) - len(start))]
    layouts = [old or first_layout(task) for task, old in zip(wanted, before, strict=True)]
    report(tuple(layouts))
    until = monotonic() + seconds
    open_ = [place for place, layout in enumerate(layouts) if gain_left(layout)]
    for done, place in enumerate(open_):
        share = (until - monotonic()) / (len(open_) - done)
        if share < LEAST_SHARE or stop():
            break

        def heard(better: Layout, place: int = place) -> None:
            layouts[place] = better
            report(tuple(layouts))

        layouts[place] = better_layout(wanted[place], layouts[place], share, heard, stop)
    return tuple(layouts)
