"""Anything may be typed: thousands of mangled values give a plan or a fault, never a failure."""

import re
from collections.abc import Callable
from html.parser import HTMLParser

import httpx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.designs import design
from hollowright.errors import HollowrightError
from hollowright.web.form import Values, first_values, piece_text, sent_values, tables_of, values_of
from hollowright.web.outcome import worked_out
from hollowright.web.show import asked, page, plan_part
from hollowright.web.texts import joined, split_readings, toml_text

Ask = Callable[..., httpx.Response]
PATHS = [field.path for field in design("tube-box").fields]
TRICKS = (
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "' onmouseover='alert(1)",
    "{{ 7 * 7 }}{% include 'page.html' %}",
    "</textarea></select><svg/onload=alert(1)>",
    "javascript:alert(1)",
    "../../../etc/passwd",
    "$(id); `id`; |id",
    "'; DROP TABLE pieces; --",
)

lengths = st.floats(-10, 700, allow_nan=False).map(lambda x: f"{x:.3g}")
odd = st.one_of(
    st.text(max_size=60),
    st.text("0123456789.,;/-+ eEinmga\"'½×\n\t\x00", max_size=30),
    lengths,
    st.lists(lengths, min_size=1, max_size=6).map(" ".join),
    st.builds("{} {}".format, lengths, st.sampled_from(["in", "mm", "cm", "m", "ga", "swg", "ft"])),
    st.sampled_from([*TRICKS, "9" * 3000, "1e999", "nan", "inf", "-0", "0", "1/0", "٣٤", "½"]),
)


def shown(sent: dict[str, str]) -> None:
    """What each route does with a sent form, without the transport."""
    values = sent_values(sent)
    outcome = worked_out(values, sent.get("good", ""))
    assert (outcome.plan is None) <= outcome.stale
    assert outcome.stale == bool(outcome.count)
    answer = asked(outcome, sent.get("quantity", ""), sent.get("figure", ""))
    assert page(outcome, answer).status_code == 200
    plan_part(outcome)


@settings(max_examples=150)
@given(st.dictionaries(st.sampled_from([*PATHS, "title", "quantity", "figure", "good"]), odd))
def test_the_page_survives_anything_typed(mangled: dict[str, str]) -> None:
    shown(first_values() | {"quantity": "bore", "figure": "3"} | mangled)


@settings(max_examples=1500)
@given(st.dictionaries(st.sampled_from(PATHS), odd, min_size=1))
def test_anything_typed_gives_a_plan_or_names_its_field(mangled: dict[str, str]) -> None:
    outcome = worked_out(sent_values(first_values() | mangled))
    named = [fault.field for faults in outcome.faults.values() for fault in faults]
    assert outcome.stale is bool(named)
    assert outcome.general == ()


@settings(max_examples=500)
@given(st.dictionaries(st.sampled_from([*PATHS, "title"]), odd))
def test_a_piece_file_keeps_what_was_typed(mangled: dict[str, str]) -> None:
    import tomllib

    values = sent_values(first_values() | mangled)
    try:
        tables = tables_of(values)
    except HollowrightError:
        return
    if any(0xD800 <= ord(c) <= 0xDFFF for text in values.values() for c in text):
        return
    again = tomllib.loads(piece_text(values))
    assert again == tables
    assert tables_of(values_of(again)) == tables


@given(st.text())
def test_a_text_survives_toml(text: str) -> None:
    import tomllib

    clean = re.sub("[\ud800-\udfff]", "?", text)
    assert tomllib.loads(f"a = {toml_text(text)}") == {"a": clean}


@pytest.mark.parametrize(
    ("typed", "readings"),
    [
        ("34.92 34.95  34.93", ["34.92", "34.95", "34.93"]),
        ("34.92;34.95\n34.93 mm", ["34.92", "34.95", "34.93 mm"]),
        ("34.92mm 34.95mm", ["34.92 mm", "34.95 mm"]),
        ("34.92, 34.95,34.93", ["34.92", "34.95", "34.93"]),
        ("1.375 1.376 in", ["1.375 in", "1.376 in"]),
        ('1 1/2" 1-1/2"', ['1 1/2 "', '1-1/2 "']),
        ("1 1/2 in 1 33/64 in", ["1 1/2 in", "1 33/64 in"]),
        ("22 ga", ["22 ga"]),
        ("20 ga B&S", ["20 ga B&S"]),
        ("38,05", ["38,05"]),
        ("38,05 38,06", ["38,05 38,06"]),
        ("1,200", ["1,200"]),
        ("about 5", ["about 5"]),
        ("", []),
        (" ; ", []),
    ],
)
def test_readings_of_one_box(typed: str, readings: list[str]) -> None:
    assert split_readings(typed) == readings


@given(st.lists(st.sampled_from(["1.5", "34.92 mm", "1 1/2 in", "22 ga", ".5"]), max_size=5))
def test_readings_put_together_come_apart_again(readings: list[str]) -> None:
    assert split_readings(joined(readings)) == readings


class Tags(HTMLParser):
    """Every tag with its attributes, as a browser would read them."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))


@pytest.mark.parametrize("trick", TRICKS)
def test_no_tag_and_no_attribute_of_the_users_reaches_the_page(
    ask: Ask, values: Values, trick: str
) -> None:
    everywhere = dict.fromkeys(values, trick) | {"design": "tube-box", "good": trick}
    titled = values | {"title": trick, "quantity": trick, "figure": trick}
    opened = values | {
        "pasted": f"title = {toml_text(trick)}\n[stock.tube]\nwall = {toml_text(trick)}"
    }
    answers = [
        ask("POST", "/plan", data=everywhere),
        ask("POST", "/plan", data=everywhere, headers={"HX-Request": "true"}),
        ask("POST", "/check", data=titled),
        ask("POST", "/plan", data=titled, headers={"HX-Request": "true"}),
        ask("POST", "/open", data=opened),
        ask("GET", "/", params={"design": trick}),
        ask("POST", "/plan", data={"design": trick}),
    ]
    for answer in answers:
        assert answer.status_code < 500
        found = Tags()
        found.feed(answer.text)
        for tag, attributes in found.tags:
            assert tag != "img"
            assert not any(name.startswith("on") for name in attributes)
            assert tag != "script" or attributes["src"].startswith("/static/")
        assert "49" not in re.findall(r"<title>(.*?)</title>", answer.text, re.DOTALL)[:1]


def test_a_title_of_tags_is_planned_as_text(ask: Ask, values: Values) -> None:
    values["title"] = "<b>box</b>"
    part = ask("POST", "/plan", data=values, headers={"HX-Request": "true"}).text
    assert "<b>box</b>" not in part
    assert "&lt;b&gt;box&lt;/b&gt;" in part


def test_bad_bodies_are_worded(ask: Ask) -> None:
    boundary = {"Content-Type": "multipart/form-data; boundary=x"}
    for headers, body in (
        (boundary, b"--x\r\nnonsense"),
        (boundary, b"--x--"),
        ({"Content-Type": "multipart/form-data"}, b"--x"),
        ({"Content-Type": "application/json"}, b"{}"),
        ({"Content-Type": "application/x-www-form-urlencoded"}, b"&".join([b"a=b"] * 2000)),
        ({"Content-Type": "application/x-www-form-urlencoded"}, b"%ff%fe=%00&title=%f0"),
    ):
        answer = ask("POST", "/plan", content=body, headers=headers)
        assert answer.status_code in (200, 400, 422)
        assert "Hollowright" in answer.text
