"""Writes a drawing as SVG: one user unit is one millimetre, and it stands alone."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence
from html import escape
from itertools import groupby

from hollowright.output.dimensions import drawn
from hollowright.output.drawing import CAP_HEIGHT, Drawing, Item, Label, Path, Role
from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Arc, Curve, EllipseArc, Line, Point

INK = "#1c1a17"
SERIF = "'Libertinus Serif', 'Linux Libertine', Georgia, 'Times New Roman', serif"
SAME = 1e-6  # how near two ends are one point [mm]

_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def svg(drawing: Drawing, *, ink: str = INK, prefix: str = "drawing") -> str:
    """The drawing as a whole SVG document, to save or to set into a page.

    Everything is drawn in `ink`: "currentColor" lets a page choose it. `prefix` begins the ids of
    title and description: give each drawing of one page its own.
    """
    width, height = number(drawing.width), number(drawing.height)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}" role="img" '
        f'aria-labelledby="{text(prefix)}-title {text(prefix)}-desc">'
    )
    words = (
        f'<title id="{text(prefix)}-title">{text(drawing.title)}</title>'
        f'<desc id="{text(prefix)}-desc">{text(drawing.description)}</desc>'
    )
    body = "\n".join(_groups(drawing, text(ink)))
    return f"{head}\n{words}\n{body}\n</svg>\n"


def text(value: str) -> str:
    """Any text made safe for XML: marked-up characters escaped, forbidden ones left out.

    >>> text('5" <b>' + chr(0))
    '5&quot; &lt;b&gt;'
    """
    return escape(_NOT_XML.sub("", value))


def number(value: float) -> str:
    """A number to a ten-thousandth, without needless digits.

    >>> number(38.05), number(-0.00001), number(7.0)
    ('38.05', '0', '7')
    """
    shown = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if shown == "-0" else shown


def _groups(drawing: Drawing, ink: str) -> Iterable[str]:
    """Neighbours of one kind share one group with its pen or its type."""
    flat: list[Path | Label] = []
    for item in drawing.items:
        flat += _plain(item)
    for (name, _), members in groupby(flat, key=_kind):
        group = tuple(members)
        inside = "\n".join(_element(item, drawing.height) for item in group)
        yield f'<g class="{name}" {_look(drawing, group[0], ink)}>\n{inside}\n</g>'


def _plain(item: Item) -> Iterable[Path | Label]:
    if isinstance(item, Path | Label):
        return (item,)
    return tuple(part for part in drawn(item) if isinstance(part, Path | Label))


def _kind(item: Path | Label) -> tuple[str, str]:
    """What decides an item's look: its group's class and its pen, fill or type."""
    if isinstance(item, Label):
        return (f"label-{item.role}", "type")
    return (f"path-{item.role}", "fill" if item.filled else "pen")


def _look(drawing: Drawing, item: Path | Label, ink: str) -> str:
    if isinstance(item, Label):
        return f'fill="{ink}" stroke="none" font-family="{SERIF}"'
    return f'fill="{ink}" stroke="none"' if item.filled else _pen(drawing, item.role, ink)


def _element(item: Path | Label, height: float) -> str:
    return _label(item, height) if isinstance(item, Label) else _path(item, height)


def _pen(drawing: Drawing, role: Role, ink: str) -> str:
    """Stroke attributes; round caps lengthen a dash by a line's width, so dashes are cut by it."""
    weight = drawing.weight(role)
    pen = (
        f'fill="none" stroke="{ink}" stroke-width="{number(weight)}" '
        'stroke-linecap="round" stroke-linejoin="round"'
    )
    dashes = drawing.dashes(role)
    if not dashes:
        return pen
    lengths = [
        max(0.01, part - weight) if i % 2 == 0 else part + weight for i, part in enumerate(dashes)
    ]
    return f'{pen} stroke-dasharray="{" ".join(number(length) for length in lengths)}"'


def _label(label: Label, height: float) -> str:
    x, y = number(label.at[0]), number(height - label.at[1])
    turn = number(-math.degrees(label.angle))
    turned = "" if turn == "0" else f' transform="rotate({turn} {x} {y})"'
    anchor = "" if label.anchor == "start" else f' text-anchor="{label.anchor}"'
    size = number(label.height / CAP_HEIGHT)
    return f'<text x="{x}" y="{y}" font-size="{size}"{anchor}{turned}>{text(label.text)}</text>'


def _path(path: Path, height: float) -> str:
    return f'<path d="{path_data(path.curves, height)}"/>'


def path_data(curves: Sequence[Curve], height: float) -> str:
    """SVG path data of curves, turned over so that y runs down from `height` [mm]."""
    parts: list[str] = []
    first = last = (math.inf, math.inf)
    for curve in curves:
        if math.dist(last, curve.start) > SAME or not parts:
            first = curve.start
            parts.append(f"M{_at(first, height)}")
        parts.append(_command(curve, height))
        last = curve.end
        if math.dist(first, last) <= SAME:
            parts.append("Z")
            last = (math.inf, math.inf)
    return "".join(parts)


def _at(point: Point, height: float) -> str:
    return f"{number(point[0])} {number(height - point[1])}"


def _command(curve: Curve, height: float) -> str:
    if isinstance(curve, Line):
        return f"L{_at(curve.end, height)}"
    if isinstance(curve, Arc):
        return _arc(curve, curve.radius, curve.radius, 0.0, curve.sweep, height)
    if isinstance(curve, EllipseArc):
        (ax, ay), (bx, by) = curve.major, curve.minor
        sweep = math.copysign(curve.sweep, curve.sweep * (ax * by - ay * bx))
        turn = math.atan2(ay, ax)
        return _arc(curve, math.hypot(ax, ay), math.hypot(bx, by), turn, sweep, height)
    if isinstance(curve, Cubic):
        return "C" + " ".join(_at(point, height) for point in curve.controls[1:])
    return "".join(f"L{_at(point, height)}" for point in curve.points(0.01)[1:])


def _arc(
    curve: Arc | EllipseArc, rx: float, ry: float, turn: float, sweep: float, height: float
) -> str:
    """Arc commands; more than half a turn is given as two, which no reader gets wrong."""
    stops = [curve.end]
    if abs(sweep) > math.pi:
        stops.insert(0, curve.at(curve.start_angle + curve.sweep / 2))
    flag = 0 if sweep > 0 else 1
    shape = f"A{number(rx)} {number(ry)} {number(-math.degrees(turn))} 0 {flag} "
    return "".join(shape + _at(stop, height) for stop in stops)
