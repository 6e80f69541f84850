"""The page's routes: parse what was sent, call the job, show what came of it."""

from __future__ import annotations

from collections.abc import Mapping

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from hollowright.errors import HollowrightError
from hollowright.shop import Shop
from hollowright.web.downloads import download
from hollowright.web.drawer import ROUTES as DRAWER
from hollowright.web.drawer_cutting import ROUTES as CUTTINGS
from hollowright.web.faults import http_fault
from hollowright.web.form import Values, first_values, sent_values
from hollowright.web.gallery import drawing, gallery
from hollowright.web.guard import Guard
from hollowright.web.laying import ROUTES as LAYING
from hollowright.web.laying_work import Bench
from hollowright.web.opened import opened
from hollowright.web.outcome import Outcome, worked_out
from hollowright.web.sawing import ROUTES as SAWING
from hollowright.web.show import answer_part, asked, page, plan_part
from hollowright.web.turnable import turnable

MOST_FIELDS = 300
"""No form of ours has more boxes."""


def make_app(host: str, shop: Shop | None = None, drawer: str | None = None) -> Starlette:
    """The page as an ASGI application that answers under `host` and this machine's own names.

    shop: whose numbers it plans with; the defaults without one. drawer: the address of the drawer,
    the usual place without one.
    """
    static = StaticFiles(packages=[("hollowright.web", "static"), ("js_lib_htmx", "static")])
    posts = {
        "/plan": plan,
        "/check": check,
        "/open": open_piece,
        "/download": save,
        "/scene": turnable,
    }
    app = Starlette(
        routes=[
            Route("/", first, methods=["GET"]),
            Route("/designs", gallery, methods=["GET"]),
            Route("/designs/{id:str}.svg", drawing, methods=["GET"]),
            *(Route(path, route, methods=["POST"]) for path, route in posts.items()),
            *(Route(path, back, methods=["GET"]) for path in posts),
            *LAYING,
            *DRAWER,
            *CUTTINGS,
            *SAWING,
            Route("/favicon.ico", icon, methods=["GET"]),
            Mount("/static", static),
        ],
        middleware=[Middleware(Guard, host=host)],
        exception_handlers={HTTPException: http_fault},
    )
    app.state.shop = shop
    app.state.bench = Bench(shop, drawer)
    return app


async def first(request: Request) -> Response:
    """The form filled with a design's example piece, and its plan."""
    try:
        values = first_values(request.query_params.get("design", ""))
    except HollowrightError as fault:
        raise HTTPException(404, str(fault)) from None
    return page(worked_out(values, shop=_shop(request)))


async def back(_: Request) -> Response:
    """A page that came of a form and is asked for anew: the first page."""
    return RedirectResponse("/", 303)


async def icon(_: Request) -> Response:
    """The icon, for browsers that ask for it under its old name."""
    return RedirectResponse("/static/favicon.svg", 301)


async def plan(request: Request) -> Response:
    """The plan of what was sent: the part of the page that changes, or the whole page."""
    sent, values = await _sent(request)
    outcome = worked_out(values, _good(sent), _shop(request))
    if "hx-request" in request.headers:
        return plan_part(outcome)
    return page(outcome, status=_status(outcome))


async def check(request: Request) -> Response:
    """Whether a person's own figure agrees and, if not, which slip explains it."""
    sent, values = await _sent(request)
    outcome = worked_out(values, _good(sent), _shop(request))
    answer = asked(outcome, str(sent.get("quantity", "")), str(sent.get("figure", "")))
    if "hx-request" in request.headers:
        return answer_part(outcome, answer)
    return page(outcome, answer, status=_status(outcome))


async def open_piece(request: Request) -> Response:
    """The page filled from a piece file; what was typed stays if that can't be read."""
    sent, values = await _sent(request)
    outcome = opened(sent, values, _good(sent), _shop(request))
    return page(outcome, status=_status(outcome))


async def save(request: Request) -> Response:
    """A file of the plan; with faults in the form, the form again."""
    sent, values = await _sent(request)
    outcome = worked_out(values, _good(sent), _shop(request))
    if outcome.plan is None or outcome.stale:
        return page(outcome, status=422)
    what = str(sent.get("what", ""))
    found = await run_in_threadpool(download, outcome.plan, outcome.piece, what)
    if found is None:
        raise HTTPException(404, "There is no such file of this plan.")
    return found


async def _sent(request: Request) -> tuple[Mapping[str, object], Values]:
    """The sent form (a file as its bytes) and its values; refused when its design isn't known."""
    async with request.form(max_files=1, max_fields=MOST_FIELDS) as form:
        sent = {
            name: await each.read() if isinstance(each, UploadFile) else each
            for name, each in form.items()
        }
    try:
        return sent, sent_values(sent)
    except HollowrightError as fault:
        raise HTTPException(400, str(fault)) from None


def _good(sent: Mapping[str, object]) -> str:
    good = sent.get("good", "")
    return good if isinstance(good, str) else ""


def _shop(request: Request) -> Shop | None:
    shop: Shop | None = request.app.state.shop
    return shop


def _status(outcome: Outcome) -> int:
    return 422 if outcome.stale else 200
