"""The drawing of one blank at true size: what to saw and mark, its sizes, a bar to check by."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from string import ascii_uppercase
from typing import Literal

from hollowright.output.drawing import (
    Drawing,
    Item,
    Label,
    LabelRole,
    LinearDimension,
    Path,
    moved,
)
from hollowright.output.extent import extent, label_box
from hollowright.shapes.curves import Arc, Bounds, Curve, Line
from hollowright.shapes.outline import Outline

MARGIN = 6.0  # [mm]
CUT_LETTERING = 5.0  # height of the figures to mark by, the largest on the sheet [mm]
TITLE_LETTERING = 3.5  # [mm]
LETTERING = 2.5  # of everything else [mm]
LEADING = 1.9  # from one line of text to the next, in heights of capitals
FIRST = 8.0  # from the outline to a dimension line whose figures stand beyond it [mm]
AIR = 4.0  # between figures and the next line inwards [mm]
OVERSHOOT = 2.0  # of centre lines past the outline [mm]
BAR = 100.0  # length of the checking bar [mm]
WIDE_LINE = 0.25  # thin, to work to [mm]
NET_NOTE = "Chain line with two dots: the finished size."
BAR_NOTE = "Check: this bar is 100 mm from end to end."


@dataclass(frozen=True, slots=True)
class BlankSize:
    """A size to write on the blank: `side` says along what, `of` which outline it measures.

    `value` is printed as given ("112.35"); `label`, if any, stands before it.
    """

    value: str
    side: Literal["width", "height", "diameter"]
    of: Literal["cut", "net"] = "cut"
    label: str = ""


@dataclass(frozen=True, slots=True)
class BlankMark:
    """A line to scribe, in the blank's own millimetres, and what it is for."""

    curve: Curve
    text: str
    role: Literal["mark", "fold"] = "mark"


@dataclass(frozen=True, slots=True)
class BlankSheet:
    """All that is drawn of one blank; net and cut outline share one frame [mm].

    `metal` is the line below the title ("brass sheet 0.64 mm, 1 piece"). `figures` are sizes to
    mark that aren't dimensions of the drawing ("R78.46 outer radius"), written as large as these.
    """

    id: str
    title: str
    metal: str
    net: Outline
    cut: Outline
    sizes: tuple[BlankSize, ...] = ()
    marks: tuple[BlankMark, ...] = ()
    notes: tuple[str, ...] = ()
    figures: tuple[str, ...] = ()


def blank_drawing(blank: BlankSheet) -> Drawing:
    """A drawing at true size, as large as it needs to be."""
    shows_net = blank.net != blank.cut
    body = [*_outlines(blank, shows_net), *_marks(blank), *_dimensions(blank)]
    notes = [f"{letter}: {mark.text}" for letter, mark in _lettered(blank.marks)]
    notes += [NET_NOTE] * shows_net + list(blank.notes)
    notes = [line for note in notes for line in broken(note)]
    figures = _text_lines([(figure, CUT_LETTERING) for figure in blank.figures], "value")
    head = _text_lines(
        [(blank.title, TITLE_LETTERING), *((line, LETTERING) for line in broken(blank.metal))]
    )
    foot = [*_text_lines([(note, LETTERING) for note in notes]), *checking_bar(len(notes))]
    width, height, items = _stacked([foot, figures, body, head])
    sizes = "; ".join(f"{size.of} {size.side} {size.value}" for size in blank.sizes)
    return Drawing(
        width, height, items, blank.title, f"Blank at true size: {sizes}.", wide_line=WIDE_LINE
    )


LONGEST_LINE = 84
"""So many letters of a note stand on one line: with them it goes on a page of either paper."""

GOES_ON = "\u00a0\u00a0"
"""What a line begins with that goes on with the note above it."""


def broken(note: str) -> list[str]:
    """A note as lines that a page is wide enough for."""
    first, *rest = textwrap.wrap(note, LONGEST_LINE) or [note]
    return [first, *(f"{GOES_ON}{line}" for line in rest)]


def _stacked(blocks: Iterable[Sequence[Item]]) -> tuple[float, float, tuple[Item, ...]]:
    """Width, height and items of blocks set one above another, the widest deciding the width.

    Text begins at the left margin; a block without any at its left edge stands in the middle of
    the bar, not of a long note.
    """
    measured = [(block, extent(block)) for block in blocks if block]
    widest = max(high_x - low_x for _, (low_x, _, high_x, _) in measured)
    items: list[Item] = []
    y = MARGIN
    for block, (low_x, low_y, high_x, high_y) in measured:
        slack = 0.0 if low_x == 0 else max(0.0, (BAR - (high_x - low_x)) / 2)
        items += moved(block, MARGIN + slack - low_x, y - low_y)
        y += high_y - low_y + MARGIN
    return widest + 2 * MARGIN, y, tuple(items)


def _outlines(blank: BlankSheet, shows_net: bool) -> Iterable[Item]:
    shown: list[tuple[Literal["cut", "mark"], Outline]] = [("cut", blank.cut)]
    if shows_net:
        shown.append(("mark", blank.net))
    for role, outline in shown:
        for edge in (outline, *outline.holes):
            yield Path(role, edge.segments)
    yield from _centre_lines(blank.cut)


def _centre_lines(outline: Outline) -> Iterable[Item]:
    """The cross of a disc, each arm drawn from the centre so that dashes meet there."""
    circle = outline.segments[0]
    if not (isinstance(circle, Arc) and circle.closed):
        return
    (x, y), reach = circle.centre, circle.radius + OVERSHOOT
    ends = [(x + reach, y), (x - reach, y), (x, y + reach), (x, y - reach)]
    yield Path("centre", tuple(Line(circle.centre, end) for end in ends))


