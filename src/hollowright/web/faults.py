"""The plain page for what can't be shown: what happened and what to do, never a traceback."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse

from hollowright.web.pages import rendered


@dataclass(frozen=True)
class Fault:
    """An HTTP status with a title, what happened and what to do next."""

    status: int
    title: str
    problem: str
    remedy: str


UNKNOWN = {
    404: ("There is no such page", "Nothing is kept under this address."),
    405: ("Not that way", "This address can't be used like that."),
}


def fault_page(fault: Fault) -> HTMLResponse:
    """A whole page that tells a fault."""
    return HTMLResponse(rendered("fault.html", fault=fault), fault.status)


def http_fault(request: Request, raised: Exception) -> HTMLResponse:
    """A page for an HTTP error that the router or a form raised."""
    assert isinstance(raised, HTTPException)
    title, problem = UNKNOWN.get(raised.status_code, ("That can't be read", str(raised.detail)))
    return fault_page(Fault(raised.status_code, title, problem, "Go back to the first page."))
