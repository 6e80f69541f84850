"""The usual cautions, by the kind of work they belong to. They defer to those who know more.

Common practice, no source, unless a text names one; makers' safety sheets, local codes and
licensed practice rule.
"""

from __future__ import annotations

from collections.abc import Iterable

from hollowright.errors import Caution

CAUTIONS = {
    each.id: each
    for each in (
        Caution(
            "uncut_tube",
            "Never cap both ends of an uncut tube: heated, it is a sealed bomb. Saw first, then "
            "cap.",
        ),
        Caution(
            "open_end",
            "Before each heat look that no space is closed: every hollow wants an open end or a "
            "vent.",
        ),
        Caution(
            "closed_box",
            "Never heat the closed box, not even to dry it: air and trapped water burst it open.",
        ),
        Caution(
            "torch",
            "Torch: fire bricks, a clear bench, no loose sleeves, an extinguisher at hand, eye "
            "protection. Hot metal looks like cold metal.",
        ),
        Caution(
            "fumes",
            "Flux with fluoride and brass's zinc give off fumes that harm: solder by an open "
            "window with the fan drawing away from your face. Read the flux maker's safety sheet.",
        ),
        Caution(
            "no_cadmium",
            "Use no solder with cadmium, and heat no metal you can't name: old fillers may hold "
            "cadmium, some copper alloys beryllium, plumbing scrap lead or soft solder.",
        ),
        Caution(
            "pickle",
            "Pickle: acid into water, never water into acid; goggles and gloves; copper or plastic "
            "tongs, no steel in the bath; air-cool a hollow piece first and drain it after.",
        ),
        Caution(
            "vent",
            "A form that closes wants its vent before the last heat: a hole that air, steam and "
            "pickle can pass. Look through it before you light the torch, and never plug it hot.",
        ),
        Caution(
            "hammer",
            "Hammer work: ear and eye protection; a cracked or burred punch throws splinters; "
            "anneal before the metal is hard, and again.",
        ),
        Caution(
            "drill",
            "Drilling: clamp the work, centre-punch first, wear glasses, tie hair and sleeves "
            "back; brass grabs the drill as it breaks through.",
        ),
        Caution(
            "stone",
            "No stone goes near the torch or the pickle: set it when all heats are done.",
        ),
        Caution(
            "scored",
            "A scored groove leaves a thin web with sharp edges: bend it once, slowly, and run "
            "solder along it, or it tears.",
        ),
        Caution(
            "filings",
            "Filings and saw dust in the eye: wear glasses. Deburr before you handle.",
        ),
    )
}
"""Every standing caution by its id."""

BY_KIND = {
    "saw": ("filings",),
    "cut": ("filings",),
    "file": ("filings",),
    "solder": ("torch", "fumes", "no_cadmium", "pickle"),
    "clean": ("pickle",),
}
"""Which cautions a kind of work always carries."""

DEFERS = (
    "These are the usual cautions, not all of them: makers' safety data sheets, local codes and "
    "licensed practice come first."
)


def cautions_for(kind: str, named: Iterable[str]) -> tuple[Caution, ...]:
    """The cautions of one step: those it names first, then those of its kind."""
    ids = dict.fromkeys((*named, *BY_KIND.get(kind, ())))
    return tuple(CAUTIONS[id] for id in ids)
