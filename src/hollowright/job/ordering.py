"""Piece files as orders: each planned, and how many are to be made."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from hollowright.errors import HollowrightError, InputError, shown
from hollowright.job.job import plan_file
from hollowright.plan.orders import MOST_COPIES, Order, orders
from hollowright.plan.plan import Plan


def orders_of_files(
    paths: Sequence[str], copies: int = 1, shop_path: str | None = None
) -> tuple[Order, ...]:
    """An order for each piece file; a file given twice counts twice.

    InputError for a number of copies that is wrong or too many.
    """
    times = Counter(os.path.realpath(path) for path in paths)
    first = {os.path.realpath(path): path for path in reversed(paths)}
    plans = [_planned(first[real], shop_path, len(times) > 1) for real in times]
    named = orders(plans, copies)
    found = tuple(
        replace(order, copies=copies * times[real])
        for order, real in zip(named, times, strict=True)
    )
    for order in found:
        if order.copies > MOST_COPIES:
            many = f"{order.copies} of one piece are too many."
            raise InputError("copies", many, f"At most {MOST_COPIES}.")
    return found


def _planned(path: str, shop_path: str | None, several: bool) -> Plan:
    """The plan of a piece file; where there are several, its errors say which file is wrong."""
    try:
        return plan_file(path, shop_path)
    except HollowrightError as fault:
        if several:
            for each in {id(one): one for one in (fault, *fault.each())}.values():
                each.field = _field_in(path, each)
        raise


def _field_in(path: str, fault: HollowrightError) -> str:
    """The field of an error with its file's name, unless the error has that already."""
    if fault.field == "file":
        return fault.field if shown(path) in fault.problem else path
    return f"{path}: {fault.field}" if fault.field else path
