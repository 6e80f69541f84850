"""Whether a hinge's pin goes with its tube: refused, loose, tight, in doubt; what would do."""

from __future__ import annotations

from hollowright.designs.brief import Brief
from hollowright.errors import Caution
from hollowright.formulas import fit
from hollowright.handbook.gauges import gauges
from hollowright.quantity import Quantity
from hollowright.units import format_number

NO_WAY = 0.1
"""A pin this much thicker than the bore [mm] isn't scatter of the readings: it doesn't go in."""

SURE = 0.9
"""Odds of a good fit from which nothing is said."""

SHOWN = 3
"""Decimals to which a clearance is told, and so held against its limits."""

TABLES = {"bs": "B&S", "swg": "SWG", "metric": "mm"}


def pin_refused(b: Brief, bore: Quantity, play: Quantity) -> None:
    """Refuse a tube without a bore, and a pin that doesn't go in."""
    if bore.value <= 0:
        raise b.refuse(
            "hinge_tube_wall", "the wall leaves no bore.", "Is it the wall that you read?"
        )
    if play.value < -max(NO_WAY, 3 * play.uncertainty):
        raise b.refuse(
            "hinge_pin_diameter",
            f"a pin of {format_number(b.hinge_pin_diameter.value)} mm doesn't go into a bore of "
            f"{format_number(bore.value)} mm.",
            f"Take {wires(b, bore)}, or other tube.",
        )


def pin_cautions(b: Brief, bore: Quantity, play: Quantity, aim: Quantity) -> tuple[Caution, ...]:
    """What to mind of the pair: it presses, it is loose, or the readings can't tell."""
    least = b.shop("pin_clearance_least").value
    most = b.shop("pin_clearance_most").value
    now = f"The pin's clearance is {format_number(play.value, SHOWN)} mm"
    would = f"{format_number(aim.value)} mm would be right: {wires(b, bore)}."
    told = round(play.value, SHOWN)
    if told < least:
        text = f"{now}, under {format_number(least)}: it presses, and solder or dirt locks it."
        return (Caution("pin_tight", f"{text} {would} Or broach the knuckles.", "fit", _ID),)
    if told > most:
        text = f"{now}, over {format_number(most)}: the hinge will wobble."
        return (Caution("pin_loose", f"{text} {would}", "fit", _ID),)
    odds = fit.odds_between(play.value, play.uncertainty, least, most)
    if odds >= SURE:
        return ()
    text = (
        f"{now}, give or take {format_number(play.uncertainty, 3)}: by these readings it is right "
        f"in {100 * odds:.0f} of 100. The wall is read hardest and counts twice: try the pin in "
        "the tube before you saw it."
    )
    return (Caution("pin_in_doubt", text, "fit", _ID),)


_ID = "pin_clearance"


def wires(b: Brief, bore: Quantity) -> str:
    """Wire of the handbook's tables that has a right clearance in this bore, in words."""
    least = b.shop("pin_clearance_least").value
    most = b.shop("pin_clearance_most").value
    middle = bore.value - (least + most) / 2
    found = []
    for table, name in TABLES.items():
        near = min(gauges(table), key=lambda each: abs(each.mm - middle))
        if least <= bore.value - near.mm <= most:
            size = f"{format_number(near.mm)} mm"
            found.append(size if table == "metric" else f"{near.number} ga {name} ({size})")
    if found:
        return "wire of " + " or ".join(found)
    return f"wire drawn or filed down to {format_number(middle)} mm"
