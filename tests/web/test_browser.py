"""The page in a real browser: moving as one types, by keyboard, offline, narrow, unscripted."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from hollowright.designs import design
from hollowright.job.job import plan_tables, read_tables

pytestmark = pytest.mark.browser
Open = Callable[..., Any]
EXAMPLE = plan_tables(read_tables(design("tube-box").examples[0].text))
TOLD = "#plan .marks"


@pytest.fixture
def page(browser: Any, address: str) -> Iterator[Open]:
    """Open the page; at the end: nothing was asked elsewhere, nothing failed on the console."""
    contexts: list[Any] = []
    trouble: list[str] = []

    def opened(**options: Any) -> Any:
        context = browser.new_context(**{"viewport": {"width": 1280, "height": 800}} | options)
        contexts.append(context)

        def local_only(route: Any) -> None:
            if route.request.url.startswith(address + "/"):
                route.continue_()
            else:
                trouble.append(f"asked elsewhere: {route.request.url}")
                route.abort()

        context.route("**/*", local_only)
        made = context.new_page()
        made.set_default_timeout(10_000)
        made.on("console", lambda said: said.type == "error" and trouble.append(said.text))
        made.on("pageerror", lambda fault: trouble.append(str(fault)))
        made.goto(address + "/")
        return made

    yield opened
    for context in contexts:
        context.close()
    assert trouble == []


def figure(page: Any, id: str) -> str:
    """What the page shows of a quantity."""
    return str(page.locator(f"#number-{id} .amount").inner_text())


def until(page: Any, script: str, *given: Any) -> None:
    """Wait until a script is true of the page (polled: the page's policy forbids eval)."""
    for _ in range(200):
        if page.evaluate(script, *given):
            return
        page.wait_for_timeout(25)
    pytest.fail(f"never came true: {script}")


def settled(page: Any, id: str, other_than: str) -> str:
    """The figure of a quantity once it is another one than it was."""
    page.locator(f"#number-{id} .amount").filter(has_not_text=other_than).wait_for()
    return figure(page, id)


def test_a_reading_moves_a_number_and_the_cursor_stays(page: Open) -> None:
    shown = page()
    before = figure(shown, "bore")
    assert before == f"{EXAMPLE.quantities['bore'].value:.2f} mm"
    shown.fill("#stock-tube-wall", "1.02 1.01")
    assert settled(shown, "bore", before) == f"{34.9333 - 2 * 1.015:.2f} mm"
    assert shown.evaluate("document.activeElement.id") == "stock-tube-wall"
    assert shown.input_value("#stock-tube-wall") == "1.02 1.01"


def test_a_fault_is_shown_beside_its_field_and_goes_again(page: Open) -> None:
    shown = page()
    shown.fill("#stock-tube-wall", "0,92")
    shown.locator("#fault-stock-tube-wall .fault").wait_for()
    assert "Write 0.92 or 0.92 mm." in shown.inner_text("#fault-stock-tube-wall")
    assert shown.get_attribute("#stock-tube-wall", "aria-invalid") == "true"
    assert "last that could be made" in shown.inner_text("#state")
    assert "15.09" in shown.inner_text(TOLD)
    assert shown.evaluate("document.activeElement.id") == "stock-tube-wall"
    shown.click("#state a")
    assert shown.evaluate("document.activeElement.id") == "stock-tube-wall"
    shown.fill("#stock-tube-wall", "0.92")
    shown.locator("#fault-stock-tube-wall .fault").wait_for(state="detached")
    assert shown.get_attribute("#stock-tube-wall", "aria-invalid") is None
    assert "last that could be made" not in shown.inner_text("#state")


def test_a_contradiction_leads_to_its_field(page: Open) -> None:
    shown = page()
    shown.fill("#stock-tube-bore", "32.80")
    shown.locator("#fault-stock-tube-bore .minded").wait_for()
    assert "32.80" in shown.inner_text("#fault-stock-tube-bore")
    assert "32.80" in shown.inner_text(".cautions")
    assert shown.get_attribute("#stock-tube-bore", "aria-invalid") is None
    assert "Settle before you saw: bore" in shown.inner_text("#state")
    shown.focus("#sizes-height")
    shown.click("#state .settle a")
    assert shown.evaluate("document.activeElement.id") == "stock-tube-bore"
    shown.fill("#stock-tube-bore", "")
    shown.locator("#fault-stock-tube-bore .minded").wait_for(state="detached")
    assert "Settle" not in shown.inner_text("#state")


def test_figures_of_an_older_plan_are_struck_and_say_so(page: Open) -> None:
    shown = page()
    line = "() => getComputedStyle(document.querySelector('.figures')).textDecorationLine"
    assert shown.evaluate(line) == "none"
    assert not shown.is_visible(".not-these")
    shown.fill("#stock-tube-wall", "0,92")
    shown.locator(".not-these").wait_for()
    assert shown.inner_text(".not-these") == "Not these: a field is wrong."
    said, figures = (
        shown.locator(each).first.bounding_box() for each in (".not-these", ".figures")
    )
    assert said["y"] + said["height"] <= figures["y"]
    assert shown.evaluate(line) == "line-through"
    shown.fill("#stock-tube-wall", "0.92")
    shown.locator(".not-these").wait_for(state="hidden")
    assert shown.evaluate(line) == "none"


def test_printed_the_title_stands_at_the_top(page: Open) -> None:
    shown = page()
    assert not shown.is_visible("#plan .printed")
    shown.fill("#title", "Chestnut box")
    shown.locator("#plan .printed", has_text="Chestnut box").wait_for(state="attached")
    shown.emulate_media(media="print")
    title, first = (shown.locator(each).bounding_box() for each in ("#plan .printed", ".marks"))
    assert title["y"] < 200
    assert title["y"] + title["height"] <= first["y"]


def test_by_keyboard_alone(page: Open) -> None:
    shown = page()
    shown.keyboard.press("Tab")
    assert shown.evaluate("document.activeElement.textContent") == "Skip to the plan"
    for _ in range(60):
        shown.keyboard.press("Tab")
        if shown.evaluate("document.activeElement.id") == "sizes-height":
            break
    before = figure(shown, "body_length")
    shown.keyboard.type("60 mm")
    after = settled(shown, "body_length", before)
    assert after == f"{60 * 0.7 - 0.815:.2f} mm"
    shown.keyboard.press("Enter")
    assert shown.evaluate("[document.activeElement.id, location.pathname]") == ["sizes-height", "/"]
    for _ in range(120):
        shown.keyboard.press("Tab")
        if shown.evaluate("document.activeElement.id").startswith("tick-"):
            break
    shown.keyboard.press("Space")
    assert "1 of" in shown.inner_text("#done-count")
    shown.locator("#number-bore").focus()
    shown.keyboard.press("Enter")
    assert "outside diameter - 2 x wall" in shown.inner_text("#working-bore")
    ring = shown.evaluate("getComputedStyle(document.activeElement).outlineStyle")
    assert ring == "solid"


@pytest.mark.parametrize("width", [320, 360, 768, 1280])
def test_no_width_scrolls_sideways(page: Open, width: int) -> None:
    shown = page(viewport={"width": width, "height": 740})

    def fits() -> None:
        assert shown.evaluate("document.documentElement.scrollWidth") <= width

    fits()
    shown.evaluate("document.querySelectorAll('details').forEach((each) => { each.open = true; })")
    fits()
    shown.fill("#title", "Averylongnamewithoutanyspaceinitwhichmustbebrokensomewhereonanarrowpage")
    shown.fill("#stock-tube-outside_diameter", "349.2 349.5 349.3")
    shown.locator("#state", has_text="0").wait_for()
    fits()
    shown.fill("#stock-tube-wall", "9" * 300)
    shown.locator("#fault-stock-tube-wall .fault").wait_for()
    fits()


def test_touch_targets_are_large(page: Open) -> None:
    shown = page(viewport={"width": 360, "height": 740}, has_touch=True)
    heights = shown.evaluate(
        "[...document.querySelectorAll('button, input:not([type=hidden]):not([type=checkbox]),"
        " select, summary, .tick')].filter((e) => e.offsetParent)"
        ".map((e) => [e.id, e.getBoundingClientRect().height])"
    )
    assert [each for each in heights if each[1] < 44] == []


def test_ticks_survive_a_reload_and_belong_to_the_piece(page: Open) -> None:
    shown = page()
    shown.check("#tick-saw_tube")
    shown.reload()
    assert shown.is_checked("#tick-saw_tube")
    shown.fill("#title", "Another box")
    until(shown, "() => document.querySelector('#steps').dataset.piece === 'Another box'")
    assert not shown.is_checked("#tick-saw_tube")
    shown.fill("#title", "Striker box")
    until(shown, "() => document.querySelector('#tick-saw_tube').checked")
    shown.click("#clear-ticks")
    assert not shown.is_checked("#tick-saw_tube")
    shown.reload()
    assert not shown.is_checked("#tick-saw_tube")


def test_what_was_typed_survives_a_reload(page: Open) -> None:
    shown = page()
    before = figure(shown, "lid_depth")
    shown.click("#open-as_built")
    shown.fill("#as_built-lid_depth", "14.62 14.60")
    assert settled(shown, "lid_depth", before) == "14.61 mm"
    shown.fill("#figure", "12")
    shown.reload()
    assert shown.input_value("#as_built-lid_depth") == "14.62 14.60"
    assert settled(shown, "lid_depth", before) == "14.61 mm"
    assert shown.input_value("#figure") == "12"
    shown.fill("#stock-tube-wall", "0,92")
    shown.locator("#fault-stock-tube-wall .fault").wait_for()
    shown.reload()
    assert shown.input_value("#stock-tube-wall") == "0,92"
    shown.locator("#fault-stock-tube-wall .fault").wait_for()
    shown.click("#open-file")
    shown.click("#example")
    assert shown.input_value("#stock-tube-wall") == "0.92 0.91"
    assert figure(shown, "lid_depth") == before


def test_check_my_number(page: Open) -> None:
    shown = page()
    outside, wall = (EXAMPLE.quantities[id].value for id in ("outside_diameter", "wall"))
    shown.select_option("#quantity", "bore")
    shown.fill("#figure", f"{outside - wall:.2f}")
    shown.locator("#answer .differs").wait_for()
    assert "wall" in shown.inner_text("#answer ol")
    shown.fill("#figure", f"{outside - 2 * wall:.2f}")
    shown.locator("#answer .agrees").wait_for()
    shown.fill("#figure", "33,1")
    shown.locator("#answer .fault").wait_for()
    shown.press("#figure", "Enter")
    assert shown.evaluate("[document.activeElement.id, location.pathname]") == ["figure", "/"]


def test_what_is_open_stays_open_as_the_plan_moves(page: Open) -> None:
    shown = page()
    shown.click("#number-bore")
    before = figure(shown, "bore")
    shown.fill("#stock-tube-wall", "1.02")
    settled(shown, "bore", before)
    assert shown.evaluate("document.getElementById('working-bore').open")
    assert "2 x 1.02" in shown.inner_text("#working-bore")


def test_a_step_leads_to_the_box_of_its_reading(page: Open) -> None:
    shown = page()
    shown.click("#step-measure_halves .take a >> nth=0")
    assert shown.evaluate("document.activeElement.id") == "as_built-lid_depth"


def test_files_are_saved_and_opened(page: Open, tmp_path: Path) -> None:
    shown = page()
    before = figure(shown, "body_length")
    shown.fill("#sizes-height", "60 mm")
    after = settled(shown, "body_length", before)
    with shown.expect_download() as card:
        shown.click("#get-card-a4")
    assert Path(card.value.path()).read_bytes().startswith(b"%PDF")
    with shown.expect_download() as saved:
        shown.click("#get-piece")
    assert saved.value.suggested_filename == "striker-box.toml"
    saved.value.save_as(tmp_path / "piece.toml")
    shown.fill("#sizes-height", "70 mm")
    settled(shown, "body_length", after)
    shown.click("#open-file")
    shown.set_input_files("#file", tmp_path / "piece.toml")
    shown.click("#open-piece")
    shown.wait_for_url("**/?design=*")
    assert shown.input_value("#sizes-height") == "60 mm"
    assert figure(shown, "body_length") == after
    shown.reload()
    assert shown.input_value("#sizes-height") == "60 mm"


def test_a_button_pressed_while_typing_leads_only_itself_elsewhere(page: Open) -> None:
    """What is typed is sent a moment later: to the plan, not to where the button leads."""
    shown = page()
    asked: list[str] = []
    shown.on("request", lambda each: asked.append(f"{each.resource_type} {each.url[-9:]}"))
    with shown.expect_download():
        shown.fill("#sizes-height", "61 mm")
        shown.click("#get-json")
    assert settled(shown, "height", "52.00 mm") == "61.00 mm"
    assert not any(each.startswith(("fetch", "xhr")) and "download" in each for each in asked)


def test_without_script(page: Open) -> None:
    shown = page(java_script_enabled=False)
    shown.fill("#sizes-height", "60 mm")
    shown.press("#sizes-height", "Enter")
    assert figure(shown, "body_length") == f"{60 * 0.7 - 0.815:.2f} mm"
    shown.select_option("#quantity", "bore")
    shown.fill("#figure", "34.02")
    shown.click("#check-it")
    assert "agree" in shown.inner_text("#answer")
    assert shown.input_value("#sizes-height") == "60 mm"


def test_without_script_a_fault_keeps_the_last_plan(browser: Any, address: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    shown = context.new_page()
    shown.goto(address + "/")
    shown.fill("#stock-tube-wall", "0,92")
    shown.click("#work-it-out")  # the answer is a 422, which the browser's console notes
    assert "Write 0.92" in shown.inner_text("#fault-stock-tube-wall")
    assert shown.input_value("#stock-tube-wall") == "0,92"
    assert "15.09" in shown.inner_text(TOLD)
    context.close()


def test_when_the_server_is_gone_it_says_so_and_keeps_all(browser: Any, address: str) -> None:
    context = browser.new_context()
    shown = context.new_page()
    shown.goto(address + "/")
    context.set_offline(True)
    shown.fill("#sizes-height", "61 mm")
    shown.locator("#state", has_text="doesn't answer").wait_for()
    assert shown.inner_text(".not-these") == "Not these: what you typed isn't worked out."
    context.set_offline(False)
    shown.fill("#sizes-height", "62 mm")
    assert settled(shown, "height", "52.00 mm") == "62.00 mm"
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_ink_on_paper_can_be_read(page: Open, scheme: str) -> None:
    """Contrast of 4.5 at least (WCAG 2.2, 1.4.3), by the formula of its relative luminance."""
    shown = page(color_scheme=scheme)
    paper, box = (colour(shown, name) for name in ("paper", "box"))
    for ink in ("ink", "quiet", "accent"):
        for ground in (paper, box):
            assert contrast(colour(shown, ink), ground) >= 4.5
    assert (luminance(paper) < 0.1) is (scheme == "dark")
    assert shown.evaluate("getComputedStyle(document.documentElement).backgroundColor") == (
        f"rgb({paper[0]}, {paper[1]}, {paper[2]})"
    )


def colour(page: Any, name: str) -> tuple[int, int, int]:
    script = "(name) => getComputedStyle(document.documentElement).getPropertyValue('--' + name)"
    text = page.evaluate(script, name).strip()
    assert re.fullmatch("#[0-9a-f]{6}", text)
    return int(text[1:3], 16), int(text[3:5], 16), int(text[5:], 16)


def luminance(rgb: tuple[int, int, int]) -> float:
    parts = [c / 255 for c in rgb]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(a: tuple[int, int, int], b: tuple[int, int, int]) -> float:
    dark, light = sorted((luminance(a), luminance(b)))
    return (light + 0.05) / (dark + 0.05)


def test_dark_and_light_are_two_pictures(page: Open) -> None:
    pictures = [page(color_scheme=scheme).screenshot() for scheme in ("light", "dark")]
    assert pictures[0] != pictures[1]
