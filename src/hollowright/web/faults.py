"""The plain page for what can't be shown: what happened and what to do, never a traceback."""

from __future__ import annotations

from dataclasses import dataclass

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


def http_fault(_: Request, raised: Exception) -> HTMLResponse:
    """A page for an HTTP error that the router or a form raised."""
    status, said = getattr(raised, "status_code", 400), getattr(raised, "detail", "")
    title, problem = UNKNOWN.get(status, ("That can't be read", str(said)))
    return fault_page(Fault(status, title, problem, "Go back to the first page."))
