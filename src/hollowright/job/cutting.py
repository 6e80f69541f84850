"""Piece files, how many of each, shop, drawer and sold list -> cut lists of all their bars."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from hollowright.errors import Caution
from hollowright.job.job import plan_file, read_text, shop_of
from hollowright.plan.bar_runs import bar_batches, in_hand, sawn_already, suits
from hollowright.plan.bar_strips import sold_strips, strip_batches
from hollowright.plan.bars import Bar, BarBatch, CutList
from hollowright.plan.buying import sold_bars
from hollowright.plan.cutlist import SECONDS, bar_rules, cut_list
from hollowright.plan.orders import Order, orders
from hollowright.plan.plan import Plan
from hollowright.shop import Shop
from hollowright.shop.sold import Sold, default_sold, read_sold

Drawer = Callable[[BarBatch], Iterable[Bar]]
"""Gives the bars in the drawer that may suit a batch."""


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
        named = " and ".join(order.plan.piece.title for order in self.orders)
        copies = self.orders[0].copies if self.orders else 1
        each = " of each" if len(self.orders) > 1 else ""
        return f"{named}, {copies} pieces{each}" if copies > 1 else named

    @property
    def complete(self) -> bool:
        """Whether every length found its bar."""
        return not any(each.missing for each in self.lists)


def cutting(
    plans: Sequence[Plan],
    copies: int,
    shop: Shop,
    drawer: Sequence[Bar] = (),
    sold: Sold | None = None,
    seconds: float = SECONDS,
) -> Cutting:
    """Cut lists of planned pieces, so many of each.

    drawer: the bars that lie there, of any kind. sold: what may be bought; None: the common sizes.
    seconds: how long the solver may take for each batch. InputError for a wrong number of copies.
    """
    wanted = orders(plans, copies)
    listed = default_sold() if sold is None else sold
    tolerance = shop.value("sheet_tolerance")
    there = (*in_hand(wanted), *drawer)
    strips = [bar for bar in there if bar.form == "strip"]
    strips += sold_strips(wanted, listed, tolerance)
    found = strip_batches(wanted, strips, tolerance)
    lists = [
        cut_list(
            batch,
            _bars(batch, there, strips, listed, tolerance),
            bar_rules(shop, batch.form),
            seconds,
        )
        for batch in (*bar_batches(wanted, tolerance), *found.batches)
    ]
    return Cutting(wanted, shop, tuple(lists), (*sawn_already(wanted), *_off_sheet(found.ids)))


def cutting_of_files(
    paths: Sequence[str],
    copies: int = 1,
    shop_path: str | None = None,
    drawer: Sequence[Bar] = (),
    sold_path: str | None = None,
    seconds: float = SECONDS,
) -> Cutting:
    """The same from piece files; the shop is the one named, or that beside the first file."""
    shop = shop_of(shop_path, os.path.dirname(paths[0]))
    plans = [plan_file(path, shop_path) for path in paths]
    sold = None
    if sold_path is not None:
        sold = read_sold(read_text(sold_path, "sold"), os.path.basename(sold_path))
    return cutting(plans, copies, shop, drawer, sold, seconds)


def _bars(
    batch: BarBatch,
    there: Sequence[Bar],
    strips: Sequence[Bar],
    sold: Sold,
    tolerance: float,
) -> tuple[Bar, ...]:
    """The bars that a batch may be sawn from: those there, then those sold."""
    if batch.form == "strip":
        return tuple(bar for bar in strips if suits(batch, bar, tolerance))
    mine = tuple(bar for bar in there if suits(batch, bar, tolerance))
    return (*mine, *sold_bars(
        sold, batch.form, batch.metal, batch.sizes, batch.temper, tolerance
    ))  # fmt: skip


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
