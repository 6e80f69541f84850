"""Elbows of tube: the angle of each cut, the bend of all together, the middle pieces."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import degree, tan


@formula("turn", "deg", "turn of the joint", slips={"the cut's own angle taken": lambda a: a})
def joint_turn(angle: Any) -> Any:
    """Angle by which two tubes turn at a mitre [deg], each cut by half of it.

    turn = 2 x angle

    angle: of each cut from square [deg].
    Source: symmetry of the mitre.

    >>> joint_turn(22.5)
    45.0
    """
    return 2 * angle


@formula(
    "angle",
    "deg",
    "angle of the cut",
    slips={
        "divided among the pieces instead of the joints": lambda b, n: b / 2 / n,
        "not halved for the two sides of a joint": lambda b, n: b / (n - 1),
        "twice the pieces taken, less one": lambda b, n: b / (2 * n - 1),
    },
)
def elbow_angle(bend: Any, pieces: Any) -> Any:
    """Angle of each cut of an elbow from square [deg].

    angle = bend / (2 x (pieces - 1))

    bend: that the whole elbow turns by [deg]; pieces: of tube, the two legs among them [1].
    Source: Longfield, Sheet Metal Drafting (1921), on elbows.

    >>> elbow_angle(90, 5)
    11.25
    """
    return bend / (2 * (pieces - 1))


@formula(
    "bend", "deg", "bend of the elbow", slips={"one turn for each piece": lambda a, n: 2 * a * n}
)
def elbow_bend(angle: Any, pieces: Any) -> Any:
    """Angle that an elbow turns by [deg].

    bend = 2 x angle x (pieces - 1)

    angle: of each cut from square [deg]; pieces: of tube [1].
    Source: Longfield, Sheet Metal Drafting (1921), on elbows.

    >>> elbow_bend(11.25, 5)
    90.0
    """
    return 2 * angle * (pieces - 1)


@formula(
    "middle_length",
    "mm",
    "length of a middle piece",
    slips={
        "one half taken": lambda r, a: r * tan(a * degree),
        "the joint's turn taken for the cut's angle": lambda r, a: 2 * r * tan(2 * a * degree),
        "the arc taken for the tangents": lambda r, a: 2 * r * a * degree,
    },
)
def middle_length(radius: Any, angle: Any) -> Any:
    """Length of an elbow's middle piece along its axis, from cut to cut [mm].

    middle length = 2 x radius x tan(angle x degree)

    radius: of the bend, to the axis, which every piece touches in its middle [mm]; angle: of each
    cut from square [deg].
    Source: tangents to a circle; Longfield, Sheet Metal Drafting (1921), on elbows.

    >>> round(middle_length(45, 11.25), 3)
    17.902
    """
    return 2 * radius * tan(angle * degree)
