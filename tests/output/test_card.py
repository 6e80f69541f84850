"""The bench card, measured on its rendered pages and read back as text.

The expected lengths are those of the plan itself (what is printed 1:1 must measure what the plan
says) and of ISO 216 A4 and ANSI US Letter paper.
"""

import re
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import groupby
from typing import Any

import numpy as np
import pypdfium2
import pytest
import typst

from hollowright.designs import design
from hollowright.job.job import plan_tables, read_tables
from hollowright.output import card
from hollowright.output.card import PAPERS, card_files, card_pdf
from hollowright.plan.plan import Plan
from hollowright.quantity.working import number_text

EXAMPLE = design("tube-box").examples[0].text
HOSTILE = '#panic("no") $x^2$ \\\\ *b* <a> [c] @d // e'
CHANGES: dict[str, tuple[tuple[str, str], ...]] = {
    "example": (),
    "tiny": (
        ('["34.92", "34.95", "34.93"]', '"6.02"'),
        ('["0.92", "0.91"]', '"0.41"'),
        ("52 mm", "14 mm"),
        ("22 ga", "0.3"),
        ('["0.81", "0.82"]', '"0.5"'),
    ),
    "large": (
        ('["34.92", "34.95", "34.93"]', '"200.1"'),
        ('["0.92", "0.91"]', '"2.0"'),
        ("52 mm", "120 mm"),
        ("180 mm", "300 mm"),
    ),
    "let-in": (('"on-end"', '"let-in"'),),
    "as built": (
        (
            "# lid_depth",
            'ring_outside_diameter = "33.02"\nbody_bore = ["33.10", "33.11"]\nlid_depth',
        ),
    ),
    "inches": (
        ('["34.92", "34.95", "34.93"]', '"1 1/2 in"'),
        ('["0.92", "0.91"]', '"0.035 in"'),
        ("52 mm", "2 1/4 in"),
        ("180 mm", "12 in"),
    ),
    "hostile title": (('"Striker box"', f"'{HOSTILE}'"),),
    "long title": (('"Striker box"', f'"{"W" * 120}"'),),
    "long wordy title": (('"Striker box"', f'"{"a box with a lid of brass, " * 4}Жж ünï עברית"'),),
}
EVERY = [(name, paper) for name in CHANGES for paper in PAPERS]


@cache
def plan_of(name: str) -> Plan:
    """The plan of the example, changed."""
    text = EXAMPLE
    for old, new in CHANGES[name]:
        assert old in text
        text = text.replace(old, new)
    return plan_tables(read_tables(text))


@cache
def pdf_of(name: str, paper: str) -> tuple[bytes, tuple[str, ...]]:
    """A card and what the typesetter had to warn of."""
    files: Any = card_files(plan_of(name), PAPERS[paper])
    pdf, warnings = typst.compile_with_warnings(files, format="pdf", ignore_system_fonts=True)
    assert isinstance(pdf, bytes)
    return pdf, tuple(str(warning) for warning in warnings)


def opened(name: str, paper: str) -> pypdfium2.PdfDocument:
    """The card as another library reads it."""
    return pypdfium2.PdfDocument(pdf_of(name, paper)[0])


def dark(page: pypdfium2.PdfPage, dpi: int) -> np.ndarray:
    """Where a rendered page has ink."""
    grey = page.render(scale=dpi / 72, grayscale=True, no_smoothpath=True).to_numpy()
    return grey.reshape(grey.shape[:2]) < 128


def text_of(name: str, paper: str) -> list[str]:
    """Each page's words."""
    with opened(name, paper) as document:
        return [page.get_textpage().get_text_range() for page in document]


def bare(text: str) -> str:
    """A text without blanks, soft breaks and hyphens, however its lines were broken."""
    return re.sub("[\\s\u00a0\u200b\u00ad\ufffe\u0002-]", "", text)


# ---- the paper


@pytest.mark.parametrize(("name", "paper"), EVERY)
def test_nothing_is_warned_of(name: str, paper: str) -> None:
    assert pdf_of(name, paper)[1] == ()


@pytest.mark.parametrize(("paper", "size"), [("a4", (210.0, 297.0)), ("letter", (215.9, 279.4))])
def test_the_pages_have_the_papers_size(paper: str, size: tuple[float, float]) -> None:
    with opened("example", paper) as document:
        for page in document:
            measured = [points / 72 * 25.4 for points in page.get_size()]
            assert measured == pytest.approx(size, abs=0.05)


