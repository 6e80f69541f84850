"""The slow plain checker: whether an answer is sound, whoever found it, and what is wrong with it.

It knows nothing of how answers are found: it lays every outline where its spot says, as a polygon
on its curves within FINE, and measures.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from hollowright.shapes.nesting.problem import Item, Packing, Problem, Spot
from hollowright.shapes.polygons import (
    Area,
    apart,
    area_of,
    common,
    covers,
    from_edge,
    grown,
    less,
    nearer_than,
)

TOLERANCE = 0.005
"""By how much a gap may fall short before it is a fault [mm], FINE of the polygons besides."""

TURN_TOLERANCE = 1e-6
"""By how much a turn may be off one that is allowed [deg]."""

Kind = Literal["unknown", "count", "turn", "mirrored", "bin", "pin", "outside", "edge", "between"]


@dataclass(frozen=True)
class Fault:
    """One thing that is wrong with an answer: what kind, in words with its figure, which spots."""

    kind: Kind
    text: str
    spots: tuple[Spot, ...] = ()


def faults(problem: Problem, packing: Packing) -> tuple[Fault, ...]:
    """Everything that is wrong with an answer; empty when it is sound.

    Every flat lies in its bin, out of its holes and `edge` from each of its edges; any two are
    `between` apart, one in another's hole too; no more of an item than wanted, turned and turned
    over only as allowed; bins exist and are no more than supplied; every pin is there unchanged.
    Gaps may fall short by TOLERANCE. Items without a place are no fault: `left_over` tells them.
    """
    known = tuple(spot for spot in packing.spots if _known(problem, spot))
    return (
        *_unknown(problem, packing),
        *_counts(problem, packing),
        *_turns(problem, known),
        *_pins(problem, packing),
        *_gaps(problem, known),
    )


def supplied(problem: Problem, name: str) -> bool:
    """Whether there is a bin of this name: its id, or ID#2 and on as far as its supply goes."""
    id, mark, number = name.partition("#")
    bins = {bin.id: bin for bin in problem.bins}
    if id not in bins:
        return False
    supply = bins[id].supply
    if not mark:
        return supply is None or supply >= 1
    written = number.isascii() and number.isdigit() and number == str(int(number))
    return written and int(number) >= 2 and (supply is None or int(number) <= supply)


def _known(problem: Problem, spot: Spot) -> bool:
    there = any(item.id == spot.item for item in problem.items)
    return there and any(bin.id == spot.bin.partition("#")[0] for bin in problem.bins)


def _unknown(problem: Problem, packing: Packing) -> Iterator[Fault]:
    items = {item.id for item in problem.items}
    for spot in packing.spots:
        if spot.item not in items:
            yield Fault("unknown", f"There is no item {spot.item!r}.", (spot,))
        if not supplied(problem, spot.bin):
            yield Fault("bin", f"There is no bin {spot.bin!r} to lay {spot.item} in.", (spot,))


def _counts(problem: Problem, packing: Packing) -> Iterator[Fault]:
    laid = Counter(spot.item for spot in packing.spots)
    for item in problem.items:
        if laid[item.id] > item.count:
            spots = tuple(spot for spot in packing.spots if spot.item == item.id)
            text = f"{item.id} is laid {laid[item.id]} times, but wanted {item.count} times."
            yield Fault("count", text, spots)


def _turns(problem: Problem, spots: tuple[Spot, ...]) -> Iterator[Fault]:
    for spot in spots:
        item = problem.item(spot.item)
        if not _allowed(item, spot.turn):
            turns = ", ".join(f"{turn:g}" for turn in item.turns or ())
            text = f"{spot.item} is turned by {spot.turn:g} degrees; allowed: {turns}."
            yield Fault("turn", text, (spot,))
        if spot.mirrored and not item.mirrored:
            yield Fault("mirrored", f"{spot.item} is turned over, which isn't allowed.", (spot,))


def _allowed(item: Item, turn: float) -> bool:
    if item.turns is None:
        return True
    return any(abs((turn - each + 180.0) % 360.0 - 180.0) <= TURN_TOLERANCE for each in item.turns)


def _pins(problem: Problem, packing: Packing) -> Iterator[Fault]:
    there = Counter(_place(spot) for spot in packing.spots)
    for pin in problem.pins:
        there[_place(pin)] -= 1
        if there[_place(pin)] < 0:
            text = f"{pin.item}, pinned in {pin.bin} at x {pin.x:.2f}, y {pin.y:.2f}, isn't there."
            yield Fault("pin", text, (pin,))


def _place(spot: Spot) -> tuple[str, str, float, float, float, bool]:
    return (spot.item, spot.bin, spot.x, spot.y, spot.turn, spot.mirrored)


def _gaps(problem: Problem, spots: tuple[Spot, ...]) -> Iterator[Fault]:
    for name in dict.fromkeys(spot.bin for spot in spots):
        here = [spot for spot in spots if spot.bin == name]
        areas = [area_of(spot.place(problem.item(spot.item).outline)) for spot in here]
        yield from _edges(problem, name, here, areas)
        yield from _between(problem, here, areas)


def _edges(problem: Problem, name: str, spots: list[Spot], areas: list[Area]) -> Iterator[Fault]:
    around = area_of(problem.bin(name).outline)
    nearly = grown(around, TOLERANCE)
    for spot, area in zip(spots, areas, strict=True):
        if not covers(nearly, area):
            out = less(area, around).area
            yield Fault("outside", f"{spot.item} lies {out:.2f} mm2 outside {name}.", (spot,))
            continue
        gap = from_edge(area, around)
        if gap < problem.edge - TOLERANCE:
            text = f"{spot.item} is {gap:.3f} mm from an edge of {name}, not {problem.edge:g} mm."
            yield Fault("edge", text, (spot,))


def _between(problem: Problem, spots: list[Spot], areas: list[Area]) -> Iterator[Fault]:
    """Flats too near each other; where no gap is wanted they may touch but not overlap."""
    least = problem.between - TOLERANCE
    if least > 0:
        pairs = nearer_than(areas, least)
    else:
        pairs = nearer_than([grown(area, -TOLERANCE / 2) for area in areas], 0.0)
    for a, b in pairs:
        one, other, gap = spots[a], spots[b], apart(areas[a], areas[b])
        text = f"{one.item} and {other.item} are {gap:.3f} mm apart, not {problem.between:g} mm"
        shared = common(areas[a], areas[b]).area
        if shared > 0:
            text = f"{one.item} and {other.item} overlap by {shared:.2f} mm2"
        where = f"in {one.bin}, near x {one.x:.1f}, y {one.y:.1f}."
        yield Fault("between", f"{text} {where}", (one, other))
