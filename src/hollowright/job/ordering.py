"""Piece files as orders: each planned, and how many are to be made."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from hollowright.errors import InputError
from hollowright.job.job import plan_file
from hollowright.plan.orders import MOST_COPIES, Order, orders


def orders_of_files(
    paths: Sequence[str], copies: int = 1, shop_path: str | None = None
) -> tuple[Order, ...]:
    """An order for each piece file; a file given twice counts twice.

    InputError for a number of copies that is wrong or too many.
    """
    times = Counter(os.path.realpath(path) for path in paths)
    first = {os.path.realpath(path): path for path in reversed(paths)}
    named = orders([plan_file(first[real], shop_path) for real in times], copies)
    found = tuple(
        replace(order, copies=copies * times[real])
        for order, real in zip(named, times, strict=True)
    )
    for order in found:
        if order.copies > MOST_COPIES:
            many = f"{order.copies} of one piece are too many."
            raise InputError("copies", many, f"At most {MOST_COPIES}.")
    return found
