"""The cut list page: bars to scale, the marks, files, sawing what was looked at alone."""

import re
from collections.abc import Callable, Iterator
from html import unescape
from pathlib import Path
from typing import Any

import httpx
import pytest

from hollowright.designs import design
from hollowright.job.cutting import cutting
from hollowright.job.job import plan_tables, read_tables
from hollowright.output.cutlist_view import bar_views
from hollowright.plan.orders import orders
from hollowright.shop import default_shop
from hollowright.store.items import NewItem
from hollowright.store.store import Store, open_store
from hollowright.units import format_number
from hollowright.web.app import make_app
from hollowright.web.form import first_values, piece_text
from hollowright.web.sawing import shown_key

BOX = design("tube-box").examples[0].text
PLAN = plan_tables(read_tables(BOX))
TUBE = PLAN.piece.stock("tube")
FORM = {"piece": BOX, "copies": "8"}
Ask = Callable[..., httpx.Response]


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """A drawer with one bar of the example box's tube."""
    with open_store(str(tmp_path / "drawer.sqlite3")) as opened:
        sizes = {name: TUBE.sizes[name].value for name in ("outside_diameter", "wall")}
        opened.add(NewItem(form="tube", metal="C26000", length=250.0, square_ends=2, **sizes))
        yield opened


@pytest.fixture
def ask(run: Callable[..., Any], store: Store) -> Iterator[Ask]:
    """Ask a page that has this drawer."""
    app = make_app("127.0.0.1", drawer=store.place)

    def asked(data: dict[str, Any], **rest: Any) -> httpx.Response:
        async def once() -> httpx.Response:
            transport = httpx.ASGITransport(app)
            home = "http://127.0.0.1:8765"
            async with httpx.AsyncClient(transport=transport, base_url=home) as client:
                return await client.request("POST", "/cutlist", data=data, **rest)

        return run(once)

    yield asked
    app.state.bench.door.close()


def key(answer: httpx.Response) -> str:
    found = re.search(r'name="sure" value="(\w+)"', answer.text)
    assert found
    return found[1]


def once(answer: httpx.Response) -> str:
    found = re.search(r'name="once" value="([\w-]+)"', answer.text)
    assert found
    return found[1]


def test_every_piece_stands_there_with_its_marks(ask: Ask, store: Store) -> None:
    answer = ask(FORM)
    made = cutting(orders([PLAN], 8), default_shop(), store.bars_for)
    assert answer.status_code == 200
    cells = "\n".join(re.findall(r"<td>(?:<b>)?([\d.]+)(?:</b>)?</td>", answer.text))
    for each in made.lists:
        for bar in each.bars:
            for piece in bar.pieces:
                marks = (piece.start, piece.end, piece.long)
                assert "\n".join(map(format_number, marks)) in cells
    assert "from the drawer" in answer.text
    assert answer.text.count("<svg") == sum(len(bar_views(each)) for each in made.lists)
    assert "Cut list: " not in re.sub(r"<title>.*?</title>", "", answer.text)  # said once
    assert not re.search(r"\sstyle=|<style", answer.text)


def test_the_mark_to_saw_at_is_the_large_number_and_what_to_mind_is_said(ask: Ask) -> None:
    """As on paper: a piece's end; of one from the bar's second end, where it begins."""
    page = unescape(ask(FORM).text)
    rows = re.findall(r'<tr(?: class="(far)")?><th scope="row">\d.*?</tr>', page, re.DOTALL)
    marks = re.findall(r'<tr(?: class="far")?><th scope="row">\d(.*?)</tr>', page, re.DOTALL)
    assert marks
    for far, row in zip(rows, marks, strict=True):
        figures = re.findall(r"<td>(<b>)?[\d.]+(?:</b>)?</td>", row)
        assert [bool(each) for each in figures] == [bool(far), not far, False]
    assert "Saw past the large one" in page
    assert "Saw and true before any cap goes on" in page
    assert "makers' safety" in page


def test_readings_in_inches_are_told_in_inches_too(ask: Ask) -> None:
    assert " in</span>" not in ask(FORM).text
    inches = BOX.replace('["0.92", "0.91"]', '"0.036 in"')
    assert inches != BOX
    page = ask({"piece": inches, "copies": "2"}).text
    figures = re.findall(r'<td>(?:<b>)?([\d.]+)(?:</b>)?<br><span class="note">([\d.]+) in', page)
    assert figures
    for millimetres, inch in figures:
        assert float(inch) == pytest.approx(float(millimetres) / 25.4, abs=6e-4)


def test_from_the_plan_page(ask: Ask) -> None:
    values = first_values()
    assert "Cut list" in ask(values | {"good": piece_text(values)}).text
    assert ask(values | {"stock.tube.wall": "0,92"}).status_code == 422


def test_files(ask: Ask) -> None:
    assert ask(FORM | {"what": "cutlist-a4.pdf"}).content.startswith(b"%PDF")
    data = ask(FORM | {"what": "cutlist.json"}).json()
    assert data["orders"][0]["copies"] == 8
    assert ask(FORM | {"what": "cutlist.exe"}).status_code == 404


def test_sawn_is_what_was_looked_at(ask: Ask, store: Store) -> None:
    page = ask(FORM)
    looked, ticket = key(page), once(page)
    store.add(NewItem(form="tube", metal="C26000", length=20.0, **{
        name: TUBE.sizes[name].value for name in ("outside_diameter", "wall")
    }))  # fmt: skip
    wrong = ask(FORM | {"sure": "0" * 24, "once": ticket})
    assert wrong.status_code == 422
    assert "otherwise than it was shown" in unescape(wrong.text)
    assert store.item(1).there
    for _ in range(2):  # a reload books nothing again
        done = ask(FORM | {"sure": looked, "once": ticket})
        assert done.headers["location"] == "/drawer/cuttings/1?now=yes", done.text
    assert not store.item(1).there
    assert [each.kind for each in store.cuttings()] == ["bar"]
    assert ask(FORM | {"sure": looked}).status_code == 422


def test_bars_to_buy_are_booked_once(ask: Ask, store: Store) -> None:
    sent = FORM | {"drawer": "no"}
    page = ask(sent)
    for _ in range(2):
        assert ask(sent | {"sure": key(page), "once": once(page)}).status_code == 303
    assert len(store.cuttings()) == 1
    assert "Booked already" in ask(sent).text


def test_what_cant_be_sawn_is_told(ask: Ask) -> None:
    assert ask({"piece": BOX, "copies": "0"}).status_code == 422
    assert ask({}).status_code == 422
    assert ask(FORM, headers={"origin": "http://elsewhere.test"}).status_code == 403


def test_nothing_is_sawn_where_a_piece_has_no_bar(ask: Ask, store: Store) -> None:
    """As the command: what can't all be sawn is offered to nobody, and refused if it is sent."""
    sent = FORM | {"strip:striker-box.ring": "yes"}
    shown = ask(sent).text
    assert "No bar for 8 × striker-box.ring" in shown
    assert 'name="sure"' not in shown
    made = cutting(orders([PLAN], 8), default_shop(), store.bars_for, strips=("ring",))
    ticket = once(ask(FORM))
    assert ask(sent | {"sure": shown_key(made), "once": ticket}).status_code == 422
    assert store.item(1).there
