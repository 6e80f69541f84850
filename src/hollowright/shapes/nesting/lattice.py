"""Flats whose corners all lie on one square lattice: its step, their forms, how forms overlap.

What is sawn and folded to whole millimetres lies so. Then it is enough to look at the lattice's
places, they are few, and whether two flats overlap can be known beforehand for each of them: strips
come out shorter than by sliding flats freely. Measured: see `tools/bench_nesting.py`.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from hollowright.shapes.curves import Line, Point
from hollowright.shapes.nesting.strip_shapes import Shape
from hollowright.shapes.outline import Outline
from hollowright.shapes.placing import cosine_and_sine
from hollowright.shapes.polygons import grown_corners

NEAR = 1e-7
"""How far a corner may lie off the lattice, of the greatest size."""

PLACES = 40_000
"""A strip of more places than this isn't taken."""

NUMBERS = 50_000_000
"""Nor one for which more overlaps than this must be kept."""

Corners = tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class Form:
    """A kind of flat in one of its turns [deg]: corners on the lattice, the least of them at 0.

    low: where that lies when the flat is turned about 0, 0, left and below [mm].
    """

    kind: int
    turn: float
    corners: Corners
    low: Point

    @property
    def size(self) -> tuple[int, int]:
        """Columns and rows that it takes."""
        return (max(x for x, _ in self.corners), max(y for _, y in self.corners))


@dataclass(frozen=True)
class Lattice:
    """Flats on a lattice: its step [mm], the strip's rows, every form, how many of each kind."""

    step: float
    height: int
    forms: tuple[Form, ...]
    counts: tuple[int, ...]

    @property
    def least(self) -> int:
        """No strip on the lattice can take fewer columns."""
        forms = [
            [form for form in self.forms if form.kind == kind] for kind in range(len(self.counts))
        ]
        squares = sum(
            count * _area(each[0].corners) for each, count in zip(forms, self.counts, strict=True)
        )
        widest = max(min(form.size[0] for form in each) for each in forms)
        return max(widest, math.ceil(squares / self.height))

    def task(self) -> dict[str, object]:
        """What the lattice's process is asked, but for seconds and seed, as JSON takes it."""
        return {
            "step": self.step,
            "rows": self.height,
            "least": self.least,
            "counts": self.counts,
            "forms": [
                {"kind": f.kind, "turn": f.turn, "corners": f.corners, "low": f.low}
                for f in self.forms
            ],
        }


def lattice(kinds: Sequence[Shape], height: float, between: float) -> Lattice | None:
    """The lattice on which all kinds lie in all their turns; None: on none, or on too fine a one.

    between: the gap of two flats [mm]: half of it is laid round each, so that must be on it too.
    """
    turned = list(_turned(kinds, between / 2))
    if not turned:
        return None
    near = NEAR * max(height, *(max(map(max, corners)) for _, _, corners, _ in turned))
    step = _step((x for _, _, corners, _ in turned for corner in corners for x in corner), near)
    if step is None or step < 100 * near:
        return None
    rows = math.floor((height + between + near) / step)
    forms: dict[tuple[int, Corners], Form] = {}
    for kind, turn, corners, low in turned:
        whole = tuple((round(x / step), round(y / step)) for x, y in corners)
        form = Form(kind, turn, whole, low)
        if form.size[1] <= rows:
            forms.setdefault((kind, tuple(sorted(whole))), form)
    if {form.kind for form in forms.values()} != set(range(len(kinds))):
        return None
    found = Lattice(step, rows, tuple(forms.values()), tuple(kind.count for kind in kinds))
    return found if _small(found) else None


def _turned(kinds: Sequence[Shape], by: float) -> Iterable[tuple[int, float, list[Point], Point]]:
    """Every kind in every turn: number, turn, corners from its lower left, and where that lies.

    Nothing where one of them may lie any way, or is round.
    """
    if any(kind.turns is None or not _straight(kind.outline) for kind in kinds):
        return
    for number, kind in enumerate(kinds):
        corners = grown_corners(kind.outline, by)
        for turn in kind.turns or ():
            c, s = cosine_and_sine(turn)
            round_0 = [(x * c - y * s, x * s + y * c) for x, y in corners]
            left, low = min(x for x, _ in round_0), min(y for _, y in round_0)
            yield number, turn, [(x - left, y - low) for x, y in round_0], (left, low)


def _straight(outline: Outline) -> bool:
    return all(isinstance(segment, Line) for segment in outline.segments)


def _step(sizes: Iterable[float], near: float) -> float | None:
    """The greatest length of which every size is a multiple, within what is near [mm]."""
    step = 0.0
    for size in sorted({round(size, 9) for size in sizes if size > near}):
        rest = size
        while rest > near:  # Euclid's way, with tolerance
            step, rest = rest, (math.remainder(step, rest) if step else 0.0)
            rest = abs(rest)
    return step or None


def _small(found: Lattice) -> bool:
    """Whether the search can hold it."""
    wide, high = (max(form.size[i] for form in found.forms) for i in (0, 1))
    places = 2 * (found.least + wide) * found.height
    forms, pieces = len(found.forms), sum(found.counts)
    kept = places * forms * pieces + 4 * wide * high * forms**2
    return places <= PLACES and kept <= NUMBERS


def _area(corners: Corners) -> float:
    """Squares of the lattice that a form covers."""
    following = (*corners[1:], corners[0])
    twice = sum(a * d - b * c for (a, b), (c, d) in zip(corners, following, strict=True))
    return abs(twice) / 2
