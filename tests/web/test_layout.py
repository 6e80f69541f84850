"""The layout page asked in process: what it lays out, pins, refuses, keeps, cuts, hands out."""

import io
import json
import re
import time
from collections.abc import Callable, Iterator
from html import unescape
from pathlib import Path
from typing import Any

import ezdxf
import httpx
import pytest

from hollowright.designs import design
from hollowright.job.job import plan_tables, read_tables
from hollowright.plan.orders import orders
from hollowright.store.items import NewItem
from hollowright.store.store import open_store
from hollowright.web.app import make_app
from hollowright.web.form import first_values, piece_text

HOME = "http://127.0.0.1:8765"
BOX = design("tube-box").examples[0].text
PLAN = plan_tables(read_tables(BOX))
CAP = f"{orders([PLAN])[0].key}.cap"
Ask = Callable[..., httpx.Response]


@pytest.fixture
def drawer(tmp_path: Path) -> str:
    """A drawer with one sheet that suits the caps of the example box."""
    place = str(tmp_path / "drawer.sqlite3")
    thickness = PLAN.piece.stock("cap_sheet").thickness.value
    with open_store(place) as store:
        store.add(
            NewItem(
                form="sheet", metal="C26000", thickness=thickness, length=220.0, width=90.0,
                place="tin 3",
            )
        )  # fmt: skip
    return place


@pytest.fixture
def lay(run: Callable[..., Any], drawer: str) -> Iterator[Ask]:
    """Ask a page that has this drawer."""
    app = make_app("127.0.0.1", drawer=drawer)

    def asked(method: str, path: str, **rest: Any) -> httpx.Response:
        async def once() -> httpx.Response:
            transport = httpx.ASGITransport(app)
            async with httpx.AsyncClient(transport=transport, base_url=HOME) as client:
                return await client.request(method, path, **rest)

        return run(once)

    yield asked
    app.state.bench.searches.close()
    app.state.bench.door.close()


def form(**more: Any) -> dict[str, Any]:
    """The layout page's form of the example box."""
    return {"piece": BOX, "copies": "2", "page": "test"} | more


def hidden(answer: httpx.Response, name: str) -> str:
    """What a hidden box of the page holds."""
    found = re.search(rf'name="{name}"[^>]* value="([^"]*)"', answer.text)
    assert found, name
    return unescape(found[1])


def spots(answer: httpx.Response) -> list[list[Any]]:
    """Where everything lies on the page."""
    found: list[list[Any]] = json.loads(hidden(answer, "spots"))
    return found


def test_from_the_plan_page_to_the_layout(lay: Ask) -> None:
    values = first_values()
    answer = lay("POST", "/layout", data=values | {"good": piece_text(values)})
    assert answer.status_code == 200
    counts = {part.name: part.count for part in PLAN.parts if part.blank.flat}
    assert len(spots(answer)) == sum(counts.values())
    for name in counts:
        assert name in answer.text


def test_a_plan_with_faults_shows_them_and_no_layout(lay: Ask) -> None:
    values = first_values() | {"stock.tube.wall": "0,92"}
    answer = lay("POST", "/layout", data=values)
    assert answer.status_code == 422
    assert "Write 0.92" in answer.text
    assert 'id="piece"' in answer.text


def test_each_copy_finds_its_place_and_the_drawer_comes_first(lay: Ask) -> None:
    answer = lay("POST", "/layout", data=form())
    lying = [spot for spot in spots(answer) if spot[0] == CAP]
    assert len(lying) == 4
    assert {spot[1] for spot in lying} == {"drawer-1"}
    assert "1, tin 3" in answer.text
    without = lay("POST", "/layout", data=form(drawer="no"))
    assert not any(spot[1].startswith("drawer") for spot in spots(without))


def test_what_to_mind_at_the_saw_is_said(lay: Ask) -> None:
    text = unescape(lay("POST", "/layout", data=form()).text)
    for said in ("File burrs off", "clamp small pieces", "makers' safety"):
        assert said in text


