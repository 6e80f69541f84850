"""What the bench card says: a plan put into plain words and figures for the page to set."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from hollowright import __version__
from hollowright.designs import design
from hollowright.errors import Caution, UnknownName
from hollowright.output.sizes import (
    beside,
    figure,
    inch_text,
    size_text,
    to_mark,
    whole_size,
    word_for,
)
from hollowright.output.text import advice_text, percent, tenth_text
from hollowright.piece import Part
from hollowright.plan.plan import FitResult, Plan, Step
from hollowright.plan.safety import BY_KIND, DEFERS
from hollowright.quantity import Quantity
from hollowright.quantity.evaluate import ancestry
from hollowright.quantity.working import number_text, value_text, working
from hollowright.units import format_number

Data = dict[str, Any]
LINE = 58
"""How many characters of a working go on one line of a column."""


def card_data(plan: Plan) -> Data:
    """Everything on the card but its drawings; texts are plain texts, never markup."""
    words = {
        "design": design_title(plan),
        "maker": f"Hollowright {__version__}",
        "mass": value_text(plan.mass),
        "cuts": [_cut(plan, part) for part in plan.parts],
        "fits": [_fit(plan, result) for result in plan.fits],
        "parts": [_part(plan, part) for part in plan.parts],
        "stock": list(_stock(plan)),
        "changes": [
            f"{c.label}: {format_number(c.built)} read, {format_number(c.planned)} was planned"
            for c in plan.piece.changes
        ],
        "steps": list(_steps(plan)),
        "workings": [_working(quantity) for quantity in key_quantities(plan)],
        "notes": list(plan.notes),
        "cautions": [
            *(caution.text for caution in plan.cautions),
            *unlettered(plan.piece.title),
        ],
        "defers": DEFERS,
    }
    return {"title": printable(plan.piece.title), **glued(words)}


def design_title(plan: Plan) -> str:
    """What the piece's design is called, or its designs; a design that isn't known by its id."""
    titles = []
    for id in plan.piece.design.split("+"):
        try:
            titles.append(design(id).title)
        except UnknownName:
            titles.append(id)
    return ", ".join(titles)


def printable(text: str) -> str:
    """A user's text as one line that can be set: line breaks and the like become spaces.

    >>> printable("Striker" + chr(10) + "box")
    'Striker box'
    """
    return "".join(c if c.isprintable() else " " for c in text)


UNLETTERED = re.compile(
    "[\u0e00-\u109f\u1100-\u18ff\u2e80-\ud7ff\uf900-\ufaff\U00010000-\U0010ffff]"
)
"""Signs that the pages' own lettering lacks: of Thai, Chinese, Japanese, Korean, pictures ..."""


def unlettered(title: str) -> list[str]:
    """What to mind where a title has signs that can't be set."""
    said = "Some signs of the title aren't in the lettering of these pages: they are empty boxes."
    return [said] if UNLETTERED.search(title) else []


def typeset(text: str) -> str:
    """A working with the signs of print: a true minus, a cross for times, π for pi.

    >>> typeset("pi x (33.07 - 0.644) = -0.05 mm")
    'π × (33.07 − 0.644) = −0.05 mm'
    """
    for plain, sign in (
        (" x ", " × "),
        (" - ", " − "),
        ("pi ×", "π ×"),
        (" -", " −"),
        ("(-", "(−"),
    ):
        text = text.replace(plain, sign)
    return text


_UNIT = re.compile(r"(?<=\d) (?=(?:mm|g|%|kPa|N|degrees)(?![a-zA-Z]))")


def glued(data: Any) -> Any:
    r"""The same data with every figure and its unit kept on one line.

    >>> glued(["0.1 mm off", "8 % or 2 gaps"])
    ['0.1\xa0mm off', '8\xa0% or 2 gaps']
    """
    if isinstance(data, str):
        return _UNIT.sub("\u00a0", data)
    if isinstance(data, dict):
        return {name: glued(value) for name, value in data.items()}
    return [glued(each) for each in data]


# ---- the front


def _cut(plan: Plan, part: Part) -> Data:
    """What to cut for a part: the figures to mark, large."""
    verb = "Saw" if not part.blank.flat else "Cut"
    many = f"{part.count} × " if part.count > 1 else ""
    net = part.blank.to_cut
    return {
        "what": f"{verb} {many}{part.name}",
        "line": size_text(part.blank.form, plan.cuts[part.id].sizes),
        "net": size_text(part.blank.form, net),
        "inches": inch_text(plan, part.blank.form, plan.cuts[part.id].sizes),
        "figures": [
            {
                "value": figure(name, size),
                "of": word_for(name) + beside(plan, size),
                "net": number_text(net[name]),
            }
            for name, size in to_mark(part.blank.form, plan.cuts[part.id].sizes).items()
        ],
    }


def _part(plan: Plan, part: Part) -> Data:
    stock = plan.piece.stock(part.stock)
    thickness = stock.thickness
    return {
        "name": part.name,
        "count": str(part.count),
        "metal": f"{stock.metal.id} {stock.metal_words}",
        "thickness": number_text(thickness),
        "net": whole_size(part.blank.to_cut),
        "cut": whole_size(plan.cuts[part.id].sizes),
        "mass": value_text(part.mass),
    }


