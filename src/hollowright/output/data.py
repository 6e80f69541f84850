"""The plan as JSON: the contract that other tools rely on. Lengths mm, areas mm2, masses g."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hollowright.designs.fields import Design, Field
from hollowright.errors import Caution
from hollowright.piece import Joint, Part, Template
from hollowright.plan.plan import Advice, FitResult, Plan, Step
from hollowright.plan.slips import Checked
from hollowright.quantity import Quantity
from hollowright.quantity.working import formula_text, working
from hollowright.shapes.outline import Outline

DIGITS = 12
"""Significant digits written: enough for 1e-9 relative, and the same text on every machine."""


def plan_data(plan: Plan) -> dict[str, Any]:
    """The whole plan as plain dictionaries, lists, texts and numbers."""
    return {
        "title": plan.piece.title,
        "design": plan.piece.design,
        "quantities": {id: quantity_data(q) for id, q in plan.quantities.items()},
        "parts": [_part(plan, part) for part in plan.parts],
        "templates": [_template(paper) for paper in plan.piece.templates],
        "joints": [_joint(joint) for joint in plan.piece.joints],
        "fits": [fit_data(result) for result in plan.fits],
        "steps": [_step(step) for step in plan.steps],
        "cautions": [caution.text for caution in plan.cautions],
        "mass": number(plan.mass.value),
        "notes": list(plan.notes),
        "choices": [
            {
                "id": choice.id,
                "rule": choice.rule,
                "taken": choice.taken,
                "candidates": {name: number(value) for name, value in choice.candidates.items()},
                "margin": number(choice.margin),
            }
            for choice in plan.piece.choices
        ],
        "changes": [
            {"id": c.id, "planned": number(c.planned), "as_built": number(c.built)}
            for c in plan.piece.changes
        ],
    }


def number(value: float) -> float:
    """A number with the last, machine-dependent digits rounded off."""
    return float(f"{value:.{DIGITS}g}")


def quantity_data(quantity: Quantity) -> dict[str, Any]:
    """One quantity: value, standard uncertainty, unit, formula, working, source."""
    return {
        "value": number(quantity.value),
        "uncertainty": number(quantity.uncertainty),
        "unit": quantity.unit,
        "formula": formula_text(quantity),
        "working": working(quantity),
        "source": quantity.source,
        "label": quantity.label,
    }


def _outline(form: str, outline: Outline, sizes: Mapping[str, Quantity]) -> dict[str, Any]:
    def points(edge: Outline) -> list[list[float]]:
        return [[number(x), number(y)] for x, y in edge.points(0.01)]

    return {
        "form": form,
        "width": number(outline.width),
        "height": number(outline.height),
        "area": number(outline.area),
        "outline": points(outline),
        "holes": [points(hole) for hole in outline.holes],
        "sizes": {name: size.id for name, size in sizes.items()},
    }


def _part(plan: Plan, part: Part) -> dict[str, Any]:
    stock = plan.piece.stock(part.stock)
    thickness = stock.thickness
    cut = plan.cuts[part.id]
    return {
        "id": part.id,
        "name": part.name,
        "count": part.count,
        "stock": part.stock,
        "metal": stock.metal.id,
        "thickness": number(thickness.value),
        "temper": stock.temper,
        "mass": number(part.mass.value),
        "blank": _outline(part.blank.form, part.blank.outline, part.blank.sizes),
        "cut": _outline(part.blank.form, cut.outline, cut.sizes),
    }


def _template(paper: Template) -> dict[str, Any]:
    return {
        "id": paper.id,
        "name": paper.label,
        "note": paper.note,
        **_outline("template", paper.outline, paper.sizes),
    }


def _joint(joint: Joint) -> dict[str, Any]:
    return {
        "id": joint.id,
        "name": joint.label,
        "parts": list(joint.parts),
        "length": number(joint.length.value),
        "lap": number(joint.lap.value) if joint.lap else None,
        "gap": number(joint.gap.value) if joint.gap else None,
        "after": list(joint.after),
        "shows": joint.shows,
    }


def fit_data(result: FitResult) -> dict[str, Any]:
    """One fit: clearance, its doubt, window, odds without and with filing, advice."""
    return {
        "id": result.fit.id,
        "name": result.fit.label,
        "feel": result.fit.feel,
        "clearance": number(result.clearance),
        "clearance_as_cut": number(result.as_cut.value),
        "uncertainty": number(result.doubt),
        "window": [number(edge) for edge in result.fit.window],
        "odds": number(result.odds),
        "odds_filed": number(result.odds_filed),
        "guard": number(result.guard.value),
        "filing": [number(length) for length in result.filing],
        "advice": [_advice(each) for each in result.advice],
        "budget": [
            {"id": share.id, "label": share.label, "part": number(share.part)}
            for share in result.shares
        ],
    }


def _advice(advice: Advice) -> dict[str, Any]:
    return {
        "id": advice.id,
        "text": advice.text,
        "odds": number(advice.odds),
        "odds_filed": number(advice.odds_filed),
    }


def _step(step: Step) -> dict[str, Any]:
    return {
        "id": step.id,
        "number": step.number,
        "title": step.title,
        "text": step.text,
        "marks": list(step.marks),
        "reads": list(step.reads),
        "cautions": [_caution(caution) for caution in step.cautions],
    }


def _caution(caution: Caution) -> str:
    return caution.text


def checked_data(checked: Checked) -> dict[str, Any]:
    """The slip finder's answer: agrees, planned, given, slips (likeliest first)."""
    return {
        "quantity": checked.quantity.id,
        "agrees": checked.agrees,
        "planned": number(checked.planned),
        "given": number(checked.given),
        "unit": checked.quantity.unit,
        "note": checked.note,
        "slips": [{"text": slip.text, "gives": number(slip.gives)} for slip in checked.slips],
    }


def design_data(design: Design) -> dict[str, Any]:
    """A design: id, title, fields with all that a form needs."""
    return {
        "id": design.id,
        "title": design.title,
        "summary": design.summary,
        "fields": [_field(field) for field in design.fields],
    }


def _field(field: Field) -> dict[str, Any]:
    return {
        "path": field.path,
        "name": field.name,
        "kind": field.kind,
        "label": field.label,
        "help": field.help,
        "example": field.example,
        "required": field.required,
        "default": field.default,
        "low": field.low,
        "high": field.high,
        "choices": list(field.choices),
    }
