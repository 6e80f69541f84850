"""Every route: what it answers, as a page and as the part that is swapped while one types."""

import json
import tomllib
from collections.abc import Callable

import httpx
import pytest

from hollowright.designs import design
from hollowright.job.job import plan_tables, read_tables
from hollowright.output.data import plan_data
from hollowright.web.form import Values, first_values, piece_text, tables_of

Ask = Callable[..., httpx.Response]
SWAPPED = {"HX-Request": "true"}
EXAMPLE = plan_tables(read_tables(design("tube-box").examples[0].text))


def test_first_page_shows_the_example_and_its_plan(ask: Ask) -> None:
    page = ask("GET", "/")
    assert page.status_code == 200
    assert 'value="34.92 34.95 34.93"' in page.text
    cut = EXAMPLE.quantities["ring_cut_length"].value
    assert f"{cut:.2f} <small>mm long" in page.text


def test_every_field_has_its_label_and_every_id_is_used_once(ask: Ask) -> None:
    import re

    text = ask("GET", "/").text
    ids = re.findall(r'\bid="([^"]+)"', text)
    assert len(ids) == len(set(ids))
    for field in design("tube-box").fields:
        assert f'name="{field.path}"' in text
        assert f'<label for="{field.path.replace(".", "-")}"' in text
    for named in re.findall(r'(?:aria-(?:labelledby|describedby)|\bfor)="([^"]+)"', text):
        assert set(named.split()) <= set(ids)


def test_every_quantity_shows_its_working(ask: Ask) -> None:
    text = ask("GET", "/").text
    for id in EXAMPLE.quantities:
        assert f'id="working-{id}"' in text


def test_a_reading_moves_the_plan(ask: Ask, values: Values) -> None:
    values["as_built.lid_depth"] = "14.62 14.60"
    part = ask("POST", "/plan", data=values, headers=SWAPPED).text
    width = plan_data(plan_tables(tables_of(values)))["quantities"]["ring_width"]["value"]
    assert width == pytest.approx(14.61 + 2.5)
    assert f"finished 101.88 × {width:.2f}" in part
    assert "lid depth 14.61 where" in part


def test_the_part_holds_no_page_and_the_page_holds_all(ask: Ask, values: Values) -> None:
    part = ask("POST", "/plan", data=values, headers=SWAPPED)
    page = ask("POST", "/plan", data=values)
    assert part.status_code == page.status_code == 200
    assert "<html" not in part.text
    assert "<html" in page.text
    assert "hx-reswap" not in part.headers


def test_a_comma_is_told_beside_its_field_and_the_last_plan_stays(ask: Ask, values: Values) -> None:
    good = piece_text(values)
    values["stock.tube.wall"] = "0,92"
    part = ask("POST", "/plan", data=values | {"good": good}, headers=SWAPPED)
    assert part.headers["hx-reswap"] == "none"
    assert "Write 0.92 or 0.92 mm." in part.text.split("fault-stock-tube-wall", 1)[1][:300]
    page = ask("POST", "/plan", data=values | {"good": good})
    assert page.status_code == 422
    assert 'value="0,92"' in page.text
    assert "102.43" in page.text
    assert "The plan shown is the last that could be made." in page.text


def test_without_a_good_plan_the_page_says_so(ask: Ask, values: Values) -> None:
    values["sizes.height"] = ""
    page = ask("POST", "/plan", data=values)
    assert page.status_code == 422
    assert "There is no plan yet." in page.text
    assert 'id="sizes-height"' in page.text


def test_a_tube_too_short_is_told_at_the_tube(ask: Ask, values: Values) -> None:
    values["stock.tube.length"] = "40"
    page = ask("POST", "/plan", data=values).text
    assert "too short" in page.split('id="fault-stock-tube-length"', 1)[1][:300]


def test_check_finds_the_slip(ask: Ask, values: Values) -> None:
    wall_once = EXAMPLE.quantities["outside_diameter"].value - EXAMPLE.quantities["wall"].value
    said = values | {"quantity": "bore", "figure": f"{wall_once:.2f}"}
    for headers in (SWAPPED, {}):
        answer = ask("POST", "/check", data=said, headers=headers).text
        assert "It doesn&#39;t agree" in answer or "It doesn't agree" in answer
        assert "wall" in answer.split("<ol>", 1)[1].split("</ol>", 1)[0]
    right = values | {"quantity": "bore", "figure": f"{EXAMPLE.quantities['bore'].value:.2f}"}
    assert "It agrees" in ask("POST", "/check", data=right, headers=SWAPPED).text


@pytest.mark.parametrize(
    ("quantity", "figure", "said"),
    [("bore", "33,1", "33.1"), ("nothing", "3", "isn"), ("bore", "", "")],
)
def test_check_words_what_it_cannot_read(
    ask: Ask, values: Values, quantity: str, figure: str, said: str
) -> None:
    sent = values | {"quantity": quantity, "figure": figure}
    answer = ask("POST", "/check", data=sent, headers=SWAPPED)
    assert answer.status_code == 200
    assert said in answer.text


def test_an_opened_piece_file_fills_the_form(ask: Ask, values: Values) -> None:
    text = design("tube-box").examples[0].text.replace("Striker box", "Match tin")
    for sent in ({"files": {"file": ("p.toml", text.encode())}}, {"data": {"pasted": text}}):
        page = ask("POST", "/open", **sent)
        assert page.status_code == 200
        assert 'value="Match tin"' in page.text