def test_the_card_takes_few_pages() -> None:
    assert len(text_of("example", "a4")) <= 5
    assert len(text_of("example", "letter")) <= 5


@pytest.mark.parametrize(("name", "paper"), EVERY)
def test_nothing_runs_out_of_its_frame(name: str, paper: str) -> None:
    """The strips within the frame and about the column rule are free of ink on every page."""
    dpi, size = 72, PAPERS[paper]

    def at(mm: float) -> int:
        return round(mm / 25.4 * dpi)

    with opened(name, paper) as document:
        for number, page in enumerate(document):
            ink = dark(page, dpi)
            block = card.BLOCK if number == 0 else card.SLIM
            foot = size.height - card.BOTTOM - block
            left, right = card.LEFT, size.width - card.RIGHT
            inside = ink[at(card.TOP + 1) : at(foot - 1)]
            assert not inside[:, at(left + 1) : at(left + card.PAD - 1)].any()
            assert not inside[:, at(right - card.PAD + 1) : at(right - 1)].any()
            assert not ink[
                at(foot - card.PAD + 1.5) : at(foot - 1), at(left + 1) : at(right - 1)
            ].any()
            assert not ink[: at(card.TOP - 1)].any()
            assert not ink[:, : at(left - 1)].any()


# ---- the words


@pytest.mark.parametrize(("name", "paper"), EVERY)
def test_title_numbers_and_steps_are_there(name: str, paper: str) -> None:
    plan = plan_of(name)
    pages = text_of(name, paper)
    front, whole = bare(pages[0]), bare("".join(pages))
    for part in plan.parts:
        for size in plan.cuts[part.id].sizes.values():
            assert number_text(size) in front
    for step in plan.steps:
        assert bare(step.title) in whole
        assert bare(step.text) in whole
    for caution in plan.cautions:
        assert bare(caution.text) in whole
    assert "licensedpracticecomefirst" in whole


@pytest.mark.parametrize("name", ["example", "hostile title", "long title"])
def test_a_title_stays_text_whatever_it_holds(name: str) -> None:
    for page in text_of(name, "a4"):
        assert bare(plan_of(name).piece.title) in bare(page)


def test_what_no_page_can_show_is_left_out_of_the_title() -> None:
    plan = plan_of("example")
    odd = replace(plan, piece=replace(plan.piece, title="a\x00b\ud800c\nd"))
    with pypdfium2.PdfDocument(card_pdf(odd)) as document:
        assert "a b c d" in document[0].get_textpage().get_text_range()


def places(name: str, paper: str) -> tuple[str, list[tuple[int, bool]]]:
    """The card's letters from the second page on, and of each its page and its column."""
    letters: list[str] = []
    where: list[tuple[int, bool]] = []
    with opened(name, paper) as document:
        for number in range(1, len(document)):
            page, words = document[number], document[number].get_textpage()
            middle = (card.LEFT + PAPERS[paper].width - card.RIGHT) / 2 / 25.4 * 72
            for i in range(words.count_chars()):
                letter = bare(words.get_text_range(i, 1))
                letters += letter
                where += [(number, words.get_charbox(i)[0] > middle)] * len(letter)
            page.close()
    return "".join(letters), where


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", ["example", "let-in", "large"])
def test_no_step_is_split(name: str, paper: str) -> None:
    """A step's number (beside its box), title, text and cautions stand in one column."""
    letters, where = places(name, paper)
    at = 0
    for step in plan_of(name).steps:
        first = letters.index(f"{step.number}{bare(step.title)}", at)
        last = letters.index(bare(step.text), first) + len(bare(step.text)) - 1
        assert where[first] == where[last]
        at = last


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", ["example", "let-in", "large"])
def test_no_heading_is_left_alone(name: str, paper: str) -> None:
    letters, where = places(name, paper)
    for heading in ("Steps", "Wherethenumberscomefrom", "Whatthestockprobablyis", "Mind"):
        last = letters.rindex(heading) + len(heading) - 1
        assert where[last] == where[last + 60]


def test_a_ring_that_came_out_wrong_is_told_on_the_front() -> None:
    plan = plan_of("as built")
    told = [caution.text for caution in plan.cautions if caution.about == plan.fits[0].fit.id]
    front = bare(text_of("as built", "a4")[0])
    assert told
    assert all(bare(text) in front for text in told)


