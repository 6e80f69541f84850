"""Hinges of tube knuckles on a pin: lengths, gaps, the pin and its play."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula


@formula(
    "knuckle_length",
    "mm",
    slips={
        "the gaps forgotten": lambda width, knuckles, gap: width / knuckles,
        "one gap too many taken off": (
            lambda width, knuckles, gap: (width - knuckles * gap) / knuckles
        ),
        "one knuckle too many counted": (
            lambda width, knuckles, gap: (width - knuckles * gap) / (knuckles + 1)
        ),
        "one gap taken off": lambda width, knuckles, gap: (width - gap) / knuckles,
    },
)
def knuckle_length(width: Any, knuckles: Any, gap: Any) -> Any:
    """Length of a knuckle where all are alike [mm].

    length = (width - (knuckles - 1) x gap) / knuckles

    width: of the hinge over all knuckles [mm]; knuckles: how many, odd [1]; gap: between two [mm].
    Source: addition.

    >>> round(knuckle_length(31.6, 5.0, 0.05), 3)
    6.28
    """
    return (width - (knuckles - 1) * gap) / knuckles


@formula(
    "knuckle_length",
    "mm",
    slips={
        "the gaps forgotten": lambda width, knuckles, gap: width / (knuckles + 1),
        "all knuckles taken alike": (
            lambda width, knuckles, gap: (width - (knuckles - 1) * gap) / knuckles
        ),
        "the other leaf's taken": (
            lambda width, knuckles, gap: (width - (knuckles - 1) * gap) / (knuckles - 1)
        ),
    },
)
def outer_length(width: Any, knuckles: Any, gap: Any) -> Any:
    """Length of a knuckle of the leaf that has one more, both leaves having half of the tube [mm].

    length = (width - (knuckles - 1) x gap) / (knuckles + 1)

    width: of the hinge over all knuckles [mm]; knuckles: how many, odd [1]; gap: between two [mm].
    Source: addition: (knuckles + 1) / 2 of them share half of the tube.

    >>> round(outer_length(31.6, 5.0, 0.05), 3)
    5.233
    """
    return (width - (knuckles - 1) * gap) / (knuckles + 1)


@formula(
    "inner_knuckle_length",
    "mm",
    slips={
        "the gaps forgotten": lambda width, knuckles, gap: width / (knuckles - 1),
        "all knuckles taken alike": (
            lambda width, knuckles, gap: (width - (knuckles - 1) * gap) / knuckles
        ),
        "the other leaf's taken": (
            lambda width, knuckles, gap: (width - (knuckles - 1) * gap) / (knuckles + 1)
        ),
    },
)
def inner_length(width: Any, knuckles: Any, gap: Any) -> Any:
    """Length of a knuckle of the leaf that has one fewer, both leaves having half of the tube [mm].

    length = (width - (knuckles - 1) x gap) / (knuckles - 1)

    width: of the hinge over all knuckles [mm]; knuckles: how many, odd [1]; gap: between two [mm].
    Source: addition: (knuckles - 1) / 2 of them share half of the tube.

    >>> round(inner_length(31.6, 5.0, 0.05), 3)
    7.85
    """
    return (width - (knuckles - 1) * gap) / (knuckles - 1)


@formula(
    "outer_knuckles",
    "",
    "knuckles of the outer leaf",
    slips={"half of them taken": lambda knuckles: knuckles / 2},
)
def outer_count(knuckles: Any) -> Any:
    """How many knuckles the leaf has that holds both ends [1].

    count = (knuckles + 1) / 2

    knuckles: of the hinge, odd [1].
    Source: the leaves take turns and one begins and ends.

    >>> outer_count(7.0)
    4.0
    """
    return (knuckles + 1) / 2


@formula(
    "inner_knuckles",
    "",
    "knuckles of the inner leaf",
    slips={"half of them taken": lambda knuckles: knuckles / 2},
)
def inner_count(knuckles: Any) -> Any:
    """How many knuckles the other leaf has [1].

    count = (knuckles - 1) / 2

    knuckles: of the hinge, odd [1].
    Source: the leaves take turns.

    >>> inner_count(7.0)
    3.0
    """
    return (knuckles - 1) / 2


@formula(
    "knuckle_row",
    "mm",
    "row of knuckles with its gaps",
    slips={
        "the gaps forgotten": lambda a, outer, b, inner, gap: a * outer + b * inner,
        "a gap too many": lambda a, outer, b, inner, gap: a * outer + b * inner + (a + b) * gap,
        "as many of both": lambda a, outer, b, inner, gap: (
            (a + b) / 2 * (outer + inner) + (a + b - 2) * gap
        ),
    },
)
def row(outers: Any, outer: Any, inners: Any, inner: Any, gap: Any) -> Any:
    """Length of all knuckles in a row [mm].

    row = outers x outer + inners x inner + (outers + inners - 1) x gap

    outers, inners: how many of each leaf [1]; outer, inner: their lengths; gap: between two [mm].
    Source: addition.

    >>> round(row(4.0, 5.23, 3.0, 6.98, 0.05), 2)
    42.16
    """
    return outers * outer + inners * inner + (outers + inners - 1) * gap


@formula(
    "tube_of_leaf",
    "mm",
    "tube that a leaf holds",
    slips={"one knuckle taken": lambda count, length: length},
)
def held(count: Any, length: Any) -> Any:
    """Length of tube that is soldered to a leaf [mm].

    held = count x length

    count: its knuckles [1]; length: of each [mm].
    Source: addition.

    >>> round(held(3.0, 6.28), 2)
    18.84
    """
    return count * length


@formula(
    "pin_clearance",
    "mm",
    "clearance of the pin",
    slips={"the clearance on one side taken": lambda bore, pin: (bore - pin) / 2},
)
def pin_clearance(bore: Any, pin: Any) -> Any:
    """Play of the pin in the knuckles, on the diameter [mm]; under 0 it doesn't go in.

    clearance = bore - pin

    bore: of the knuckles; pin: its diameter [mm].
    Source: subtraction.

    >>> round(pin_clearance(1.63, 1.57), 2)
    0.06
    """
    return bore - pin


@formula(
    "pin_aim",
    "mm",
    "pin that would be right",
    slips={"no play left": lambda bore, least, most: bore},
)
def pin_aim(bore: Any, least: Any, most: Any) -> Any:
    """Diameter of the pin that has the middle of the clearances that are right [mm].

    pin = bore - (least + most) / 2

    bore: of the knuckles; least, most: clearances [mm].
    Source: common practice, no source.

    >>> round(pin_aim(1.63, 0.02, 0.1), 2)
    1.57
    """
    return bore - (least + most) / 2


@formula(
    "pin_end",
    "mm",
    "pin left at each end to rivet",
    slips={"the whole diameter taken": lambda pin, share: pin},
)
def pin_end(pin: Any, share: Any) -> Any:
    """How far the pin stands out at each end to be riveted over [mm].

    end = pin x share

    pin: its diameter [mm]; share: in pin diameters [1].
    Source: common practice, no source.

    >>> round(pin_end(1.57, 0.75), 4)
    1.1775
    """
    return pin * share


@formula(
    "pin_length",
    "mm",
    slips={
        "nothing left to rivet": lambda row, end: row,
        "left at one end only": lambda row, end: row + end,
    },
)
def pin_length(row: Any, end: Any) -> Any:
    """Length of the pin before it is riveted [mm].

    length = row + 2 x end

    row: of all knuckles with their gaps; end: left at each end to rivet [mm].
    Source: addition.

    >>> round(pin_length(31.6, 1.18), 2)
    33.96
    """
    return row + 2 * end
