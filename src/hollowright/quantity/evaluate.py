"""Re-evaluate a quantity's graph with some nodes replaced: for Monte Carlo, slips and what-ifs."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from hollowright.quantity.core import Quantity


def ancestry(targets: Iterable[Quantity]) -> tuple[Quantity, ...]:
    """Every node that the targets stand on, inputs before what is made of them."""
    order: list[Quantity] = []
    seen: set[int] = set()
    stack: list[tuple[Quantity, bool]] = [(target, False) for target in reversed(list(targets))]
    while stack:
        node, ready = stack.pop()
        if ready:
            order.append(node)
        elif id(node) not in seen:
            seen.add(id(node))
            stack.append((node, True))
            stack.extend((each, False) for each in node.inputs if id(each) not in seen)
    return tuple(order)


def evaluate(
    order: Sequence[Quantity],
    replaced: Mapping[Quantity, Any],
    variants: Mapping[Quantity, Callable[..., Any]] | None = None,
) -> dict[Quantity, Any]:
    """The value [own unit] of every node of an `ancestry`, some nodes given, some formulas swapped.

    replaced: node -> its value, a float or an array. variants: node -> the function to use there.
    """
    swapped = variants or {}
    values: dict[Quantity, Any] = {}
    for node in order:
        if node in replaced:
            values[node] = replaced[node]
        elif node.formula is None:
            values[node] = node.value
        else:
            function = swapped.get(node, node.formula.function)
            values[node] = function(*[values[each] for each in node.inputs])
    return values
