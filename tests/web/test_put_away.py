"""Boxes that the choices made leave without use are put away, and come back when asked for.

Without script the server does it with each page; with it the page does it as one chooses.
"""

from __future__ import annotations

import re
from typing import Any

import pytest

from hollowright.designs import designs


def test_what_asks_for_a_field_is_a_choice_of_its_design():
    for each in designs():
        table = {field.name: field for field in each.fields}
        for field in each.fields:
            if field.asked_by:
                choice = table[field.asked_by]
                assert choice.kind == "choice"
                assert set(field.asked_for) < set(choice.choices), field.path


def test_the_server_puts_them_away(ask):
    page = ask("GET", "/", params={"design": "walled-box"}).text
    hidden = re.findall(r'data-asked-by="[^"]*" data-asked-for="([^"]*)" hidden', page)
    assert "hinged" in hidden
    assert "circle" in hidden
    assert "oval rectangle" not in hidden
    fieldset = page[: page.index("Hinge tube")].rindex("<fieldset")
    assert page[fieldset:].startswith('<fieldset class="group" hidden>')


def test_what_is_filled_or_wrong_stays(ask):
    data = {"design": "walled-box", "title": "x", "sizes.hinge.width": "31 mm"}
    page = ask("POST", "/plan", data=data).text
    box = page[: page.index('id="sizes-hinge-width"')].rindex("<div")
    assert " hidden" not in page[box : page.index(">", box)]


@pytest.mark.browser
def test_a_choice_brings_them_back(browser: Any, address: str) -> None:
    page = browser.new_page()
    page.goto(f"{address}/?design=walled-box")
    width = page.locator("#sizes-hinge-width")
    assert not width.is_visible()
    assert not page.get_by_text("Hinge pin", exact=True).is_visible()
    page.select_option("#sizes-lid", "hinged")
    assert width.is_visible()
    assert page.get_by_text("Hinge pin", exact=True).is_visible()
    width.fill("31.6 mm")
    page.select_option("#sizes-lid", "cap")
    assert width.is_visible(), "what is filled stays, so that it can be taken out"
    width.fill("")
    page.select_option("#sizes-lid", "inner-ring")
    assert not width.is_visible()
    page.close()