@pytest.mark.parametrize("text", ["", "not [ toml", 'design = "teapot"', "\x00", "a = 1"])
def test_a_file_that_cannot_be_opened_leaves_what_was_typed(
    ask: Ask, values: Values, text: str
) -> None:
    values["title"] = "Typed by hand"
    page = ask("POST", "/open", data=values | {"pasted": text})
    assert page.status_code == 422
    if text != "a = 1":
        assert 'value="Typed by hand"' in page.text


def test_an_unknown_key_of_a_file_is_named(ask: Ask) -> None:
    text = design("tube-box").examples[0].text.replace("wall =", "wal =")
    page = ask("POST", "/open", data={"pasted": text})
    assert page.status_code == 422
    assert "stock.tube.wal" in page.text


def test_a_file_that_is_not_text_is_refused(ask: Ask) -> None:
    page = ask("POST", "/open", files={"file": ("p.toml", b"\xff\xfe\x00\x80")})
    assert page.status_code == 422
    assert "UTF-8" in page.text


def test_downloads(ask: Ask, values: Values) -> None:
    def got(what: str) -> httpx.Response:
        answer = ask("POST", "/download", data=values | {"what": what})
        assert answer.status_code == 200
        assert answer.headers["content-disposition"].startswith('attachment; filename="striker-box')
        return answer

    piece = tomllib.loads(got("piece.toml").text)
    assert plan_data(plan_tables(piece)) == plan_data(EXAMPLE)
    assert json.loads(got("plan.json").text) == plan_data(EXAMPLE)
    assert got("picture.svg").text.startswith("<svg")
    assert got("ring.svg").headers["content-type"].startswith("image/svg+xml")
    assert got("cap.dxf").text.startswith("  0\nSECTION")
    for paper in ("a4", "letter"):
        assert got(f"card-{paper}").content.startswith(b"%PDF")


@pytest.mark.parametrize("what", ["", "lid.svg", "ring.exe", "../../etc/passwd", "card-a0", "."])
def test_no_other_file_is_given(ask: Ask, values: Values, what: str) -> None:
    assert ask("POST", "/download", data=values | {"what": what}).status_code == 404


def test_nothing_is_downloaded_of_a_plan_with_faults(ask: Ask, values: Values) -> None:
    values["stock.tube.wall"] = "x"
    answer = ask("POST", "/download", data=values | {"what": "card-a4"})
    assert answer.status_code == 422
    assert "content-disposition" not in answer.headers


def test_lost_addresses(ask: Ask) -> None:
    assert ask("GET", "/nowhere").status_code == 404
    assert ask("GET", "/plan").status_code == 303
    assert ask("PUT", "/plan").status_code == 405
    assert ask("GET", "/?design=teapot").status_code == 404
    assert ask("POST", "/plan", data={"design": "teapot"}).status_code == 400
    assert ask("GET", "/static/../app.py").status_code == 404
    for answer in (ask("GET", "/nowhere"), ask("PUT", "/plan")):
        assert "To the first page" in answer.text


def test_what_the_page_needs_is_served(ask: Ask) -> None:
    for path in (
        "sheet.css",
        "form.css",
        "plan.css",
        "bench.js",
        "htmx/htmx.min.js",
        "favicon.svg",
    ):
        assert ask("GET", f"/static/{path}").status_code == 200
    assert ask("GET", "/favicon.ico").headers["location"] == "/static/favicon.svg"


def test_form_values_come_back_from_their_piece_file() -> None:
    values = first_values()
    values |= {"title": 'A "box"\\', "stock.tube.outside_diameter": "1 1/2 in; 1.501 in"}
    tables = tomllib.loads(piece_text(values))
    assert tables == tables_of(values)
    assert tables["stock"]["tube"]["outside_diameter"] == ["1 1/2 in", "1.501 in"]


def test_a_contradiction_stands_on_top_and_beside_its_field(ask: Ask, values: Values) -> None:
    changed = values | {"stock.tube.bore": "32.80"}
    page = ask("POST", "/plan", data=changed, headers=SWAPPED).text
    assert "Settle before you saw:" in page
    beside = page.partition('"innerHTML:#fault-stock-tube-bore">')[2].partition("</div>")[0]
    assert "Suspect: bore, read directly" in beside
    whole = ask("POST", "/plan", data=changed).text
    assert '<a href="#stock-tube-bore">' in whole
    assert "Settle before you saw:" not in ask("POST", "/plan", data=values, headers=SWAPPED).text


def test_a_caution_without_a_contradiction_leaves_the_strip_and_boxes(
    ask: Ask, values: Values
) -> None:
    """Out of round and far from planned stand beside the field alone; a sheet not read nowhere."""
    changed = values | {
        "stock.tube.outside_diameter": "34.92 35.3 34.93",
        "as_built.lid_depth": "20",
    }
    page = ask("POST", "/plan", data=changed, headers=SWAPPED).text
    assert "Settle before you saw:" not in page
    for name, said in (
        ("stock-tube-outside_diameter", True),
        ("as_built-lid_depth", True),
        ("as_built-ring_thickness", False),
    ):
        beside = page.partition(f'"innerHTML:#fault-{name}">')[2].partition("</div>")[0]
        assert ("<b>Mind:</b>" in beside) is said


def test_a_sawn_length_has_two_decimals(ask: Ask) -> None:
    guard = EXAMPLE.fits[0].guard.value
    assert f"The strip is cut {guard:.2f} mm long on purpose" in ask("GET", "/").text
