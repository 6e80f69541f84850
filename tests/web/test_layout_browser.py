"""The layout page in a real browser: dragged, pinned, by keyboard, searched, unscripted, narrow."""

import json
import re
import subprocess
import sys
from collections.abc import Callable, Iterator
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
import shapely
from shapely.affinity import rotate, translate

from hollowright.designs import design
from hollowright.job.job import plan_tables, read_tables
from hollowright.job.laying import tasks
from hollowright.plan.orders import orders
from hollowright.shapes.nesting.problem import Spot
from hollowright.shop import default_shop
from hollowright.store.items import NewItem
from hollowright.store.store import open_store

pytestmark = pytest.mark.browser
BOX = design("tube-box").examples[0].text
PLAN = plan_tables(read_tables(BOX))
SHOP = default_shop()
CAP = f"{orders([PLAN])[0].key}.cap"
Open = Callable[..., Any]


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Where the page is served, with a drawer that holds one sheet for caps."""
    place = str(tmp_path_factory.mktemp("drawer") / "drawer.sqlite3")
    thickness = PLAN.piece.stock("cap_sheet").thickness.value
    with open_store(place) as store:
        store.add(
            NewItem(form="sheet", metal="C26000", thickness=thickness, length=260.0, width=120.0)
        )
    start = f"from hollowright.web import serve; serve('127.0.0.1', 0, drawer={place!r})"
    with subprocess.Popen(
        [sys.executable, "-u", "-c", start], stdout=subprocess.PIPE, text=True
    ) as running:
        assert running.stdout is not None
        yield running.stdout.readline().split()[-1].rstrip("/")
        running.terminate()


@pytest.fixture
def laid(browser: Any, address: str) -> Iterator[Open]:
    """Open the layout page of the example box; at the end: nothing failed on the console."""
    contexts: list[Any] = []
    trouble: list[str] = []

    def opened(copies: str = "2", from_plan: bool = False, **options: Any) -> Any:
        context = browser.new_context(**{"viewport": {"width": 1280, "height": 900}} | options)
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(10_000)
        page.on("console", lambda said: said.type == "error" and trouble.append(said.text))
        page.on("pageerror", lambda fault: trouble.append(str(fault)))
        page.goto(address + ("/" if from_plan else "/layout"))
        if not from_plan:
            page.fill("#pasted", BOX)
        page.click("#lay-out" if from_plan else "#add")
        page.locator("#batches").wait_for()
        if copies != "1":
            page.fill("#seconds", "1")
            page.fill("#copies-0", copies)
            page.press("#copies-0", "Enter")
            many = 0
            while many != 2 * int(copies):
                page.wait_for_timeout(25)
                many = page.locator(f'.blank[data-item="{CAP}"]').count()
        if options.get("java_script_enabled", True):
            until(page, "() => !document.querySelector('#lay.htmx-request, #search[hx-trigger]')")
        return page

    yield opened
    for context in contexts:
        context.close()
    assert trouble == []


def until(page: Any, script: str, *given: Any) -> None:
    """Wait until a script is true of the page (polled: the page's policy forbids eval)."""
    for _ in range(240):
        if page.evaluate(script, *given):
            return
        page.wait_for_timeout(25)
    said = page.locator("#said").all_inner_texts()
    pytest.fail(f"never came true: {script}; the page says {said}")


def at_rest(page: Any) -> None:
    """Wait until the last answer is shown."""
    until(page, "() => !document.querySelector('#lay.htmx-request, #search[hx-post]')")


def spots(page: Any) -> list[Spot]:
    """Where everything lies."""
    return [Spot(*row) for row in json.loads(page.input_value("#spots"))]


def pins(page: Any) -> list[Any]:
    found: list[Any] = json.loads(page.input_value("#pins"))
    return found


def check_sound(page: Any, copies: int = 2) -> None:
    """Right counts, and all that lie on one sheet the kerf apart, by another library."""
    wanted = orders([PLAN], copies)
    flats = {flat.id: flat for task in tasks(wanted, SHOP) for flat in task.batch.flats}
    lying = spots(page)
    for id, flat in flats.items():
        assert sum(spot.item == id for spot in lying) == flat.count
    for bin in {spot.bin for spot in lying}:
        here = [spot for spot in lying if spot.bin == bin]
        shapes = [
            shapely.Polygon(spot.place(flats[spot.item].outline).points(0.001)) for spot in here
        ]
        for a, b in combinations(shapes, 2):
            assert a.distance(b) >= SHOP.value("kerf") - 0.006


def middle(page: Any, selector: str) -> tuple[float, float]:
    box = page.locator(selector).first.bounding_box()
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def drag(page: Any, selector: str, x: float, y: float) -> None:
    """Drag a blank's middle to a place of the window."""
    page.mouse.move(*middle(page, selector))
    page.mouse.down()
    page.mouse.move(x, y, steps=4)
    page.mouse.up()


FIRST = f'.blank[data-item="{CAP}"]'


def test_a_dragged_blank_is_pinned_and_the_rest_is_laid_round_it(laid: Open) -> None:
    page = laid(from_plan=True)
    sheet = page.locator("svg.lay .metal").first.bounding_box()
    per_mm = sheet["width"] / 260.0
    x, y = sheet["x"] + sheet["width"] / 2, sheet["y"] + sheet["height"] / 2
    drag(page, FIRST, x, y)
    until(page, "() => document.querySelectorAll('.blank.pinned').length === 1")
    (item, bin, at_x, at_y, turn, over, pinned) = pins(page)[0]
    assert (item, bin, over, pinned) == (CAP, "drawer-1", False, True)
    assert (at_x, at_y) == (pytest.approx(130, abs=2 / per_mm), pytest.approx(60, abs=2 / per_mm))
    assert Spot(CAP, bin, at_x, at_y, turn, over, True) in spots(page)
    check_sound(page)
    assert "pinned" in page.locator(".blank.pinned").get_attribute("aria-label")
    assert page.locator(".blank.pinned .pin").count() == 1
    until(page, "() => document.activeElement.classList.contains('pinned')")


def test_dropped_where_it_cant_lie_it_snaps_back_with_the_reason(laid: Open) -> None:
    page = laid()
    before = spots(page)
    sheet = page.locator("svg.lay").first.bounding_box()
    drag(page, FIRST, sheet["x"] + 2, sheet["y"] + sheet["height"] / 2)
    page.locator("#why", has_text="edge").wait_for()
    assert page.locator("#tools").is_visible()
    assert pins(page) == []
    assert sorted(map(str, spots(page))) == sorted(map(str, before))
    assert page.locator(".blank.loose, .blank.held").count() == 0
    drag(page, FIRST, 5, 5)
    page.locator("#why", has_text="no sheet there").wait_for()
    assert "not pinned there yet" not in page.inner_text("#which")
    assert pins(page) == []


def test_the_bar_of_tools_says_why_whatever_was_refused(laid: Open) -> None:
    """On a phone the words over the sheets are off the screen: the bar never is."""
    page = laid(viewport={"width": 360, "height": 740})
    page.select_option("#pin_sheet", "drawer-1")
    page.fill("#pin_x", "1")
    page.fill("#pin_y", "60")
    page.click("#pin-it")
    page.locator("#why", has_text="edge").wait_for()
    box = page.locator("#why").bounding_box()
    assert 0 < box["y"] < 740 - box["height"]
    assert not page.locator("#tool-pin").is_visible()
    assert page.input_value("#pin_x") == "1"
    page.click("#tool-close")
    assert page.locator("#tools").is_hidden()
    page.fill("#copies-0", "-3")
    page.press("#copies-0", "Enter")
    page.locator("#why", has_text="Write 1 to 500").wait_for()


def test_the_bar_tells_the_place_as_the_boxes_take_it(laid: Open) -> None:
    """Left and lowest edges as a blank lies, checked by another library; a disc's middle."""
    page = laid()
    page.locator(FIRST).first.focus()
    x, y = (float(page.locator(FIRST).first.get_attribute(f"data-{each}")) for each in "xy")
    assert f"middle x {x:.1f}, y {y:.1f} mm" in page.inner_text("#which")
    other = page.locator(f'.blank:not([data-item="{CAP}"])').first
    other.focus()
    for _ in range(3):
        page.keyboard.press("Shift+R")
    item, *numbers = (other.get_attribute(f"data-{each}") for each in ("item", "x", "y", "turn"))
    x, y, turn = map(float, numbers)
    flats = {flat.id: flat for task in tasks(orders([PLAN]), SHOP) for flat in task.batch.flats}
    own = shapely.Polygon(flats[item].outline.points(0.001))
    middle = own.envelope.centroid  # it is turned about the middle of its box
    laid_middle = rotate(middle, turn, origin=(0, 0))
    turned = rotate(translate(own, -middle.x, -middle.y), turn + 3, origin=(0, 0))
    low_x, low_y, _, _ = translate(turned, laid_middle.x + x, laid_middle.y + y).bounds
    told = re.search(r": x (-?[\d.]+), y (-?[\d.]+) mm", page.inner_text("#which"))
    assert told
    assert [float(each) for each in told.groups()] == pytest.approx([low_x, low_y], abs=0.06)


def test_to_a_sheet_of_another_scale_it_is_drawn_as_large_as_it_would_lie_there(
    laid: Open,
) -> None:
    """Held over it, its size on the screen follows that sheet's scale; dropped, it is pinned."""
    page = laid(copies="16", viewport={"width": 1280, "height": 2400})
    sheets = page.locator(f'.batch:has([data-item="{CAP}"]) svg.lay')
    until(page, "() => !document.querySelector('#lay.htmx-request, #search[hx-trigger]')")
    scales = [each.evaluate("(svg) => svg.getScreenCTM().a") for each in sheets.all()]
    assert max(scales) > 1.05 * min(scales), scales
    first, last = scales.index(min(scales)), scales.index(max(scales))
    blank = sheets.nth(first).locator(".blank").first
    drawn = "(use) => Math.hypot(use.getScreenCTM().a, use.getScreenCTM().b)"
    assert blank.locator("use").evaluate(drawn) == pytest.approx(min(scales), rel=1e-3)
    metal = sheets.nth(last).locator(".metal").bounding_box()
    id = blank.get_attribute("id")
    blank = page.locator(f"#{id}")  # held, it is drawn last
    page.mouse.move(*middle(page, f"#{id}"))
    page.mouse.down()
    page.mouse.move(metal["x"] + metal["width"] / 2, metal["y"] + metal["height"] / 2, steps=3)
    assert blank.locator("use").evaluate(drawn) == pytest.approx(max(scales), rel=1e-3)
    bin = sheets.nth(last).get_attribute("data-sheet")
    page.mouse.up()
    until(page, "() => document.getElementById('pins').value !== '[]'")
    assert pins(page)[0][1] == bin
    at_rest(page)
    check_sound(page, 16)


def test_what_is_looked_at_stays_where_it_is_over_a_swap(laid: Open) -> None:
    """A better layout that comes in while a blank is chosen doesn't send a phone to the bottom."""
    page = laid(copies="8", viewport={"width": 360, "height": 740})
    chosen = page.locator(".blank").nth(3)
    chosen.evaluate(
        "(each) => { each.scrollIntoView({ block: 'center', behavior: 'instant' });"
        " each.focus({ preventScroll: true }); }"
    )
    top = "() => document.querySelector('.laid-sheet').getBoundingClientRect().top"
    page.wait_for_timeout(100)
    before, old = page.evaluate(top), chosen.element_handle()
    page.evaluate("htmx.trigger(document.getElementById('lay'), 'lay')")
    until(page, "(each) => !each.isConnected", old)
    at_rest(page)
    page.wait_for_timeout(400)
    assert page.evaluate(top) == pytest.approx(before, abs=2)


def test_by_keyboard_nudged_turned_pinned_and_unpinned(laid: Open) -> None:
    page = laid()
    page.locator(FIRST).first.focus()
    x, y = (float(page.locator(FIRST).first.get_attribute(f"data-{each}")) for each in "xy")
    first = page.locator(FIRST).first
    for key in ("ArrowUp", "ArrowUp", "Shift+ArrowRight", "ArrowRight"):
        page.keyboard.press(key)
    assert "not pinned there yet" in page.inner_text("#which")
    assert first.evaluate("(each) => each.classList.contains('loose')")
    page.keyboard.press("Escape")
    assert "not pinned" not in page.inner_text("#which")
    for key in ("ArrowUp", "ArrowUp", "Shift+ArrowRight", "ArrowRight", "Enter"):
        page.keyboard.press(key)
    until(page, "() => document.getElementById('pins').value !== '[]'")
    assert pins(page)[0][2:4] == [pytest.approx(x + 1.1, abs=1e-3), pytest.approx(y + 2, abs=1e-3)]
    check_sound(page)
    turn = pins(page)[0][4]
    page.keyboard.press("r")
    page.keyboard.press("Enter")
    until(page, "(turn) => JSON.parse(document.getElementById('pins').value)[0][4] !== turn", turn)
    assert pins(page)[0][4] == pytest.approx((turn + 15) % 360)
    at_rest(page)
    until(page, "() => document.activeElement.classList.contains('pinned')")
    page.keyboard.press("Delete")
    until(page, "() => document.getElementById('pins').value === '[]'")
    assert page.locator(".blank.pinned").count() == 0


def test_to_another_sheet_of_its_metal_and_not_of_another(laid: Open) -> None:
    page = laid(copies="8", viewport={"width": 1280, "height": 2000})
    page.select_option("#drawer", "no")
    until(page, "() => !document.getElementById('spots').value.includes('drawer-1')")
    at_rest(page)
    rings = page.locator('.batch:not(:has([data-item$=".cap"])) svg.lay').first
    box = rings.bounding_box()
    page.mouse.move(*middle(page, FIRST))
    page.mouse.down()
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2, steps=3)
    page.mouse.up()
    page.locator("#why", has_text="another metal, thickness or temper").wait_for()
    assert pins(page) == []


