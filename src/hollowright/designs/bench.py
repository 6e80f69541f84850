"""The bench that a brief is read at: its instruments, its fit windows, its allowances."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from hollowright.errors import UnknownName
from hollowright.piece import Window
from hollowright.quantity import Quantity
from hollowright.quantity.readings import Instrument


@dataclass(frozen=True)
class Bench:
    """What a design may know of the shop: it's handed in, never looked up.

    instrument: for every reading of a piece; windows: diametral clearance by feel [mm];
    settings: allowances by id.
    """

    instrument: Instrument
    windows: Mapping[str, Window]
    settings: Mapping[str, Quantity]

    def setting(self, id: str) -> Quantity:
        """An allowance of this shop as a quantity; UnknownName when there is none."""
        if id not in self.settings:
            raise UnknownName("shop", id, tuple(self.settings))
        return self.settings[id]

    def window_for(self, clearance: float) -> tuple[str, Window]:
        """What a clearance that was asked for feels like, and the window round it [mm].

        As wide as that feel's own window, but with the clearance in its middle.
        """
        half = self.setting("window_half").value
        for feel, (low, high) in self.windows.items():
            if low <= clearance <= high:
                half = max(half, (high - low) / 2)
                return feel, (clearance - half, clearance + half)
        feel = "pressed" if clearance < 0 else "free"
        return feel, (clearance - half, clearance + half)
