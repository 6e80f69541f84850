"""What a reading probably is: the nearest gauges, sheet sizes, standard tubes and sockets."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from hollowright.errors import InputError
from hollowright.handbook.gauges import Gauge, gauges
from hollowright.handbook.metals import Metal
from hollowright.handbook.metals import metal as find_metal
from hollowright.handbook.tubes import Socket, StandardTube, sockets, tubes

NEAR_SHARE = 0.03
"""How far off a sheet may be and still be named, as a share of the size.

Mills roll thin sheet to about 3 to 5 % and gauge numbers are 12 % apart, so 3 % takes in most true
sheet and can't reach the next number.
"""
LEAST_NEAR = 0.01
"""... and never less than this [mm], the last digit of a calliper."""

NEAR_TUBE = 1.0
"""A standard tube further off than this [mm], outside and walls together, isn't 'near'."""

_ROUNDING = 1e-9
"""A difference that is exactly on a limit stays within it [mm]."""

ALL_TABLES = ("bs", "swg", "metric")
SHEET_TABLES = ("bs", "metric")
"""The tables that sheet is described by, unless nothing there is near: then SWG too."""

# --- sheet ------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Match:
    """A standard thickness near a reading: its name, nominal [mm], reading - nominal [mm]."""

    name: str
    nominal: float
    difference: float
    table: str
    source: str

    @property
    def text(self) -> str:
        """For people: '20 ga B&S (0.812)', '0.8 mm'."""
        return self.name if self.table == "metric" else f"{self.name} ({self.nominal:.3f})"


def _positive(value: float, field: str) -> float:
    if not 0 < value < math.inf:
        raise InputError(
            field, f"{value} isn't a size.", "Write millimetres above 0, such as 0.82."
        )
    return value


def _match(gauge: Gauge, mm: float) -> Match:
    return Match(gauge.name, gauge.mm, mm - gauge.mm, gauge.table, gauge.source)


def recognise_thickness(
    mm: float, doubt: float = 0.0, tables: Sequence[str] = ALL_TABLES, limit: int = 6
) -> tuple[Match, ...]:
    """The standard thicknesses nearest to a reading [mm], nearest first, at most `limit`.

    doubt: the reading's own doubt [mm]; sizes within it count as equally near, and then stand in
    the order of the tables. tables: of 'bs', 'swg', 'bwg', 'metric'. Raises InputError for a
    reading that isn't above 0.
    """
    _positive(mm, "thickness")
    found = [_match(gauge, mm) for table in tables for gauge in gauges(table)]
    found.sort(key=lambda match: max(abs(match.difference) - doubt, 0.0))
    return tuple(found[:limit])


def _near(mm: float, doubt: float, tables: Sequence[str]) -> list[Match]:
    """The matches of those tables within the tolerance that NEAR_SHARE explains."""
    matches = recognise_thickness(mm, doubt, tables)
    reach = max(NEAR_SHARE * mm, LEAST_NEAR, doubt) + _ROUNDING
    return [match for match in matches if abs(match.difference) <= reach]


def describe_thickness(mm: float, doubt: float = 0.0, tables: Sequence[str] = SHEET_TABLES) -> str:
    """What a thickness [mm] probably is, in a few words for people.

    Names what lies within 3 % of the reading, or within its doubt [mm] if that is more.

    >>> describe_thickness(0.82)
    '20 ga B&S (0.812), 0.8 mm'
    """
    near = _near(mm, doubt, tables) or _near(mm, doubt, ALL_TABLES)
    if near:
        order = sorted(near, key=lambda match: (match.table == "metric", abs(match.difference)))
        return ", ".join(match.text for match in order)
    nearest = recognise_thickness(mm, doubt, tables, limit=1)[0]
    return f"no standard sheet; nearest {nearest.text}, {_off(nearest.difference)}"


def _off(difference: float) -> str:
    """A difference in words: '0.05 over', '0.19 under', 'exact'."""
    if abs(difference) < 0.005:
        return "exact"
    return f"{abs(difference):.2f} {'over' if difference > 0 else 'under'}"


