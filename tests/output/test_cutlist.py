"""Cut lists as people and programs read them: text, JSON, drawing, pages."""

import json
import xml.etree.ElementTree as Tree
from pathlib import Path

import pypdfium2
import pytest

from hollowright.designs import design
from hollowright.job.cutting import Cutting, cutting
from hollowright.job.job import plan_tables, read_tables
from hollowright.output.cutlist_data import cutlist_data
from hollowright.output.cutlist_drawing import WIDTH, bar_items, cutlist_drawing, scale_of
from hollowright.output.cutlist_files import write_cutlist
from hollowright.output.cutlist_pages import cutlist_pdf
from hollowright.output.cutlist_text import cutlist_text
from hollowright.output.cutlist_view import BarView, Row, bar_views
from hollowright.output.drawing import Path as Drawn
from hollowright.output.svg import svg
from hollowright.plan.bars import Bar, BarRules, SawnBar
from hollowright.plan.orders import orders
from hollowright.plan.sawing import sawn
from hollowright.shop import default_shop
from hollowright.shop.sold import read_sold
from hollowright.units import format_number
from tests.plan.bar_cases import length as length_of
from tests.plan.bar_cases import run


def made(copies: int = 12, sold: str | None = None, **changes: str) -> Cutting:
    text = design("tube-box").examples[0].text
    for old, new in (each.split("->") for each in changes.values()):
        assert old in text
        text = text.replace(old, new)
    wanted = orders([plan_tables(read_tables(text))], copies)
    listed = None if sold is None else read_sold(sold)
    return cutting(wanted, default_shop(), sold=listed)


@pytest.fixture(scope="module")
def twelve() -> Cutting:
    return made()


def test_every_half_is_there_and_no_twelve_bars(twelve: Cutting) -> None:
    """Trade note 36, with the whole plan behind it."""
    (each,) = twelve.lists
    cut = [piece.length for bar in each.bars for piece in bar.pieces]
    assert cut.count("striker-box.lid") == cut.count("striker-box.body") == 12
    assert len(each.bars) <= 2
    assert (each.square_asked, each.square_given) == (24, 2 * len(each.bars))


def test_lengths_are_net_and_truing_for_the_ends_really_sawn(twelve: Cutting) -> None:
    (each,) = twelve.lists
    net = {one.id: one.net.value for r in each.batch.runs for one in r.lengths}
    for bar in each.bars:
        for piece in bar.pieces:
            sawn = 2 - piece.square_ends
            assert piece.long == pytest.approx(net[piece.length] + sawn * 0.3)


def test_pieces_cuts_and_rest_add_up_to_the_bar(twelve: Cutting) -> None:
    for bar in cutlist_data(twelve)["batches"][0]["bars"]:
        ends = [0.0]
        for piece in bar["pieces"]:
            assert piece["start"] >= ends[-1] - 1e-6
            ends.append(piece["start"] + piece["length"])
        assert ends[-1] <= bar["length"] + 1e-6
        taken = sum(piece["length"] for piece in bar["pieces"])
        kept = bar["rest"] if bar["kept"] else 0.0
        assert taken + kept + bar["waste"] == pytest.approx(bar["length"], abs=1e-5)


def test_the_text_tells_each_mark_and_the_bound(twelve: Cutting) -> None:
    text = cutlist_text(twelve)
    assert text.startswith("Cut list: 12 × Striker box\n")
    assert max(map(len, text.splitlines())) <= 78
    for bar in twelve.lists[0].bars:
        for piece in bar.pieces:
            assert format_number(piece.end) in text
    assert "the fewest there can be" in " ".join(text.split())


def test_the_json_is_one_plain_object(twelve: Cutting) -> None:
    data = json.loads(json.dumps(cutlist_data(twelve), allow_nan=False))
    (batch,) = data["batches"]
    assert batch["form"] == "tube"
    assert batch["proven"] is True
    assert batch["missing"] == []
    assert [each["id"] for each in batch["bars"]] == [bar.id for bar in twelve.lists[0].bars]
    assert {"order", "part", "start", "length", "square_ends"} <= set(batch["bars"][0]["pieces"][0])


def test_the_drawing_is_to_scale(twelve: Cutting) -> None:
    (each,) = twelve.lists
    scale = scale_of(each)
    assert scale * max(bar.bar.length for bar in each.bars) == pytest.approx(WIDTH)
    for view in bar_views(each):
        boxes = [
            i.bounds() for i in bar_items(view, scale) if isinstance(i, Drawn) and i.role == "cut"
        ]
        assert len(boxes) == len(view.rows)
        for (left, _, right, _), row in zip(boxes, view.rows, strict=True):
            assert (right - left) == pytest.approx(row.piece.long * scale)
            assert left == pytest.approx(row.piece.start * scale)


def test_the_svg_reads_back(twelve: Cutting) -> None:
    root = Tree.fromstring(svg(cutlist_drawing(twelve)))
    words = " ".join(text.text or "" for text in root.iter() if text.tag.endswith("text"))
    assert "to buy" in words
    assert "keep" in words


def test_the_files_are_written_and_the_pages_are_the_same_every_time(
    twelve: Cutting, tmp_path: Path
) -> None:
    first = write_cutlist(twelve, str(tmp_path / "a"))
    write_cutlist(twelve, str(tmp_path / "b"))
    assert [Path(path).name for path in first] == ["cutlist.pdf", "cutlist.svg", "cutlist.json"]
    pdf = (tmp_path / "a" / "cutlist.pdf").read_bytes()
    assert pdf.startswith(b"%PDF")
    assert pdf == (tmp_path / "b" / "cutlist.pdf").read_bytes()


