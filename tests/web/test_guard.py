"""The door: this machine's own names, this page's own forms, small bodies, no traceback."""

import re
from collections.abc import Callable
from typing import Any

import httpx
import pytest

from hollowright.web import guard
from hollowright.web.app import make_app
from hollowright.web.form import Values

Ask = Callable[..., httpx.Response]
Run = Callable[..., Any]


@pytest.mark.parametrize(
    "host", ["127.0.0.1:8765", "localhost:8765", "[::1]:8765", "LOCALHOST:8765"]
)
def test_own_names_are_answered(ask: Ask, host: str) -> None:
    assert ask("GET", "/", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "host",
    [
        "bench.example:8765",
        "127.0.0.1",
        "127.0.0.1:80",
        "127.0.0.1:8766",
        "127.0.0.1.bench.example:8765",
        "localhost.bench.example:8765",
        "bench.example@127.0.0.1:8765",
        "192.168.1.5:8765",
        "0.0.0.0:8765",
        "127.0.0.1:8765 ",
        "127.0.0.1:",
        "",
        ":8765",
    ],
)
def test_foreign_names_are_refused(ask: Ask, values: Values, host: str) -> None:
    for method, path in (("GET", "/"), ("POST", "/plan"), ("GET", "/static/sheet.css")):
        answer = ask(method, path, headers={"Host": host})
        assert answer.status_code == 421
        assert "Striker" not in answer.text


def test_two_hosts_are_refused(ask: Ask) -> None:
    twice = [("Host", "127.0.0.1:8765"), ("Host", "bench.example:8765")]
    assert ask("GET", "/", headers=twice).status_code == 421


def test_a_host_that_was_asked_for_is_answered_and_no_other() -> None:
    assert guard.names_for("192.168.1.5") == {*guard.LOOPBACK, "192.168.1.5"}
    assert guard.names_for("::1") == set(guard.LOOPBACK)
    assert guard.names_for("Bench.local") == {*guard.LOOPBACK, "bench.local"}


@pytest.mark.parametrize("every", ["0.0.0.0", "::", ""])
def test_bound_to_every_address_a_foreign_name_is_still_refused(every: str) -> None:
    names = guard.names_for(every)
    scope = {"type": "http", "server": ("0.0.0.0", 8765), "method": "GET", "scheme": "http"}
    for host, fits in {
        "192.168.1.5:8765": True,
        "[fe80::1]:8765": True,
        "localhost:8765": True,
        "bench.example:8765": False,
        "2130706433.example:8765": False,
    }.items():
        headers = guard.Headers({"host": host})
        assert (guard.refusal(scope, headers, names) is None) is fits


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "http://bench.example"},
        {"Origin": "null"},
        {"Origin": "https://127.0.0.1:8765"},
        {"Origin": "http://127.0.0.1:9999"},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
    ],
)
def test_forms_from_elsewhere_are_refused(
    ask: Ask, values: Values, headers: dict[str, str]
) -> None:
    for path in ("/plan", "/check", "/open", "/download"):
        assert ask("POST", path, data=values, headers=headers).status_code == 403


def test_own_forms_are_taken(ask: Ask, values: Values) -> None:
    for headers in ({"Origin": "http://127.0.0.1:8765", "Sec-Fetch-Site": "same-origin"}, {}):
        assert ask("POST", "/plan", data=values, headers=headers).status_code == 200


def sent_in_parts(run: Run, length: str | None, parts: int) -> int:
    """Status for a body of so many parts of 100 kB; to ask for more than those fails the test."""
    headers = [
        (b"host", b"127.0.0.1:8765"),
        (b"content-type", b"application/x-www-form-urlencoded"),
    ]
    if length is not None:
        headers.append((b"content-length", length.encode()))
    scope = {
        "type": "http", "method": "POST", "path": "/plan", "raw_path": b"/plan", "scheme": "http",
        "query_string": b"", "root_path": "", "headers": headers, "server": ("127.0.0.1", 8765),
    }  # fmt: skip
    left = [
        {"type": "http.request", "body": b"x" * 100_000, "more_body": i > 0} for i in range(parts)
    ]
    sent: list[dict[str, Any]] = []

    async def receive() -> dict[str, Any]:
        assert left, "more was read than there is need to"
        return left.pop()

    async def send(message: dict[str, Any]) -> None:
        sent.append(message)

    run(make_app("127.0.0.1"), scope, receive, send)
    return int(sent[0]["status"])


def test_a_large_body_is_refused_unread(run: Run) -> None:
    for length in (str(guard.MOST_BODY + 1), "100000000", "-1", "1e3", "9" * 40):
        assert sent_in_parts(run, length, parts=0) == 413
    assert sent_in_parts(run, None, parts=11) == 413
    assert sent_in_parts(run, None, parts=5) == 422  # read, and found wanting
    assert sent_in_parts(run, str(guard.MOST_BODY), parts=5) == 422


def test_headers(ask: Ask) -> None:
    for path in ("/", "/nowhere", "/static/bench.js"):
        headers = ask("GET", path).headers
        assert "default-src 'self'" in headers["content-security-policy"]
        assert "unsafe" not in headers["content-security-policy"]
        assert headers["x-content-type-options"] == "nosniff"
        assert headers["referrer-policy"] == "same-origin"
        assert "set-cookie" not in headers


def test_nothing_inline_and_nothing_from_elsewhere(ask: Ask, values: Values) -> None:
    values["stock.tube.wall"] = "0,9"
    for text in (ask("GET", "/").text, ask("POST", "/plan", data=values).text):
        assert not re.search(r"<style|\bstyle=|\bon[a-z]+=|javascript:", text)
        assert not re.search(r"<script(?![^>]*\bsrc=)", text)
        links = re.findall(r'(?:src|href|action|formaction|hx-post)="([^"]*)"', text)
        assert all(link.startswith(("/", "#")) and not link.startswith("//") for link in links)


def test_a_fault_inside_is_worded_and_shows_no_traceback(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], values: Values, ask: Ask
) -> None:
    def broken(*_: object) -> None:
        raise RuntimeError("the secret of the house")

    monkeypatch.setattr("hollowright.web.app.worked_out", broken)
    answer = ask("POST", "/plan", data=values)
    assert answer.status_code == 500
    assert "Something went wrong inside" in answer.text
    assert "secret" not in answer.text
    assert "Traceback" not in answer.text
    told = capsys.readouterr().err
    assert "RuntimeError" in told
    assert "Traceback" not in told


def test_only_http_is_answered(run: Run) -> None:
    async def nothing(*_: object) -> None:
        raise AssertionError("nothing should be sent or received")

    run(make_app("127.0.0.1"), {"type": "websocket", "headers": []}, nothing, nothing)