def test_shares_and_weights_add_up(lay: Ask) -> None:
    """Used, kept and waste of a batch are its sheets; the weights follow the density."""
    answer = lay("POST", "/layout", data=form())
    data = lay(
        "POST", "/layout/file", data=form(spots=hidden(answer, "spots"), what="layout-plan.json")
    )
    for batch in data.json()["batches"]:
        for sheet in batch["sheets"]:
            assert sheet["used"] + sheet["kept"] + sheet["waste"] == pytest.approx(sheet["area"])
            assert f"{100 * sheet['waste'] / sheet['area']:.1f} %" in answer.text


@pytest.mark.parametrize(
    ("wrong", "word"),
    [
        ({"copies": "0"}, "Write 1 to 500"),
        ({"copies": "2.5"}, "whole number"),
        ({"copies": "-3"}, "Write 1 to 500"),
        ({"copies": "lots"}, "Write 1 to 500"),
        ({"copies": "501"}, "Write 1 to 500"),
        ({"seconds": "1e9"}, "isn't a number"),
        ({"seconds": "9999"}, "isn't between 1 and 120"),
        ({"pins": "[[1,2]]"}, "can't be read"),
        ({"pins": "{"}, "can't be read"),
        ({"pins": json.dumps([[CAP, "drawer-1", 1e9, 0, 0, False, True]])}, "can't be read"),
        ({"spots": "[" * 5000}, "can't be read"),
    ],
)
def test_what_is_wrong_is_told_and_nothing_is_lost(lay: Ask, wrong: Any, word: str) -> None:
    answer = lay("POST", "/layout", data=form(**wrong))
    assert answer.status_code == 422
    assert word in unescape(answer.text)
    assert unescape(hidden(answer, "piece")).replace("\r", "") == BOX


def test_pieces_are_added_and_left_out(lay: Ask) -> None:
    other = design("walled-box").examples[0].text
    two = lay("POST", "/layout", data=form(do="add", pasted=other))
    assert two.text.count('name="piece"') == 2
    both = {"piece": [BOX, other], "copies": ["2", "1"], "do": "drop:0"}
    one = lay("POST", "/layout", data=both)
    assert one.text.count('name="piece"') == 1
    assert unescape(hidden(one, "piece")) == other
    wrong = lay("POST", "/layout", data=form(do="add", pasted="not = [toml"))
    assert wrong.status_code == 422
    assert "isn't TOML" in unescape(wrong.text)
    assert wrong.text.count('name="piece"') == 1
    assert ">not = [toml</textarea>" in wrong.text  # nothing that was typed is lost
    comma = BOX.replace('"0.92"', '"0,92"')
    assert comma != BOX
    field = lay("POST", "/layout", data=form(do="add", pasted=comma))
    told = unescape(re.sub(r"<textarea.*?</textarea>", "", field.text, flags=re.DOTALL))
    assert told.count("stock.tube.wall: ") == told.count("Write 0.92") == 1


def test_two_files_of_one_title_are_told_apart(lay: Ask) -> None:
    two = {"piece": [BOX, BOX.replace("0.92", "0.91")], "copies": ["1", "1"]}
    page = lay("POST", "/layout", data=two).text
    choices = re.search(r'<select id="pin_blank".*?</select>', page, re.DOTALL)
    assert choices
    names = re.findall(r"<option[^>]*>(.*?)</option>", choices[0])
    assert len(names) == len(set(names)) > 2
    buttons = re.findall(r'value="sheet-[^"]+\.svg">(.*?)</button>', page)
    assert len(buttons) == len(set(buttons)) > 1


def test_too_many_pieces_are_refused_in_words(lay: Ask) -> None:
    answer = lay("POST", "/layout", data={"piece": [BOX] * 21, "copies": ["1"] * 21})
    assert answer.status_code == 422
    assert "Lay out 20 at most." in answer.text


def pin(x: float, y: float, sheet: str = "drawer-1", **more: Any) -> list[Any]:
    return [CAP, sheet, x, y, more.get("turn", 0.0), more.get("over", False), True]


def test_a_pin_stands_and_the_rest_lies_round_it(lay: Ask) -> None:
    pinned = pin(150.0, 45.0)
    answer = lay(
        "POST", "/layout/lay", data=form(pins=json.dumps([pinned])), headers={"hx-request": "true"}
    )
    assert "hx-reswap" not in answer.headers
    assert pinned in spots(answer)
    assert json.loads(hidden(answer, "pins")) == [pinned]
    assert len([spot for spot in spots(answer) if spot[0] == CAP]) == 4
    assert "pinned" in answer.text


