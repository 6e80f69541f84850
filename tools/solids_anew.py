"""Make a plan's solids anew from their numbers: what its design does to make them, and no more.

While a plan is made once, every call of the functions below is noted with its arguments. Made anew,
each is called again in its turn, its arguments being what the calls before it made anew, or built
up again from plain numbers; a body that none of them makes is built up likewise: its profile or
outlines, then the body, through their own checks. Nothing is built up twice, and of outlines only
those that bodies are made of.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, fields, is_dataclass
from functools import wraps
from importlib import import_module
from typing import Any

MAKERS = (
    "designs.bead:dome_section",
    "designs.cone_bodies:Form.body",
    "designs.facet_form_bodies:Hollow.plate",
    "designs.facet_form_bodies:Hollow.shell",
    "designs.finger_band_bodies:domed",
    "designs.hinge_bodies:knuckle_solids",
    "designs.hinge_bodies:pin_solid",
    "designs.tube_mitre_bodies:looped",
    "designs.tube_saddle_bodies:Crossing.branch_body",
    "designs.tube_saddle_bodies:Crossing.main_body",
    "designs.vessel_profile:Profile.section",
    "shapes.offset:offset",
    "shapes.offset:offset_pieces",
    "shapes.outline:annulus",
    "shapes.outline:disc",
    "shapes.outline:polygon",
    "shapes.outline:rectangle",
    "shapes.ovals:ellipse",
    "shapes.ovals:regular_polygon",
    "shapes.solids:disc",
    "shapes.solids:ring",
    "shapes.solids:tube",
)
"""What makes bodies, their sections and outlines from plain numbers."""

ASIDE = ("shapes.grown:grown",)
"""What draws with them for another end than a body: the pieces that are sawn out of the sheet."""


Call = tuple[Callable[..., Any], tuple[Any, ...], dict[str, Any], Any]
"""A function, its arguments, those by name, what it returned."""


@dataclass
class Notes:
    """Calls noted: only the outermost, and none made by what is aside."""

    calls: list[Call]
    depth: int = 0

    def noted(self, function: Callable[..., Any], keep: bool) -> Callable[..., Any]:
        """The function, noting its calls."""

        @wraps(function)
        def call(*args: Any, **named: Any) -> Any:
            self.depth += 1
            try:
                result = function(*args, **named)
            finally:
                self.depth -= 1
            if keep and not self.depth:
                self.calls.append((function, args, named, result))
            return result

        return call


def solids_anew(plan: Callable[[], Any], forget: Callable[[], None]) -> Callable[[], list[Any]]:
    """What makes the solids of a plan anew; `forget` empties what would not be made again."""
    notes = Notes([])
    forget()
    with ExitStack() as stack:
        for names, keep in ((MAKERS, True), (ASIDE, False)):
            for name in names:
                stack.enter_context(_replaced(name, notes, keep))
        bodies = [solid.body for part in plan().parts for solid in part.solids]
    makes = {(type(body), body.id) for *_, result in notes.calls for body in _bodies(result)}
    others = [body for body in bodies if (type(body), body.id) not in makes]

    wanted = {(type(body), body.id) for body in bodies}
    calls = _needed(notes.calls, others)

    def make() -> list[Any]:
        made: dict[int, Any] = {}
        found: list[Any] = []
        for function, args, named, result in calls:
            fresh = {name: anew(value, made) for name, value in named.items()}
            again = function(*anew(args, made), **fresh)
            _pair(result, again, made)
            found += (body for body in _bodies(again) if (type(body), body.id) in wanted)
        return found + [anew(body, made) for body in others]

    _the_same(bodies, make())
    return make


def _the_same(bodies: Sequence[Any], again: Sequence[Any]) -> None:
    """ValueError unless what was made anew has the volumes of what the plan has."""
    volumes = [{body.id: body.volume for body in each} for each in (bodies, again)]
    if len(bodies) != len(again) or any(
        not math.isclose(volumes[0][id], volumes[1].get(id, 0.0), rel_tol=1e-9) for id in volumes[0]
    ):
        raise ValueError(f"made anew otherwise than planned: {volumes[0]}, {volumes[1]}")


def _needed(calls: Iterable[Call], others: Iterable[Any]) -> list[Call]:
    """The calls but for those of outlines that go into no body, nor into another such call."""
    used: set[int] = set()
    for body in others:
        used |= _ids(body)
    kept = []
    for call in reversed(list(calls)):
        function, args, named, result = call
        always = ".designs." in function.__module__ or any(True for _ in _bodies(result))
        if always or used & _ids(result):
            kept.append(call)
            used |= _ids(args) | _ids(tuple(named.values()))
    return kept[::-1]


def _ids(value: Any) -> set[int]:
    """The ids of a value and of what it is made of, but for plain numbers and words."""
    if isinstance(value, tuple | list):
        parts = value
    elif is_dataclass(value) and not isinstance(value, type):
        parts = [getattr(value, f.name) for f in fields(value)]
    else:
        return set()
    return {id(value)}.union(*map(_ids, parts)) if parts else set()


def _pair(old: Any, new: Any, made: dict[int, Any]) -> None:
    """Note what a result is anew, and its outlines' curves."""
    made[id(old)] = new
    if hasattr(old, "segments"):
        made[id(old.segments)] = new.segments
    elif isinstance(old, tuple) and old and hasattr(old[0], "segments"):
        for was, again in zip(old, new, strict=True):
            _pair(was, again, made)


def anew(value: Any, made: dict[int, Any]) -> Any:
    """The same value built up again: data classes by their own making; rows of points stay.

    made: what was built up again already, by the id of what it was.
    """
    if id(value) in made:
        return made[id(value)]
    if isinstance(value, tuple | list):
        return value if _plain(value) else type(value)(anew(each, made) for each in value)
    if is_dataclass(value) and not isinstance(value, type):
        kept = {f.name: anew(getattr(value, f.name), made) for f in fields(value) if f.init}
        made[id(value)] = type(value)(**kept)
        return made[id(value)]
    return value


def _plain(value: Any) -> bool:
    """Whether it is a number, a word, a point or a row of points."""
    while isinstance(value, tuple | list):
        if not value:
            return True
        value = value[0]
    return not (is_dataclass(value) or callable(value))


def _bodies(found: Any) -> Iterator[Any]:
    """Bodies among results, also those of a plan's solids."""
    if isinstance(found, tuple | list):
        for each in found:
            yield from _bodies(each)
    elif hasattr(found, "mesh") and hasattr(found, "volume"):
        yield found
    elif hasattr(found, "body") and hasattr(found, "pull"):
        yield found.body


@contextmanager
def _replaced(name: str, notes: Notes, keep: bool) -> Iterator[None]:
    """A function, or a class's method, noting its calls wherever the package uses it."""
    room, _, path = name.partition(":")
    module: Any = import_module(f"hollowright.{room}")
    *owner, last = path.split(".")
    holder = getattr(module, owner[0]) if owner else module
    function = vars(holder)[last]
    noting = notes.noted(function, keep)
    places = [holder] if owner else list(_users(function))
    for place in places:
        _set(place, function, noting)
    try:
        yield
    finally:
        for place in places:
            _set(place, noting, function)


def _users(function: Callable[..., Any]) -> Iterable[Any]:
    """The package's modules that have a function among their names."""
    for name, module in list(sys.modules.items()):
        if name.startswith("hollowright") and any(v is function for v in vars(module).values()):
            yield module


def _set(place: Any, old: Any, new: Any) -> None:
    for name, value in list(vars(place).items()):
        if value is old:
            setattr(place, name, new)
