"""What the fits of all lids share: chamfers and what is left to slide, force, window, readings."""

from __future__ import annotations

from dataclasses import dataclass

from hollowright.designs import inner_ring
from hollowright.designs.brief import Brief
from hollowright.designs.lids import Host
from hollowright.errors import PlanRefused
from hollowright.formulas import fit as law
from hollowright.formulas import lid, ring
from hollowright.handbook.metals import Metal
from hollowright.piece import Window
from hollowright.quantity import Quantity, exact
from hollowright.quantity.choices import Choice
from hollowright.units import format_number

LEAST_LAND = 0.2
"""A lid that slides by less than this [mm] isn't held (common practice, no source)."""


@dataclass(frozen=True)
class Edges:
    """The chamfers of a sliding joint and the land that they leave [mm]."""

    quantities: tuple[Quantity, ...]
    land: Quantity
    choices: tuple[Choice, ...]


def edges(b: Brief, sliding: Quantity, wall: Quantity, stand: Quantity, inner: bool) -> Edges:
    """Chamfers of a part of a thickness that slides by a stand, on the body's mouth [mm].

    inner: its inner end is chamfered as well, to clear the plate's fillet in the lid.
    """
    lead, lead_choice = inner_ring.chamfer(b, "lead_in", sliding)
    mouth, mouth_choice = inner_ring.chamfer(b, "mouth_chamfer", wall)
    land = ring.sliding_land(stand, lead, mouth)
    more: list[Quantity] = []
    choices = [lead_choice, mouth_choice]
    if inner:
        end, choice = inner_ring.chamfer(b, "ring_chamfer", sliding)
        more, choices = [end], [choice, *choices]
    return Edges((*more, lead, mouth, land), land, tuple(choices))


def slides(b: Brief, field: str, stand: Quantity, land: Quantity, depth: Quantity) -> None:
    """Refuse a stand that leaves nothing to slide, or that reaches the body's bottom."""
    said = format_number(stand.value)
    if land.value <= LEAST_LAND:
        left = format_number(land.value)
        raise b.refuse(
            field, f"lead-in and chamfer leave {left} mm of {said} to slide.", "Make it longer."
        )
    if stand.value >= depth.value:
        deep = format_number(depth.value)
        raise b.refuse(
            field, f"it reaches {said} mm down a body {deep} mm deep.", "Make it shorter."
        )


@dataclass(frozen=True)
class Force:
    """How far a lid may be forced: the quantities to list, which part gives, the window left."""

    quantities: tuple[Quantity, ...]
    weaker: str
    window: Window


def force(
    b: Brief,
    host: Host,
    slider: tuple[str, Metal, Quantity],
    across: Quantity,
    target: Quantity,
    window: Window,
) -> Force:
    """The force limit of a round lid; another outline flexes, so that it can't be pressed on.

    slider: its name, metal and thickness; across: diameter of the joint [mm].
    """
    if host.form.shape == "circle":
        name, metal, thickness = slider
        pair = {name: (metal, thickness), "wall": (host.metal, host.thickness)}
        limit, weaker = inner_ring.force_limit(across, pair)
        inner_ring.can_be_pressed(b, target, limit)
        return Force((limit,), weaker, (max(window[0], -limit.value), window[1]))
    if target.value < 0:
        raise PlanRefused(
            b.design.field("clearance").path,
            f"a lid on {article(host.form.shape)} can't be pressed on: its flat sides give way.",
            "Ask for 0 mm or more.",
        )
    return Force((), "", window)


def article(shape: str) -> str:
    """A shape as one speaks of it.

    >>> article("oval")
    'an oval'
    """
    return f"{'an' if shape[0] in 'aeiou' else 'a'} {shape}"


def read_bore(shape: str, what: str) -> str:
    """How the body is read across or round, for the advice.

    >>> read_bore("oval", "body's inside")
    "read the length round the body's inside with a strip of paper"
    """
    if shape == "circle":
        return f"read the {what} directly with the jaws"
    if shape == "polygon":
        return f"read the {what} across all its flats with the jaws"
    return f"read the length round the {what} with a strip of paper"


def tenth(turn: Quantity) -> Quantity:
    """What a tenth of a millimetre of length does across [mm]."""
    change = exact("tenth", "0.1 mm of length", "mm", 0.1, "constant")
    return lid.across_of(change, turn).named(
        "diameter_per_tenth", "what 0.1 mm of length does across"
    )


def air(host: Host, travel: Quantity) -> tuple[Quantity, Quantity]:
    """The air that a lid closes in as it seats [kPa], and its push on the lid [N]."""
    pressed = law.seating_pressure(travel, host.inside)
    if host.form.shape == "circle":
        return pressed, law.seating_force(pressed, host.body_inside)
    return pressed, lid.seating_push(pressed, host.area)