@pytest.mark.parametrize(
    ("pins", "word"),
    [
        ([pin(0.0, 45.0)], "stand out over the sheet's edge"),
        ([pin(19.5, 45.0)], "nearer than 2 mm to the sheet's edge"),
        ([pin(100.0, 45.0), pin(110.0, 45.0)], "nearer than the kerf"),
        ([pin(60.0, 45.0, "drawer-99")], "isn't there"),
        ([pin(60.0, 45.0, "drawer-1#2")], "isn't there"),
        ([pin(60.0, 45.0, over=True)], "may not be turned over"),
        ([["nothing", "drawer-1", 60, 45, 0, False, True]], "isn't known"),
    ],
)
def test_an_unsound_pin_is_refused_with_the_reason(lay: Ask, pins: Any, word: str) -> None:
    answer = lay(
        "POST", "/layout/lay", data=form(pins=json.dumps(pins)), headers={"hx-request": "true"}
    )
    assert answer.headers["hx-reswap"] == "none"
    assert word in json.loads(answer.headers["hx-trigger"])["notso"]["why"]
    assert word in unescape(answer.text)
    assert 'name="spots"' not in answer.text


def test_a_pin_may_be_turned_only_as_chosen(lay: Ask) -> None:
    pins = json.dumps([pin(60.0, 45.0, turn=30.0)])
    assert "hx-reswap" not in lay("POST", "/layout/lay", data=form(pins=pins)).headers
    quarter = lay("POST", "/layout/lay", data=form(pins=pins, turning="quarter"))
    assert "may not be turned by 30 degrees" in quarter.text
    single = lay("POST", "/layout/lay", data=form(pins=pins) | {f"turning:{CAP}": "quarter"})
    assert "may not be turned by 30 degrees" in single.text


def test_a_blank_is_pinned_by_numbers_and_unpinned(lay: Ask) -> None:
    typed = {
        "do": "pin",
        "pin_blank": CAP,
        "pin_sheet": "drawer-1",
        "pin_x": "120",
        "pin_y": "3 in",
    }
    answer = lay("POST", "/layout", data=form(**typed))
    assert answer.status_code == 422
    assert "stand out" in unescape(answer.text) or "nearer" in unescape(answer.text)
    answer = lay("POST", "/layout", data=form(**typed | {"pin_y": "45"}))
    assert [CAP, "drawer-1", 120.0, 45.0, 0.0, False, True] in spots(answer)
    pins = hidden(answer, "pins")
    gone = lay("POST", "/layout", data=form(pins=pins, do="unpin:0"))
    assert json.loads(hidden(gone, "pins")) == []
    comma = lay("POST", "/layout", data=form(**typed | {"pin_y": "45,2"}))
    assert comma.status_code == 422
    assert 'value="45,2"' in comma.text
    assert 'value="120"' in comma.text
    assert "isn't a length" in unescape(comma.text)


def test_a_search_goes_on_is_followed_and_what_it_found_is_kept(lay: Ask) -> None:
    first = form(copies="3", seconds="2", drawer="no")
    begun = lay("POST", "/layout/search", data=first)
    place = re.search(r'hx-get="(/layout/search/[\w-]+)\?seen=0"', begun.text)
    assert place, begun.text
    assert "<progress" in begun.text
    seen, better, shown = 0, False, spots(lay("POST", "/layout", data=first))
    for _ in range(80):
        time.sleep(0.1)
        step = lay("GET", f"{place[1]}?seen={seen}")
        if "hx-swap-oob" in step.text:
            better, shown = True, spots(step)
        if "hx-get" not in step.text:
            break
        seen = int(re.findall(r"seen=(\d+)", step.text)[0])
    assert 'data-state="done"' in step.text
    again = lay("POST", "/layout", data=first)
    assert "Found before and kept" in again.text
    assert "/layout/search" not in again.text
    wanted = 3 * sum(part.count for part in PLAN.parts if part.blank.flat)
    assert len(spots(again)) == wanted
    if better:  # what came last is what is kept
        assert spots(again) == shown


