"""The slip finder: whether a person's own figure agrees and, if not, which usual slip explains it.

The quantity's graph is re-evaluated with one formula's usual slip put in, or one reading misread,
and then with two at once; what lands on the figure is ranked by how exactly and how simply.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Any

from hollowright.errors import UnknownName
from hollowright.handbook.gauges import GAUGES
from hollowright.plan.plan import Plan
from hollowright.quantity import Quantity
from hollowright.quantity.evaluate import ancestry, evaluate
from hollowright.quantity.misreads import misreads
from hollowright.quantity.working import value_text
from hollowright.units import read_length, read_number

NEAR = 0.01
"""A figure this near [own unit] agrees however many digits it was written with: people round."""

COARSE = 0.05
"""A figure further off than this [own unit] doesn't agree however roughly it was written."""

ROUNDED = 0.02
"""A slip explains a figure this near: the steps between were rounded too."""

SMALL = 0.2
"""Below this [mm] a figure must agree to a part of itself."""

SIMPLE = 1.6
"""Only slips up to this cost are tried in pairs."""

MIXED_UP = 4.0
"""Only numbers within this ratio are taken for each other."""

PAIR_COST = 1.0
MOST_SHOWN = 5


@dataclass(frozen=True)
class Slip:
    """One explanation: in words, the figure it gives, how far-fetched it is (1 is usual)."""

    text: str
    gives: float
    cost: float


@dataclass(frozen=True)
class Checked:
    """The answer: agrees or not, the planned and the given figure, slips likeliest first."""

    quantity: Quantity
    given: float
    agrees: bool
    slips: tuple[Slip, ...]
    note: str

    @property
    def planned(self) -> float:
        """The plan's own figure [the quantity's unit]."""
        return self.quantity.value


@dataclass(frozen=True)
class _Change:
    """One thing done wrong: a node's value replaced, or its formula swapped."""

    node: Quantity
    text: str
    cost: float
    value: float | None = None
    function: Callable[..., Any] | None = None
    also: tuple[Quantity, ...] = ()


def check(plan: Plan, quantity: str, text: object) -> Checked:
    """Check a person's figure for one of the plan's quantities.

    quantity: its id. text: the figure as they wrote it. UnknownName for a quantity that isn't in
    the plan, InputError for a figure that can't be read.
    """
    if quantity not in plan.quantities:
        raise UnknownName("quantity", quantity, tuple(plan.quantities))
    target = plan.quantities[quantity]
    given, step = _figure(text, target)
    near = _near(target, step)
    if abs(given - target.value) <= near:
        return Checked(target, given, True, (), "It agrees.")
    slips, note = explain(plan, target, given, _explained(target, step, near))
    return Checked(target, given, False, slips, note)


def _near(target: Quantity, step: float) -> float:
    """How far off a figure may be and still agree [own unit], by how it was written.

    A share agrees to a thousandth; a small length to a twentieth of itself.
    """
    size = abs(target.value)
    if target.unit == "mm":
        near = max(min(step / 2, COARSE), NEAR)
        return (max(min(near, size / 20), 0.001) if size < SMALL else near) * (1 + 1e-9)
    if not target.unit:
        return 0.001
    return max(min(step / 2, 0.01 * size), 0.002 * size) * (1 + 1e-9)


def _explained(target: Quantity, step: float, near: float) -> float:
    """How near a slip must come to explain a figure [own unit]: steps between were rounded."""
    if target.unit == "mm" and abs(target.value) >= SMALL:
        return max(step / 2, ROUNDED)
    return near


def _figure(text: object, target: Quantity) -> tuple[float, float]:
    """The person's figure and the step of its last digit, in the quantity's unit."""
    if target.unit == "mm":
        gauges = GAUGES if any(name in target.id for name in ("thickness", "wall")) else None
        length = read_length(text, "value", f"{target.value:.2f}", gauges, signed=True)
        return length.mm, length.step
    bare = _without_unit(str(text), target.unit)
    number = read_number(bare, "value", f"{target.value:.2f}", -1e6, 1e6)
    decimals = bare.partition(".")[2]
    return number, 10.0 ** -sum(c.isdigit() for c in decimals)