def _stock(plan: Plan) -> Iterator[str]:
    for stock in plan.piece.stocks:
        if stock.bar:
            have = f" of the {value_text(stock.length)} in hand" if stock.length else ""
            need = value_text(plan.quantities[f"{stock.id}_needed"])
            yield f"{stock.label.capitalize()}: {need} needed{have}."
    if plan.sawn:
        yield f"{plan.sawn.capitalize()}."


def _fit(plan: Plan, result: FitResult) -> Data:
    low, high = (format_number(edge, 3) for edge in result.fit.window)
    return {
        "label": result.fit.label,
        "feel": result.fit.feel,
        "window": f"{low} to {high} mm",
        "odds": percent(result.odds),
        "odds_filed": percent(result.odds_filed),
        "lines": list(_fit_lines(plan, result)),
        "cautions": [c.text for c in (*plan.to_settle, *_of_fit(plan, result))],
    }


def _of_fit(plan: Plan, result: FitResult) -> list[Caution]:
    return [c for c in plan.cautions if c.kind == "fit" and c.about == result.fit.id]


def _fit_lines(plan: Plan, result: FitResult) -> Iterator[str]:
    if result.fit.made is None:
        yield (
            f"Cut {format_number(result.guard.value)} mm long on purpose: too long is filed, too "
            "short is not."
        )
    least, likely, most = (format_number(length) for length in result.filing)
    if result.fit.made is not None and result.filing[1] > 0:
        yield f"Take {likely} mm off the length, or file the diameter."
    elif result.filing[1] > 0:
        yield f"Expect to file {likely} mm off the length ({least} to {most})."
        yield f"{tenth_text(result)}."
    said = advice_text(result)
    yield f"{said[0].upper()}{said[1:]}."
    if limit := plan.quantities.get("force_limit"):
        soft = f"of interference the soft {result.fit.weaker} yields"
        yield f"File, don't force: past {value_text(limit)} {soft}."


# ---- the steps


def _steps(plan: Plan) -> Iterator[Data]:
    told: dict[str, int] = {}
    for step in plan.steps:
        yield {
            "number": str(step.number),
            "title": step.title,
            "text": step.text,
            "figures": [_figure(plan, plan.as_planned(id)) for id in _figures(step)],
            "reads": [_to_read(plan, step, id) for id in _reads(step)],
            **_cautions(step, told),
        }
        for caution in step.cautions:
            told.setdefault(caution.id, step.number)


def _figures(step: Step) -> Iterable[str]:
    """The numbers to mark; where the step is to measure they are what to read."""
    return () if step.kind == "measure" else step.marks


def _reads(step: Step) -> Iterable[str]:
    return dict.fromkeys((*step.reads, *(step.marks if step.kind == "measure" else ())))


def _to_read(plan: Plan, step: Step, id: str) -> Data:
    """A box to write a reading in: with what is planned, or with what was read before."""
    how = "planned" if id in step.reads else "so far"
    return {**_figure(plan, plan.as_planned(id)), "how": how}


def _figure(plan: Plan, quantity: Quantity) -> Data:
    label = quantity.label + beside(plan, quantity)
    if quantity.unit == "deg":
        return {"label": label, "value": value_text(quantity), "unit": ""}
    return {"label": label, "value": number_text(quantity), "unit": quantity.unit}


def _cautions(step: Step, told: Mapping[str, int]) -> Data:
    """A step's own cautions in full; those of its kind in full once, then by name and step."""
    usual = BY_KIND.get(step.kind, ())
    again = [c for c in step.cautions if c.id in told and c.id in usual]
    return {
        "cautions": [caution.text for caution in step.cautions if caution not in again],
        "again": again and _again(again, told),
    }


def _again(cautions: list[Caution], told: Mapping[str, int]) -> str:
    names = ", ".join(caution.id.replace("_", " ") for caution in cautions)
    steps = sorted({told[caution.id] for caution in cautions})
    return f"Mind, as at step {' and '.join(map(str, steps))}: {names}."


# ---- the workings


def key_quantities(plan: Plan) -> list[Quantity]:
    """The numbers worth their working: those cut and marked, and what they were reckoned from."""
    wanted = {id for step in plan.steps for id in step.marks}
    sizes = [size for cut in plan.cuts.values() for size in cut.sizes.values()]
    ends = [plan.quantities[id] for id in wanted] + sizes + [fit.guard for fit in plan.fits]
    needed = {quantity.id for quantity in ancestry(ends)}
    return [
        quantity
        for id, quantity in plan.quantities.items()
        if id in needed and quantity.kind not in ("shop", "asked") and not _copies(quantity)
    ]


def _copies(quantity: Quantity) -> bool:
    """Whether it only takes over another number under its own name."""
    return (
        quantity.formula is not None
        and len(quantity.inputs) == 1
        and (number_text(quantity) == number_text(quantity.inputs[0]))
    )


def _working(quantity: Quantity) -> Data:
    name, _, rest = working(quantity).partition(" = ")
    how, _, result = rest.rpartition(" = ")
    doubt = format_number(quantity.uncertainty, 3) if quantity.uncertainty > 5e-4 else ""
    return {
        "name": name,
        "how": _lines(typeset(how or "as read")),
        "value": typeset(result if how else rest),
        "doubt": f"± {doubt}" if doubt else "",
    }


def _lines(how: str) -> list[str]:
    """A working on one line, or its words on one and its figures on the next."""
    words, equals, figures = how.partition(" = ")
    return [words, f"= {figures}"] if equals and len(how) > LINE else [how]