def test_a_search_is_stopped_and_an_unknown_one_is_nothing(lay: Ask) -> None:
    begun = lay("POST", "/layout/search", data=form(copies="12", seconds="60", drawer="no"))
    place = re.search(r'hx-get="(/layout/search/[\w-]+)\?seen=0"', begun.text)
    assert place
    started = time.monotonic()
    stopped = lay("POST", place[1])
    assert time.monotonic() - started < 4
    assert re.search(r'data-state="(stopped|searching)"', stopped.text)
    assert lay("GET", "/layout/search/none").text == ""


def test_files_of_the_layout_that_is_shown(lay: Ask) -> None:
    answer = lay("POST", "/layout", data=form())
    shown = form(spots=hidden(answer, "spots"), pins=hidden(answer, "pins"))

    def got(what: str) -> httpx.Response:
        found = lay("POST", "/layout/file", data=shown | {"what": what})
        assert found.status_code == 200, what
        assert f'filename="{what}"' in found.headers["content-disposition"]
        return found

    assert got("layout-a4.pdf").content.startswith(b"%PDF")
    kept = got("layout.json").json()
    assert sum(len(batch["spots"]) for batch in kept["batches"]) == len(spots(answer))
    names = re.findall(r'value="(sheet-[^"]+)\.svg"', answer.text)
    assert len(names) == len({spot[1] for spot in spots(answer)})
    assert got(f"{names[0]}.svg").text.startswith("<svg")
    drawing = ezdxf.read(io.StringIO(got(f"{names[0]}.dxf").content.decode()))
    assert len(drawing.modelspace()) > 0
    assert lay("POST", "/layout/file", data=shown | {"what": "../shop.toml"}).status_code == 404


def test_a_sheet_that_has_gone_is_called_as_at_the_bench(lay: Ask, drawer: str) -> None:
    answer = lay("POST", "/layout", data=form())
    with open_store(drawer) as store:
        store.take(1, "lent")
    shown = form(spots=hidden(answer, "spots"))
    for path in ("/layout/cut", "/layout/file"):
        text = lay("POST", path, data=shown | {"what": "layout-a4.pdf"}).text
        told = re.sub(r'<input[^>]*>|value="[^"]*"', "", unescape(text))
        assert "the drawer's number 1 isn't there any more" in told
        assert "'drawer-1'" not in told


def test_a_search_without_script_says_what_came_of_it(lay: Ask) -> None:
    answer = lay("POST", "/layout", data=form(do="search", seconds="1"))
    assert "Searched for 1 s. " in answer.text


def test_a_file_of_a_layout_that_isnt_sound_is_refused(lay: Ask) -> None:
    answer = lay("POST", "/layout", data=form())
    moved = spots(answer)
    moved[0][2] += 3.0
    shown = form(spots=json.dumps(moved), what="layout-a4.pdf")
    refused = lay("POST", "/layout/file", data=shown)
    assert refused.status_code == 422
    assert "Not so" in refused.text


def test_cutting_is_asked_once_more_and_takes_the_metal_out(lay: Ask, drawer: str) -> None:
    answer = lay("POST", "/layout", data=form())
    shown = form(spots=hidden(answer, "spots"))
    asked = lay("POST", "/layout/cut", data=shown)
    assert "Cut it?" in asked.text
    with open_store(drawer) as store:
        assert store.item(1).there
    sure = shown | {"sure": "yes", "once": hidden(asked, "once")}
    done = lay("POST", "/layout/cut", data=sure)
    assert (done.status_code, done.headers["location"]) == (303, "/drawer/cuttings/1?now=yes")
    with open_store(drawer) as store:
        assert not store.item(1).there
        cutting = store.cuttings()[0]
        assert cutting.out == (1,)
        assert cutting.made_for == f"2 × {PLAN.piece.title}"
    later = lay("POST", "/layout/cut", data=shown | {"sure": "yes", "once": "unknown"})
    assert later.status_code == 422
    assert "Not cut" in later.text
    with open_store(drawer) as store:
        assert len(store.cuttings()) == 1


