"""What is wanted of bars: the pieces of tube and rod of all orders, as runs by section."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from hollowright.errors import Caution
from hollowright.piece import Part, Stock
from hollowright.plan.bars import Bar, BarBatch, Length, Run
from hollowright.plan.orders import Order

ACROSS = 0.1
"""Diameters and widths that differ by no more are one section [mm]: common practice, no source."""

WALLS = ("wall", "thickness")


def same_section(
    one: Mapping[str, float], other: Mapping[str, float], tolerance: float, doubt: float = 0.0
) -> bool:
    """Whether two sections are the same [mm]: walls and thickness within the tolerance.

    What is across within ACROSS, or within the doubt of its reading if that is more.

    >>> same_section({"diameter": 3.0}, {"diameter": 3.08}, 0.03)
    True
    """
    return set(one) == set(other) and all(
        abs(size - other[name]) <= (tolerance if name in WALLS else max(ACROSS, doubt)) + 1e-9
        for name, size in one.items()
    )


def suits(batch: BarBatch, bar: Bar, tolerance: float) -> bool:
    """Whether a bar is of a batch's form, metal, section and temper (where both are said)."""
    return (
        (bar.form, bar.metal) == (batch.form, batch.metal.id)
        and (not bar.temper or not batch.temper or bar.temper == batch.temper)
        and same_section(batch.sizes, bar.sizes, tolerance)
    )


def in_hand(wanted: Sequence[Order]) -> tuple[Bar, ...]:
    """The bars that the piece files say lie there: those with a length, each once."""
    return tuple(
        Bar(
            f"hand-{order.key}.{stock.id}",
            f"{stock.label} of {order.plan.piece.title}",
            "in hand", stock.form, stock.metal.id, section(stock), stock.length.value,
            stock.temper, stock.factory_ends,
        )
        for order in wanted
        for stock in order.plan.piece.stocks
        if stock.bar and stock.length is not None and not _sawn(order, stock)
    )  # fmt: skip


def bar_batches(wanted: Sequence[Order], tolerance: float) -> tuple[BarBatch, ...]:
    """Every piece of tube and rod of the orders, by form, metal, section and temper.

    tolerance: walls that differ by no more [mm] are one. What a piece file's as-built readings say
    is sawn already is left out, for one of the copies.
    """
    found: list[BarBatch] = []
    for order in wanted:
        for stock in order.plan.piece.stocks:
            if stock.bar:
                runs = _runs(order, stock)
                found = added(found, stock.form, stock, section(stock), runs, tolerance)
    return tuple(found)


def sawn_already(wanted: Sequence[Order]) -> tuple[Caution, ...]:
    """What is left out, since as-built readings say that it is sawn."""
    return tuple(
        Caution(
            "sawn_already",
            f"{order.plan.piece.title}: its {stock.label} is sawn already, as its readings tell; "
            "one piece's is left out here.",
            "choice",
        )
        for order in wanted
        for stock in order.plan.piece.stocks
        if stock.bar and _sawn(order, stock)
    )


def section(stock: Stock) -> dict[str, float]:
    """What a bar is across [mm], by name."""
    return {name: size.value for name, size in stock.sizes.items()}


def _sawn(order: Order, stock: Stock) -> bool:
    """Whether as-built readings tell that a bar is sawn already."""
    return bool({change.id for change in order.plan.piece.changes} & set(stock.sawn_once))


def added(
    found: list[BarBatch],
    form: str,
    stock: Stock,
    sizes: Mapping[str, float],
    runs: tuple[Run, ...],
    tolerance: float,
) -> list[BarBatch]:
    """The batches with these runs in the one of their section, or in a new one."""
    if not runs:
        return found
    doubt = 2 * max((size.uncertainty for size in stock.sizes.values()), default=0.0)
    for place, batch in enumerate(found):
        same = (batch.form, batch.metal.id, batch.temper) == (form, stock.metal.id, stock.temper)
        if same and same_section(batch.sizes, sizes, tolerance, doubt):
            return [
                *found[:place], replace(batch, runs=(*batch.runs, *runs)), *found[place + 1 :],
            ]  # fmt: skip
    return [*found, BarBatch(form, stock.metal, sizes, stock.temper, runs)]


def _runs(order: Order, stock: Stock) -> tuple[Run, ...]:
    """The pieces of one bar of an order: those that meet side by side, the rest each alone."""
    copies = order.copies - _sawn(order, stock)
    parts = [part for part in order.plan.parts if part.stock == stock.id and not part.blank.flat]
    lengths = {
        part.id: Length(
            f"{order.key}.{part.id}", order, part, stock, part.blank.to_cut["length"],
            part.blank.square_ends,
        )
        for part in parts
    }  # fmt: skip
    left = {part.id: part.count * copies for part in parts}
    runs = [run for part in parts for run in _met(part, lengths, left)]
    runs += [Run((lengths[id],), count) for id, count in left.items() if count > 0]
    return tuple(runs)


def _met(part: Part, lengths: Mapping[str, Length], left: dict[str, int]) -> Iterator[Run]:
    """The runs of a part and the one that it meets; what is left of both is told in `left`."""
    other = part.blank.meets
    if other not in lengths:
        return
    own = other == part.id
    count = left[part.id] // 2 if own else min(left[part.id], left[other])
    if count > 0:
        left[part.id] -= count
        left[other] -= count
        yield Run((lengths[part.id], lengths[other]), count)
