"""The drawer page's routes: list, put in, put right, take out, files out and in, cuttings."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.routing import Route

from hollowright.errors import HollowrightError, InputError
from hollowright.handbook.metals import metals
from hollowright.store.items import FORMS, Item
from hollowright.web.drawer_form import (
    BOXES,
    changed,
    first_values,
    shown_boxes,
    told,
    typed,
    values_of,
)
from hollowright.web.drawer_view import (
    Asked,
    facts,
    gone_words,
    listed,
    metal_name,
    record_lines,
    shape,
)
from hollowright.web.pages import rendered

SIZE = 50
"""So many items stand on a page of the drawer."""

MOST_FIELDS = 60
MOST_CUTTINGS = 200
MOST_PAGE = 1_000_000

Faults = Mapping[str, tuple[HollowrightError, ...]]


@dataclass(frozen=True)
class Posted:
    """A sent form: the open store, what was sent, the number in its address (0 without one)."""

    store: Any
    sent: Mapping[str, Any]
    number: int = 0


Act = Callable[[Posted], Response]
"""What a route does with a sent form."""


def store_of(request: Request) -> Any:
    """The open drawer; HollowrightError when it can't be opened."""
    return request.app.state.bench.door.opened()


def closed(fault: HollowrightError) -> Response:
    """The page of a drawer that can't be opened."""
    return HTMLResponse(rendered("drawer_closed.html", fault=fault), 503)


def not_there(fault: HollowrightError) -> Response:
    """The page for a number that nothing has; the drawer itself is open."""
    return HTMLResponse(rendered("drawer_not_there.html", fault=fault), 404)


def posting(act: Act) -> Callable[[Request], Any]:
    """A route for a sent form: read here, acted on in a thread, what is wrong told in words."""

    async def route(request: Request) -> Response:
        async with request.form(max_files=1, max_fields=MOST_FIELDS) as form:
            sent = {
                name: await each.read() if isinstance(each, UploadFile) else each
                for name, each in form.items()
            }
        return await run_in_threadpool(_acted, act, sent, request)

    return route


def _acted(act: Act, sent: dict[str, Any], request: Request) -> Response:
    try:
        store = store_of(request)
    except HollowrightError as fault:
        return closed(fault)
    return act(Posted(store, sent, request.path_params.get("number", 0)))


def by_field(fault: HollowrightError) -> Faults:
    """A fault's single ones by the box they are about; '' for the others."""
    names = {"form", "metal", *(box.name for box in BOXES)}
    found: dict[str, tuple[HollowrightError, ...]] = {}
    for each in fault.each():
        name = each.field if each.field in names else ""
        found[name] = (*found.get(name, ()), each)
    return found


def list_page(request: Request) -> Response:
    """The drawer: a page of it, by what was asked for."""
    query = request.query_params
    number = query.get("page", "1")
    page = int(number) if number.isascii() and number.isdigit() and len(number) < 7 else 1
    form = query.get("form", "")
    asked = Asked(
        query.get("text", "")[:100],
        form if form in FORMS else "",
        query.get("metal", "")[:20],
        query.get("gone", "") == "yes",
        max(1, page),
    )
    try:
        return _list(
            store_of(request), asked, new=query.get("new", "")[:8], came=query.get("came", "")[:8]
        )
    except HollowrightError as fault:
        return closed(fault)


def _list(
    store: Any,
    asked: Asked,
    values: dict[str, str] | None = None,
    faults: Faults | None = None,
    said: str = "",
    new: str = "",
    came: str = "",
) -> Response:
    found = store.items(asked.page, SIZE, asked.form, asked.metal, asked.text, asked.gone)
    shown = {
        "asked": asked,
        "page": found,
        "rows": listed(found),
        "values": values or first_values(),
        "faults": faults or {},
        "said": said,
        "new": new if new.isdecimal() else "",
        "came": came if came.isdecimal() else "",
        "boxes": BOXES,
        "forms": FORMS,
        "metals": metals(),
        "metal_name": metal_name,
        "gone_words": gone_words,
    }
    return HTMLResponse(rendered("drawer.html", **shown), 422 if faults or said else 200)


def add(posted: Posted) -> Response:
    """Put a piece of metal in; the form again with what is wrong."""
    from hollowright.store.reading import read_item

    store, sent = posted.store, posted.sent
    values = typed(sent)
    drawing = sent.get("drawing")
    try:
        raw = drawing if isinstance(drawing, bytes) and drawing else None
        item = store.add(read_item(told(values, raw, str(sent.get("unit", ""))[:20])))
    except HollowrightError as fault:
        return _list(store, Asked(), values, by_field(fault))
    return RedirectResponse(f"/drawer?new={item.number}", 303)


def item_page(request: Request) -> Response:
    """One item: its shape, what is known, its record, the boxes to put it right."""
    try:
        store = store_of(request)
    except HollowrightError as fault:
        return closed(fault)
    return _item(store, request.path_params["number"])


