"""One cutting's page: what went out, which number goes on which offcut, the way back."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import Route

from hollowright.errors import HollowrightError
from hollowright.web.cutting_record import cut_sheets, left_rows
from hollowright.web.drawer import closed, not_there, store_of
from hollowright.web.pages import rendered


def cutting_page(request: Request) -> Response:
    """A cutting by its number, as it was booked just now or long ago."""
    try:
        store = store_of(request)
    except HollowrightError as fault:
        return closed(fault)
    return _page(store, request.path_params["number"], "now" in request.query_params)


def _page(store: Any, number: int, now: bool) -> Response:
    try:
        made = store.cutting(number)
        items = [store.item(each) for each in made.came_in]
    except HollowrightError as fault:
        return not_there(fault)
    sheets = cut_sheets(made.data, made.came_in)
    shown = {"made": made, "now": now, "sheets": sheets, "rows": left_rows(items, sheets)}
    return HTMLResponse(rendered("drawer_cutting.html", **shown))


ROUTES = (Route("/drawer/cuttings/{number:int}", cutting_page, methods=["GET"]),)
"""The address of one cutting."""
