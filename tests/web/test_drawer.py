"""The drawer page: found, put in, put right, taken out, out to files and in again, taken back."""

import re
import statistics
import time
from collections.abc import Callable, Iterator
from html import unescape
from pathlib import Path
from typing import Any

import httpx
import pytest

from hollowright.shapes.outline import polygon
from hollowright.store.items import NewItem
from hollowright.store.store import Store, open_store
from hollowright.web.app import make_app

HOME = "http://127.0.0.1:8765"
Ask = Callable[..., httpx.Response]
SHEET = {
    "form": "sheet",
    "metal": "C26000",
    "thickness": "0.71; 0.70",
    "length": "12 in",
    "width": "150",
}


@pytest.fixture
def place(tmp_path: Path) -> str:
    """Where the drawer is."""
    return str(tmp_path / "drawer.sqlite3")


@pytest.fixture
def store(place: str) -> Iterator[Store]:
    """The drawer itself."""
    with open_store(place) as opened:
        yield opened


@pytest.fixture
def ask(run: Callable[..., Any], place: str, store: Store) -> Iterator[Ask]:
    """Ask a page that has this drawer."""
    app = make_app("127.0.0.1", drawer=place)

    def asked(method: str, path: str, **rest: Any) -> httpx.Response:
        async def once() -> httpx.Response:
            transport = httpx.ASGITransport(app)
            async with httpx.AsyncClient(transport=transport, base_url=HOME) as client:
                return await client.request(method, path, **rest)

        return run(once)

    yield asked
    app.state.bench.door.close()


def test_put_in_by_the_form_with_units_and_readings(ask: Ask, store: Store) -> None:
    answer = ask(
        "POST", "/drawer/add", data=SHEET | {"place": "tin 3", "cost": "12.50", "wall": "1"}
    )
    assert (answer.status_code, answer.headers["location"]) == (303, "/drawer?new=1")
    item = store.item(1)
    assert item.thickness == pytest.approx(0.705)
    assert item.length == pytest.approx(12 * 25.4)
    assert (item.place, item.cost, item.wall) == ("tin 3", 12.5, None)
    assert "Write <b" in ask("GET", "/drawer?new=1").text


@pytest.mark.parametrize(
    ("wrong", "field", "word"),
    [
        ({"thickness": "0,71"}, "thickness", "Write 0.71"),
        ({"length": ""}, "length", "it is missing"),
        ({"grain": "sideways"}, "grain", "isn't an angle"),
        ({"cost": "much"}, "cost", "isn't a number"),
    ],
)
def test_what_is_wrong_stands_beside_its_box(
    ask: Ask, store: Store, wrong: dict[str, str], field: str, word: str
) -> None:
    answer = ask("POST", "/drawer/add", data=SHEET | {"note": "kept <b>"} | wrong)
    assert answer.status_code == 422
    beside = re.search(rf'id="fault-{field}">(.*?)</p>', answer.text, re.DOTALL)
    assert beside
    assert word in unescape(beside[1])
    assert 'value="kept &lt;b&gt;"' in answer.text
    assert store.items().total == 0


def test_a_drawn_shape_comes_in(ask: Ask, store: Store) -> None:
    size = 'width="60mm" height="40mm" viewBox="0 0 60 40"'
    path = '<path d="M0 0H60V20H30V40H0Z"/>'
    svg = f'<svg xmlns="http://www.w3.org/2000/svg" {size}>{path}</svg>'.encode()
    data = {"form": "sheet", "metal": "C26000", "thickness": "0.8"}
    answer = ask("POST", "/drawer/add", data=data, files={"drawing": ("a.svg", svg)})
    assert answer.status_code == 303, answer.text
    assert store.item(1).area == pytest.approx(60 * 20 + 30 * 20)
    assert 'class="shape"' in ask("GET", "/drawer").text
    wrong = ask("POST", "/drawer/add", data=data, files={"drawing": ("a.svg", b"<svg>")})
    assert wrong.status_code == 422


