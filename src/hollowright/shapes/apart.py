"""A piece drawn apart: where each of its bodies goes so that all of them are seen."""

from __future__ import annotations

from collections.abc import Sequence

from hollowright.shapes.bodies import Body
from hollowright.shapes.space import Vector, add

STILL: Vector = (0.0, 0.0, 0.0)
UP: Vector = (0.0, 0.0, 1.0)
"""The axis that pieces stand along."""


def shifts(
    bodies: Sequence[Body],
    pulls: Sequence[Vector | None],
    rides: Sequence[str],
    gap: float,
    axis: Vector = UP,
) -> tuple[Vector, ...]:
    """How far and which way each body is moved [mm], in the order given.

    A body with a pull is moved by it and by what the body named in `rides` ('' for none) is moved.
    Those without are spread along the axis in the order of their middles, `gap` [mm] between
    neighbours; the lowest stays. ValueError where a body rides one that isn't there, or itself in
    the end.
    """
    table = dict(zip((body.id for body in bodies), zip(pulls, rides, strict=True), strict=True))
    free = [body for body in bodies if table[body.id][0] is None]
    spread = _spread(free, gap, axis)
    return tuple(_shift(body.id, table, spread, ()) for body in bodies)


def _spread(bodies: Sequence[Body], gap: float, axis: Vector) -> dict[str, Vector]:
    """Shifts along the axis in the order of the bodies' middles."""
    reaches = sorted(
        ((body.reach(axis), body.id) for body in bodies), key=lambda each: sum(each[0])
    )
    found: dict[str, Vector] = {}
    top = 0.0
    for (low, high), id in reaches:
        shift = top + gap - low if found else 0.0
        found[id] = add(STILL, axis, shift)
        top = high + shift
    return found


def _shift(
    id: str,
    table: dict[str, tuple[Vector | None, str]],
    spread: dict[str, Vector],
    riders: tuple[str, ...],
) -> Vector:
    """The shift of one body; `riders` are those that ask for it, so that no ride goes in a ring."""
    if id in riders:
        raise ValueError(f"{id} rides itself, by way of {', '.join(riders[riders.index(id) :])}")
    if id not in table:
        raise ValueError(f"{riders[-1]} rides {id}, which isn't there")
    pull, carrier = table[id]
    if pull is None:
        return spread[id]
    return add(pull, _shift(carrier, table, spread, (*riders, id))) if carrier else pull
