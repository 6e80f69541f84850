"""Working back: the largest size that the metal at hand allows, and what limits it."""

from __future__ import annotations

import copy
import math
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from hollowright.designs.fields import Field
from hollowright.errors import Caution, HollowrightError, InputError, PlanRefused, shown
from hollowright.plan.plan import Plan
from hollowright.units import format_number

WORD = "max"
RATIO = 1.12
"""Sizes tried at first stand so far apart."""

FINE = 0.01
"""The size found is a whole number of these [mm]."""

Attempt = Callable[[Mapping[str, Any]], Plan]
Place = tuple[str, ...]


@dataclass(frozen=True)
class _Found:
    """The largest size that plans, its plan, and why the next larger one doesn't."""

    size: float
    plan: Plan
    limit: HollowrightError | None


def asked_for_most(tables: Mapping[str, Any]) -> Place | None:
    """Where a size stands as 'max'; InputError when two do."""
    places = list(_places(tables))
    if len(places) > 1:
        named = " and ".join(".".join(place) for place in places)
        raise InputError(
            ".".join(places[1]), f"{named} are both to be the largest.", "Leave one of them so."
        )
    return places[0] if places else None


def _places(table: Mapping[str, Any], above: Place = ()) -> Iterator[Place]:
    for key, value in table.items():
        if isinstance(value, Mapping) and len(above) < 5:
            yield from _places(value, (*above, str(key)))
        elif isinstance(value, str) and value.strip().lower() == WORD and "sizes" in above:
            yield (*above, str(key))


def largest(tables: Mapping[str, Any], place: Place, field: Field | None, attempt: Attempt) -> Plan:
    """The plan with the largest size at a place that the stock allows, and what limits it told.

    field: of that place; it must be a length that is asked for. attempt: plans tables.
    InputError when the field can't be worked back, when nothing at hand limits it, or when no size
    can be made at all (then with the reason).
    """
    path = ".".join(place)
    if field is None or field.kind != "length":
        raise InputError(path, f"{shown(WORD)} works for a length alone.", "Write a size there.")

    def plan_for(size: float) -> Plan:
        return attempt(_with(tables, place, f"{format_number(size)} mm"))

    found = _search(field, plan_for)
    limit = found.limit
    if limit is None:
        raise InputError(
            path,
            f"no metal at hand limits it up to {field.high:g} mm.",
            "Say how long the bar is, or how long and wide the sheet.",
        )
    return _told(found, limit, field)


def _with(tables: Mapping[str, Any], place: Place, text: str) -> dict[str, Any]:
    made = copy.deepcopy(dict(tables))
    table = made
    for key in place[:-1]:
        table = table[key]
    table[place[-1]] = text
    return made


def _search(field: Field, plan_for: Callable[[float], Plan]) -> _Found:
    """Down from the field's limit in steps to a size that plans, then halving the last step."""
    above = field.high
    limit: HollowrightError | None = None
    met: list[HollowrightError] = []
    for size in _downwards(field):
        try:
            plan = plan_for(size)
        except HollowrightError as fault:
            above, limit = size, fault
            met.append(fault)
            continue
        return _between(size, plan, above, limit, plan_for)
    told = Counter(str(fault) for fault in met)
    limit = max(met, key=lambda fault: told[str(fault)])  # what most sizes meet
    if isinstance(limit, InputError):  # something else is wrong, whatever the size
        raise limit
    raise PlanRefused(
        field.path, f"no size of it can be made: {limit}", "Write a size to see what is wrong."
    )


def _downwards(field: Field) -> Iterator[float]:
    low = max(field.low, FINE)
    steps = math.ceil(math.log(field.high / low) / math.log(RATIO))
    for step in range(steps):
        yield math.floor(field.high / RATIO**step / FINE) * FINE
    yield low


def _between(
    size: float,
    plan: Plan,
    above: float,
    limit: HollowrightError | None,
    plan_for: Callable[[float], Plan],
) -> _Found:
    """Halve the gap between a size that plans and one that doesn't, to a hundredth."""
    low, high = round(size / FINE), round(above / FINE)
    while limit is not None and high - low > 1:
        middle = (low + high) // 2
        try:
            plan, low = plan_for(middle * FINE), middle
        except HollowrightError as fault:
            limit, high = fault, middle
    return _Found(low * FINE, plan, limit)


def _told(found: _Found, limit: HollowrightError, field: Field) -> Plan:
    """The plan, with the size's working and a caution that says what limits it."""
    text = (
        f"The {field.label} is the largest that the metal at hand allows, "
        f"{format_number(found.size)} mm. A hundredth more and "
        f"{limit.problem.rstrip('.')} ({limit.field})."
    )
    caution = Caution(f"{field.name}_limited", text, "choice", field.name)
    table = dict(found.plan.quantities)
    for id, quantity in table.items():
        if quantity.id == id and id.endswith(field.name) and quantity.kind == "asked":
            told = f"{quantity.label} = the largest that the metal at hand allows"
            table[id] = replace(quantity, told=told)
    return replace(found.plan, quantities=table, cautions=(caution, *found.plan.cautions))