def test_the_same_answer_sent_again_books_nothing_again(lay: Ask, drawer: str) -> None:
    """A reload, or back and once more: without the drawer's sheets nothing else would stop it."""
    first = form(drawer="no")
    shown = first | {"spots": hidden(lay("POST", "/layout", data=first), "spots")}
    asked = lay("POST", "/layout/cut", data=shown)
    assert "Booked already" not in asked.text
    sure = shown | {"sure": "yes", "once": hidden(asked, "once")}
    places = {lay("POST", "/layout/cut", data=sure).headers["location"] for _ in range(3)}
    assert places == {"/drawer/cuttings/1?now=yes"}
    with open_store(drawer) as store:
        assert [each.number for each in store.cuttings()] == [1]
    assert "Booked already" in lay("POST", "/layout/cut", data=shown).text
    assert lay("POST", "/drawer/cuttings/1/undo").status_code == 303
    assert "Booked already" not in lay("POST", "/layout/cut", data=shown).text


def test_the_cutting_tells_which_number_goes_on_which_offcut(lay: Ask, drawer: str) -> None:
    answer = lay("POST", "/layout", data=form(copies="3"))
    shown = form(copies="3", spots=hidden(answer, "spots"))
    asked = lay("POST", "/layout/cut", data=shown)
    lay("POST", "/layout/cut", data=shown | {"sure": "yes", "once": hidden(asked, "once")})
    page = lay("GET", "/drawer/cuttings/1").text
    with open_store(drawer) as store:
        came = [store.item(number) for number in store.cutting(1).came_in]
    assert came
    pictured = [int(each) for each in re.findall(r"<text[^>]*>(\d+)</text>", page)]
    assert sorted(pictured) == sorted(item.number for item in came)
    for item in came:
        row = re.search(rf'href="/drawer/{item.number}">.*?</tr>', page, re.DOTALL)
        assert row
        assert item.size_text in row[0]
        assert '<svg class="shape"' in row[0]
        sheet = f"number {item.cut_from}" if item.cut_from else item.note.split(" (")[0][8:]
        assert sheet in unescape(row[0])
    assert lay("GET", "/drawer/cuttings/99").status_code == 404


def test_a_visit_to_the_cut_list_leaves_the_layout_as_it_was(lay: Ask) -> None:
    first = form(pins=json.dumps([pin(150.0, 45.0)]), seconds="7")
    answer = lay("POST", "/layout", data=first)
    shown = first | {"spots": hidden(answer, "spots"), "pins": hidden(answer, "pins")}
    moved = json.loads(shown["spots"])
    loose = next(spot for spot in moved if spot[0] == CAP and not spot[6])
    loose[4] = 37.0  # as no search would leave it: only what was shown comes back
    shown["spots"] = json.dumps(moved)
    for path in ("/cutlist", "/layout/cut"):
        there = lay("POST", path, data=shown)
        carried = re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)"', there.text)
        sent = {name: unescape(value) for name, value in carried}
        back = lay("POST", "/layout", data=sent | {"do": "shown"})
        assert back.status_code == 200
        assert sorted(map(str, spots(back))) == sorted(map(str, moved)), path
        assert json.loads(hidden(back, "pins")) == json.loads(shown["pins"])
        assert re.search(r'name="seconds" value="7"', back.text)


def test_without_a_drawer_that_opens_it_goes_on_and_says_so(run: Any, tmp_path: Path) -> None:
    app = make_app("127.0.0.1", drawer=str(tmp_path / "no" / "such" / "folder.sqlite3"))

    async def once(method: str, path: str, data: Any = None) -> httpx.Response:
        transport = httpx.ASGITransport(app)
        async with httpx.AsyncClient(transport=transport, base_url=HOME) as client:
            return await client.request(method, path, data=data)

    answer = run(once, "POST", "/layout", form())
    assert answer.status_code == 200
    assert "Without the drawer:" in answer.text
    assert len(spots(answer)) == 2 * sum(p.count for p in PLAN.parts if p.blank.flat)
    assert run(once, "GET", "/drawer").status_code == 503


def test_foreign_pages_are_refused(lay: Ask) -> None:
    for path in ("/layout", "/layout/lay", "/layout/search", "/layout/file", "/layout/cut"):
        answer = lay("POST", path, data=form(), headers={"origin": "http://elsewhere.test"})
        assert answer.status_code == 403
    assert lay("GET", "/layout", headers={"host": "elsewhere.test"}).status_code == 421


