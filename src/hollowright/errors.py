"""The errors that a user can meet, and the cautions a plan carries.

Each says what was given, what would be right, and what to do next. Exit codes are those of the
command line: 1 the plan can't be made as asked, 2 the command or the file is wrong.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

SHOWN_TEXT = 60
"""How much of a user's own text an error repeats [characters]."""


def shown(given: object) -> str:
    """The user's own text as an error repeats it: quoted, one line, cut when long."""
    try:
        text = " ".join(str(given).split())
    except ValueError:  # a whole number of thousands of digits has no text
        text = "a number of thousands of digits"
    if len(text) > SHOWN_TEXT:
        text = text[: SHOWN_TEXT - 1] + "…"
    return f"'{text}'"


class HollowrightError(Exception):
    """Anything that a user can meet; `field` names the box or key it is about."""

    exit_code = 1

    def __init__(self, field: str, problem: str, remedy: str = "") -> None:
        self.field = field
        self.problem = problem
        self.remedy = remedy
        super().__init__(field, problem, remedy)

    def __str__(self) -> str:
        head = f"{self.field}: {self.problem}" if self.field else self.problem
        return f"{head} {self.remedy}".strip()

    def each(self) -> tuple[HollowrightError, ...]:
        """The single errors in this one (itself, unless it gathers several)."""
        return (self,)


class InputError(HollowrightError):
    """What was typed or written can't be taken as it stands (exit code 2)."""

    exit_code = 2


class UnknownName(InputError):
    """A name that isn't known: says 'did you mean' and what exists."""

    def __init__(self, field: str, given: object, known: Sequence[str]) -> None:
        near = difflib.get_close_matches(str(given)[:SHOWN_TEXT], known, n=1, cutoff=0.6)
        guess = f"Did you mean {near[0]}? " if near else ""
        there = f"Known: {', '.join(known)}." if known else "There is none yet: leave it out."
        super().__init__(field, f"{shown(given)} isn't known.", f"{guess}{there}")


class Problems(InputError):
    """Several faults of one file, all told at once."""

    def __init__(self, faults: Iterable[HollowrightError]) -> None:
        self.faults = tuple(single for fault in faults for single in fault.each())
        first = self.faults[0]
        super().__init__(first.field, first.problem, first.remedy)

    def __str__(self) -> str:
        return "\n".join(str(fault) for fault in self.faults)

    def each(self) -> tuple[HollowrightError, ...]:
        """The gathered errors, in the order they were found."""
        return self.faults


class PlanRefused(HollowrightError):
    """The piece can't be made as asked (exit code 1): says why, by how much, what would do."""


@dataclass(frozen=True)
class Caution:
    """One thing to mind; `kind` is safety, reading, fit, choice or metal."""

    id: str
    text: str
    kind: str = "safety"
    about: str = ""
