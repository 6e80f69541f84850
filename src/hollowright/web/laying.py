"""The layout page's routes: read what was sent, lay out, show; begin, follow and stop searches."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.routing import Route

from hollowright.errors import HollowrightError, InputError
from hollowright.web.form import sent_values
from hollowright.web.laying_ask import Ask, read_ask
from hollowright.web.laying_cut import cut, to_cut
from hollowright.web.laying_files import layout_file
from hollowright.web.laying_pins import checked_pins, with_doing
from hollowright.web.laying_show import cut_page, laid_part, layout_page, search_part
from hollowright.web.laying_source import ordered
from hollowright.web.laying_work import Bench, Laid, as_shown, laid_out, shown_again, to_better
from hollowright.web.opened import given_text
from hollowright.web.outcome import worked_out
from hollowright.web.show import page as plan_page

MOST_FIELDS = 1500
"""No layout page has more boxes."""


@dataclass(frozen=True)
class SentForm:
    """A sent form: its texts and its files, by the box's name."""

    texts: Mapping[str, Sequence[str]]
    file: bytes | None = None

    def one(self, name: str) -> str:
        """The last text of this name; '' when there is none."""
        found = self.texts.get(name, ())
        return found[-1] if found else ""

    @property
    def doing(self) -> str:
        """What the pressed button does; '' when the form was only sent."""
        return self.one("do") or self.one("doing")


async def sent_form(request: Request) -> SentForm:
    """What was sent."""
    texts: dict[str, list[str]] = {}
    file: bytes | None = None
    async with request.form(max_files=1, max_fields=MOST_FIELDS) as form:
        for name, each in form.multi_items():
            if isinstance(each, UploadFile):
                file = await each.read() or None
            else:
                texts.setdefault(name, []).append(each)
    return SentForm(texts, file)


async def whole(request: Request) -> Response:
    """The whole page: of a plan that was sent, or of what stands on the layout page itself."""
    sent = await sent_form(request)
    bench = bench_of(request)
    if "design" in sent.texts:
        return await run_in_threadpool(_from_plan, sent, bench)
    return await run_in_threadpool(_whole, sent, bench)


def _from_plan(sent: SentForm, bench: Bench) -> Response:
    ask = ask_of_plan(sent, bench)
    return ask if isinstance(ask, Response) else layout_page(laid_out(ask, bench), bench)


def ask_of_plan(sent: SentForm, bench: Bench) -> Ask | Response:
    """The piece of a plan's form, once; the plan's page again when it has faults."""
    flat = {name: texts[-1] for name, texts in sent.texts.items()}
    try:
        outcome = worked_out(sent_values(flat), sent.one("good"), bench.shop)
    except HollowrightError as fault:
        raise HTTPException(400, str(fault)) from None
    if outcome.stale or not outcome.piece:
        return plan_page(outcome, status=422)
    return read_ask({}, bench.shop, [outcome.piece])


def _whole(sent: SentForm, bench: Bench) -> Response:
    ask = asked(sent, bench)
    laid = shown_again(ask, bench) if sent.doing == "shown" else _laid(ask, sent, bench)
    if sent.doing == "search" and laid.search and laid.fault is None:
        laid = searched(laid, bench)
    status = 422 if ask.faults or laid.fault else 200
    return layout_page(laid, bench, status, _typed(sent) if status == 422 else {})


def _typed(sent: SentForm) -> dict[str, str]:
    """What was typed in boxes that are emptied once it is taken: it isn't taken yet."""
    names = [name for name in sent.texts if name.startswith("pin_") or name == "pasted"]
    return {name: sent.one(name) for name in names}


def asked(sent: SentForm, bench: Bench) -> Ask:
    """What was asked, with the piece file that came along, without the one that was dropped."""
    texts = list(sent.texts.get("piece", ()))
    copies = list(sent.texts.get("copies", ()))
    doing, fault = sent.doing, None
    if doing.startswith("drop:") and doing[5:].isdigit() and int(doing[5:]) < len(texts):
        del texts[int(doing[5:])], copies[int(doing[5:]) : int(doing[5:]) + 1]
    if doing == "add":
        try:
            texts.append(given_text({"file": sent.file, "pasted": sent.one("pasted")}))
            copies.append("1")
        except InputError as problem:
            fault = problem
    ask = read_ask({**sent.texts, "copies": copies}, bench.shop, texts)
    if doing in ("anew", "search"):
        ask = replace(ask, anew=True)
    if doing.startswith("drop:"):
        ask = without_strangers(ask)
    return replace(ask, faults={**ask.faults, "file": fault}) if fault else ask


def without_strangers(ask: Ask) -> Ask:
    """The ask without pins of blanks that aren't there any more."""
    known = {f"{order.key}.{part.id}" for order in ordered(ask) for part in order.plan.parts}
    return replace(ask, pins=tuple(pin for pin in ask.pins if pin.item in known))


