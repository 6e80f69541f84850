"""Linear and whole-number programmes put to HiGHS: one thread, and no word on standard output."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from threading import Lock
from typing import Any

INFINITE = 1e30
MANY = 2**31 - 1
_GATE = Lock()


@dataclass(frozen=True)
class Column:
    """One unknown: its cost, what it puts into each row, its greatest value."""

    cost: float
    rows: tuple[int, ...]
    shares: tuple[float, ...]
    most: float = INFINITE


@dataclass(frozen=True)
class Answer:
    """What the solver found: values, their cost, the least possible cost, whether they are equal.

    values is empty when nothing was found; `possible` is False when it was shown that nothing can
    be. prices: what one more in each row would cost (of a linear programme only).
    """

    values: tuple[float, ...]
    cost: float
    bound: float
    proven: bool
    possible: bool = True
    prices: tuple[float, ...] = ()


def solve(
    columns: Sequence[Column],
    low: Sequence[float],
    high: Sequence[float],
    whole: bool = True,
    seconds: float = 5.0,
    gap: float = 0.0,
    branches: int = MANY,
) -> Answer:
    """Least cost with every row between low and high; whole: of whole numbers only.

    gap: stop once the cost is proven to be within so much. branches: give up the proof after so
    many. The same answer everywhere, unless the seconds run out; `proven` is False either way.
    """
    highs, module = _solver(), _module()
    highs.clearModel()
    highs.setOptionValue("time_limit", highs.getRunTime() + max(0.05, seconds))
    highs.setOptionValue("mip_max_nodes", branches)
    highs.setOptionValue("mip_abs_gap", max(gap, 1e-6))
    highs.passModel(_model(columns, low, high, whole))
    highs.run()
    status = highs.getModelStatus()
    if status in (
        module.HighsModelStatus.kInfeasible,
        module.HighsModelStatus.kUnboundedOrInfeasible,
    ):
        return Answer((), INFINITE, INFINITE, True, False)
    info, found = highs.getInfo(), highs.getSolution()
    proven = status == module.HighsModelStatus.kOptimal
    if info.primal_solution_status != 2:
        return Answer((), INFINITE, info.mip_dual_bound if whole else -INFINITE, False)
    cost = float(info.objective_function_value)
    bound = float(info.mip_dual_bound) if whole else cost
    prices = () if whole else tuple(float(each) for each in found.row_dual)
    return Answer(tuple(found.col_value), cost, bound, proven, True, prices)


def _model(
    columns: Sequence[Column], low: Sequence[float], high: Sequence[float], whole: bool
) -> Any:
    import numpy as np

    module = _module()
    model = module.HighsLp()
    model.num_col_, model.num_row_ = len(columns), len(low)
    model.col_cost_ = np.array([each.cost for each in columns], dtype=float)
    model.col_lower_ = np.zeros(len(columns))
    model.col_upper_ = np.array([each.most for each in columns], dtype=float)
    model.row_lower_ = np.array(low, dtype=float)
    model.row_upper_ = np.array(high, dtype=float)
    starts = [0]
    for each in columns:
        starts.append(starts[-1] + len(each.rows))
    model.a_matrix_.format_ = module.MatrixFormat.kColwise
    model.a_matrix_.start_ = np.array(starts, dtype=np.int32)
    model.a_matrix_.index_ = np.array([r for c in columns for r in c.rows], dtype=np.int32)
    model.a_matrix_.value_ = np.array([v for c in columns for v in c.shares], dtype=float)
    if whole:
        model.integrality_ = [module.HighsVarType.kInteger] * len(columns)
    return model


@cache
def _module() -> Any:
    import highspy

    return highspy


def _solver() -> Any:
    """A quiet solver of its own for each call; the first in a process is made to say its piece."""
    _said_its_piece()
    return _new()


def _new() -> Any:
    highs = _module().Highs()
    highs.setOptionValue("output_flag", False)
    highs.setOptionValue("threads", 1)
    highs.setOptionValue("random_seed", 1)
    highs.setOptionValue("mip_rel_gap", 0.0)
    return highs


@cache
def _said_its_piece() -> bool:
    """One throw-away solve: HiGHS prints its name at the first, whatever its options say."""
    with _GATE, _no_output():
        highs = _new()
        highs.passModel(_model([Column(1.0, (0,), (1.0,))], [1.0], [1.0], False))
        highs.run()
    return True


@contextmanager
def _no_output() -> Iterator[None]:
    """Standard output led away for a moment, the one of other languages too."""
    try:
        kept = os.dup(1)
    except OSError:  # there is none: nothing can be printed
        yield
        return
    nowhere = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(nowhere, 1)
        yield
    finally:
        os.dup2(kept, 1)
        os.close(kept)
        os.close(nowhere)
