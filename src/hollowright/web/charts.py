"""Two small charts drawn by hand: a fit with its doubt, and what that doubt comes from."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from hollowright.output.svg import number, text
from hollowright.plan.plan import FitResult
from hollowright.quantity.budget import Share
from hollowright.units import format_number

WIDE = 360.0
"""Width of a chart in its own units: a phone's width, so that its words stay readable."""

REACH = 3.2
"""How far the curve is drawn to each side, in standard uncertainties."""

AXIS = "clearance across, mm (below 0 it presses)"

TOP, BASE, FOOT = 34.0, 128.0, 164.0
ROW = 34.0


def fit_chart(result: FitResult) -> str:
    """The clearance as it may come out, drawn as a curve over the window that feels right."""
    scale = _Scale(result)
    low, high = result.fit.window
    state = "as read" if result.fit.made else "as first cut"
    said = (
        f"Clearance {state}: {signed(result.as_cut.value, 3)} mm, doubt "
        f"{format_number(result.doubt, 3)} mm. {result.fit.feel}: {signed(low, 3)} to "
        f"{signed(high, 3)} mm."
    )
    body = "".join((*_window(result, scale), *_curve(result, scale), *_axis(scale)))
    return _svg("fit-chart", FOOT, "How the clearance may come out", said, body)


class _Scale:
    """Clearance [mm] to the chart's units."""

    def __init__(self, result: FitResult) -> None:
        middle, reach = result.as_cut.value, REACH * max(result.doubt, 1e-4)
        marks = (middle - reach, middle + reach, *result.fit.window, 0.0, result.fit.target.value)
        pad = 0.06 * (max(marks) - min(marks))
        self.low, self.high = min(marks) - pad, max(marks) + pad

    def __call__(self, value: float) -> float:
        return WIDE * (value - self.low) / (self.high - self.low)

    def ticks(self) -> list[float]:
        """Four to nine round values on the axis [mm]."""
        span = self.high - self.low
        step = 10.0 ** math.floor(math.log10(span / 4))
        step *= next(each for each in (5, 2, 1) if span / (each * step) >= 4 or each == 1)
        first = math.ceil(self.low / step)
        return [step * i for i in range(first, math.floor(self.high / step) + 1)]


def _window(result: FitResult, scale: _Scale) -> Iterator[str]:
    """The window: hatched, edged, named; to its left too tight, to its right too loose."""
    left, right = (scale(edge) for edge in result.fit.window)
    yield (
        '<pattern id="hatch" width="5" height="5" patternUnits="userSpaceOnUse" '
        'patternTransform="rotate(45)"><path class="hatch" d="M0 0V5"/></pattern>'
    )
    yield _rect("window", left, TOP, right - left, BASE - TOP)
    yield f'<path class="edge" d="M{number(left)} {TOP}V{BASE}M{number(right)} {TOP}V{BASE}"/>'
    middle = (left + right) / 2
    half = 4.2 * len(result.fit.feel) + 8
    yield _words("name", min(max(middle, half), WIDE - half), 12, result.fit.feel, "middle")
    if middle - half > 110:
        yield _words("side", middle - half - 10, 12, "← too tight: file", "end")
    if WIDE - middle - half > 80:
        yield _words("side", middle + half + 10, 12, "too loose →", "start")
    aim = number(scale(result.fit.target.value))
    yield f'<path class="aim" d="M{aim} {TOP}l-5 -8h10z"/>'


def _curve(result: FitResult, scale: _Scale) -> Iterator[str]:
    """The curve of the doubt, its part within the window filled, its middle marked."""
    middle, doubt = result.as_cut.value, max(result.doubt, 1e-4)
    low, high = result.fit.window

    def points(start: float, end: float, count: int) -> list[str]:
        places = [start + (end - start) * i / count for i in range(count + 1)]
        heights = [math.exp(-0.5 * ((x - middle) / doubt) ** 2) for x in places]
        return [
            f"{number(scale(x))} {number(BASE - (BASE - TOP - 6) * y)}"
            for x, y in zip(places, heights, strict=True)
        ]

    from_, to = middle - REACH * doubt, middle + REACH * doubt
    inside = max(low, from_), min(high, to)
    if inside[0] < inside[1]:
        yield (
            f'<path class="within" d="M{number(scale(inside[0]))} {BASE}'
            f'L{"L".join(points(*inside, 24))}L{number(scale(inside[1]))} {BASE}Z"/>'
        )
    yield f'<path class="curve" d="M{"L".join(points(from_, to, 64))}"/>'
    at = number(scale(middle))
    yield f'<path class="middle" d="M{at} {TOP + 6}V{BASE}"/>'


def _axis(scale: _Scale) -> Iterator[str]:
    yield f'<path class="axis" d="M0 {BASE}H{WIDE}"/>'
    ticks = scale.ticks()
    decimals = 2 if ticks[1] - ticks[0] > 0.0099 else 3
    for tick in ticks:
        x = scale(tick)
        yield f'<path class="axis" d="M{number(x)} {BASE}v5"/>'
        if 14 < x < WIDE - 14:
            yield _words("tick", x, BASE + 17, signed(tick, decimals), "middle")
    yield _words("side", WIDE / 2, FOOT - 2, AXIS, "middle")


def signed(value: float, decimals: int) -> str:
    """A number with a real minus sign, as drawings write it.

    >>> signed(-0.048, 3)
    '−0.048'
    """
    return format_number(value, decimals).replace("-", "−")


def budget_chart(shares: Sequence[Share], unit: str) -> str:
    """Bars, one for each reading, as long as its part in the doubt."""
    most = max((share.part for share in shares), default=1.0)
    rows: list[str] = []
    for i, share in enumerate(shares):
        y = ROW * i
        part = f"{100 * share.part:.0f} %" if share.part >= 0.005 else "under 1 %"
        rows.append(_words("label", 0, y + 12, share.label, "start"))
        rows.append(_words("part", WIDE, y + 12, part, "end"))
        rows.append(_rect("bar", 0, y + 18, max(1.5, WIDE * share.part / most), 7))
    said = "; ".join(
        f"{share.label} {100 * share.part:.0f} %, {format_number(share.effect, 3)} {unit}"
        for share in shares
    )
    return _svg(
        "budget-chart", ROW * len(shares), "Where the doubt comes from", said, "".join(rows)
    )


def _rect(name: str, x: float, y: float, width: float, height: float) -> str:
    return (
        f'<rect class="{name}" x="{number(x)}" y="{number(y)}" width="{number(width)}" '
        f'height="{number(height)}"/>'
    )


def _words(name: str, x: float, y: float, words: str, anchor: str) -> str:
    return (
        f'<text class="{name}" x="{number(x)}" y="{number(y)}" text-anchor="{anchor}">'
        f"{text(words)}</text>"
    )


def _svg(name: str, height: float, title: str, said: str, body: str) -> str:
    return (
        f'<svg class="{name}" viewBox="0 0 {number(WIDE)} {number(height)}" role="img" '
        f'aria-labelledby="{name}-title {name}-said"><title id="{name}-title">{text(title)}</title>'
        f'<desc id="{name}-said">{text(said)}</desc>{body}</svg>'
    )
