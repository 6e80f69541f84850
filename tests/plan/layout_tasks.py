"""Tasks to lay out that the tests of layouts share: blanks by their sizes, a class of twelve."""

from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from typing import Any

from hollowright.designs import design
from hollowright.job.job import plan_tables, read_tables
from hollowright.piece import Part
from hollowright.plan.laid import Rules, Sheet, Task
from hollowright.plan.orders import Batch, Flat, Order, batches, orders
from hollowright.plan.plan import Plan
from hollowright.shapes.nesting.problem import Spot
from hollowright.shapes.outline import Outline, rectangle

RULES = Rules(0.3, 2.0, 15.0)


@cache
def striker_box() -> Plan:
    return plan_tables(read_tables(design("tube-box").examples[0].text))


def class_of(copies: int) -> tuple[Batch, ...]:
    return batches(orders([striker_box()], copies), 0.03)


def batch_of(
    outlines: Sequence[Outline], counts: Sequence[int], grains: Sequence[float | None] = ()
) -> Batch:
    """Blanks called a, b, c ... of these outlines, in the metal of the striker box's ring."""
    (batch,) = (each for each in class_of(1) if each.flats[0].part.id == "ring")
    model = batch.flats[0]
    grained = [*grains, *[None] * len(outlines)]
    flats = tuple(
        _flat(model, "abcdefgh"[n], outline, count, grained[n])
        for n, (outline, count) in enumerate(zip(outlines, counts, strict=True))
    )
    return replace(batch, flats=flats)


def _flat(model: Flat, name: str, outline: Outline, count: int, grain: float | None) -> Flat:
    blank = replace(model.part.blank, outline=outline, grain=grain)
    part: Part = replace(model.part, id=name, name=name, blank=blank)
    order = Order("t", model.order.plan, 1)
    return Flat(f"t.{name}", order, part, model.stock, outline, model.sizes, count)


def sheet(
    id: str, outline: Outline, origin: str = "drawer", cost: float | None = None, **more: Any
) -> Sheet:
    supply = None if origin == "to buy" else 1
    given: dict[str, Any] = {"supply": supply, "grain": 0.0, **more}
    return Sheet(id, id, origin, "C26000", 0.64, outline, cost=cost, **given)


def sold(*sizes: tuple[float, float], costs: Sequence[float] = ()) -> tuple[Sheet, ...]:
    priced = [*costs, *[None] * len(sizes)]
    return tuple(
        sheet(f"buy-{long:g}x{wide:g}", rectangle(long, wide), "to buy", priced[n])
        for n, (long, wide) in enumerate(sizes)
    )


def task(
    batch: Batch, sheets: Sequence[Sheet], rules: Rules = RULES, pins: Sequence[Spot] = ()
) -> Task:
    return Task(batch, tuple(sheets), rules, tuple(pins))
