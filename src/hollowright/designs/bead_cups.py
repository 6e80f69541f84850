"""Which cups of a doming block a disc goes through, in order, with what punch, how deep each."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hollowright.designs.brief import Brief
from hollowright.formulas import dome
from hollowright.handbook.doming import Cup, cups
from hollowright.handbook.sources import source
from hollowright.quantity import Quantity, exact
from hollowright.quantity.choices import Choice, choose
from hollowright.units import format_number


@dataclass(frozen=True)
class Stage:
    """One cup of the sequence: across, deep, the largest punch, how high the dome stands [mm]."""

    mouth: Quantity
    depth: Quantity
    punch: Quantity
    rise: Quantity


@dataclass(frozen=True)
class Sequenced:
    """The stages, the choices of the first and the last cup, and how often to anneal.

    wide: no cup of the block takes the disc; flat: none is as flat as the dome.
    """

    stages: tuple[Stage, ...]
    choices: tuple[Choice, ...]
    anneals: Quantity
    every: int
    wide: bool
    flat: bool

    @property
    def quantities(self) -> tuple[Quantity, ...]:
        """All numbers of the sequence."""
        listed = (q for s in self.stages for q in (s.mouth, s.depth, s.punch, s.rise))
        return (*listed, self.anneals)


def sequence(b: Brief, blank: Quantity, radius: Quantity, thickness: Quantity) -> Sequenced:
    """The way of a disc as cut [mm] through the block to a dome of an outer radius [mm].

    It begins in the smallest cup that the disc lies in whole, goes through every one after it, and
    ends in the smallest that isn't tighter than the dome.
    """
    block = _block(b)
    aim = 2 * radius.value * (1 - 1e-9)
    holds = [i for i, (mouth, _, _) in enumerate(block) if mouth.value >= blank.value]
    near = [i for i, (_, _, ball) in enumerate(block) if ball.value >= aim]
    choices = []
    first = last = 0
    if holds:
        first = max(holds)
        choices.append(_choice("first_cup", "cup to begin in", block, holds, 0))
    if near:
        last = max(near, key=lambda i: (-block[i][2].value, i))
        choices.append(_choice("last_cup", "cup to finish in", block, near, 2))
    used = block[min(first, last) : last + 1] if near else []
    if near and first > last:
        used = [block[last]]
    stages = tuple(_stage(i, cup, blank, thickness) for i, cup in enumerate(used, 1))
    every = int(b.shop("cups_between_anneals").value)
    times = 1 + max(0, math.ceil(len(stages) / every) - 1)
    told = (
        f"annealings of a dome = {times}: one before the first cup, then after every {every} cups"
    )
    anneals = exact(
        "anneals", "annealings of a dome", "", times, "shop", b.shop("cups_between_anneals").source,
        told,
    )  # fmt: skip
    return Sequenced(stages, tuple(choices), anneals, every, not holds, not near)


Measured = tuple[Quantity, Quantity, Quantity]
"""A cup's mouth, depth, and the ball that fills it [mm]."""


def _block(b: Brief) -> list[Measured]:
    """The cups of the block, widest first: the user's own, or a usual one's."""
    if not b.has("cups"):
        told = source(cups()[0].source).text
        return [_measured(cup, told) for cup in cups()]
    given = sorted((Cup(mouth, depth, "") for mouth, depth in b.points("cups")),
                   key=lambda cup: -cup.mouth)  # fmt: skip
    for cup in given:
        if not (0 < cup.depth <= cup.mouth / 2 + 0.01 * cup.mouth):
            raise b.refuse(
                "cups",
                f"a cup {format_number(cup.mouth)} mm across and {format_number(cup.depth)} mm "
                "deep isn't one of a block.",
                "Write across, then the depth, half of that at most: 32 12.5.",
            )
    return [_measured(cup, "read from the block") for cup in given]


def _measured(cup: Cup, told: str) -> Measured:
    kind = "asked" if not cup.source else "handbook"
    mouth = exact("", f"cup of {format_number(cup.mouth)}", "mm", cup.mouth, kind, told)
    depth = exact(
        "", f"depth of the cup of {format_number(cup.mouth)}", "mm", cup.depth, kind, told
    )
    return (mouth, depth, dome.cup_ball(mouth, depth))


def _choice(
    id: str, label: str, block: Sequence[Measured], among: Sequence[int], by: int
) -> Choice:
    """The smallest of the cups that serve, by its mouth (0) or by the ball that fills it (2)."""
    names = {f"the {format_number(block[i][0].value)} mm cup": block[i][by] for i in among}
    return choose(id, label, names, "smallest")[1]


def _stage(number: int, cup: Measured, blank: Quantity, thickness: Quantity) -> Stage:
    mouth, depth, ball = cup
    return Stage(
        mouth.named(f"cup_{number}", f"cup {number}, across", mouth.source),
        depth.named(f"cup_{number}_depth", f"cup {number}, its depth", depth.source),
        dome.punch(ball, thickness).named(f"punch_{number}", f"largest punch for cup {number}"),
        dome.domed_rise(blank, ball, thickness).named(
            f"domed_rise_{number}", f"rise of the dome in cup {number}"
        ),
    )
