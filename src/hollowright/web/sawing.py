"""The cut list page: tube, rod and strip sawn from bars, shown to scale, taken away, sawn."""

from __future__ import annotations

import hashlib
import json
from dataclasses import replace

from markupsafe import Markup
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.routing import Route

from hollowright.errors import HollowrightError, InputError
from hollowright.job.cutting import Cutting, cutting, no_drawer
from hollowright.output.cutlist_view import BarView
from hollowright.plan.bars import CutList
from hollowright.plan.safety import DEFERS
from hollowright.units import format_inch, format_number
from hollowright.web.booked import shown_mark
from hollowright.web.laying import SentForm, ask_of_plan, asked, bench_of, sent_form
from hollowright.web.laying_ask import Ask, written_spots
from hollowright.web.laying_source import ordered, strips_of
from hollowright.web.laying_work import Bench
from hollowright.web.pages import rendered

SECONDS = 3.0
"""How long the solver may take for one kind of bar [s]."""

LONGEST_WAIT = 20.0
"""How long a cut list waits for its turn [s]."""


def worked_cutting(ask: Ask, bench: Bench) -> Cutting:
    """The cut lists of an ask; HollowrightError when there can be none."""
    if not ask.whole:
        fault = next(iter(ask.faults.values()), None)
        raise fault or InputError("piece", "there is no piece to saw for.", "Open a piece file.")
    drawer = no_drawer
    if ask.drawer and bench.drawer_fault() is None:
        drawer = bench.door.opened().bars_for
    if not bench.sawing.acquire(timeout=LONGEST_WAIT):
        raise InputError("cutlist", "others are being worked out.", "Try again in a moment.")
    try:
        wanted = ordered(ask)
        return cutting(wanted, bench.shop, drawer, None, SECONDS, strips_of(ask, wanted))
    finally:
        bench.sawing.release()


def shown_key(made: Cutting) -> str:
    """The same for cut lists that saw the same: what is sawn must be what was looked at."""
    told = [
        (bar.id, bar.bar.length, [(p.length, round(p.start, 6)) for p in bar.pieces])
        for each in made.lists
        for bar in each.bars
    ]
    return hashlib.sha256(json.dumps(told).encode()).hexdigest()[:24]


async def whole(request: Request) -> Response:
    """The page; or with 'what' a file of it; or with 'sure' the sawing."""
    sent = await sent_form(request)
    return await run_in_threadpool(_answer, sent, bench_of(request))


def _answer(sent: SentForm, bench: Bench) -> Response:
    if "design" in sent.texts:
        ask = ask_of_plan(sent, bench)
        return ask if isinstance(ask, Response) else _page(ask, bench)
    ask = asked(sent, bench)
    if sent.one("what"):
        return _file(ask, bench, sent.one("what"))
    if sent.one("sure"):
        return _sawn(ask, bench, sent.one("sure"), sent.one("once"))
    return _page(ask, bench)


def _page(ask: Ask, bench: Bench, problem: HollowrightError | None = None) -> Response:
    from hollowright.output.cutlist_drawing import KEY
    from hollowright.output.cutlist_pages import MARKS
    from hollowright.output.cutlist_text import HAND
    from hollowright.output.cutlist_view import bar_views, batch_words, rules_words, square_words

    made, fault = None, problem
    try:
        made = worked_cutting(ask, bench)
    except HollowrightError as wrong:
        fault = wrong
    shown = {
        "ask": ask,
        "made": made,
        "key": shown_key(made) if made else "",
        "ticket": bench.booked.ticket(),
        "before": bench.booked_before(_mark(ask, shown_key(made))) if made else 0,
        "spots": written_spots(ask.spots),
        "pins": written_spots(ask.pins),
        "picture": _picture,
        "key_words": KEY,
        "fault": fault,
        "closed": bench.drawer_fault() if ask.drawer else None,
        "batch_words": batch_words,
        "rules_words": rules_words,
        "square_words": square_words,
        "bar_views": bar_views,
        "two": format_number,
        "inch": format_inch,
        "hand": HAND,
        "marks": MARKS,
        "defers": DEFERS,
    }
    return HTMLResponse(rendered("cutlist.html", **shown), 422 if fault else 200)


def _picture(cut_list: CutList, view: BarView, id: str) -> Markup:
    """One bar to scale, without its name, which stands over it."""
    from hollowright.output.cutlist_drawing import MARGIN, bar_drawing, scale_of
    from hollowright.output.drawing import Label
    from hollowright.output.extent import extent
    from hollowright.output.svg import svg

    whole = bar_drawing(view, scale_of(cut_list))
    named = [each for each in whole.items if isinstance(each, Label) and each.text == view.name]
    items = tuple(each for each in whole.items if each not in named)
    drawn = replace(whole, items=items, height=extent(items)[3] + MARGIN)
    return Markup(svg(drawn, ink="currentColor", prefix=id))  # noqa: S704 (texts are escaped)


def _file(ask: Ask, bench: Bench, what: str) -> Response:
    try:
        made = worked_cutting(ask, bench)
    except HollowrightError:
        return _page(ask, bench)
    if what == "cutlist.json":
        from hollowright.output.cutlist_data import cutlist_data

        text = json.dumps(cutlist_data(made), ensure_ascii=False, allow_nan=False, indent=1)
        body, kind = text.encode(), "application/json"
    elif what in ("cutlist-a4.pdf", "cutlist-letter.pdf"):
        from hollowright.output.cutlist_pages import cutlist_pdf

        paper = what.removeprefix("cutlist-").removesuffix(".pdf")
        body, kind = cutlist_pdf(made, paper), "application/pdf"
    else:
        raise HTTPException(404, "There is no such file of this cut list.")
    headers = {"content-disposition": f'attachment; filename="{what}"'}
    return Response(body, media_type=kind, headers=headers)


def _mark(ask: Ask, key: str) -> str:
    return shown_mark("cutlist", [(each.text, each.copies) for each in ask.pieces], key)


def _sawn(ask: Ask, bench: Bench, key: str, ticket: str) -> Response:
    """Saw what was looked at, once: bars out of the drawer, rests worth keeping in."""

    def book() -> int:
        made = worked_cutting(ask, bench)
        if shown_key(made) != key:
            raise InputError(
                "cutlist", "it came out otherwise than it was shown.", "Look at it again."
            )
        if not made.complete:
            raise InputError("cutlist", "not every piece has its bar.", "Then nothing is sawn.")
        number: int = bench.door.opened().cut_bars(made.lists, made.title).number
        return number

    try:
        number = bench.booked.once(ticket, _mark(ask, key), book)
    except HollowrightError as fault:
        return _page(ask, bench, problem=fault)
    return RedirectResponse(f"/drawer/cuttings/{number}?now=yes", 303)


async def back(_: Request) -> Response:
    """The page asked for anew: the layout page, where the pieces are."""
    return RedirectResponse("/layout", 303)


ROUTES = (
    Route("/cutlist", whole, methods=["POST"]),
    Route("/cutlist", back, methods=["GET"]),
)
"""The cut list's own address."""
