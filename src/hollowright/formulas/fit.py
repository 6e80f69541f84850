"""How a ring fits its bore: what is really cut, the odds, the guard, how far it may be forced."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import pi
from hollowright.quantity.statistics import normal_cdf, normal_quantile


@formula("ring_made_diameter", "mm", "ring's outside diameter as it will come out")
def made_diameter(strip: Any, marking: Any, sawing: Any, thickness: Any) -> Any:
    """Outside diameter [mm] of the ring that comes of a strip of given length.

    diameter = (strip + marking + sawing) / pi + thickness

    strip: length between dressed ends [mm]; marking, sawing: errors of each [mm]; thickness [mm].
    Source: circumference of the mid-line.

    >>> round(made_diameter(111.05, 0.1, 0.0, 0.64), 3)
    36.02
    """
    return (strip + marking + sawing) / pi + thickness


@formula("made_on_line", "mm", "ring's outside diameter as it will come out")
def made_diameter_on_line(strip: Any, marking: Any, sawing: Any, thickness: Any, line: Any) -> Any:
    """Outside diameter [mm] of the ring that comes of a strip, on another neutral line.

    diameter = (strip + marking + sawing) / pi + 2 x thickness x (1 - line)

    strip, marking, sawing, thickness as for the mid-line [mm]; line: parts of thickness [1].
    Source: circumference of the neutral line.

    >>> round(made_diameter_on_line(110.452, 0.0, 0.0, 0.64, 0.35), 2)
    35.99
    """
    return (strip + marking + sawing) / pi + 2 * thickness * (1 - line)


@formula("made_across", "mm", "part's mean outside as it will come out")
def made_across(strip: Any, marking: Any, sawing: Any, thickness: Any, turn: Any) -> Any:
    """Mean outside [mm] of a closed wall that comes of a strip: length round over `turn`.

    outside = (strip + marking + sawing) / turn + thickness

    strip, marking, sawing, thickness as for a ring [mm]; turn: what the length round loses for each
    millimetre across, pi for a smooth convex form, the sum of tan(half the turn) at sharp corners.
    Source: parallel curves of a closed convex curve.

    >>> round(made_across(111.05, 0.1, 0.0, 0.64, 3.141593), 3)
    36.02
    """
    return (strip + marking + sawing) / turn + thickness


@formula(
    "made_inside",
    "mm",
    "part's mean inside as it will come out",
    slips={
        "the wall taken off once instead of twice": (
            lambda strip, marking, sawing, thickness, turn: (strip + marking + sawing) / turn
        ),
        "the wall not taken off": lambda strip, marking, sawing, thickness, turn: (
            (strip + marking + sawing) / turn + thickness
        ),
    },
)
def made_inside(strip: Any, marking: Any, sawing: Any, thickness: Any, turn: Any) -> Any:
    """Mean inside [mm] of a closed wall that comes of a strip: length round over `turn`.

    inside = (strip + marking + sawing) / turn - thickness

    strip, marking, sawing, thickness, turn as for the outside.
    Source: parallel curves of a closed convex curve.

    >>> round(made_inside(117.0, 0.1, 0.0, 0.8, 3.141593), 3)
    36.474
    """
    return (strip + marking + sawing) / turn - thickness


@formula("fit_clearance", "mm", "clearance")
def clearance(bore: Any, ring: Any) -> Any:
    """Diametral clearance [mm]: positive slides, negative presses.

    clearance = bore - ring

    bore, ring: diameters [mm].
    Source: ISO 286-1 (clearance and interference).

    >>> round(clearance(36.03, 35.99), 3)
    0.04
    """
    return bore - ring


@formula("guard", "mm", "guard on the length")
def guard(k: Any, doubt: Any) -> Any:
    """What is left on a strip's length [mm] because too long is mended and too short is not.

    guard = pi x k x doubt

    k: quantile of the risk that is run [1]; doubt: standard uncertainty of the diameter [mm].
    Source: one-sided guard band, JCGM 106:2012 8.3.

    >>> round(guard(1.645, 0.041), 3)
    0.212
    """
    return pi * k * doubt


@formula("extra", "mm", "what the body wants more")
def length_for(more: Any) -> Any:
    """Length of strip [mm] that makes a ring larger by so much.

    length = pi x more

    more: of the diameter [mm].
    Source: circumference of a circle.

    >>> round(length_for(0.04), 3)
    0.126
    """
    return pi * more


@formula("guard", "mm", "guard on the length")
def guard_round(turn: Any, k: Any, doubt: Any) -> Any:
    """What is left on the length of a closed wall that isn't round [mm].

    guard = turn x k x doubt

    turn: as for `made_across` [1]; k: quantile of the risk [1]; doubt: of the clearance [mm].
    Source: one-sided guard band, JCGM 106:2012 8.3.

    >>> round(guard_round(3.3, 1.645, 0.041), 3)
    0.223
    """
    return turn * k * doubt


def guard_factor(risk: float) -> float:
    """How many standard uncertainties a one-sided guard wants for a risk [1] between 0 and 0.5.

    Source: standard normal quantile.

    >>> round(guard_factor(0.05), 3)
    1.645
    """
    return normal_quantile(1.0 - risk)


def odds_between(middle: float, doubt: float, low: float, high: float) -> float:
    """Probability [1] that a clearance lands in a window.

    middle, doubt: expected clearance and its standard uncertainty [mm]; low, high: window [mm].
    Source: normal distribution of a sum of many small doubts (JCGM 100 G.2.1).

    >>> round(odds_between(0.0, 0.041, -0.015, 0.015), 2)
    0.29
    """
    if doubt <= 0:
        return 1.0 if low <= middle <= high else 0.0
    return normal_cdf((high - middle) / doubt) - normal_cdf((low - middle) / doubt)


def odds_below(middle: float, doubt: float, high: float) -> float:
    """Probability [1] that a clearance is not over `high`: such a ring can be filed to fit.

    middle, doubt, high [mm].
    Source: as `odds_between`.

    >>> round(odds_below(-0.067, 0.041, 0.015), 3)
    0.977
    """
    if doubt <= 0:
        return 1.0 if middle <= high else 0.0
    return normal_cdf((high - middle) / doubt)


def odds_above(middle: float, doubt: float, low: float) -> float:
    """Probability [1] that a clearance is not under `low`: such a lid can be cut shorter to fit.

    middle, doubt, low [mm].
    Source: as `odds_between`.

    >>> round(odds_above(0.082, 0.041, 0.015), 3)
    0.949
    """
    return odds_below(-middle, doubt, -low)


@formula("hoop_strength", "N/mm", "what a ring bears round its hoop")
def hoop_strength(strength: Any, thickness: Any) -> Any:
    """Hoop force per width [N/mm] at which a thin ring begins to yield.

    hoop strength = strength x thickness

    strength: yield, annealed [MPa]; thickness [mm].
    Source: thin ring under pressure, p R = S t.

    >>> round(hoop_strength(110.0, 0.64), 2)
    70.4
    """
    return strength * thickness


@formula("force_limit", "mm", "largest interference before a ring yields")
def elastic_limit(diameter: Any, hoop: Any, e: Any, t: Any, other_e: Any, other_t: Any) -> Any:
    """Diametral interference [mm] at which the weaker of two thin rings begins to yield.

    limit = diameter x hoop / 1000 x (1 / (e x t) + 1 / (other_e x other_t))

    diameter: of the joint [mm]; hoop: the lesser hoop strength of the two [N/mm]; e, other_e:
    Young's moduli [GPa]; t, other_t: thicknesses [mm], thin against the diameter. For one metal it
    is D (yield / E)(1 + thin / thick). Ovality is another mode and isn't interference.
    Source: two thin rings under one contact pressure (hoop force p R alike in both).

    >>> round(elastic_limit(36.0, 105 * 0.64, 110.0, 0.64, 117.0, 1.01), 4)
    0.0548
    """
    return diameter * hoop / 1000 * (1 / (e * t) + 1 / (other_e * other_t))


def press_pressure(
    interference: float, diameter: float, inner: float, outer: float, modulus: float
) -> float:
    """Contact pressure [MPa] of two rings of one metal pressed together.

    p = E d / (2 R^3) x (ro^2 - R^2)(R^2 - ri^2) / (ro^2 - ri^2), d the radial interference

    interference, diameter, inner, outer: diametral interference, joint diameter, the inner ring's
    bore, the outer ring's outside [mm]; modulus [GPa].
    Source: Shigley's Mechanical Engineering Design, eq. 3-57.

    >>> round(press_pressure(0.040, 50.0, 0.0, 100.0, 207.0), 2)
    62.1
    """
    big, small, joint = outer / 2, inner / 2, diameter / 2
    shape = (big**2 - joint**2) * (joint**2 - small**2) / (big**2 - small**2)
    return 1000 * modulus * (interference / 2) / (2 * joint**3) * shape


def pull_off_force(pressure: float, diameter: float, land: float, friction: float) -> float:
    """Force [N] to pull a pressed lid off: F = pi d L p f.

    pressure [MPa]; diameter, land: of the joint [mm]; friction [1].
    Source: Shigley's Mechanical Engineering Design, section on press fits.

    >>> round(pull_off_force(0.5, 36.0, 1.4, 0.15), 1)
    11.9
    """
    return pi * diameter * land * pressure * friction


@formula("seating_pressure", "kPa", "air pressed as the lid seats")
def seating_pressure(stand: Any, inside: Any) -> Any:
    """Overpressure [kPa] of the air that a lid closes in while it seats, before it leaks.

    pressure = 101.325 x stand / inside

    stand: how far the ring travels after it seals [mm]; inside: inside height of the closed box
    [mm]; isothermal, standard atmosphere.
    Source: Boyle's law, p1 (inside + stand) = p2 inside.

    >>> round(seating_pressure(2.0, 45.0), 2)
    4.5
    """
    return 101.325 * stand / inside


@formula("seating_force", "N", "push of that air on the lid")
def seating_force(pressure: Any, bore: Any) -> Any:
    """Force [N] of an overpressure on a round lid.

    force = pressure / 1000 x pi x bore^2 / 4

    pressure [kPa]; bore: diameter it acts on [mm].
    Source: definition of pressure.

    >>> round(seating_force(4.5, 36.0), 2)
    4.58
    """
    return pressure / 1000 * pi * bore * bore / 4