def test_the_policy_forbids_all_inline(lay: Ask) -> None:
    answer = lay("POST", "/layout", data=form())
    assert "'unsafe" not in answer.headers["content-security-policy"]
    assert not re.search(r"<style|\sstyle=|\son\w+=|<script(?![^>]*src=)", answer.text)


def test_names_are_escaped(lay: Ask) -> None:
    text = BOX.replace('title = "Striker box"', "title = '<script>alert(1)</script>'")
    answer = lay("POST", "/layout", data=form(piece=text))
    assert "<script>alert" not in answer.text
    assert "&lt;script&gt;" in answer.text


@pytest.mark.parametrize("path", ["/layout/lay", "/layout/file", "/layout/cut"])
def test_asked_for_anew_it_leads_back(lay: Ask, path: str) -> None:
    answer = lay("GET", path)
    assert (answer.status_code, answer.headers["location"]) == (303, "/layout")


def test_an_impossible_ask_says_which_blank_and_loses_nothing_else(lay: Ask) -> None:
    text = design("walled-box").examples[0].text
    large = text.replace('length = "52 mm"', 'length = "480 mm"').replace(
        'width = "31 mm"', 'width = "420 mm"'
    )
    assert large != text
    answer = lay("POST", "/layout", data={"piece": [large, BOX], "copies": ["1", "1"]})
    assert answer.status_code == 200
    assert "No place for" in answer.text
    flats = sum(part.count for part in PLAN.parts if part.blank.flat)
    box = orders([PLAN])[0].key
    assert sum(spot[0].startswith(f"{box}.") for spot in spots(answer)) == flats
    shown = {"piece": [large, BOX], "copies": ["1", "1"], "spots": hidden(answer, "spots")}
    data = lay("POST", "/layout/file", data=shown | {"what": "layout-plan.json"}).json()
    missing = [each for batch in data["batches"] for each in batch["missing"]]
    assert missing
    assert all(each["why"] and each["remedy"] for each in missing)


def test_a_pin_goes_with_its_piece(lay: Ask) -> None:
    other = design("walled-box").examples[0].text
    both = {"piece": [BOX, other], "copies": ["1", "1"], "pins": json.dumps([pin(60.0, 45.0)])}
    assert lay("POST", "/layout", data=both).status_code == 200
    answer = lay("POST", "/layout", data=both | {"do": "drop:0"})
    assert answer.status_code == 200
    assert json.loads(hidden(answer, "pins")) == []


def test_a_blank_sawn_from_strip_is_left_out_here_and_stands_on_the_cut_list(lay: Ask) -> None:
    ring = CAP.replace(".cap", ".ring")
    page = lay("POST", "/layout", data={"piece": BOX, "copies": "2"}).text
    assert f'name="strip:{ring}"' in page
    assert f'name="strip:{CAP}"' not in page
    assert f'data-item="{ring}"' in page
    sent = {"piece": BOX, "copies": "2", f"strip:{ring}": "yes", "drawer": "no"}
    sent["pins"] = json.dumps([[ring, "buy-150x75", 5.0, 5.0, 0.0, False, True]])
    page = lay("POST", "/layout", data=sent).text
    assert f'data-item="{ring}"' not in page
    assert f'data-item="{CAP}"' in page
    assert "Sawn from strip, see the cut list: ring." in page
    cut_list = lay("POST", "/cutlist", data=sent).text
    assert "No bar for 2 × striker-box.ring" in cut_list
    assert f'name="strip:{ring}" value="yes"' in cut_list
    assert "striker-box.ring" not in lay("POST", "/cutlist", data={"piece": BOX}).text


def test_a_piece_all_of_strip_leaves_no_old_sheet_standing(lay: Ask) -> None:
    band = design("finger-band").examples[0].text
    key = orders([plan_tables(read_tables(band))])[0].key
    answer = lay("POST", "/layout/lay", data={"piece": band, f"strip:{key}.band": "yes"})
    assert "hx-reswap" not in answer.headers
    assert "Nothing else is cut from sheet" in answer.text
    assert 'formaction="/cutlist"' in answer.text
