"""The small drawing of a fit: its window, where the ring will come out, and the doubt of it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from hollowright.output.drawing import Anchor, Drawing, Item, Label, LabelRole, Path, text_width
from hollowright.output.text import percent
from hollowright.plan.plan import FitResult
from hollowright.shapes.curves import Line, Point
from hollowright.units import format_number

LETTERING = 2.2  # height of capitals [mm]
HILL = 15.0  # height of the curve at its top [mm]
FOOT = 8.5  # from the lower edge to the axis: figures and a line of words [mm]
HEAD = 5.5  # above the curve: a line of words [mm]
WIDE_LINE = 0.35  # [mm]
REACH = 3.2  # how many standard uncertainties of the curve are drawn
STEPS = 64  # straight pieces of the curve
PITCH = 1.2  # of the hatching [mm]
TICKS = 7  # at most


def fit_drawing(result: FitResult, width: float = 100.0) -> Drawing:
    """Clearance from tight to loose; the curve says how likely each is, the hatching is the window.

    width: of the drawing [mm]. The odds stand in words over the three parts of the curve: to file,
    in the window, too loose.
    """
    low, high = result.fit.window
    middle, doubt = result.as_cut.value, max(result.doubt, 1e-4)
    first = min(low, middle - REACH * doubt, 0.0)
    last = max(high, middle + REACH * doubt, 0.0)
    pad = 0.04 * (last - first)
    chart = _Chart(first - pad, last + pad, width, middle, doubt)
    items = (*chart.window(low, high), *chart.hill(), *chart.axis(), *_words(chart, result))
    return Drawing(width, FOOT + HILL + HEAD, items, result.fit.label, describe(result), WIDE_LINE)


def describe(result: FitResult) -> str:
    """What the drawing shows, in one sentence."""
    low, high = (format_number(edge, 3) for edge in result.fit.window)
    return (
        f"Clearance {format_number(result.as_cut.value, 3)} mm, standard doubt "
        f"{format_number(result.doubt, 3)} mm; the window is {low} to {high} mm: "
        f"{percent(result.odds)} land in it, {percent(result.odds_filed)} after filing."
    )


class _Chart:
    """A level axis in mm of clearance and the bell over it."""

    def __init__(
        self, first: float, last: float, width: float, middle: float, doubt: float
    ) -> None:
        self.first, self.last, self.width = first, last, width
        self.middle, self.doubt = middle, doubt

    def x(self, clearance: float) -> float:
        """Where a clearance lies on the paper [mm]."""
        return (clearance - self.first) / (self.last - self.first) * self.width

    def top(self, x: float) -> float:
        """Height of the bell above the axis at a place on the paper [mm]."""
        clearance = self.first + x / self.width * (self.last - self.first)
        return HILL * math.exp(-(((clearance - self.middle) / self.doubt) ** 2) / 2)

    def hill(self) -> Iterator[Item]:
        """The bell: how likely each clearance is."""
        half = REACH * self.doubt
        start, end = self.x(self.middle - half), self.x(self.middle + half)
        xs = [start + (end - start) * i / STEPS for i in range(STEPS + 1)]
        points = [(x, FOOT + self.top(x)) for x in xs]
        yield Path("visible", _chain(points))

    def window(self, low: float, high: float) -> Iterator[Item]:
        """Two uprights, and hatching under the bell between them."""
        left, right = self.x(low), self.x(high)
        top = FOOT + HILL + 1.5
        yield Path("fold", (Line((left, FOOT), (left, top)), Line((right, FOOT), (right, top))))
        lines = [
            Line((x, FOOT), (x, FOOT + self.top(x)))
            for x in _between(left, right, PITCH / 2)
            if self.top(x) > 0.1
        ]
        if lines:
            yield Path("hatching", tuple(lines))

    def axis(self) -> Iterator[Item]:
        """The axis with its ticks and figures."""
        step = _nice((self.last - self.first) / TICKS)
        ticks = [i * step for i in range(math.ceil(self.first / step), int(self.last / step) + 1)]
        marks = [Line((self.x(tick), FOOT), (self.x(tick), FOOT - 1.0)) for tick in ticks]
        yield Path("visible", (Line((0.0, FOOT), (self.width, FOOT)),))
        if marks:
            yield Path("dimension", tuple(marks))
        digits = max(0, -math.floor(math.log10(step) + 1e-9))
        for tick in ticks:
            text = f"{tick:.{digits}f}".replace("-", "−")
            if float(text.replace("−", "-")) == 0:
                text = "0"
            half = text_width(text, LETTERING) / 2
            x = min(max(self.x(tick), half), self.width - half)
            yield _label(text, x, FOOT - 1.6 - LETTERING, "middle", "value")


def _words(chart: _Chart, result: FitResult) -> Iterator[Item]:
    """The odds of the three parts of the curve, and what the axis is."""
    low, high = result.fit.window
    left, right = chart.x(low), chart.x(high)
    centre = f"{percent(result.odds)} {result.fit.feel}"
    half = text_width(centre, LETTERING) / 2
    middle = min(max((left + right) / 2, half), chart.width - half)
    yield _label(centre, middle, FOOT + HILL + 2.3, "middle", "name")
    tight = (percent(result.odds_filed - result.odds), "too tight:", "file")
    loose = (percent(1 - result.odds_filed), "too loose:", "stretch")
    for texts, room, x, anchor in (
        (tight, left, 0.0, "start"),
        (loose, chart.width - right, chart.width, "end"),
    ):
        whole = max(text_width(text, LETTERING) for text in texts) + 1 < room
        bare = text_width(texts[0], LETTERING) + 1 < room
        for line, text in enumerate(texts if whole else texts[:1] if bare else ()):
            y = FOOT + HILL - LETTERING - 1.7 * LETTERING * line
            yield _label(text, x, y, "start" if anchor == "start" else "end", "note")
    yield _label("clearance [mm]", chart.width / 2, 0.8, "middle", "note")


def _label(text: str, x: float, y: float, anchor: Anchor, role: LabelRole) -> Label:
    return Label(text, (x, y), LETTERING, role, anchor)


def _chain(points: list[Point]) -> tuple[Line, ...]:
    return tuple(Line(a, b) for a, b in pairwise(points))


def _between(left: float, right: float, pitch: float) -> list[float]:
    """Places evenly spread within a span, about a pitch apart."""
    count = max(1, round((right - left) / pitch))
    return [left + (right - left) * (i + 0.5) / count for i in range(count)]


def _nice(least: float) -> float:
    """The smallest of 1, 2, 5 times a power of ten that isn't less.

    >>> _nice(0.03), _nice(0.07)
    (0.05, 0.1)
    """
    power = 10.0 ** math.floor(math.log10(least))
    return float(
        next(f"{m * power:.12g}" for m in (1, 2, 5, 10) if m * power >= least * (1 - 1e-9))
    )
