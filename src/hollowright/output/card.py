"""The bench card: one PDF to print, work from and write on."""

from __future__ import annotations

import json
from pathlib import Path
from typing import cast

from hollowright.plan.plan import Plan

TEMPLATES = Path(__file__).parent / "templates"


def card_pdf(plan: Plan, paper: str = "a4") -> bytes:
    """The bench card of a plan as PDF, the same bytes every time. paper: 'a4' or 'letter'."""
    import typst

    data = {
        "title": plan.piece.title,
        "steps": [{"title": s.title, "text": s.text} for s in plan.steps],
    }
    files = {
        "main.typ": (TEMPLATES / "card.typ").read_bytes(),
        "card.json": json.dumps(data).encode(),
    }
    inputs = {"paper": {"a4": "a4", "letter": "us-letter"}[paper]}
    return cast(
        bytes, typst.compile(files, format="pdf", sys_inputs=inputs, ignore_system_fonts=True)
    )