def test_found_by_words_form_and_metal_in_pages(ask: Ask, store: Store) -> None:
    tube = NewItem(form="tube", metal="C26000", outside_diameter=38.0, wall=1.0, length=300.0)
    sheet = NewItem(
        form="sheet", metal="C11000", thickness=0.8, length=50.0, width=40.0, place="tin 7"
    )
    store.add_all([tube] * 60 + [sheet] * 3)
    answer = ask("GET", "/drawer")
    assert "page 1 of 2" in answer.text
    assert answer.text.count('class="number" href') == 50
    assert 'href="/drawer?page=2"' in answer.text
    assert ask("GET", "/drawer?page=2").text.count('class="number" href') == 13
    found = ask("GET", "/drawer?text=tin+7&form=sheet&metal=C11000")
    assert found.text.count('class="number" href') == 3
    assert "Nothing of that kind" in ask("GET", "/drawer?text=tin+8").text
    for query in ("page=0", "page=-1", "page=x", "page=99999999999", "form=cube", "metal=' or 1=1"):
        assert ask("GET", f"/drawer?{query}").status_code == 200


def test_put_right_and_taken_out_with_the_record(ask: Ask, store: Store) -> None:
    ask("POST", "/drawer/add", data=SHEET | {"place": "tin 3"})
    shown = ask("GET", "/drawer/1").text
    values = {n: unescape(v) for n, v in re.findall(r'name="(\w+)" value="([^"]*)"', shown)}
    assert values["thickness"] == "0.71; 0.70"
    same = ask("POST", "/drawer/1/change", data=values)
    assert same.status_code == 303
    assert len(store.changes(1)) == 1
    ask("POST", "/drawer/1/change", data=values | {"place": "tin 4", "note": "bent"})
    assert (store.item(1).place, store.item(1).note) == ("tin 4", "bent")
    assert "tin 3 → tin 4" in unescape(ask("GET", "/drawer/1").text)
    wrong = ask("POST", "/drawer/1/change", data=values | {"width": "a lot"})
    assert wrong.status_code == 422
    assert 'value="a lot"' in wrong.text
    assert ask("POST", "/drawer/1/take", data={"why": " "}).status_code == 422
    assert store.item(1).there
    assert ask("POST", "/drawer/1/take", data={"why": "lent to the class"}).status_code == 303
    assert store.item(1).gone_why == "lent to the class"
    assert "lent to the class" in ask("GET", "/drawer?gone=yes").text
    assert ask("POST", "/drawer/1/take", data={"why": "again"}).status_code == 422
    assert ask("GET", "/drawer/77").status_code == 404


def test_out_to_files_and_in_again(ask: Ask, store: Store) -> None:
    notched = polygon([(0, 0), (80, 0), (80, 20), (40, 20), (40, 60), (0, 60)])
    store.add(NewItem(form="sheet", metal="C26000", thickness=0.8, outline=notched, note="=1+1"))
    for kind, came in (("csv", 1), ("json", 2)):
        told = ask("GET", f"/drawer/drawer.{kind}")
        assert f'filename="drawer.{kind}"' in told.headers["content-disposition"]
        again = re.sub(rb"(?m)^[0-9]+,", b",", told.content)
        again = re.sub(rb'"number": [0-9]+,', b'"number": null,', again)
        answer = ask("POST", "/drawer/import", files={"file": (f"d.{kind}", again)})
        assert answer.headers.get("location") == f"/drawer?came={came}", re.findall(
            r"<p>(.*?)</p>", answer.text
        )
    assert [item.note for item in store.items().items] == ["=1+1"] * 4
    assert {item.area for item in store.items().items} == {store.item(1).area}
    assert ask("GET", "/drawer/drawer.exe").status_code == 404


def test_a_wrong_file_brings_in_nothing_and_names_the_lines(ask: Ask, store: Store) -> None:
    raw = b"form,metal,thickness,length,width\nsheet,brass,0.7,100,50\nsheet,brass,thick,100,50\n"
    answer = ask("POST", "/drawer/import", files={"file": ("d.csv", raw)})
    assert answer.status_code == 422
    assert "line 3" in unescape(answer.text)
    assert store.items().total == 0
    assert ask("POST", "/drawer/import", data={}).status_code == 422


