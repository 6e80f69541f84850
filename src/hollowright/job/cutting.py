"""Piece files, how many of each, shop, drawer and sold list -> cut lists of all their bars."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from hollowright.errors import Caution
from hollowright.plan.bar_runs import ACROSS, bar_batches, in_hand, sawn_already, suits
from hollowright.plan.bar_strips import sold_strips, strip_batches
from hollowright.plan.bars import Bar, CutList
from hollowright.plan.buying import sold_bars
from hollowright.plan.cutlist import SECONDS, bar_rules, cut_list
from hollowright.plan.orders import Order
from hollowright.shop import Shop
from hollowright.shop.sold import Sold, default_sold

Finder = Callable[[str, str, Mapping[str, float], str, float], Iterable[Bar]]
"""Gives the bars in a drawer by form, metal (id), section [mm], temper, tolerance [mm]."""


def no_drawer(*_: object) -> tuple[Bar, ...]:
    """Where there is no drawer, nothing lies in it."""
    return ()


@dataclass(frozen=True)
class Cutting:
    """The cut lists of some orders, in a shop; cautions that belong to none of them alone."""

    orders: tuple[Order, ...]
    shop: Shop
    lists: tuple[CutList, ...]
    cautions: tuple[Caution, ...] = ()

    @property
    def inches(self) -> bool:
        """Whether readings were written in inches, so that lengths are shown in inches, too."""
        return any(order.plan.piece.inches for order in self.orders)

    @property
    def title(self) -> str:
        """What is made: the pieces' titles, and how many of each."""
        return " and ".join(
            f"{order.copies} × {order.plan.piece.title}"
            if order.copies > 1
            else order.plan.piece.title
            for order in self.orders
        )

    @property
    def complete(self) -> bool:
        """Whether every length found its bar."""
        return not any(each.missing for each in self.lists)


def cutting(
    wanted: Sequence[Order],
    shop: Shop,
    drawer: Finder = no_drawer,
    sold: Sold | None = None,
    seconds: float = SECONDS,
) -> Cutting:
    """Cut lists of orders: bars in the drawer and in hand first, then what is sold.

    sold: what may be bought; None: the common sizes. seconds: how long the solver may take for each
    batch.
    """
    listed = default_sold() if sold is None else sold
    tolerance = shop.value("sheet_tolerance")
    strips = (*_drawer_strips(wanted, drawer, tolerance), *sold_strips(wanted, listed, tolerance))
    found = strip_batches(wanted, strips, tolerance)
    lists = []
    for batch in bar_batches(wanted, tolerance):
        near = drawer(batch.form, batch.metal.id, batch.sizes, batch.temper, max(tolerance, ACROSS))
        sale = sold_bars(sold=listed, form=batch.form, metal=batch.metal, sizes=batch.sizes,
                         temper=batch.temper, tolerance=tolerance)  # fmt: skip
        lists.append((batch, (*in_hand(wanted), *near, *sale)))
    lists += [(batch, strips) for batch in found.batches]
    return Cutting(
        tuple(wanted),
        shop,
        tuple(
            cut_list(
                batch,
                [bar for bar in bars if suits(batch, bar, tolerance)],
                bar_rules(shop, batch.form),
                seconds,
            )
            for batch, bars in lists
        ),
        (*sawn_already(wanted), *_off_sheet(found.ids)),
    )


def _drawer_strips(wanted: Sequence[Order], drawer: Finder, tolerance: float) -> tuple[Bar, ...]:
    """The strips in the drawer of the orders' metals and thicknesses, each once."""
    found: dict[str, Bar] = {}
    for stock in (stock for order in wanted for stock in order.plan.piece.stocks):
        if not stock.bar:
            sizes = {"thickness": stock.thickness.value}
            near = drawer("strip", stock.metal.id, sizes, stock.temper, tolerance)
            found |= {bar.id: bar for bar in near}
    return tuple(found.values())


def _off_sheet(ids: Sequence[str]) -> tuple[Caution, ...]:
    """Said where blanks come from strip, so that nobody cuts them twice."""
    if not ids:
        return ()
    named = ", ".join(ids)
    return (
        Caution(
            "from_strip",
            f"From strip of their width, so not to be cut from sheet as well: {named}.",
            "choice",
        ),
    )