# --- tube -------------------------------------------------------------------------------------


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
        parts = [f"{name} {_off(off)}" for name, off in offs if off is not None]
        if self.kind == "socket" and self.bore_off == 0:
            parts = ["bore within its limits"]
        label = f"socket of a solder fitting, {self.name}" if self.kind == "socket" else self.name
        return f"{label} ({', '.join(parts)})"


def _distance(outside_off: float | None, wall_off: float | None, bore_off: float | None) -> float:
    """How far off a tube is, all in all [mm]: a wall counts on both sides."""
    if outside_off is None:
        return abs(bore_off or 0.0)
    return math.hypot(outside_off, 2 * (wall_off or 0.0))


def _tube_match(
    tube: StandardTube, outside: float | None, wall: float | None, bore: float | None, doubt: float
) -> TubeMatch:
    outside_off = None if outside is None else outside - tube.outside
    wall_off = None if wall is None else wall - tube.wall
    bore_off = None if bore is None else bore - tube.bore
    allowed = (
        (outside_off, tube.widest_tolerance),
        (wall_off, tube.wall_tolerance),
        (bore_off, tube.widest_tolerance + 2 * tube.wall_tolerance),
    )
    return TubeMatch(
        name=tube.name,
        kind="tube",
        fits=all(off is None or abs(off) <= room + doubt + _ROUNDING for off, room in allowed),
        distance=_distance(outside_off, wall_off, bore_off),
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
        fits=abs(off) <= doubt + _ROUNDING,
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
            _positive(value, field)
    if outside is None and bore is None:
        raise InputError(
            "outside_diameter", "There is no outside and no bore.", "Give one of them."
        )
    outside, wall, bore = _third(outside, wall, bore)
    found = [_tube_match(tube, outside, wall, bore, doubt) for tube in tubes()]
    found.sort(key=_likeliest)
    del found[limit:]
    if caution := _metal_caution(metal):
        found = [replace(match, caution=caution, fits=False) for match in found]
    if bore is not None:
        cups = (_socket_match(socket, bore, doubt) for socket in sockets())
        found += [cup for cup in cups if cup.fits]
    return tuple(sorted(found, key=_likeliest))


def _likeliest(match: TubeMatch) -> tuple[bool, float]:
    """Sorts what fits before what doesn't, then the nearest first."""
    return not match.fits, match.distance


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
        whole, rest = divmod(Fraction(sixteenths, 16), 1)
        text = "-".join(str(part) for part in (whole, rest) if part)
        sizes.append(f"{text} in ({sixteenths * 25.4 / 16:.2f})")
    if round(mm) and abs(round(mm) - mm) <= reach:
        sizes.append(f"{round(mm)} mm")
    return " or ".join(sizes)


def _own_sizes(outside: float | None, wall: float | None, doubt: float) -> list[str]:
    """Round outside and gauge of the wall, as brass and silver tube is sold."""
    lines = []
    if outside is not None and (size := _round_size(outside, doubt)):
        lines.append(f"outside {size}")
    if wall is not None and (near := _near(wall, 0.0, ("bwg", "bs", "metric"))):
        lines.append("wall " + ", ".join(match.text for match in near[:3]))
    return lines


def describe_tube(
    outside: float | None = None,
    wall: float | None = None,
    bore: float | None = None,
    doubt: float = 0.05,
    metal: Metal | str | None = None,
) -> str:
    """What a tube probably is, in one line for people. Readings and doubt [mm].

    Says which standard tube or fitting socket it fits; or the nearest and how far off it is; or
    that none is near. A metal other than copper is told that those tables aren't its own.
    """
    matches = recognise_tube(outside, wall, bore, doubt, metal)
    fits = [match for match in matches if match.fits]
    alike = fits[0].distance + 2 * doubt if fits else 0.0
    fitting = [match.text for match in fits if match.distance <= alike][:3]
    caution = next((match.caution for match in matches if match.caution), "")
    nearest = next(match for match in matches if match.kind == "tube")
    lines = list(fitting)
    if not fitting:
        near = nearest.distance <= NEAR_TUBE
        lines.append(f"{'' if near else 'no standard tube is near; '}nearest: {nearest.text}")
    if caution:
        lines.append(caution)
        lines += _own_sizes(outside, wall, doubt)
    return "; ".join(lines)