# ---- true size


def runs(line: np.ndarray) -> Iterator[tuple[int, int]]:
    """Start and length of each unbroken run of ink in a row of pixels."""
    start = 0
    for ink, members in groupby(line.tolist()):
        length = sum(1 for _ in members)
        if ink:
            yield start, length
        start += length


def rows_with_run(ink: np.ndarray, length: float, dpi: int, within: float) -> list[int]:
    """Rows that have an unbroken run of a length [mm]."""
    enough = np.flatnonzero(ink.sum(axis=1) >= (length - within) / 25.4 * dpi)
    return [
        int(row)
        for row in enough
        if any(abs(run / dpi * 25.4 - length) <= within for _, run in runs(ink[row]))
    ]


DPI = 600


@cache
def blanks_page(paper: str) -> np.ndarray:
    with opened("example", paper) as document:
        return dark(document[len(document) - 1], DPI)


@pytest.mark.parametrize("paper", PAPERS)
def test_the_bar_is_100_mm_long(paper: str) -> None:
    """To 0.1 mm, at 600 dots an inch (a dot is 0.042 mm)."""
    head = blanks_page(paper)[: round(45 / 25.4 * DPI)]
    longest = [max((length for _, length in runs(row)), default=0) / DPI * 25.4 for row in head]
    bar = [length for length in longest if 90 < length < 110]
    assert len(bar) >= 4
    assert bar == pytest.approx([100.0] * len(bar), abs=0.1)


@pytest.mark.parametrize("paper", PAPERS)
def test_the_strip_measures_what_it_is_cut_to(paper: str) -> None:
    """Its outline's lines are 0.25 mm wide and stand astride the cut: middle to middle counts."""
    cut = plan_of("example").cuts["ring"].sizes
    line = 0.25
    ink = blanks_page(paper)
    rows = rows_with_run(ink, cut["length"].value + line, DPI, 0.1)
    assert len(rows) >= 8
    high = (rows[-1] - rows[0] + 1) / DPI * 25.4 - line
    assert high == pytest.approx(cut["width"].value, abs=0.1)


@pytest.mark.parametrize("paper", PAPERS)
def test_a_strip_in_tiles_keeps_its_width(paper: str) -> None:
    """On a tile from the strip's middle its two long edges cross from side to side."""
    plan = plan_of("large")
    drawings = card.blanks(plan, PAPERS[paper])
    ring = next(entry for entry, _ in drawings if entry["id"] == "ring")
    middle = ring["tiles"][2]
    assert len(ring["tiles"]) >= 4
    with opened("large", paper) as document:
        ink = dark(document[len(document) - 2], DPI)
    rows = rows_with_run(ink, middle["width"], DPI, 0.1)
    thick = [group for group in grouped(rows) if len(group) >= 5]
    assert len(thick) >= 2
    apart = (thick[1][0] - thick[0][0]) / DPI * 25.4
    assert apart == pytest.approx(plan.cuts["ring"].sizes["width"].value, abs=0.1)


def grouped(rows: list[int]) -> list[list[int]]:
    """Rows next to each other, together."""
    keyed = groupby(enumerate(rows), key=lambda pair: pair[1] - pair[0])
    return [[row for _, row in members] for _, members in keyed]


# ---- the same every time


def test_the_same_plan_gives_the_same_bytes() -> None:
    code = (
        "import sys, hashlib; from hollowright.designs import design;"
        "from hollowright.job.job import plan_tables, read_tables;"
        "from hollowright.output.card import card_pdf;"
        "text = design('tube-box').examples[0].text;"
        "print(hashlib.sha256(card_pdf(plan_tables(read_tables(text)))).hexdigest())"
    )
    once, again = (
        subprocess.run([sys.executable, "-c", code], capture_output=True, check=True, text=True)
        for _ in range(2)
    )
    assert once.stdout == again.stdout
    assert card_pdf(plan_of("example")) == card_pdf(plan_of("example"))


def test_no_template_fetches_a_package_or_names_a_file_of_its_own() -> None:
    for path in card.TEMPLATES.glob("*.typ"):
        text = path.read_text(encoding="utf-8")
        assert "@" not in text
        assert not re.search(r'(read|json|image|import)\W*"[./]', text)