def _item(
    store: Any,
    number: int,
    values: dict[str, str] | None = None,
    faults: Faults | None = None,
) -> Response:
    try:
        item: Item = store.item(number)
        record = store.changes(number)
    except HollowrightError as fault:
        return not_there(fault)
    shown = {
        "item": item,
        "picture": shape(item),
        "facts": facts(item),
        "record": record_lines(record),
        "values": values or values_of(item),
        "faults": faults or {},
        "boxes": shown_boxes(item),
        "metals": metals(),
        "metal_name": metal_name,
    }
    return HTMLResponse(rendered("drawer_item.html", **shown), 422 if faults else 200)


def change(posted: Posted) -> Response:
    """Put an item right; its page again with what is wrong."""
    from hollowright.store.reading import read_changes

    store, number = posted.store, posted.number
    values = typed(posted.sent)
    try:
        item = store.item(number)
        values |= {"form": item.form, "metal": values["metal"] or item.metal}
        changes = read_changes(item, changed(item, values))
        if changes:
            store.change(number, **changes)
    except HollowrightError as fault:
        return _item(store, number, values, by_field(fault))
    return RedirectResponse(f"/drawer/{number}", 303)


def take(posted: Posted) -> Response:
    """Take an item out, with the reason."""
    try:
        posted.store.take(posted.number, str(posted.sent.get("why", ""))[:600])
    except HollowrightError as fault:
        return _item(posted.store, posted.number, None, {"why": (fault,)})
    return RedirectResponse("/drawer", 303)


def export(request: Request) -> Response:
    """Every item that lies there, or every one that ever did, as CSV or JSON."""
    from hollowright.store.exchange import export_csv, export_json

    kind = request.path_params["kind"]
    if kind not in ("csv", "json"):
        raise HTTPException(404, "The drawer comes as CSV or JSON.")
    try:
        all_of = None if request.query_params.get("gone") == "yes" else False
        items = store_of(request).all_items(all_of)
    except HollowrightError as fault:
        return closed(fault)
    text = export_csv(items) if kind == "csv" else export_json(items)
    media = "text/csv; charset=utf-8" if kind == "csv" else "application/json"
    headers = {"content-disposition": f'attachment; filename="drawer.{kind}"'}
    return Response(text.encode(), media_type=media, headers=headers)


def bring_in(posted: Posted) -> Response:
    """Put in what a file tells: all of it, or nothing, and which lines are wrong."""
    from hollowright.store.exchange import import_csv, import_json

    store, file = posted.store, posted.sent.get("file")
    try:
        if not isinstance(file, bytes) or not file:
            raise InputError("file", "none was given.", "Choose a CSV or JSON file.")
        is_json = file.lstrip(b"\xef\xbb\xbf \r\n\t")[:1] in (b"{", b"[")
        done = (import_json if is_json else import_csv)(store, file)
    except HollowrightError as fault:
        told = [each for each in fault.each() if each.field]
        return _list(store, Asked(), said="\n".join(str(each) for each in told))
    return RedirectResponse(f"/drawer?came={len(done.items)}", 303)


def cuttings(request: Request) -> Response:
    """What was cut, newest first, each to be taken back."""
    try:
        return _cuttings(store_of(request))
    except HollowrightError as fault:
        return closed(fault)


def _cuttings(store: Any, fault: HollowrightError | None = None) -> Response:
    found = store.cuttings(MOST_CUTTINGS)
    shown = rendered("drawer_cuttings.html", cuttings=found, fault=fault)
    return HTMLResponse(shown, 422 if fault else 200)


def undo(posted: Posted) -> Response:
    """Take a cutting back, where nothing left over from it has been used."""
    try:
        posted.store.undo(posted.number)
    except HollowrightError as fault:
        return _cuttings(posted.store, fault)
    return RedirectResponse("/drawer/cuttings", 303)


async def back(_: Request) -> Response:
    """A page that came of a form and is asked for anew: the drawer."""
    return RedirectResponse("/drawer", 303)


ROUTES = (
    Route("/drawer", list_page, methods=["GET"]),
    Route("/drawer/add", posting(add), methods=["POST"]),
    Route("/drawer/import", posting(bring_in), methods=["POST"]),
    Route("/drawer/drawer.{kind:str}", export, methods=["GET"]),
    Route("/drawer/cuttings", cuttings, methods=["GET"]),
    Route("/drawer/cuttings/{number:int}/undo", posting(undo), methods=["POST"]),
    Route("/drawer/{number:int}", item_page, methods=["GET"]),
    Route("/drawer/{number:int}/change", posting(change), methods=["POST"]),
    Route("/drawer/{number:int}/take", posting(take), methods=["POST"]),
    *(
        Route(path, back, methods=["GET"])
        for path in ("/drawer/add", "/drawer/import", "/drawer/{number:int}/change",
                     "/drawer/{number:int}/take", "/drawer/cuttings/{number:int}/undo")
    ),
)  # fmt: skip
"""The drawer's own addresses."""
