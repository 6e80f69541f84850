"""What a vessel holds, up to a level."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula


@formula(
    "capacity",
    "ml",
    slips={
        "the metal forgotten": lambda outside, metal: outside / 1000,
        "the metal added": lambda outside, metal: (outside + metal) / 1000,
    },
)
def capacity(outside: Any, metal: Any) -> Any:
    """What a vessel holds up to a level [ml].

    capacity = (outside - metal) / 1000

    outside: volume within the outside, up to the level [mm3]; metal: of the wall and the base that
    lies in it, below the level [mm3].
    Source: Pappus's theorem; 1 ml = 1000 mm3.

    >>> round(capacity(91204.0, 5610.0), 2)
    85.59
    """
    return (outside - metal) / 1000


@formula("fill_level", "mm", "level it is filled to",
         slips={"filled to the brim": lambda height, room: height})  # fmt: skip
def fill_level(height: Any, room: Any) -> Any:
    """Level that a vessel is filled to [mm], from the table.

    fill level = height - room

    height: outside [mm]; room: left free below the brim [mm].
    Source: common practice, no source.

    >>> fill_level(61.5, 5.0)
    56.5
    """
    return height - room
