"""From net to cut: dressing, truing, trimming, kerfs."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula


@formula(
    "cut_length",
    "mm",
    slips={
        "dressing and guard both forgotten": lambda net, dressing, guard: net,
        "the guard forgotten": lambda net, dressing, guard: net + dressing,
        "the seam's dressing forgotten": lambda net, dressing, guard: net + guard,
        "the allowances taken off": lambda net, dressing, guard: net - dressing - guard,
    },
)
def strip_cut(net: Any, dressing: Any, guard: Any) -> Any:
    """Length to cut of a strip that closes on itself [mm].

    cut length = net + dressing + guard

    net: length on the neutral line [mm]; dressing: filed off the two ends to make the seam meet
    [mm]; guard: left on because too long is mended and too short is not [mm].
    Source: common practice, no source.

    >>> round(strip_cut(111.06, 0.3, 0.21), 2)
    111.57
    """
    return net + dressing + guard


@formula("cut_width", "mm", slips={"the edges' dressing forgotten": lambda net, dressing: net})
def edge_cut(net: Any, dressing: Any) -> Any:
    """Width to cut of a strip [mm], its edges being filed straight afterwards.

    cut width = net + dressing

    net: finished width [mm]; dressing: left on for both edges together [mm].
    Source: common practice, no source.

    >>> round(edge_cut(16.29, 0.3), 2)
    16.59
    """
    return net + dressing


@formula(
    "cut_length",
    "mm",
    slips={"the truing forgotten": lambda net, ends, truing: net},
)
def trued_cut(net: Any, ends: Any, truing: Any) -> Any:
    """Length to saw of a piece of tube [mm], its sawn ends being trued afterwards.

    cut length = net + ends x truing

    net: finished length [mm]; ends: how many ends are sawn [1]; truing: filed off each [mm].
    Source: common practice, no source.

    >>> round(trued_cut(14.29, 1, 0.4), 2)
    14.69
    """
    return net + ends * truing


@formula(
    "cut_diameter",
    "mm",
    slips={
        "the rim to trim forgotten": lambda net, rim: net,
        "the rim to trim counted once": lambda net, rim: net + rim,
    },
)
def trimmed_cut(net: Any, rim: Any) -> Any:
    """Diameter to cut of a cap [mm] that is trimmed after soldering.

    cut diameter = net + 2 x rim

    net: diameter when trimmed [mm]; rim: left standing all round [mm].
    Source: common practice, no source.

    >>> round(trimmed_cut(38.05, 1.0), 2)
    40.05
    """
    return net + 2 * rim


@formula(
    "tube_needed",
    "mm",
    slips={"the kerf forgotten": lambda pieces, cuts, kerf: pieces},
)
def bar_needed(pieces: Any, cuts: Any, kerf: Any) -> Any:
    """Length of bar that pieces need [mm], with the saw's cuts.

    bar needed = pieces + cuts x kerf

    pieces: all lengths to saw, added up [mm]; cuts: how many times the saw goes through [1];
    kerf: what it turns to dust each time [mm].
    Source: plane geometry.

    >>> round(bar_needed(44.39, 1, 0.3), 2)
    44.69
    """
    return pieces + cuts * kerf


@formula(
    "cut_width",
    "mm",
    slips={
        "the saw's kerf forgotten": lambda net, dressing, cuts, kerf, truing: (
            net + dressing + 2 * cuts * truing
        ),
        "the sawn edges' truing forgotten": lambda net, dressing, cuts, kerf, truing: (
            net + dressing + cuts * kerf
        ),
        "one edge trued for each cut": lambda net, dressing, cuts, kerf, truing: (
            net + dressing + cuts * (kerf + truing)
        ),
    },
)
def parted_cut(net: Any, dressing: Any, cuts: Any, kerf: Any, truing: Any) -> Any:
    """Width to cut of a strip that is sawn apart lengthwise once it is bent [mm].

    cut width = net + dressing + cuts x (kerf + 2 x truing)

    net: of all that comes of it; dressing: for its own edges [mm]; cuts: how many times it is sawn
    [1]; kerf: of the saw; truing: of each sawn edge [mm].
    Source: common practice, no source.

    >>> round(parted_cut(44.3, 0.31, 1.0, 0.33, 0.25), 2)
    45.44
    """
    return net + dressing + cuts * (kerf + 2 * truing)


@formula("margin", "mm", "margin")
def margin(allowance: Any, share: Any) -> Any:
    """What is left standing on one edge of a flat [mm].

    margin = allowance x share

    allowance: the shop's [mm]; share: the part of it that one edge gets [1].
    Source: common practice, no source.

    >>> margin(0.3, 0.5)
    0.15
    """
    return allowance * share


@formula(
    "cut_size",
    "mm",
    slips={
        "the margin forgotten": lambda net, edges, margin: net,
        "the margin counted once": lambda net, edges, margin: net + edges / 2 * margin,
        "the margin taken off": lambda net, edges, margin: net - edges * margin,
    },
)
def grown_cut(net: Any, edges: Any, margin: Any) -> Any:
    """A size of a flat that is cut larger all round and filed to its line [mm].

    cut size = net + edges x margin

    net: finished size [mm]; edges: how many margins lie along it (2 across, 1 for a radius)
    [1]; margin: left on each edge [mm].
    Source: common practice, no source.

    >>> round(grown_cut(76.01, 1, 0.15), 2)
    76.16
    """
    return net + edges * margin


@formula(
    "cut_size",
    "mm",
    slips={
        "the margin forgotten": lambda net, edges, margin: net,
        "the margin added": lambda net, edges, margin: net + edges * margin,
    },
)
def shrunk_cut(net: Any, edges: Any, margin: Any) -> Any:
    """A size that gets smaller where a flat is cut larger all round [mm]: an inner arc, a hole.

    cut size = net - edges x margin

    net: finished size [mm]; edges: how many margins lie along it [1]; margin: left on each [mm].
    Source: common practice, no source.

    >>> round(shrunk_cut(44.97, 1, 0.15), 2)
    44.82
    """
    return net - edges * margin
