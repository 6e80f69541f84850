"""A cut list as it is shown: alike bars together, each piece with its name and its two marks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from string import ascii_uppercase

from hollowright.plan.bars import CutList, SawnBar, SawnPiece
from hollowright.plan.sawing import SLACK
from hollowright.units import format_number

SAWN = "both ends sawn"
"""What most pieces' ends are."""

ORIGINS = {"drawer": "from the drawer", "in hand": "in hand", "to buy": "to buy"}


@dataclass(frozen=True)
class Row:
    """One piece: its number in the bar, its name, where it lies.

    far: it is sawn from the bar's second end, so the saw goes before its first mark. long: how long
    the bar is [mm].
    """

    number: int
    name: str
    piece: SawnPiece
    far: bool
    long: float

    @property
    def ends(self) -> str:
        """Its ends in words: the bar's own, square or to be trued like sawn ones, or sawn."""
        low, high = self.piece.start < SLACK, self.piece.end > self.long - SLACK
        raw_low = low and not self.piece.low_square
        raw_high = high and not self.piece.high_square
        if not low and not high:
            return SAWN
        if low and high and raw_low == raw_high:
            return "both ends the bar's own" + (", to true" if raw_low else "")
        own = [
            f"{which} end the bar's own{', to true' if raw else ''}"
            for which, there, raw in (("first", low, raw_low), ("second", high, raw_high))
            if there
        ]
        return "; ".join(own)


@dataclass(frozen=True)
class BarView:
    """Bars that are sawn alike: their letter, how many, what they are, the rows of one."""

    letter: str
    count: int
    sawn: SawnBar
    rows: tuple[Row, ...]

    @property
    def name(self) -> str:
        """What it is called: 'A: tube 500 mm, to buy (2 alike)'."""
        alike = f" ({self.count} alike)" if self.count > 1 else ""
        bar = self.sawn.bar
        told = f"number {bar.label}" if bar.origin == "drawer" else bar.label
        size = number_words(bar.length)
        if bar.form == "strip":
            size = f"{size} × {number_words(bar.sizes['width'])}"
        if bar.origin != "to buy":
            told = f"{told}, {size} mm"
        return f"{self.letter}: {told}, {ORIGINS[bar.origin]}{alike}"

    @property
    def ends(self) -> str:
        """What its own ends are, and where that bids to begin."""
        square, start = min(2, self.sawn.bar.square_ends), self.sawn.pieces[0].start
        if square:
            return ("begin at its square end", "square at both ends")[square - 1]
        if start:
            return f"no end square: trim the first back to the mark at {format_number(start)}"
        return "no end square: its own ends are trued like sawn ones"

    @property
    def rest(self) -> str:
        """What is left of it, in words; '' when nothing is."""
        if self.sawn.rest <= 0:
            return ""
        first, last = self.sawn.rest_at, self.sawn.rest_at + self.sawn.rest
        place = f"from {format_number(first)} to {format_number(last)}"
        told = f"{format_number(self.sawn.rest)} left, {place}"
        return f"{told}: keep it" if self.sawn.kept else f"{told}: too short to keep"


def bar_views(cut_list: CutList) -> tuple[BarView, ...]:
    """The bars of a cut list, those sawn alike together, lettered from A on."""
    return tuple(
        BarView(letters(number), count, sawn, tuple(_rows(cut_list, sawn)))
        for number, (sawn, count) in enumerate(_alike(cut_list))
    )


def _alike(cut_list: CutList) -> Iterator[tuple[SawnBar, int]]:
    """Each kind of bar and how many: neighbours of one label whose pieces are the same."""
    for _, group in groupby(cut_list.bars, key=lambda bar: (bar.bar.label, bar.pieces)):
        bars = list(group)
        yield bars[0], len(bars)


def _rows(cut_list: CutList, sawn: SawnBar) -> Iterator[Row]:
    orders = {each.order.key for run in cut_list.batch.runs for each in run.lengths}
    several_orders = len(orders) > 1
    last = sawn.pieces[-1]
    several = last.high_square and last.run > 0
    for number, piece in enumerate(sawn.pieces, 1):
        length = cut_list.batch.length(piece.length)
        name = length.part.name
        if several_orders:
            name = f"{name}, {length.order.plan.piece.title}"
        yield Row(number, name, piece, several and piece.run == last.run, sawn.bar.length)


def letters(number: int) -> str:
    """A, B ... Z, AA, AB ... for 0, 1 ...

    >>> letters(0), letters(25), letters(26)
    ('A', 'Z', 'AA')
    """
    more, last = divmod(number, 26)
    return (letters(more - 1) if more else "") + ascii_uppercase[last]


def number_words(length: float) -> str:
    """A length as it is sold: whole where it is whole.

    >>> number_words(300.0), number_words(304.8)
    ('300', '304.8')
    """
    return format_number(length, 1).removesuffix(".0")


def batch_words(cut_list: CutList) -> str:
    """What is sawn: 'tube, cartridge brass 34.93 x 0.92 mm'."""
    batch = cut_list.batch
    section = " × ".join(format_number(size) for size in batch.sizes.values())
    temper = f", {batch.temper}" if batch.temper else ""
    return f"{batch.form}, {batch.metal.name}, {section} mm{temper}"


def square_words(cut_list: CutList) -> str:
    """How many ends that had better be square are; '' when none is asked for."""
    asked, given = cut_list.square_asked, cut_list.square_given
    if not asked:
        return ""
    if given >= asked:
        return f"All {asked} ends that had better be square are the bars' own."
    return (
        f"Of {asked} ends that had better be square {given} are the bars' own; the others are sawn "
        "and trued, so that no further bar is needed."
    )


def rules_words(cut_list: CutList) -> str:
    """What sawing takes."""
    rules = cut_list.rules
    told = [f"kerf {format_number(rules.kerf)}"]
    if rules.truing:
        told.append(f"{format_number(rules.truing)} to true on each sawn end")
    if any(bar.bar.trimmed_ends for bar in cut_list.bars) and rules.end_trim:
        told.append(f"{format_number(rules.end_trim)} trimmed off an end that isn't square")
    widths = width_words(cut_list)
    return f"Reckoned in: {', '.join(told)}.{' ' if widths else ''}{widths}"


def width_words(cut_list: CutList) -> str:
    """How wide the blanks are that come from strip; '' where none do."""
    if cut_list.batch.form != "strip":
        return ""
    lengths = [each for run in cut_list.batch.runs for each in run.lengths]
    widths = {
        f"{each.part.name} {format_number(each.order.plan.cuts[each.part.id].sizes['width'].value)}"
        for each in lengths
    }
    return f"Width with its dressing: {', '.join(sorted(widths))} mm; file wider strip down to it."


def buying_words(cut_list: CutList) -> tuple[str, ...]:
    """What to buy, a line for each kind of bar."""
    found = []
    for (label, cost), group in groupby(
        sorted(((each.bar.label, each.bar.cost) for each in cut_list.bought), key=str)
    ):
        count = len(list(group))
        price = "no price known" if cost is None else f"{count * cost:.2f}"
        found.append(f"{count} × {label}: {price}")
    return tuple(found)
