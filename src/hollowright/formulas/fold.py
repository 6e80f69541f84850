"""Corners scored and folded: the groove's angle and depth, and the length that a fold takes."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import pi, tan


@formula(
    "groove_angle",
    "deg",
    slips={
        "the angle between the sides taken": lambda corner: corner,
        "half of it taken": lambda corner: (180 - corner) / 2,
    },
)
def groove(corner: Any) -> Any:
    """Angle of the groove for a fold [deg]: what the metal turns by.

    groove = 180 - corner

    corner: angle inside, between the two sides [deg].
    Source: plane geometry; the groove's faces meet when the fold is closed.

    >>> groove(120.0)
    60.0
    """
    return 180 - corner


@formula("corner_angle", "deg", "angle of a corner")
def corner(sides: Any) -> Any:
    """Angle inside the corner of a regular polygon [deg].

    corner = 180 - 360 / sides

    sides: how many [1].
    Source: plane geometry.

    >>> corner(6.0)
    120.0
    """
    return 180 - 360 / sides


@formula(
    "groove_depth",
    "mm",
    slips={"half the thickness taken": lambda thickness, web: thickness / 2},
)
def depth(thickness: Any, web: Any) -> Any:
    """Depth of the groove [mm].

    depth = thickness - web

    thickness: of the sheet; web: what is left under the groove [mm].
    Source: plane geometry.

    >>> round(depth(1.02, 0.2), 2)
    0.82
    """
    return thickness - web


@formula(
    "fold_length",
    "mm",
    "length that each fold takes",
    slips={"the web's middle taken": lambda turn, web, factor: turn * pi / 180 * web / 2},
)
def taken(turn: Any, web: Any, factor: Any) -> Any:
    """Length of strip that the web of one fold takes [mm].

    length = turn x pi / 180 x web x factor

    turn: the fold's angle [deg]; web: what the groove leaves [mm]; factor: neutral line of the web
    from the groove's bottom in parts of the web [1].
    Source: arc of the neutral line; common practice for the factor, no source.

    >>> round(taken(90.0, 0.2, 0.4), 3)
    0.126
    """
    return turn * pi / 180 * web * factor


@formula(
    "fold_loss",
    "mm",
    "what the folds take off",
    slips={
        "the fold's own length forgotten": lambda folds, turn, thickness, depth, taken: (
            2 * folds * (thickness - depth) * tan(turn * pi / 360)
        ),
        "the fold's own length taken off too": lambda folds, turn, thickness, depth, taken: (
            folds * (2 * (thickness - depth) * tan(turn * pi / 360) + taken)
        ),
        "the web taken off once a corner": lambda folds, turn, thickness, depth, taken: (
            folds * ((thickness - depth) * tan(turn * pi / 360) - taken)
        ),
        "the sheet's middle taken, as if it were bent": (
            lambda folds, turn, thickness, depth, taken: folds * thickness * tan(turn * pi / 360)
        ),
        "the whole thickness taken off on both sides": (
            lambda folds, turn, thickness, depth, taken: (
                2 * folds * thickness * tan(turn * pi / 360)
            )
        ),
    },
)
def loss(folds: Any, turn: Any, thickness: Any, depth: Any, taken: Any) -> Any:
    """What scored folds that are all alike take off the outer length [mm].

    loss = folds x (2 x (thickness - depth) x tan(turn x pi / 360) - taken)

    folds: how many [1]; turn: of each [deg]; thickness: of the sheet; depth: of the groove; taken:
    length that each fold takes [mm].
    Source: plane geometry: the sides reach to the web, the web bends on its neutral line.

    >>> round(loss(4.0, 90.0, 1.0, 0.8, 0.1257), 3)
    1.097
    """
    return folds * (2 * (thickness - depth) * tan(turn * pi / 360) - taken)


@formula("fold_loss", "mm", "what the folds take off")
def loss_of_all(tans: Any, hollow: Any, turns: Any, thickness: Any, web: Any, factor: Any) -> Any:
    """What scored folds of any angles take off the outer length [mm].

    loss = 2 x web x tans - 2 x (thickness - web) x hollow - turns x web x factor

    tans: sum of tan(half the turn) over the folds outwards; hollow: the same over folds inwards;
    turns: sum of all turns [rad]; thickness: of the sheet [mm]; web: left under each groove [mm];
    factor: neutral line of the web [1].
    Source: plane geometry, as for folds that are all alike.

    >>> round(loss_of_all(4.2, 0.3, 6.9, 1.0, 0.2, 0.4), 4)
    0.648
    """
    return 2 * web * tans - 2 * (thickness - web) * hollow - turns * web * factor
