"""Who may talk to the page: this machine, from the page itself, in small bodies; no traceback out.

A request under a foreign name is refused, so that a web site can't reach the page by pointing its
own name at this machine (DNS rebinding); so is a form sent from another site.
"""

from __future__ import annotations

import ipaddress
import os
import sys
import traceback
from dataclasses import dataclass

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from hollowright.web.faults import Fault, fault_page

MOST_BODY = 1_000_000
"""A form or a piece file is a page of text; more is refused unread [bytes]."""

MOST_FILE = 20_000_000
"""A drawer's file of some 100,000 items; it comes to one address only [bytes]."""

LARGE = ("/drawer/import",)
"""Addresses that take a file of so much."""

LOOPBACK = ("127.0.0.1", "localhost", "[::1]")

HEADERS = {
    "content-security-policy": (
        "default-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'; "
        "object-src 'none'"
    ),
    "x-content-type-options": "nosniff",
    # not 'no-referrer': a browser then sends a form's origin as null, and the form is refused
    "referrer-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "permissions-policy": "camera=(), geolocation=(), microphone=()",
}


class Guard:
    """The door of the page: refuses what isn't ours, adds the headers, words what goes wrong."""

    def __init__(self, app: ASGIApp, host: str) -> None:
        self.app = app
        self.names = names_for(host)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """One request; anything but HTTP is closed."""
        if scope["type"] != "http":
            return
        headers = Headers(scope=scope)
        state = _State()

        async def guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                state.begun = True
                _add_headers(message)
            await send(message)

        try:
            refused = refusal(scope, headers, self.names)
            most = MOST_FILE if scope["path"] in LARGE else MOST_BODY
            body = b"" if refused else await _whole(headers, receive, most)
            if refused is None and body is None:
                refused = TOO_LARGE
            if refused is not None:
                await fault_page(refused)(scope, receive, guarded)
            else:
                await self.app(scope, _replayed(body or b"", receive), guarded)
        except Exception as fault:  # noqa: BLE001 (the last door: worded here, never shown raw)
            tell(fault)
            if not state.begun:
                await fault_page(INSIDE)(scope, receive, guarded)


TOO_LARGE = Fault(
    413,
    "That is too large",
    f"At most {MOST_BODY} bytes are read: a piece file is a page of text.",
    "Go back; what you typed is still there.",
)
INSIDE = Fault(
    500,
    "Something went wrong inside",
    "Nothing was changed and what you typed is kept by the browser.",
    "Go back and change the last thing you typed; then please report it, with the piece file.",
)
FOREIGN_HOST = Fault(
    421,
    "Not under this name",
    "This page answers only under its own address on this machine.",
    "Open the address that hollowright printed when it started.",
)
FOREIGN_SITE = Fault(
    403,
    "Not from there",
    "A form was sent from another page or site; only this page's own are taken.",
    "Open the page itself and send the form from there.",
)


@dataclass
class _State:
    begun: bool = False


def is_loopback(host: str) -> bool:
    """Whether a host is this machine talking to itself."""
    try:
        return ipaddress.ip_address(host.strip("[]")).is_loopback
    except ValueError:
        return host.lower() == "localhost"


def names_for(host: str) -> frozenset[str] | None:
    """The names a request may use; None when bound to every address: then any address will do."""
    bare = host.strip("[]").lower()
    try:
        if not bare or ipaddress.ip_address(bare).is_unspecified:
            return None
    except ValueError:
        pass
    return frozenset((*LOOPBACK, f"[{bare}]" if ":" in bare else bare))


def refusal(scope: Scope, headers: Headers, names: frozenset[str] | None) -> Fault | None:
    """Why a request isn't taken, None when it is."""
    hosts = headers.getlist("host")
    if len(hosts) != 1 or not _ours(hosts[0], scope, names):
        return FOREIGN_HOST
    if scope["method"] in ("GET", "HEAD"):
        return None
    if headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
        return FOREIGN_SITE
    origin = headers.get("origin")
    if origin is not None and origin.lower() != f"{scope['scheme']}://{hosts[0]}".lower():
        return FOREIGN_SITE
    return None


def _ours(host: str, scope: Scope, names: frozenset[str] | None) -> bool:
    """Whether a Host header is one of our names with the port that we listen on."""
    name, port = _split(host.lower())
    server = scope.get("server")
    if server and server[1] is not None and port != server[1]:
        return False
    if names is not None:
        return name in names
    try:
        ipaddress.ip_address(name.strip("[]"))
    except ValueError:
        return name == "localhost"
    return True


def _split(host: str) -> tuple[str, int]:
    """Name and port of a Host header; port 80 where none is given, -1 where it isn't one."""
    name, colon, port = host.rpartition(":")
    if not colon or host.endswith("]"):
        return host, 80
    is_port = port.isascii() and port.isdigit() and len(port) < 6
    return name, int(port) if is_port else -1


async def _whole(headers: Headers, receive: Receive, most: int) -> bytes | None:
    """The whole body; None when it is too large, said or found."""
    said = headers.get("content-length", "0")
    if not (said.isascii() and said.isdigit()) or len(said) > 9 or int(said) > most:
        return None
    body = bytearray()
    more = True
    while more:
        message = await receive()
        if message["type"] != "http.request":
            break
        body += message.get("body", b"")
        more = message.get("more_body", False)
        if len(body) > most:
            return None
    return bytes(body)


def _replayed(body: bytes, receive: Receive) -> Receive:
    """A receive that gives the body that was read, then whatever comes after."""
    parts: list[Message] = [{"type": "http.request", "body": body, "more_body": False}]

    async def again() -> Message:
        return parts.pop() if parts else await receive()

    return again


def _add_headers(message: Message) -> None:
    headers = MutableHeaders(scope=message)
    for name, value in HEADERS.items():
        headers[name] = value
    headers.setdefault("cache-control", "no-cache")


def tell(fault: Exception) -> None:
    """One line to the terminal; the whole story only when it is asked for."""
    if os.environ.get("HOLLOWRIGHT_DEBUG"):
        traceback.print_exception(fault)
        return
    sys.stderr.write(
        f"Something went wrong inside ({type(fault).__name__}). Set HOLLOWRIGHT_DEBUG=1 and start "
        "again to see where.\n"
    )
