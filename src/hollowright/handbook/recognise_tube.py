"""What a tube probably is: the nearest standard tubes, fitting sockets and trade sizes."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from hollowright.errors import InputError
from hollowright.handbook.metals import Metal
from hollowright.handbook.metals import metal as find_metal
from hollowright.handbook.recognise_sheet import (
    ROUNDING,
    near_thicknesses,
    off_text,
    positive,
)
from hollowright.handbook.tubes import Socket, StandardTube, sockets, tubes

NEAR_TUBE = 1.0
"""A standard tube further off than this [mm], outside and walls together, isn't 'near'."""


@dataclass(frozen=True)
class TubeMatch:
    """A standard tube or a fitting's socket near a reading. Offs are reading - standard [mm].

    kind: 'tube' or 'socket'. fits: every reading given lies within the standard's tolerance and
    the doubt. distance: outside and both walls together, or the bore alone [mm]. caution: what
    speaks against it.
    """

    name: str
    kind: str
    fits: bool
    distance: float
    outside_off: float | None
    wall_off: float | None
    bore_off: float | None
    source: str
    caution: str = ""

    @property
    def text(self) -> str:
        """For people: 'EN 1057 42 x 1.2 mm (outside 3.95 under, wall 0.19 under)'."""
        offs = [("outside", self.outside_off), ("wall", self.wall_off)]
        if self.kind == "socket" or self.wall_off is None:
            offs.append(("bore", self.bore_off))
        parts = [f"{name} {off_text(off)}" for name, off in offs if off is not None]
        if self.kind == "socket" and self.bore_off == 0:
            parts = ["bore within its limits"]
        label = f"socket of a solder fitting, {self.name}" if self.kind == "socket" else self.name
        return f"{label} ({', '.join(parts)})"


@dataclass(frozen=True)
class _Readings:
    """What was read of a tube, and the doubt of each [mm]."""

    outside: float | None
    wall: float | None
    bore: float | None
    doubt: float

    def offs(self, tube: StandardTube) -> tuple[float | None, float | None, float | None]:
        """Reading - standard of outside, wall and bore [mm]."""
        return (
            None if self.outside is None else self.outside - tube.outside,
            None if self.wall is None else self.wall - tube.wall,
            None if self.bore is None else self.bore - tube.bore,
        )

    def fit(self, tube: StandardTube) -> bool:
        """Whether every reading lies within the tube's tolerance and the doubt."""
        widest, wall = tube.widest_tolerance, tube.wall_tolerance
        rooms = (widest, wall, widest + 2 * wall)
        return all(
            off is None or abs(off) <= room + self.doubt + ROUNDING
            for off, room in zip(self.offs(tube), rooms, strict=True)
        )

    def distance(self, tube: StandardTube) -> float:
        """How far off the tube is, all in all [mm]: a wall counts on both sides."""
        outside, wall, bore = self.offs(tube)
        if outside is None:
            return abs(bore or 0.0)
        return math.hypot(outside, 2 * (wall or 0.0))

    def likeliest(self, tube: StandardTube) -> tuple[bool, float]:
        """Sorts what fits before what doesn't, then the nearest first."""
        return not self.fit(tube), self.distance(tube)


def _tube_match(tube: StandardTube, readings: _Readings) -> TubeMatch:
    outside_off, wall_off, bore_off = readings.offs(tube)
    return TubeMatch(
        name=tube.name,
        kind="tube",
        fits=readings.fit(tube),
        distance=readings.distance(tube),
        outside_off=outside_off,
        wall_off=wall_off,
        bore_off=bore_off,
        source=tube.source,
    )


def _socket_match(socket: Socket, bore: float, doubt: float) -> TubeMatch:
    off = min(bore - socket.low, 0.0) + max(bore - socket.high, 0.0)
    return TubeMatch(
        name=socket.name,
        kind="socket",
        fits=abs(off) <= doubt + ROUNDING,
        distance=abs(off),
        outside_off=None,
        wall_off=None,
        bore_off=off,
        source=socket.source,
    )


def _metal_caution(metal: Metal | str | None) -> str:
    """Why a water-tube table doesn't speak for that metal, or ''."""
    if metal is None:
        return ""
    found = find_metal(metal) if isinstance(metal, str) else metal
    if found.id in ("C11000", "C12200"):
        return ""
    return f"water-tube standards are for copper; {found.name} follows its maker's own sizes"


