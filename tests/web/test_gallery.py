"""The gallery of designs, and every design's own page."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import pytest

from hollowright.designs import designs
from hollowright.web.gallery import tiles

IDS = [tile.id for tile in tiles()]


def test_every_design_has_a_tile_with_its_drawing(ask):
    answer = ask("GET", "/designs")
    assert answer.status_code == 200
    for each in designs():
        assert f"/?design={each.id}" in answer.text
        assert f"/designs/{each.id}.svg" in answer.text
        assert each.title in answer.text
    assert "/?design=joined" in answer.text


@pytest.mark.parametrize("id", IDS)
def test_its_drawing_is_an_svg_with_ink(ask, id):
    answer = ask("GET", f"/designs/{id}.svg")
    assert answer.status_code == 200
    assert answer.headers["content-type"].startswith("image/svg+xml")
    tree = ET.fromstring(answer.text)
    assert tree.tag.endswith("svg")
    assert answer.text.count("<path") >= 2


@pytest.mark.parametrize("id", IDS)
def test_its_page_opens_with_a_piece_that_plans(ask, id):
    answer = ask("GET", "/", params={"design": id})
    assert answer.status_code == 200
    assert "Mark and saw" in answer.text
    assert 'class="fault"' not in answer.text


@pytest.mark.parametrize("id", IDS)
def test_its_page_sent_back_gives_the_same_plan(ask, id):
    """What the page shows in its boxes, sent as it is, plans without a fault."""
    import re
    from html import unescape

    page = ask("GET", "/", params={"design": id}).text
    sent = dict(re.findall(r'<input id="[^"]*" name="([^"]*)" value="([^"]*)"', page))
    sent |= dict(re.findall(r'<textarea id="[^"]*" name="([^"]*)"[^>]*>([^<]*)</textarea>', page))
    sent["design"] = re.search(r'name="design" value="([^"]*)"', page)[1]
    for select in re.findall(r'<select id="[^"]*" name="([^"]*)".*?</select>', page, re.DOTALL):
        block = page[page.index(f'name="{select}"') :]
        chosen = re.search(r'<option value="([^"]*)" selected', block[: block.index("</select>")])
        sent[select] = chosen[1] if chosen else ""
    sent.pop("pasted", None)
    answer = ask("POST", "/plan", data={name: unescape(text) for name, text in sent.items()})
    assert answer.status_code == 200, re.findall(r'class="fault">(.*?)</span>', answer.text)
    for figure in re.findall(r"<span>([0-9.⌀R°]+) <small>", page):
        assert figure in answer.text


@pytest.mark.parametrize("id", ["bowl", "..", "tube-box.svg", "%2e%2e%2f"])
def test_a_drawing_that_there_is_not(ask, id):
    assert ask("GET", f"/designs/{id}.svg").status_code == 404
