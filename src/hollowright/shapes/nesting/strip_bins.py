"""Rectangular bins filled by the strip engine: fewer or cheaper bins, and one straight offcut each.

Flats are laid beside each other only; what may lie in another's hole is left to other engines.
"""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace

from hollowright.shapes.nesting.judge import faults
from hollowright.shapes.nesting.problem import Bin, Item, Packing, Problem, Spot
from hollowright.shapes.nesting.rating import rating
from hollowright.shapes.nesting.rows import is_rectangle
from hollowright.shapes.nesting.strip import Strip, pack_strip

Counts = Mapping[str, int]

LEAST = 1.0
"""No strip is packed in less time [s]."""

FULLEST = 0.97
"""No more of a bin than this share is ever filled by flats, whatever their shapes."""

SHARES = (0.9, 0.82, 0.86, 0.78, 0.94, 0.74)
"""How full a bin is tried to be filled, one after another until one after a success fails."""


def fill_bins(
    problem: Problem,
    start: Packing,
    seconds: float,
    report: Callable[[Packing], None] = lambda _: None,
    stop: Callable[[], bool] = lambda: False,
) -> Packing:
    """A better answer than `start` by rating, or `start`, within about so many seconds.

    Only for problems whose bins are all rectangles without holes and without pins; else it is
    `start`. report: told each better answer, judged sound; stop: asked now and then whether to end.
    """
    plain = all(is_rectangle(bin.outline) for bin in problem.bins)
    if problem.pins or not plain or seconds < LEAST or not any(i.count for i in problem.items):
        return start
    run = _Run(problem, start, time.monotonic() + seconds, report, stop)
    wanted = {item.id: item.count for item in problem.items if item.count}
    run.alone(wanted, seconds / 3)
    if len(run.best.bins) > 1 or run.best.left_over(problem):
        run.refilled(wanted, seconds / 3)
    run.tightened()
    return run.best


@dataclass(frozen=True)
class Frame:
    """A bin as a strip that runs along its x, or along its y (`upright`)."""

    bin: Bin
    edge: float
    upright: bool

    @property
    def length(self) -> float:
        """How long the strip may be [mm]."""
        outline = self.bin.outline
        return (outline.height if self.upright else outline.width) - 2 * self.edge

    @property
    def height(self) -> float:
        """How high it is [mm]."""
        outline = self.bin.outline
        return (outline.width if self.upright else outline.height) - 2 * self.edge

    def item(self, item: Item, count: int) -> Item:
        """So many of an item as it is laid in the strip."""
        turns = item.turns
        if self.upright and turns is not None:
            turns = tuple((turn - 90.0) % 360.0 for turn in turns)
        return replace(item, count=count, turns=turns)

    def spots(self, strip: Strip, name: str) -> tuple[Spot, ...]:
        """A strip's spots as they lie in the bin."""
        low_x, low_y, _, _ = self.bin.outline.bounds
        x, y = low_x + self.edge, low_y + self.edge
        if not self.upright:
            return tuple(
                replace(spot, bin=name, x=spot.x + x, y=spot.y + y) for spot in strip.spots
            )
        return tuple(
            replace(
                spot,
                bin=name,
                x=x + self.height - spot.y,
                y=y + spot.x,
                turn=(spot.turn + 90.0) % 360.0,
            )
            for spot in strip.spots
        )