def recognise_tube(
    outside: float | None = None,
    wall: float | None = None,
    bore: float | None = None,
    doubt: float = 0.05,
    metal: Metal | str | None = None,
    limit: int = 3,
) -> tuple[TubeMatch, ...]:
    """The standard tubes nearest to the readings [mm], and the fitting sockets that the bore fits.

    Those that fit come first, then by distance; at most `limit` tubes. Two of the three readings
    give the third; at least an outside or a bore is wanted. doubt: of each reading [mm].
    metal: a metal other than copper fits no water-tube table, and each match then says so.
    Raises InputError without an outside or a bore, or for one that isn't above 0.
    """
    for field, value in (("outside_diameter", outside), ("wall", wall), ("bore", bore)):
        if value is not None:
            positive(value, field)
    if outside is None and bore is None:
        raise InputError(
            "outside_diameter", "There is no outside and no bore.", "Give one of them."
        )
    outside, wall, bore = _third(outside, wall, bore)
    readings = _Readings(outside, wall, bore, doubt)
    nearest = sorted(tubes(), key=readings.likeliest)[:limit]
    found = [_tube_match(tube, readings) for tube in nearest]
    if caution := _metal_caution(metal):
        found = [replace(match, caution=caution, fits=False) for match in found]
    if bore is not None:
        cups = (_socket_match(socket, bore, doubt) for socket in sockets())
        found += [cup for cup in cups if cup.fits]
    return tuple(sorted(found, key=lambda match: (not match.fits, match.distance)))


def _third(
    outside: float | None, wall: float | None, bore: float | None
) -> tuple[float | None, float | None, float | None]:
    """Outside, wall and bore [mm], the missing one from the other two where they allow it."""
    if outside is not None and wall is not None and bore is None and 2 * wall < outside:
        bore = outside - 2 * wall
    elif outside is not None and bore is not None and wall is None and bore < outside:
        wall = (outside - bore) / 2
    elif bore is not None and wall is not None and outside is None:
        outside = bore + 2 * wall
    return outside, wall, bore


def _round_size(mm: float, doubt: float) -> str:
    """The whole sixteenth of an inch or millimetre that an outside [mm] lies near, or ''."""
    reach = max(0.1, doubt)
    sizes = []
    sixteenths = round(mm / 25.4 * 16)
    if sixteenths and abs(sixteenths * 25.4 / 16 - mm) <= reach:
        whole, rest = divmod(sixteenths, 16)
        common = math.gcd(rest, 16)
        fraction = f"{rest // common}/{16 // common}" if rest else ""
        text = "-".join(part for part in (str(whole) if whole else "", fraction) if part)
        sizes.append(f"{text} in ({sixteenths * 25.4 / 16:.2f})")
    if round(mm) and abs(round(mm) - mm) <= reach:
        sizes.append(f"{round(mm)} mm")
    return " or ".join(sizes)


def _own_sizes(outside: float | None, wall: float | None, doubt: float) -> str:
    """Round outside and gauge of the wall, as brass and silver tube is sold; or ''."""
    parts = []
    if outside is not None and (size := _round_size(outside, doubt)):
        parts.append(f"outside {size}")
    if wall is not None and (near := near_thicknesses(wall, 0.0, ("bwg", "bs", "metric"))):
        parts.append("wall " + " or ".join(match.text for match in near[:3]))
    return ", ".join(parts)


def describe_tube(
    outside: float | None = None,
    wall: float | None = None,
    bore: float | None = None,
    doubt: float = 0.05,
    metal: Metal | str | None = None,
) -> str:
    """What a tube probably is, in one line for people. Readings and doubt [mm].

    Says which standard tube or fitting socket it fits; or the nearest and how far off it is; or
    that none is near. A metal other than copper is told its probable trade size first, and that
    those tables aren't its own.

    >>> describe_tube(15.02, 1.0)
    'EN 1057 15 x 1.0 mm (UK table Y) (outside 0.02 over, wall exact)'
    """
    matches = recognise_tube(outside, wall, bore, doubt, metal)
    fits = [match for match in matches if match.fits]
    alike = fits[0].distance + 2 * doubt if fits else 0.0
    lines = [match.text for match in fits if match.distance <= alike][:3]
    nearest = next(match for match in matches if match.kind == "tube")
    if nearest.caution:
        own = _own_sizes(outside, wall, doubt)
        lines += [own] if own else []
        lines.append(f"{nearest.caution} (nearest: {nearest.text})")
    elif not fits:
        near = nearest.distance <= NEAR_TUBE
        lines.append(f"{'' if near else 'no standard tube is near; '}nearest: {nearest.text}")
    return "; ".join(lines)