def test_a_pin_survives_a_search_which_shows_how_far_it_is(laid: Open) -> None:
    page = laid(copies="6")
    page.fill("#seconds", "2")
    page.locator(FIRST).first.focus()
    page.keyboard.press("ArrowUp")
    page.keyboard.press("Enter")
    until(page, "() => document.getElementById('pins').value !== '[]'")
    pinned = pins(page)
    until(page, "() => !document.querySelector('#search[hx-get]')")
    assert pins(page) == pinned
    assert page.locator(".blank.pinned").count() == 1
    check_sound(page, 6)
    page.click("#anew")
    until(page, "() => document.querySelector('#search progress, #search p')")


def test_by_touch(laid: Open) -> None:
    page = laid(viewport={"width": 360, "height": 780}, has_touch=True)
    page.locator(FIRST).first.scroll_into_view_if_needed()
    x, y = middle(page, FIRST)
    client = page.context.new_cdp_session(page)
    client.send(
        "Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]}
    )
    for step in range(1, 6):
        client.send(
            "Input.dispatchTouchEvent",
            {"type": "touchMove", "touchPoints": [{"x": x + 4 * step, "y": y - 3 * step}]},
        )
    client.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    until(page, "() => document.getElementById('pins').value !== '[]'")
    check_sound(page)