def test_what_is_sold_with_prices_is_the_cheapest() -> None:
    sold = "form,metal,outside_diameter,wall,length,price\ntube,,,,300,9\ntube,,,,1000,40\n"
    (each,) = made(3, sold, bar='length = "180 mm"->length = "55 mm"').lists
    assert [bar.bar.length for bar in each.bars if bar.bar.origin == "to buy"] == [300.0]
    assert each.cost == 9.0


def test_no_bar_anywhere_names_the_piece_and_what_would_do() -> None:
    found = made(1, "form,length,diameter\nrod,300,9\n", bar='length = "180 mm"->')
    assert not found.complete
    names = {lost.flat for lost in found.lists[0].missing}
    assert names == {"striker-box.lid", "striker-box.body"}
    text = " ".join(cutlist_text(found).split())
    assert "NO BAR for 1 × striker-box.lid" in text
    assert "would do" in text


def test_halves_of_an_oval_tube_are_sawn_side_by_side() -> None:
    oval = '"34.92", "34.95", "34.93"->"34.80", "35.05", "34.93"'
    (each,) = made(2, None, oval=oval).lists
    (run,) = each.batch.runs
    assert [one.part.id for one in run.lengths] == ["lid", "body"]
    for bar in each.bars:
        for one, other in zip(bar.pieces[::2], bar.pieces[1::2], strict=True):
            assert one.run == other.run
            assert other.start - one.end == pytest.approx(0.3)


def in_hand(length: float, square_ends: int = 0) -> SawnBar:
    """A bar in hand that is sawn to its very ends by two pieces."""
    bar = Bar("h", "tube", "in hand", "tube", "C26000", {}, length, "", square_ends)
    rules = BarRules(0.3, 0.4, 1.0, 20.0)
    each = (length - 0.3 - (4 - square_ends) * 0.4) / 2
    return sawn(bar, [run(1, length_of("a", each)), run(1, length_of("b", each))], rules)


def test_what_is_said_of_raw_ends_agrees_with_the_marks() -> None:
    """A bar in hand isn't trimmed: its raw ends are pieces' own ends, trued like sawn ones."""
    found = in_hand(107.7)
    view = BarView("A", 1, found, ())
    assert "trim" not in view.ends
    assert "trued like sawn ones" in view.ends
    rows = [Row(n, p.length, p, False, 107.7) for n, p in enumerate(found.pieces, 1)]
    assert [row.ends for row in rows] == [
        "first end the bar's own, to true", "second end the bar's own, to true"
    ]  # fmt: skip
    other = sawn(
        Bar("d", "3", "drawer", "tube", "C26000", {}, 100.0), [run(1, length_of("a", 20.0))],
        BarRules(0.3, 0.4, 1.0, 20.0),
    )  # fmt: skip
    view = BarView("A", 1, other, ())
    assert view.ends == "no end square: trim the first back to the mark at 1.00"
    assert other.pieces[0].start == 1.0
    assert Row(1, "a", other.pieces[0], False, 100.0).ends == "both ends sawn"
    assert view.name == "A: number 3, 100 mm, from the drawer"


def test_a_square_end_and_a_raw_one_are_told_apart() -> None:
    found = in_hand(107.7, 1)
    assert BarView("A", 1, found, ()).ends == "begin at its square end"
    rows = [Row(n, p.length, p, False, 107.7) for n, p in enumerate(found.pieces, 1)]
    assert [row.ends for row in rows] == [
        "first end the bar's own", "second end the bar's own, to true"
    ]  # fmt: skip


def test_a_long_title_is_no_wider_than_the_bars() -> None:
    plan = plan_tables(read_tables(design("tube-box").examples[0].text))
    found = cutting(orders([plan] * 8, 2), default_shop())
    assert cutlist_drawing(found).width == pytest.approx(cutlist_drawing(made(2)).width, abs=6.0)
    assert max(map(len, cutlist_text(found).splitlines())) <= 78


def pages_of(cut: Cutting, paper: str = "a4") -> list[str]:
    document = pypdfium2.PdfDocument(cutlist_pdf(cut, paper))
    texts = (str(page.get_textpage().get_text_bounded()) for page in document)
    return [" ".join(text.replace("\u00a0", " ").split()) for text in texts]


def test_the_cautions_stand_at_the_top_of_the_first_page(twelve: Cutting) -> None:
    """Nobody saws by page 1 and reads on page 2 that it is never done by hand alone."""
    pages = pages_of(twelve)
    assert len(pages) == 1
    first = pages[0]
    for words in ("Saw past the large one", "never by hand alone", "before any cap", "safety data"):
        assert first.index(words) < first.index("to buy")


def test_marks_are_in_inches_too_where_readings_were() -> None:
    """By hand: 25.4 mm to the inch."""
    cut = made(2, wall='["0.92", "0.91"]->["0.036 in", "0.036 in"]')
    text, page = cutlist_text(cut), " ".join(pages_of(cut, "letter"))
    (each,) = cut.lists
    for piece in (piece for bar in each.bars for piece in bar.pieces):
        for size in (piece.start, piece.end, piece.long):
            assert f"{size / 25.4:.3f}" in text
            assert f"{size / 25.4:.3f} in" in page
    row = next(line for line in text.splitlines() if line.endswith("in"))
    head = next(line for line in text.splitlines() if line.rstrip().endswith("long mm"))
    assert row.rindex(f"{each.bars[0].pieces[0].long / 25.4:.3f}") + 5 == head.index("long") + 4
    assert "long mm" not in cutlist_text(made(2))