def _laid(ask: Ask, sent: SentForm, bench: Bench) -> Laid:
    """The layouts of an ask, once what is to be pinned is pinned and proved sound."""
    pinned, fault = with_doing(ask, sent.doing, sent.one, bench)
    if fault is None:
        fault = checked_pins(pinned, bench)
    if fault is None:
        return laid_out(pinned, bench)
    kept = replace(ask, pins=tuple(spot for spot in ask.spots if spot.pinned))
    laid = laid_out(kept, bench)
    return replace(laid, fault=laid.fault or fault)


def searched(laid: Laid, bench: Bench) -> Laid:
    """The layouts once they were searched for as long as was said: for a page without script."""
    search = bench.searches.begin(laid.ask.page, laid.layouts, laid.ask.seconds, bench.keep)
    until = laid.ask.seconds + 5.0
    while not search.ended.wait(1.0) and until > 0:
        bench.searches.heard(search.id)
        until -= 1.0
    found = "What it found lies here." if search.version else "Nothing better turned up."
    told = f"Searched for {laid.ask.seconds:g} s. {found}"
    return replace(laid, layouts=tuple(search.layouts), search=False, searched=told)


async def lay(request: Request) -> Response:
    """The part of the page that changes; nothing but the reason where a pin isn't sound."""
    sent = await sent_form(request)
    return await run_in_threadpool(_lay, sent, bench_of(request))


def _lay(sent: SentForm, bench: Bench) -> Response:
    return laid_part(_laid(asked(sent, bench), sent, bench), bench)


async def search(request: Request) -> Response:
    """Begin a search for what stands on the page; how far it is, to be asked after again."""
    sent = await sent_form(request)
    return await run_in_threadpool(_search, sent, bench_of(request))


def _search(sent: SentForm, bench: Bench) -> Response:
    ask = replace(asked(sent, bench), anew=True)
    laid = to_better(ask, bench)
    if laid.fault or not laid.layouts:
        return HTMLResponse("", 200)
    begun = bench.searches.begin(ask.page, laid.layouts, ask.seconds, bench.keep)
    return search_part(begun, seen=0)


async def progress(request: Request) -> Response:
    """How far a search is, and what it found since the page last asked."""
    bench = bench_of(request)
    found = bench.searches.heard(request.path_params["id"])
    if found is None:
        return HTMLResponse("")
    if request.method == "POST":
        found.stopping.set()
        await run_in_threadpool(found.ended.wait, 2.0)
    seen = request.query_params.get("seen", "0")
    known = int(seen) if seen.isascii() and seen.isdigit() and len(seen) < 9 else 0
    return await run_in_threadpool(search_part, found, known)


async def file(request: Request) -> Response:
    """A file of the layout that the page shows; the page again where that can't be."""
    sent, bench = await sent_form(request), bench_of(request)
    return await run_in_threadpool(_file, sent, bench)


def _file(sent: SentForm, bench: Bench) -> Response:
    ask = asked(sent, bench)
    try:
        found = layout_file(as_shown(ask, bench), sent.one("what"))
    except HollowrightError as fault:
        return layout_page(replace(laid_out(ask, bench), fault=fault), bench, 422)
    if found is None:
        raise HTTPException(404, "There is no such file of this layout.")
    return found


async def cutting(request: Request) -> Response:
    """Cutting what the page shows: asked once more, then done, then told."""
    sent, bench = await sent_form(request), bench_of(request)
    return await run_in_threadpool(_cutting, sent, bench)


def _cutting(sent: SentForm, bench: Bench) -> Response:
    ask = asked(sent, bench)
    made = cut(ask, bench, sent.one("once")) if sent.one("sure") == "yes" else to_cut(ask, bench)
    if isinstance(made, int):
        return RedirectResponse(f"/drawer/cuttings/{made}?now=yes", 303)
    return cut_page(made, 422 if made.fault else 200)


async def back(_: Request) -> Response:
    """A page that came of a form and is asked for anew: the layout page."""
    return RedirectResponse("/layout", 303)


async def empty(request: Request) -> Response:
    """The page before anything lies on it: to open a piece file."""
    bench = bench_of(request)
    return layout_page(Laid(read_ask({}, bench.shop, [])), bench)


def bench_of(request: Request) -> Bench:
    """What the layout page keeps between two requests."""
    bench: Bench = request.app.state.bench
    return bench


ROUTES = (
    Route("/layout", empty, methods=["GET"]),
    Route("/layout", whole, methods=["POST"]),
    Route("/layout/lay", lay, methods=["POST"]),
    Route("/layout/file", file, methods=["POST"]),
    Route("/layout/cut", cutting, methods=["POST"]),
    *(Route(f"/layout/{name}", back, methods=["GET"]) for name in ("lay", "file", "cut")),
    Route("/layout/search", search, methods=["POST"]),
    Route("/layout/search/{id:str}", progress, methods=["GET", "POST"]),
)
"""The layout page's own addresses."""