def test_chosen_again_after_a_reload(laid: Open) -> None:
    page = laid(copies="3")
    page.select_option("#turning", "quarter")
    until(page, "() => document.querySelector('.blank').dataset.turns !== 'null'")
    page.reload()
    page.locator("#batches").wait_for()
    assert page.input_value("#copies-0") == "3"
    assert page.input_value("#turning") == "quarter"


def test_a_search_goes_on_after_a_reload(laid: Open) -> None:
    """What it found so far stays, and the rest of the search isn't lost."""
    page = laid(copies="7")
    page.fill("#seconds", "30")
    page.select_option("#turning", "quarter")
    page.locator("#search progress").wait_for()
    at_rest_spots = sorted(map(str, spots(page)))
    page.reload()
    page.locator("#search progress").wait_for()
    assert len(spots(page)) == len(at_rest_spots)
    page.click("#stop")
    until(page, "() => !document.querySelector('#search[hx-get]')")
    assert "stopped" in page.inner_text("#search-said")
    check_sound(page, 7)


def test_without_script(laid: Open) -> None:
    page = laid("1", java_script_enabled=False)
    page.fill("#copies-0", "2")
    page.click("#lay-out")
    check_sound(page)
    page.select_option("#pin_blank", CAP)
    page.select_option("#pin_sheet", "drawer-1")
    page.fill("#pin_x", "130")
    page.fill("#pin_y", "60")
    page.click("#pin-it")
    assert pins(page) == [[CAP, "drawer-1", 130.0, 60.0, 0.0, False, True]]
    check_sound(page)
    page.fill("#seconds", "1")
    page.click("#search-now")
    check_sound(page)
    assert len(pins(page)) == 1
    page.click("#unpin-all")
    assert pins(page) == []


@pytest.mark.parametrize("width", [320, 360, 768, 1280])
def test_no_width_scrolls_sideways(laid: Open, width: int) -> None:
    page = laid(viewport={"width": width, "height": 740})
    page.evaluate("document.querySelectorAll('details').forEach((each) => { each.open = true; })")
    page.locator(".blank").first.focus()
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    small = page.evaluate(
        "[...document.querySelectorAll('button, #lay input:not([type=hidden], [type=checkbox]),"
        " select, summary')].filter((e) => e.offsetParent)"
        ".map((e) => [e.id || e.textContent, e.getBoundingClientRect().height])"
        ".filter((each) => each[1] < 44)"
    )
    assert small == []


def test_files_and_the_cutting(laid: Open, address: str) -> None:
    page = laid()
    with page.expect_download() as pages:
        page.click("#get-layout-a4")
    assert Path(pages.value.path()).read_bytes().startswith(b"%PDF")
    page.click("#cut-it")
    page.click("#not-yet")
    page.locator("#batches").wait_for()
    assert "drawer-1" in page.input_value("#spots")