SIGNS = {"deg": ("degrees", "deg", "°")}
"""How a unit may be written after a figure, beside its own name."""


def _without_unit(text: str, unit: str) -> str:
    """A figure without the unit that it is asked in: '189.1 deg', '12.4 g', '63 ml'."""
    clean = text.strip()
    for sign in (*SIGNS.get(unit, ()), unit):
        if sign and clean.lower().endswith(sign.lower()):
            return clean[: -len(sign)].strip()
    return clean


def explain(
    plan: Plan, target: Quantity, given: float, near: float
) -> tuple[tuple[Slip, ...], str]:
    """The slips that land within `near` of the figure, likeliest first, and what to say of them."""
    order = ancestry([target])
    if target.formula is None and target.kind == "asked":
        return (), f"You asked for {value_text(target)} yourself."
    if target.kind == "shop":
        return (), f"This shop's is {value_text(target)}; change it in the shop file."
    changes = tuple(_changes(plan, target, order))
    singles = _landing(order, target, given, near, [(change,) for change in changes])
    singles = _other_numbers(plan, target, given) + singles
    if singles:
        note = (
            "One usual slip explains it."
            if len(singles) == 1
            else f"{len(singles)} slips explain it; the likeliest stands first."
        )
        return tuple(singles[:MOST_SHOWN]), note
    simple = [change for change in changes if change.cost <= SIMPLE]
    pairs = [pair for pair in combinations(simple, 2) if pair[0].node is not pair[1].node]
    doubles = _apart(_landing(order, target, given, near, pairs))
    if doubles:
        count = len(doubles)
        note = "No single slip explains it; two together do." if count == 1 else (
            f"No single slip explains it; {count} pairs of slips would, so this is a guess."
        )  # fmt: skip
        return tuple(doubles[:MOST_SHOWN]), note
    return (), "No usual slip explains it, alone or with another: reckon again from the readings."


def _other_numbers(plan: Plan, target: Quantity, given: float) -> list[Slip]:
    """Other numbers of the plan that the figure is, to the hundredth: the wrong one was taken."""
    return [
        Slip(f"that is the {other.label}, not the {target.label}", other.value, 0.9)
        for other in plan.quantities.values()
        if other.unit == target.unit == "mm"
        and other.formula is not None
        and abs(other.value - target.value) > COARSE
        and abs(other.value - given) <= NEAR
    ][:2]


def _landing(
    order: Sequence[Quantity],
    target: Quantity,
    given: float,
    near: float,
    tried: Sequence[tuple[_Change, ...]],
) -> list[Slip]:
    """The combinations of changes whose result lands near the figure, likeliest first."""
    found: dict[str, tuple[float, Slip]] = {}
    for changes in tried:
        result = _result(order, target, changes)
        if not math.isfinite(result) or abs(result - given) > near:
            continue
        cost = sum(change.cost for change in changes) + PAIR_COST * (len(changes) - 1)
        text = ", and ".join(change.text for change in changes)
        rank = cost + 0.3 * abs(result - given) / near
        if text not in found or rank < found[text][0]:
            found[text] = (rank, Slip(text, result, cost))
    return [slip for _, slip in sorted(found.values(), key=lambda each: (each[0], each[1].text))]


def _apart(slips: Sequence[Slip]) -> list[Slip]:
    """The slips without those that come to the same figure as a likelier one."""
    kept: dict[float, Slip] = {}
    for slip in slips:
        kept.setdefault(round(slip.gives, 9), slip)
    return list(kept.values())


