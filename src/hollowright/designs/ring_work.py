"""Work that a ring in a lid wants whatever the box: its strip, the rims, the last cleaning.

Common practice, no source. {names} are filled by the plan.
"""

from __future__ import annotations

from hollowright.piece import Work


def fitted_first(filing: float) -> str:
    """Where the ring is fitted first: in both halves, or in the one that wants it larger."""
    if filing > 0.001:
        return "the lid (the body once its stand is filed)"
    if filing < -0.001:
        return "the body (the part that sits in the lid is filed after)"
    return "both halves"


def cut_strip() -> Work:
    """The ring's strip, cut long by its guard."""
    return Work(
        "cut_strip",
        "cut",
        "Cut the ring's strip",
        "Anneal the sheet. Mark a strip {ring_cut_length} long and {ring_cut_width} wide, its "
        "ends square. It is long on purpose: the guard is {ring_guard}, because too long is "
        "filed and too short is not. A trial beats reckoning: bend the strip, spring it into "
        "the lid, scribe where it overlaps, cut on the line.",
        marks=("ring_cut_length", "ring_cut_width"),
        after=("measure_halves",),
        about=("ring_sheet",),
    )


def true_body() -> Work:
    """The body's rim rubbed down to the lid."""
    return Work(
        "true_body",
        "true",
        "True the body's rim to the lid",
        "Put the lid on, look for light all round, and rub the body's rim down until there is "
        "none.",
        after=("solder_in",),
    )


def clean() -> Work:
    """What is done last, the lid off."""
    return Work(
        "clean",
        "clean",
        "Clean, weigh, write down",
        "Pickle, rinse, neutralise in soda water, rinse again, and dry with the lid off. Warm "
        "nothing with the lid on. Polish off as little as you can: it loosens the fit. Weigh "
        "it (planned {mass}).",
        after=("index",),
        cautions=("closed_box",),
    )