class _Run:
    """One search: the best answer so far, and the time that is left."""

    def __init__(
        self,
        problem: Problem,
        start: Packing,
        ends: float,
        report: Callable[[Packing], None],
        stop: Callable[[], bool],
    ) -> None:
        self.problem, self.best = problem, start
        self._rating = rating(problem, start)
        self._ends, self._report, self._stop = ends, report, stop
        self._biggest_first = sorted(problem.items, key=lambda item: -item.outline.area)

    @property
    def left(self) -> float:
        """Time that is left [s]; none once it was told to stop."""
        return 0.0 if self._stop() else self._ends - time.monotonic()

    def take(self, packing: Packing) -> None:
        """Keep an answer, and tell of it, if it is better and sound."""
        found = rating(self.problem, packing)
        if found < self._rating and not faults(self.problem, packing):
            self.best, self._rating = packing, found
            self._report(packing)

    # ---- all in one bin

    def alone(self, wanted: Counts, seconds: float) -> None:
        """Everything in the cheapest bin that holds it, where that costs less than now."""
        ends = time.monotonic() + seconds
        cost = sum(self.problem.bin(name).cost for name in self.best.bins)
        worse = bool(self.best.left_over(self.problem))
        for bin in sorted(self.problem.bins, key=lambda bin: (bin.cost, bin.outline.area)):
            dearer = (bin.cost, 1) >= (cost, len(self.best.bins))
            if time.monotonic() >= ends or (dearer and not worse):
                return
            spots = self.held(bin, bin.id, wanted, seconds / 4)
            if spots:
                self.take(Packing(spots))
                return

    def held(self, bin: Bin, name: str, wanted: Counts, seconds: float) -> tuple[Spot, ...]:
        """Spots of all that is wanted in one bin; none where they aren't found in time."""
        for frame in self.frames(bin):
            strip = self.strip(frame, wanted, seconds / 2, frame.length)
            if strip and strip.length <= frame.length:
                return frame.spots(strip, name)
        return ()

    def frames(self, bin: Bin) -> Iterator[Frame]:
        """A bin as a strip along its longer side, then along the other."""
        upright = bin.outline.height > bin.outline.width
        yield Frame(bin, self.problem.edge, upright)
        yield Frame(bin, self.problem.edge, not upright)

    def strip(
        self,
        frame: Frame,
        wanted: Counts,
        seconds: float,
        longest: float | None = None,
        over: bool = False,
        report: Callable[[Strip], None] = lambda _: None,
    ) -> Strip | None:
        """The shortest strip found; None where a flat doesn't fit it, or they are too many."""
        items = [frame.item(self.problem.item(id), count) for id, count in wanted.items() if count]
        area = sum(item.outline.area * item.count for item in items)
        left = self.left
        if frame.length <= 0 or frame.height <= 0 or left < LEAST:
            return None
        if area > FULLEST * frame.length * frame.height:
            return None
        gap = self.problem.between
        try:
            return pack_strip(
                items, frame.height, gap, min(left, max(LEAST, seconds)),
                longest=longest, over=over, report=report, stop=self._stop,
            )  # fmt: skip
        except ValueError:  # too high, or nothing found
            return None

    # ---- one bin after another

    def refilled(self, wanted: Counts, seconds: float) -> None:
        """Bins filled one after another: those of the best answer first, the cheapest first."""
        ends = time.monotonic() + seconds
        used = Counter(name.partition("#")[0] for name in self.best.bins)
        bins = sorted(self.problem.bins, key=lambda bin: (not used[bin.id], bin.cost))
        left, spots = dict(wanted), list[Spot]()
        names = [(bin, name) for bin in bins for name in _names(bin, used[bin.id] or 1)]
        share = seconds / max(1, len(self.best.bins))
        for bin, name in names:
            if not any(left.values()) or time.monotonic() >= ends:
                break
            laid = self.filled(bin, name, left, share)
            spots += laid
            for spot in laid:
                left[spot.item] -= 1
        self.take(Packing(tuple(spots)))

    def filled(self, bin: Bin, name: str, left: Counts, seconds: float) -> tuple[Spot, ...]:
        """As much of what is left as is found to fit in one bin, by area; the biggest first."""
        ends = time.monotonic() + seconds
        best: tuple[float, tuple[Spot, ...]] = (0.0, ())
        tried, failed = set[tuple[tuple[str, int], ...]](), 1.0
        for share in SHARES:
            frame = next(self.frames(bin))
            room = frame.length * frame.height
            chosen = self.chosen(left, share * room)
            known = share >= failed or share * room <= best[0] or _key(chosen) in tried
            if known or not chosen or time.monotonic() >= ends:
                continue
            tried.add(_key(chosen))
            spots = self.held(bin, name, chosen, max(2.0, seconds / 4))
            if not spots:
                failed = min(failed, share)
                continue
            best = (self.area(chosen), spots)
            if not any(left[id] - chosen.get(id, 0) for id in left):
                break
        return best[1]

    def chosen(self, left: Counts, area: float) -> Counts:
        """The biggest flats first, as many as an area [mm2] takes."""
        chosen = Counter[str]()
        for item in self._biggest_first:
            one = item.outline.area
            chosen[item.id] = min(left.get(item.id, 0), int(area / one))
            area -= chosen[item.id] * one
        return {id: count for id, count in chosen.items() if count}

    def area(self, counts: Counts) -> float:
        """Area of so many flats [mm2]."""
        return sum(self.problem.item(id).outline.area * count for id, count in counts.items())

    # ---- each to its end

    def tightened(self) -> None:
        """Every bin's flats moved to one end of it, the bin with most room first."""
        names = sorted(self.best.bins, key=self.fullness)
        for number, name in enumerate(names):
            ways = list(self.ways(self.problem.bin(name)))
            ends = time.monotonic() + self.left / (len(names) - number)
            for count, (frame, over) in enumerate(ways):
                wanted = Counter(spot.item for spot in self.best.within(name))
                seconds = (ends - time.monotonic()) / (len(ways) - count)
                others = tuple(spot for spot in self.best.spots if spot.bin != name)
                tell = self._taker(others, frame, name)
                self.strip(frame, wanted, seconds, over=over, report=tell)

    def _taker(self, others: tuple[Spot, ...], frame: Frame, name: str) -> Callable[[Strip], None]:
        """Takes a bin's strip, beside what lies in the other bins, where the bin holds it."""

        def take(strip: Strip) -> None:
            if strip.length <= frame.length:
                self.take(Packing((*others, *frame.spots(strip, name))))

        return take

    def fullness(self, name: str) -> float:
        """How much of a bin is flats, by area."""
        wanted = Counter(spot.item for spot in self.best.within(name))
        return self.area(wanted) / self.problem.bin(name).outline.area

    def ways(self, bin: Bin) -> Iterator[tuple[Frame, bool]]:
        """Along both sides, and half turned over where some may be."""
        faces = (False, True) if any(item.mirrored for item in self.problem.items) else (False,)
        for frame in self.frames(bin):
            for over in faces:
                yield frame, over


def _names(bin: Bin, used: int) -> Iterator[str]:
    """A bin's names: as many as are used, and one more, as far as there are."""
    most = used + 1 if bin.supply is None else min(bin.supply, used + 1)
    for number in range(1, most + 1):
        yield bin.id if number == 1 else f"{bin.id}#{number}"


def _key(counts: Counts) -> tuple[tuple[str, int], ...]:
    return tuple(sorted(counts.items()))
