"""A plan as the page shows it: what to mark, how it fits, where the doubt comes from."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from hollowright.errors import Caution
from hollowright.output.plan_picture import plan_picture
from hollowright.output.sizes import beside, figure, size_text, to_mark, word_for
from hollowright.output.svg import svg
from hollowright.piece import Part
from hollowright.plan.plan import FitResult, Plan, Step
from hollowright.plan.safety import DEFERS
from hollowright.quantity import Quantity
from hollowright.quantity.budget import Share, budget
from hollowright.quantity.working import number_text
from hollowright.units import format_number
from hollowright.web.charts import budget_chart, fit_chart

PICTURE_WIDTH = 92.0
"""The picture's width [mm]: narrow, so that its lettering stays readable on a phone."""

SHARES_SHOWN = 6


@dataclass(frozen=True)
class Mark:
    """One kind of part to cut: its figures at cut size, its finished figures and their doubt."""

    id: str
    name: str
    count: int
    stock: str
    figures: tuple[tuple[str, str], ...]
    finished: str
    doubt: str

    @property
    def short(self) -> str:
        """The figures in a few characters: '102.43 × 17.59'."""
        return " × ".join(figure for figure, _ in self.figures)


@dataclass(frozen=True)
class FitView:
    """One fit with its charts."""

    result: FitResult
    chart: Markup
    budget: Markup
    strip: Quantity | None


def marks(plan: Plan) -> list[Mark]:
    """What to cut, one entry a kind of part."""
    return [_mark(plan, part) for part in plan.parts]


def _mark(plan: Plan, part: Part) -> Mark:
    stock = plan.piece.stock(part.stock)
    thickness = stock.thickness
    cut = to_mark(part.blank.form, plan.cuts[part.id].sizes)
    return Mark(
        part.id,
        part.name,
        part.count,
        f"{stock.metal_words}, {number_text(thickness)} mm",
        tuple((figure(name, size), _unit(plan, name, size)) for name, size in cut.items()),
        size_text(part.blank.form, part.blank.to_cut),
        " and ".join(f"±{doubt_text(each)}" for each in cut.values() if each.uncertainty),
    )


def _unit(plan: Plan, name: str, size: Quantity) -> str:
    """What stands after a figure: 'mm long', and the inches where the readings were in inches."""
    before = "mm " if size.unit == "mm" else ""
    return f"{before}{word_for(name)}{beside(plan, size)}"


def doubt_text(quantity: Quantity) -> str:
    """A standard uncertainty to two digits, which is all that it deserves."""
    digits = 2 - math.ceil(math.log10(quantity.uncertainty)) if quantity.uncertainty else 2
    return format_number(quantity.uncertainty, max(0, min(digits, 4)))


def fits(plan: Plan) -> list[FitView]:
    """Each fit, its curve over the window, its error budget."""
    return [_fit(plan, result) for result in plan.fits]


def _fit(plan: Plan, result: FitResult) -> FitView:
    shares = grouped_shares(result.as_cut, plan.quantities)
    return FitView(
        result,
        Markup(fit_chart(result)),  # noqa: S704 (its words are escaped where they are drawn)
        Markup(budget_chart(shares, "mm")),  # noqa: S704
        plan.cuts[result.fit.part].sizes.get("length"),
    )


def grouped_shares(
    quantity: Quantity, table: Mapping[str, Quantity], most: int = SHARES_SHOWN
) -> list[Share]:
    """A quantity's error budget, each reading's error terms added up, the least ones together."""

    def reading(node: Quantity) -> tuple[str, str]:
        if node.of in table:
            return node.of, table[node.of].label
        return node.of or node.id, node.label

    shares = budget(quantity, reading)
    if len(shares) <= most:
        return list(shares)
    rest = shares[most - 1 :]
    effect = sum(share.effect**2 for share in rest) ** 0.5
    return [
        *shares[: most - 1],
        Share("rest", f"{len(rest)} others", effect, sum(each.part for each in rest)),
    ]


def doubt_words(quantity: Quantity, table: Mapping[str, Quantity]) -> str:
    """A quantity's doubt and which readings carry most of it; empty for an exact one."""
    shares = grouped_shares(quantity, table)[:3]
    if not shares:
        return ""
    listed = ", ".join(f"{share.label} {100 * share.part:.0f} %" for share in shares)
    return f"±{doubt_text(quantity)} {quantity.unit}".rstrip() + f" (from {listed})"


def picture(plan: Plan) -> Markup | None:
    """The piece assembled and drawn apart; None where its sizes leave no room to draw it."""
    try:
        drawn = svg(plan_picture(plan, PICTURE_WIDTH), ink="currentColor", prefix="picture")
    except ValueError:
        return None
    return Markup(drawn)  # noqa: S704 (the writer escapes every text)


@dataclass(frozen=True)
class Told:
    """A step's cautions: those told in full here, and those that an earlier step told.

    again: that step's number and id, and the cautions' names.
    """

    new: tuple[Caution, ...]
    again: tuple[tuple[int, str, tuple[str, ...]], ...]


def cautions_told(plan: Plan) -> dict[str, Told]:
    """Each caution in full where it first matters; after that by its name and where it stands."""
    first: dict[str, Step] = {}
    told: dict[str, Told] = {}
    for step in plan.steps:
        new = tuple(each for each in step.cautions if each.id not in first)
        again: dict[str, list[str]] = {}
        for each in step.cautions:
            if each.id in first:
                again.setdefault(first[each.id].id, []).append(each.id.replace("_", " "))
        numbers = {each.id: each.number for each in first.values()}
        told[step.id] = Told(
            new, tuple((numbers[id], id, tuple(names)) for id, names in again.items())
        )
        first |= {each.id: step for each in new}
    return told


def context(plan: Plan) -> dict[str, object]:
    """Everything that the plan's template wants."""
    return {
        "plan": plan,
        "marks": marks(plan),
        "fits": fits(plan),
        "picture": picture(plan),
        "doubts": {id: doubt_words(q, plan.quantities) for id, q in plan.quantities.items()},
        "bars": [stock for stock in plan.piece.stocks if stock.bar],
        "cautions_told": cautions_told(plan),
        "defers": DEFERS,
        "flats": [
            *((part.id, f"{part.name} blank") for part in plan.parts if part.blank.flat),
            *((paper.id, paper.label) for paper in plan.piece.templates),
        ],
    }
