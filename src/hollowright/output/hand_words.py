"""What to put right in the piece files once metal in hand has been cut."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from hollowright.plan.orders import Order


def hand_words(orders: Sequence[Order], cut: Collection[str]) -> list[str]:
    """A sentence for each metal in hand that was cut, by its id among sheets and bars."""
    return [
        f"{order.plan.piece.title}: the {stock.label} in hand is cut, but its piece file still "
        f"says that it lies there. {_remedy(stock.bar)} [{stock.path}]: what is left lies in the "
        "drawer."
        for order in orders
        for stock in order.plan.piece.stocks
        if f"hand-{order.key}.{stock.id}" in cut
    ]


def _remedy(bar: bool) -> str:
    return "Take its length out of" if bar else "Take its length and width out of"
