"""What every solid can tell: its name, its volume and surface, its mesh, itself moved."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol, Self

from hollowright.shapes.frames import Frame
from hollowright.shapes.meshes import Mesh
from hollowright.shapes.space import Vector

Known = float | Callable[[], float]
"""A size known better than a mesh tells it: itself, or what works it out when it is asked for."""


def known(size: Known) -> float:
    """The size itself, worked out now where it is still to be."""
    return size() if callable(size) else size


class Body(Protocol):
    """A closed solid in its assembled place [mm].

    volume and surface come from a closed form where there is one, from the mesh otherwise.
    """

    @property
    def id(self) -> str:
        """Its name, one for each body of a piece."""

    @property
    def volume(self) -> float:
        """Volume [mm3]."""

    @property
    def surface(self) -> float:
        """Area of the whole surface [mm2]."""

    def mesh(self, tolerance: float = 0.05) -> Mesh:
        """A closed mesh, no chord further off than `tolerance` [mm] and none turning by over 8°."""

    def reach(self, axis: Vector) -> tuple[float, float]:
        """From where to where it reaches along a unit vector [mm], measured from 0, 0, 0."""

    def moved(self, by: Vector) -> Self:
        """The same body shifted [mm]."""

    def placed(self, frame: Frame) -> Self:
        """The same body as a whole put into a frame: what stood at 0, 0, 0 stands at its origin."""
