"""An outcome as HTML: the whole page, or the parts of it that change as one types."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from starlette.responses import HTMLResponse

from hollowright.errors import HollowrightError
from hollowright.handbook.metals import metals
from hollowright.plan.slips import Checked, check
from hollowright.web.form import grouped, lying
from hollowright.web.outcome import Outcome
from hollowright.web.pages import rendered
from hollowright.web.view import context

BUILT = "as_built"
"""The group of readings taken as the work goes."""


@dataclass(frozen=True)
class Answer:
    """The answer to 'check my number': what was asked, what was found or what is wrong."""

    quantity: str = ""
    figure: str = ""
    checked: Checked | None = None
    fault: HollowrightError | None = None


def asked(outcome: Outcome, quantity: str, figure: str) -> Answer:
    """The slip finder's answer about one figure; no answer while there is no figure."""
    if outcome.plan is None or not figure.strip():
        return Answer(quantity, figure)
    try:
        return Answer(quantity, figure, check(outcome.plan, quantity, figure))
    except HollowrightError as fault:
        return Answer(quantity, figure, fault=fault)


def page(outcome: Outcome, answer: Answer | None = None, status: int = 200) -> HTMLResponse:
    """The whole page."""
    shown = {
        "answer": answer or Answer(),
        "groups": [(group, fields, lying(fields)) for group, fields in grouped(outcome.design)],
        "metals": metals(),
        "built": BUILT,
        "built_open": _built_open(outcome),
    }
    return HTMLResponse(rendered("page.html", **shown, **_parts(outcome)), status)


def _built_open(outcome: Outcome) -> bool:
    """Whether anything was read on the work, or is wrong there: then its boxes aren't folded."""
    paths = [field.path for field in outcome.design.fields if field.group.endswith(BUILT)]
    return any(outcome.values[path] or path in outcome.faults for path in paths)


def plan_part(outcome: Outcome) -> HTMLResponse:
    """What changes as one types: the plan (it stays while there are faults), state and faults."""
    headers = {"hx-reswap": "none"} if outcome.stale else {}
    return HTMLResponse(rendered("changes.html", **_parts(outcome)), headers=headers)


def answer_part(outcome: Outcome, answer: Answer) -> HTMLResponse:
    """The answer to 'check my number' alone."""
    return HTMLResponse(rendered("answer.html", outcome=outcome, answer=answer))


def _parts(outcome: Outcome) -> dict[str, Any]:
    shown = context(outcome.plan) if outcome.plan else {"plan": None}
    return {"outcome": outcome, **shown}
