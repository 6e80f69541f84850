"""Sheets, and blanks laid out on them: what a layout is, whoever found it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from hollowright.errors import Caution
from hollowright.piece import ANNEALED
from hollowright.plan.orders import Batch
from hollowright.shapes.nesting.problem import Spot, Turns
from hollowright.shapes.outline import Outline

Origin = Literal["drawer", "in hand", "to buy"]
"""Where metal comes from: the drawer, what a piece file says lies there, or a supplier."""

TURNING = ("free", "quarter", "grain")
"""How blanks may be turned: any way, by quarters, or with the grain only."""


@dataclass(frozen=True)
class Sheet:
    """A sheet or offcut that blanks can be laid out on, of any outline [mm].

    id: unique: 'drawer-17', 'hand-striker-box.ring_sheet', 'buy-300x150'. thickness [mm]; temper:
    '' when not said; grain: which way it was rolled, in the outline's axes [deg]; None: not known.
    cost: of the whole sheet in the shop's money, None when not known. supply: how many there are;
    None: as many as are bought.
    """

    id: str
    label: str
    origin: Origin
    metal: str
    thickness: float
    outline: Outline
    temper: str = ""
    grain: float | None = 0.0
    cost: float | None = None
    supply: int | None = 1


@dataclass(frozen=True)
class Rules:
    """How blanks are laid out: gaps [mm], turning, what an offcut must be to be kept.

    between: the saw's kerf, between two blanks; edge: left at the edges. turning: one of TURNING
    for all, and by part or flat id for some. over: the parts (or flats) that may be turned over.
    """

    between: float
    edge: float
    offcut_least: float
    turning: str = "free"
    turning_of: Mapping[str, str] = field(default_factory=dict)
    over: tuple[str, ...] = ()
    turned_over: bool = False


@dataclass(frozen=True)
class Task:
    """One batch to lay out: on which sheets, by which rules, and what a person has pinned."""

    batch: Batch
    sheets: tuple[Sheet, ...]
    rules: Rules
    pins: tuple[Spot, ...] = ()

    @property
    def priced(self) -> bool:
        """Whether every size to buy has a price; otherwise the least weight is bought."""
        to_buy = [each for each in self.sheets if each.origin == "to buy"]
        return bool(to_buy) and all(each.cost is not None for each in to_buy)


@dataclass(frozen=True)
class LaidSheet:
    """One sheet with what is cut from it.

    id: the sheet's, with #2, #3 ... for more of its kind. offcuts: what is left and worth keeping.
    areas [mm2]: of the sheet, of the blanks, of the offcuts; the rest is waste.
    """

    id: str
    sheet: Sheet
    spots: tuple[Spot, ...]
    offcuts: tuple[Outline, ...]
    area: float
    used: float
    kept: float

    @property
    def waste(self) -> float:
        """What is neither blank nor offcut [mm2]."""
        return self.area - self.used - self.kept

    @property
    def density(self) -> float:
        """How much of what is taken from the sheet is blank: used / (area - offcuts)."""
        taken = self.area - self.kept
        return self.used / taken if taken > 0 else 0.0


@dataclass(frozen=True)
class NotLaid:
    """Blanks that found no place: which, how many, why, and what would do."""

    flat: str
    count: int
    why: str
    remedy: str


@dataclass(frozen=True)
class Layout:
    """A batch laid out, as it was judged.

    found: how it was found: 'quick', 'searched', 'kept' (stored before). bound: the least that any
    layout must buy, by area alone: money where every size has a price, else area [mm2]; bound_text
    says so in words. cautions: what to mind.
    """

    task: Task
    sheets: tuple[LaidSheet, ...]
    missing: tuple[NotLaid, ...] = ()
    found: str = "quick"
    seconds: float = 0.0
    cautions: tuple[Caution, ...] = ()
    bound: float = 0.0
    bound_text: str = ""

    @property
    def bought(self) -> tuple[LaidSheet, ...]:
        """The sheets that must be bought for it."""
        return tuple(each for each in self.sheets if each.sheet.origin == "to buy")

    @property
    def cost(self) -> float | None:
        """What the sheets to buy cost, in the shop's money; None when not all have a price."""
        costs = [each.sheet.cost for each in self.bought]
        known = [cost for cost in costs if cost is not None]
        return sum(known) if len(known) == len(costs) else None

    @property
    def bought_area(self) -> float:
        """Area of the sheets to buy [mm2]; `grams` of it is their weight."""
        return sum(each.area for each in self.bought)

    @property
    def spots(self) -> tuple[Spot, ...]:
        """Every spot of every sheet; this is what is stored with the piece."""
        return tuple(spot for sheet in self.sheets for spot in sheet.spots)

    @property
    def taken(self) -> float:
        """Metal taken: sheets less the offcuts that are kept [mm2]."""
        return sum(each.area - each.kept for each in self.sheets)

    def grams(self, area: float) -> float:
        """What an area [mm2] of this metal weighs [g]."""
        return area * self.task.batch.thickness * self.task.batch.metal.density.value / 1000


def is_hard(sheet: Sheet) -> bool:
    """Whether it is said to lie there harder than annealed."""
    return sheet.temper not in ("", ANNEALED)


def turning_of(task: Task, flat_id: str) -> str:
    """How a flat may be turned, by the rules: one of TURNING."""
    rules, flat = task.rules, task.batch.flat(flat_id)
    named = (rules.turning_of.get(flat.id), rules.turning_of.get(flat.part.id))
    return next((word for word in named if word), rules.turning)


def turns_of(task: Task, flat_id: str, sheet: Sheet) -> Turns:
    """The turns [deg] that a flat may take on a sheet; None: any.

    With the grain, the flat's grain (its own x where it has none) lies along the sheet's; quarter
    turns are along it and across. Where the sheet's isn't known it is taken to run along its x.
    """
    rule = turning_of(task, flat_id)
    if rule == "free":
        return None
    lie = sheet.grain or 0.0
    if rule == "quarter":
        return tuple(sorted((lie + turn) % 360.0 for turn in (0.0, 90.0, 180.0, 270.0)))
    turn = (lie - (task.batch.flat(flat_id).grain or 0.0)) % 180.0
    return (turn, turn + 180.0)


def may_turn_over(task: Task, flat_id: str) -> bool:
    """Whether a flat may be laid face down."""
    flat = task.batch.flat(flat_id)
    return task.rules.turned_over or bool({flat.id, flat.part.id} & set(task.rules.over))
