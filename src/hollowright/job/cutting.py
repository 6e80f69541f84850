"""Piece files, how many of each, shop, drawer and sold list -> cut lists of all their bars."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from hollowright.errors import Caution
from hollowright.plan.bar_runs import ACROSS, bar_batches, in_hand, sawn_already, suits
from hollowright.plan.bar_strips import (
    Wanted,
    check_widths,
    sold_strips,
    strip_batches,
    strip_ids,
    wanted_of_strip,
    without,
)
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
        named = [
            f"{order.copies} × {order.plan.piece.title}"
            if order.copies > 1
            else order.plan.piece.title
            for order in self.orders
        ]
        return " and ".join([", ".join(named[:-1]), named[-1]] if len(named) > 1 else named)

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
    strips: Sequence[str] = (),
) -> Cutting:
    """Cut lists of orders: bars in the drawer and in hand first, then what is sold.

    sold: what may be bought; None: the common sizes. seconds: how long the solver may take for each
    batch. strips: the flat blanks that are sawn from strip, as `bar_strips.strip_ids` reads them;
    all others are the layout's.
    """
    listed = default_sold() if sold is None else sold
    tolerance = shop.value("sheet_tolerance")
    ids = strip_ids(wanted, strips)
    off_strip = wanted_of_strip(wanted, ids)
    of_width = (
        *_drawer_strips(off_strip, drawer, tolerance), *sold_strips(off_strip, listed, tolerance)
    )  # fmt: skip
    check_widths(off_strip, of_width, tolerance)
    lists = []
    for batch in bar_batches(wanted, tolerance):
        near = drawer(batch.form, batch.metal.id, batch.sizes, batch.temper, max(tolerance, ACROSS))
        sale = sold_bars(sold=listed, form=batch.form, metal=batch.metal, sizes=batch.sizes,
                         temper=batch.temper, tolerance=tolerance)  # fmt: skip
        lists.append((batch, (*in_hand(wanted), *near, *sale)))
    of_bars = [
        cut_list(
            batch,
            [bar for bar in bars if suits(batch, bar, tolerance)],
            bar_rules(shop, batch.form),
            seconds,
        )
        for batch, bars in lists
    ]
    return Cutting(
        tuple(wanted),
        shop,
        (*of_bars, *_off_strip(off_strip, of_width, shop, seconds)),
        (*sawn_already(wanted), *_off_sheet(ids)),
    )


def _off_strip(
    wanted: Sequence[Wanted], strips: Sequence[Bar], shop: Shop, seconds: float
) -> Iterator[CutList]:
    """The cut lists of blanks sawn from strip; what one takes the next ones haven't."""
    tolerance = shop.value("sheet_tolerance")
    taken: list[Bar] = []
    for batch, bars in strip_batches(wanted, strips, tolerance):
        made = cut_list(batch, without(bars, taken), bar_rules(shop, batch.form), seconds)
        taken += [each.bar for each in made.bars]
        yield made


def _drawer_strips(wanted: Sequence[Wanted], drawer: Finder, tolerance: float) -> tuple[Bar, ...]:
    """The strips in the drawer of these blanks' metals and thicknesses, each once."""
    found: dict[str, Bar] = {}
    for stock in (each.length.stock for each in wanted):
        sizes = {"thickness": stock.thickness.value}
        near = drawer("strip", stock.metal.id, sizes, stock.temper, tolerance)
        found |= {bar.id: bar for bar in near}
    return tuple(found.values())


def _off_sheet(ids: Sequence[str]) -> tuple[Caution, ...]:
    """Said where blanks come from strip, so that nobody cuts them from sheet as well."""
    if not ids:
        return ()
    named = ", ".join(ids)
    return (
        Caution(
            "from_strip",
            f"Sawn from strip: {named}. Choose the same in the layout, which leaves them out then.",
            "choice",
        ),
    )
