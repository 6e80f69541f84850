"""The picture that can be turned: its scene, asked for once the page is shown."""

from __future__ import annotations

import gzip
import json

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from hollowright.errors import HollowrightError
from hollowright.job.job import plan_tables, read_tables
from hollowright.output.scene import scene
from hollowright.shop import Shop

MOST_FIELDS = 300
"""No form of ours has more boxes."""

PRESSED = 1
"""How hard the scene is pressed, of 9: quickly."""


async def turnable(request: Request) -> Response:
    """The scene of the plan that is shown, by its piece file in `good`; 422 where none can be.

    Then the page keeps the picture that it has.
    """
    async with request.form(max_files=1, max_fields=MOST_FIELDS) as form:
        good = form.get("good", "")
    shop: Shop | None = request.app.state.shop
    try:
        written = await run_in_threadpool(
            written_scene, good if isinstance(good, str) else "", shop
        )
    except (HollowrightError, ValueError):
        return Response("{}", 422, media_type="application/json")
    return Response(*packed(written, request), media_type="application/json")


def packed(written: str, request: Request) -> tuple[bytes, int, dict[str, str]]:
    """The body, the status and the headers of an answer, pressed for a browser that unpacks it."""
    if "gzip" not in request.headers.get("accept-encoding", ""):
        return written.encode(), 200, {}
    return gzip.compress(written.encode(), PRESSED), 200, {"content-encoding": "gzip"}


def written_scene(text: str, shop: Shop | None = None) -> str:
    """The scene of a piece file's text as JSON; HollowrightError or ValueError without one."""
    plan = plan_tables(read_tables(text), shop)
    return json.dumps(scene(plan), separators=(",", ":"), allow_nan=False)
