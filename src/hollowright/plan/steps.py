"""Pass: the work in order, every number put in, with blade and cautions."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from hollowright.errors import Caution
from hollowright.handbook.blades import blade_for
from hollowright.piece import ANNEALED, Stock, Work
from hollowright.plan.plan import Plan, Step
from hollowright.plan.safety import cautions_for
from hollowright.quantity import Quantity
from hollowright.quantity.working import value_text
from hollowright.units import format_inch, format_number

COARSE = 0.1
"""From this size [mm] up nobody files or saws to a third decimal."""

_PLACE = re.compile(r"\{([a-z][a-z0-9_]*)\}")


def steps(plan: Plan) -> Plan:
    """The plan with its steps, and the metals' own cautions."""
    inches = plan.piece.inches
    words = {id: to_make(quantity, inches) for id, quantity in plan.quantities.items()}
    words |= {f"planned_{id}": to_make(plan.as_planned(id), inches) for id in plan.quantities}
    words["feel"] = plan.fits[0].fit.feel if plan.fits else ""
    words["weaker"] = plan.fits[0].fit.weaker if plan.fits else ""
    ordered = in_order(plan.piece.work)
    done = tuple(_step(number, work, plan, words) for number, work in enumerate(ordered, 1))
    return replace(plan, steps=done, cautions=plan.cautions + _hard(plan) + _metals(plan))


def to_make(quantity: Quantity, inches: bool = False) -> str:
    """A number as a saw or a scriber can follow it: hundredths of a millimetre.

    inches: thousandths of an inch beside it.
    """
    beside = f" ({format_inch(quantity.value)})" if inches and quantity.unit == "mm" else ""
    if quantity.unit == "mm" and abs(quantity.value) >= COARSE:
        return f"{format_number(quantity.value)} mm{beside}"
    return f"{value_text(quantity)}{beside}"


def in_order(work: tuple[Work, ...]) -> tuple[Work, ...]:
    """The work with everything after what it waits for, otherwise as the design lists it.

    ValueError when two works wait for each other or for one that isn't there.
    """
    left = list(work)
    done: list[Work] = []
    ids: set[str] = set()
    while left:
        ready = next((each for each in left if set(each.after) <= ids), None)
        if ready is None:
            raise ValueError(f"work that waits in a circle: {', '.join(w.id for w in left)}")
        left.remove(ready)
        done.append(ready)
        ids.add(ready.id)
    return tuple(done)


def _step(number: int, work: Work, plan: Plan, words: Mapping[str, str]) -> Step:
    text = _PLACE.sub(lambda place: words[place[1]], work.text)
    blade = _blades(work, [plan.piece.stock(id) for id in work.about])
    marks = tuple(id for id in work.marks if id in plan.quantities)
    cautions = cautions_for(work.kind, work.cautions)
    full = f"{text} {blade}".strip()
    return Step(work.id, number, work.kind, work.title, full, marks, work.reads, cautions)


def _blades(work: Work, stocks: Sequence[Stock]) -> str:
    """Which blade for what a step saws, by the rule of teeth engaged; each named where two are.

    Sheet that is sawn ('saw') once it has been bent to a wall is held and turned as a tube is.
    """
    if work.kind not in ("saw", "cut"):
        return ""
    sentences = []
    for stock in stocks:
        form = "tube" if stock.form == "sheet" and work.kind == "saw" else stock.form
        pick = blade_for(stock.thickness.value, form=form)
        start = f"For the {stock.label}, blade" if len(stocks) > 1 else "Blade"
        sentences.append(f"{start} {pick.name}: {pick.why}")
    return " ".join(sentences)


def _hard(plan: Plan) -> tuple[Caution, ...]:
    """What is bent, domed or raised from metal that isn't soft, said by its stock.

    Common practice, no source.
    """
    shaped = {part.stock for part in plan.parts if part.blank.shaped}
    return tuple(
        Caution(
            f"{stock.id}_not_soft",
            f"{stock.label[0].upper()}{stock.label[1:]}: {stock.temper}. Anneal what is cut from "
            "it before it is shaped: metal that isn't soft springs back, and cracks at a bend.",
            "metal",
            stock.id,
        )
        for stock in plan.piece.stocks
        if stock.id in shaped and stock.temper not in ("", ANNEALED)
    )


def _metals(plan: Plan) -> tuple[Caution, ...]:
    """What the handbook says to mind of each metal that is used, once."""
    found: dict[str, Caution] = {}
    for stock in plan.piece.stocks:
        for count, text in enumerate(stock.metal.cautions):
            id = f"{stock.metal.id.lower()}_{count + 1}"
            found.setdefault(
                text, Caution(id, f"{stock.metal.name}: {text}", "metal", stock.metal.id)
            )
    return tuple(found.values())