def test_cuttings_are_listed_and_taken_back(ask: Ask, store: Store) -> None:
    from hollowright.job.job import plan_tables
    from hollowright.job.laying import lay_out, tasks
    from hollowright.plan.orders import orders
    from hollowright.shop import default_shop
    from hollowright.web.form import first_values, tables_of

    assert "Nothing was cut yet" in ask("GET", "/drawer/cuttings").text
    plan = plan_tables(tables_of(first_values()))
    thickness = plan.piece.stock("cap_sheet").thickness.value
    store.add(NewItem(form="sheet", metal="C26000", thickness=thickness, length=200.0, width=90.0))
    there = store.sheets_for("C26000", thickness, tolerance=0.001)
    done = store.cut_layouts(lay_out(tasks(orders([plan]), default_shop(), there)), "a box")
    assert "a box" in ask("GET", "/drawer/cuttings").text
    assert not store.item(1).there
    assert ask("POST", f"/drawer/cuttings/{done.number}/undo").status_code == 303
    assert store.item(1).there
    again = ask("POST", f"/drawer/cuttings/{done.number}/undo")
    assert again.status_code == 422
    assert "Not taken back" in again.text


def test_foreign_pages_and_large_bodies_are_refused(ask: Ask) -> None:
    for path in ("/drawer/add", "/drawer/import", "/drawer/1/take", "/drawer/cuttings/1/undo"):
        answer = ask("POST", path, data=SHEET, headers={"origin": "http://elsewhere.test"})
        assert answer.status_code == 403
    big = b"x" * 1_000_001
    assert ask("POST", "/drawer/add", content=big).status_code == 413
    assert ask("POST", "/drawer/import", files={"file": ("d.csv", big)}).status_code == 422
    assert ask("POST", "/drawer/import", content=b"x" * 20_000_001).status_code == 413


def test_a_page_of_ten_thousand_items_is_quick(ask: Ask, store: Store) -> None:
    """Under 50 ms in the median by issue; asked here with room for a slow machine."""
    sheet = NewItem(form="sheet", metal="C26000", thickness=0.8, length=50.0, width=40.0)
    store.add_all([sheet] * 10_000)
    ask("GET", "/drawer")
    took = []
    for page in range(1, 10):
        began = time.perf_counter()
        assert ask("GET", f"/drawer?page={page}").status_code == 200
        took.append(time.perf_counter() - began)
    assert statistics.median(took) < 0.2


def test_no_metal_is_taken_unawares_and_a_wrong_one_is_put_right(ask: Ask, store: Store) -> None:
    page = ask("GET", "/drawer").text
    select = re.search(r'<select id="metal".*?</select>', page, re.DOTALL)
    assert select
    assert re.search(r'<option value="">choose one</option>', select[0])
    assert "selected" not in select[0]
    unsaid = ask("POST", "/drawer/add", data=SHEET | {"metal": ""})
    assert unsaid.status_code == 422
    assert re.search(r"Not right:</b> it is missing", unescape(unsaid.text))
    ask("POST", "/drawer/add", data=SHEET | {"metal": "C11000"})
    values = SHEET | {"metal": "C26000"}
    assert ask("POST", "/drawer/1/change", data=values).status_code == 303
    assert store.item(1).metal == "C26000"
    shown = unescape(ask("GET", "/drawer/1").text)
    assert "metal C11000 → C26000" in shown
    assert "can't be changed: take it out below" in shown


def test_an_odd_outline_comes_in_by_its_corners(ask: Ask, store: Store) -> None:
    data = {"form": "sheet", "metal": "C26000", "thickness": "0.8"}
    corners = "0,0 160,0 160,50 60,50 60,90 0,90"
    assert ask("POST", "/drawer/add", data=data | {"corners": corners}).status_code == 303
    assert store.item(1).area == pytest.approx(160 * 50 + 60 * 40)
    assert (store.item(1).length, store.item(1).width) == (160, 90)
    wrong = ask("POST", "/drawer/add", data=data | {"corners": "0,0 160,0 90"})
    assert wrong.status_code == 422
    beside = re.search(r'id="fault-corners">(.*?)</p>', wrong.text, re.DOTALL)
    assert beside
    assert "isn't a corner" in unescape(beside[1])
    assert 'value="0,0 160,0 90"' in wrong.text
    assert 'name="corners"' not in ask("GET", "/drawer/1").text


def test_a_number_that_nothing_has_isnt_a_shut_drawer(ask: Ask) -> None:
    for path in ("/drawer/999", "/drawer/cuttings/999"):
        answer = ask("GET", path)
        assert answer.status_code == 404
        assert "Nothing of that number" in answer.text
        assert "goes on without it" not in answer.text
