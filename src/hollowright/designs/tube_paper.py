"""Papers wrapped round a tube: their lines along it, and the fibre that a cut's line follows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from hollowright.designs.fields import Field
from hollowright.piece import Scribe
from hollowright.shapes.curves import TURN, Line
from hollowright.shapes.developments.band import Band
from hollowright.shapes.developments.fibres import Fibre

CUTS = ("bevelled", "square", "unfiled")
"""How an edge is made: sawn through so that its whole wall lies on the joint; cut square to the
wall on its inner line; or cut square where the wall meets first, so that nothing is filed."""

FIBRES: Mapping[str, Fibre] = {"bevelled": "outer", "square": "inner", "unfiled": "first"}
"""The fibre of the wall that the template follows, by the way of the cut."""


def cut_field(default: str) -> Field:
    """How the end is cut, which decides the line that the template follows."""
    return Field(
        "sizes.cut", "cut", "choice", "edge",
        "bevelled: sawn straight through, the line followed outside; square: cut square to the "
        "wall, the line followed inside, what stands proud filed; unfiled: cut square where the "
        "wall touches first",
        default, default=default, choices=CUTS,
    )  # fmt: skip


ROOMY = 60.0
"""A paper shorter than this [mm] has no room for letters on a line every 30 degrees."""


def lines_along(
    band: Band, texts: Mapping[int, str], fine: Sequence[int] = ()
) -> tuple[Scribe, ...]:
    """Lines along the tube on its paper, by their angle [deg] from the middle, and what they are.

    fine: angles of the plain lines between, on which heights are set off, where there is room.
    """
    named = [_line(band, angle, text) for angle, text in texts.items()]
    between = fine if TURN * band.radius >= ROOMY else ()
    plain = [_line(band, angle, "every 30 degrees") for angle in between if angle not in texts]
    return (*named, *plain)


def _line(band: Band, angle: int, text: str) -> Scribe:
    turn = band.middle + TURN * angle / 360
    low, high = (band.flat(turn, edge(turn)) for edge in (band.low, band.high))
    return Scribe(Line(low, high), text)