def _lettered(marks: Sequence[BlankMark]) -> list[tuple[str, BlankMark]]:
    """Marks with the letters they go by; those that say the same share one."""
    texts = list(dict.fromkeys(mark.text for mark in marks))
    first = {text: next(mark for mark in marks if mark.text == text) for text in texts}
    return [(_letter(i), first[text]) for i, text in enumerate(texts)]


def _letter(number: int) -> str:
    """A, B ... Z, A1, B1 ..."""
    lap, place = divmod(number, len(ascii_uppercase))
    return ascii_uppercase[place] + (str(lap) if lap else "")


ALONG = (0.5, 0.3, 0.7, 0.15, 0.85, 0.4, 0.6)
"""Places along a line where its letter may stand, the best first."""


def _marks(blank: BlankSheet) -> Iterable[Item]:
    """The lines to scribe, each with its letter beside it where it stands clear of the others."""
    letters = {mark.text: letter for letter, mark in _lettered(blank.marks)}
    taken: list[Bounds] = []
    for mark in blank.marks:
        yield Path(mark.role, (mark.curve,))
        label = _clear(letters[mark.text], mark, blank, taken)
        taken.append(label_box(label))
        yield label


def _clear(letter: str, mark: BlankMark, blank: BlankSheet, taken: Sequence[Bounds]) -> Label:
    """A mark's letter at the first place clear of other letters and lines, else the first place."""
    tried = list(_letter_places(letter, mark, blank.cut.bounds))
    others = [other.curve for other in blank.marks if other is not mark]

    def crowded(label: Label) -> tuple[bool, bool]:
        box = label_box(label)
        letters = any(_overlap(box, other) for other in taken)
        return letters, any(_crosses(curve, box) for curve in others)

    return min(tried, key=crowded)


def _letter_places(letter: str, mark: BlankMark, bounds: Bounds) -> Iterable[Label]:
    """Beside a line, at places along it, on the side towards the blank's middle first."""
    low_x, low_y, high_x, high_y = bounds
    (x0, y0), (x1, y1) = mark.curve.start, mark.curve.end
    span = math.dist((x0, y0), (x1, y1))
    across = ((y0 - y1) / span, (x1 - x0) / span) if span else (0.0, 1.0)
    for share in ALONG:
        x, y = x0 + share * (x1 - x0), y0 + share * (y1 - y0)
        inward = across[0] * (low_x + high_x - 2 * x) + across[1] * (low_y + high_y - 2 * y)
        for side in (1.0, -1.0):
            aside = math.copysign(0.9 * LETTERING, inward * side if inward else side)
            at = (x + aside * across[0], y + aside * across[1] - LETTERING / 2)
            yield Label(letter, at, LETTERING, "name", "middle")


def _overlap(a: Bounds, b: Bounds) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _crosses(curve: Curve, box: Bounds) -> bool:
    """Whether a curve's chord runs through a box: sampled, for letters are small."""
    (x0, y0), (x1, y1) = curve.start, curve.end
    steps = max(2, math.ceil(math.dist((x0, y0), (x1, y1))))
    places = ((x0 + i / steps * (x1 - x0), y0 + i / steps * (y1 - y0)) for i in range(steps + 1))
    return any(box[0] < x < box[2] and box[1] < y < box[3] for x, y in places)


def _dimensions(blank: BlankSheet) -> Iterable[Item]:
    """Cut sizes below and to the right, large; finished sizes above and to the left."""
    used: dict[tuple[bool, bool], float] = {}
    outer = blank.cut.bounds
    for size in blank.sizes:
        cut, upright = size.of == "cut", size.side == "height"
        height = CUT_LETTERING if cut else LETTERING
        room = 1.4 * height + AIR
        offset = used.get((cut, upright), 0.0) + (room if cut else FIRST)
        used[cut, upright] = offset + (0.0 if cut else room - FIRST)
        measured = blank.cut.bounds if cut else blank.net.bounds
        yield _dimension(size, measured, outer, offset, height)


def _dimension(
    size: BlankSize, measured: Bounds, outer: Bounds, offset: float, height: float
) -> LinearDimension:
    """One dimension, `offset` [mm] outside the bounds of the whole blank."""
    low_x, low_y, high_x, high_y = measured
    cut, upright = size.of == "cut", size.side == "height"
    figures = f"⌀{size.value}" if size.side == "diameter" else size.value
    text = f"{size.label} {figures}".strip()
    if upright:
        x = high_x if cut else low_x
        line_x = outer[2] + offset if cut else outer[0] - offset
        return LinearDimension((x, low_y), (x, high_y), x - line_x, text, "vertical", height)
    y = low_y if cut else high_y
    line_y = outer[1] - offset if cut else outer[3] + offset
    return LinearDimension((low_x, y), (high_x, y), line_y - y, text, "horizontal", height)


def _text_lines(lines: Sequence[tuple[str, float]], larger: LabelRole = "title") -> list[Item]:
    """Lines of text one below another from 0, 0; the larger are titles, or as said."""
    items: list[Item] = []
    y = 0.0
    for text, height in lines:
        role: LabelRole = larger if height > LETTERING else "note"
        items.append(Label(text, (0.0, y), height, role))
        y -= LEADING * (height if height > TITLE_LETTERING else LETTERING)
    return items


def checking_bar(lines_above: int = 0) -> list[Item]:
    """The checking bar, ticked every 10 mm, below the notes."""
    y = -LEADING * LETTERING * lines_above - 4.0
    ticks = [Line((x, y), (x, y + (3.0 if x % 50 == 0 else 1.5))) for x in range(0, 101, 10)]
    bar = Path("bar", (Line((0.0, y), (BAR, y)), *ticks))
    return [bar, Label(BAR_NOTE, (0.0, y - LEADING * LETTERING), LETTERING, "note")]