def _result(order: Sequence[Quantity], target: Quantity, changes: tuple[_Change, ...]) -> float:
    replaced: dict[Quantity, Any] = {}
    variants: dict[Quantity, Callable[..., Any]] = {}
    for change in changes:
        if change.function is not None:
            variants |= dict.fromkeys((change.node, *change.also), change.function)
        else:
            replaced[change.node] = change.value
    try:
        return float(evaluate(order, replaced, variants)[target])
    except (ArithmeticError, ValueError):
        return math.nan


def _changes(plan: Plan, target: Quantity, order: Sequence[Quantity]) -> Iterator[_Change]:
    """Everything that is tried: the formulas' slips, the readings' misreads, mixed-up fields."""
    laws = [node for node in order if node.formula is not None and node.kind == "formula"]
    for node in laws:
        yield from _slipped(node, [other for other in laws if other.formula is node.formula])
        if node is target or "diameter" in node.label or "bore" in node.label:
            yield from _radius_taken(node, target)
    named = {id: q for id, q in plan.quantities.items() if q.kind in _TYPED}
    for node in order:
        if node.kind in _TYPED and node.id in plan.quantities:
            yield from _misread(node)
            yield from _mixed_up(node, named)
        elif node is target and node.kind == "formula":
            yield from _wrong_end(node)


def _slipped(node: Quantity, alike: Sequence[Quantity]) -> Iterator[_Change]:
    """The usual slips of a node's formula, made here, or alike wherever the formula stands."""
    slips = node.formula.slips if node.formula else {}
    for place, (text, function) in enumerate(slips.items()):
        cost = 1.0 + 0.03 * place
        yield _Change(node, text, cost, function=function)
        if len(alike) > 1 and node is alike[0]:
            yield _Change(node, f"{text} each time", cost, function=function, also=tuple(alike[1:]))


def _radius_taken(node: Quantity, target: Quantity) -> Iterator[_Change]:
    """A radius where a diameter belongs, or the other way round, in a number on the way."""
    where = "the result" if node is target else node.label
    if node.unit == "mm":
        halved, doubled = "(radius for diameter)", "(diameter for radius)"
        yield _Change(node, f"{where} halved {halved}", 1.2, value=node.value / 2)
        yield _Change(node, f"{where} doubled {doubled}", 1.2, value=node.value * 2)


_TYPED = ("reading", "asked", "handbook")


def _misread(node: Quantity) -> Iterator[_Change]:
    """A typed number misread: the whole of it, or one of its readings."""
    step = 0.01 if node.unit == "mm" else 0.001
    across = "diameter" in node.label or "bore" in node.label
    for slip in misreads(node.value, step, across):
        if node.unit == "mm" or 0 < slip.value < 1:
            yield _Change(node, f"{node.label} {slip.text}", slip.cost, value=slip.value)
    count = len(node.readings)
    for reading in dict.fromkeys(node.readings) if count > 1 else ():
        for slip in misreads(reading, step, across):
            alone, one = slip.value, node.value + (slip.value - reading) / count
            text = f"{node.label} {slip.text}"
            yield _Change(node, text, slip.cost + 0.05, value=alone)
            yield _Change(node, f"{text} in one reading", slip.cost + 0.1, value=one)


def _mixed_up(node: Quantity, named: Mapping[str, Quantity]) -> Iterator[_Change]:
    for other in named.values():
        if other.unit == node.unit and _alike(other.value, node.value):
            text = f"{other.label} used for {node.label}"
            yield _Change(node, text, 1.4, value=other.value)
    if node.value and node.unit == "mm":
        yield _Change(node, f"{node.label} left out", 1.3, value=0.0)


def _alike(a: float, b: float) -> bool:
    """Whether one number could be taken for another: not the same, not worlds apart."""
    return a > 0 and b > 0 and a != b and max(a, b) < MIXED_UP * min(a, b)


def _wrong_end(node: Quantity) -> Iterator[_Change]:
    """The right figure, miscopied at the end."""
    for slip in misreads(round(node.value, 2), 0.01, across=False):
        if slip.cost <= SIMPLE:
            yield _Change(node, f"the result {slip.text}", slip.cost + 0.1, value=slip.value)
