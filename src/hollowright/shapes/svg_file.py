"""Reads the curves of an SVG file; hostile XML is refused before anything is made of it.

Groups and `use` are walked here, so that nothing can multiply beyond the limits. Styles are not
read, but for what is hidden.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any
from xml.etree.ElementTree import Element, ParseError, TreeBuilder

from hollowright.shapes.drawn import MM, MOST_POINTS, Drawn, FileRefused
from hollowright.shapes.svg_shapes import LENGTH, NUMBER, PLAIN, RUNS, Affine, number, transform

DEEPEST = 50
MOST_ELEMENTS = 5_000
LONGEST_TRANSFORM = 2_000  # characters

GROUPS = {"svg", "g", "a", "switch"}
UNDRAWN = {"defs", "symbol", "clipPath", "mask", "marker", "pattern", "filter", "metadata"}
UNDRAWN |= {"title", "desc", "style", "script", "linearGradient", "radialGradient", "namedview"}
LINKS = ("href", "{http://www.w3.org/1999/xlink}href")


def read_svg(data: bytes, unit: str | None, scale: float) -> Drawn:
    """Every curve that an SVG file draws; `unit` says what one user unit is, else the file does."""
    root = _tree(data)
    if _name(root) != "svg":
        raise FileRefused("it isn't an SVG drawing.", "Save the outline as plain SVG or DXF.")
    across, up, words = _size(root, unit)
    drawn = Drawn(across * scale, words, down=True)
    walk = _Walk(drawn, {e.get("id", ""): e for e in root.iter() if e.get("id")})
    walk.group(root, Affine(a=across * scale, d=-up * scale))
    return drawn


class _Guarded(TreeBuilder):
    """Builds the tree of a file and stops at once when it is too deep, too large or reaches out."""

    def __init__(self) -> None:
        super().__init__()
        self.depth = self.count = self.numbers = 0

    def start(self, tag: Any, attrs: Any, /) -> Element:
        """One element begins."""
        self.depth += 1
        self.count += 1
        if self.depth > DEEPEST:
            raise FileRefused(f"it is nested more than {DEEPEST} deep.", PLAIN)
        if self.count > MOST_ELEMENTS:
            raise FileRefused(f"it has more than {MOST_ELEMENTS} elements.", PLAIN)
        self._check_attributes(str(tag), dict(attrs))
        return super().start(tag, attrs)

    def end(self, tag: Any, /) -> Element:
        """One element ends."""
        self.depth -= 1
        return super().end(tag)

    def _check_attributes(self, tag: str, attributes: dict[str, str]) -> None:
        for link in LINKS:
            to = attributes.get(link, "#").strip()
            if not to.startswith("#") and not tag.endswith("}a") and not to.startswith("data:"):
                raise FileRefused("it refers to another file.", PLAIN)
        if len(attributes.get("transform", "")) > LONGEST_TRANSFORM:
            raise FileRefused("it has a transform beyond all measure.", PLAIN)
        for name in ("d", "points"):
            self.numbers += sum(1 for _ in NUMBER.finditer(attributes.get(name, "")))
        if self.numbers > 2 * 3 * MOST_POINTS:  # a cubic takes three points
            raise FileRefused(f"it has more than {MOST_POINTS} points.", "Simplify the outline.")


def _tree(data: bytes) -> Element:
    from defusedxml.common import (
        DefusedXmlException,
        DTDForbidden,
    )
    from defusedxml.ElementTree import DefusedXMLParser

    parser = DefusedXMLParser(target=_Guarded(), forbid_dtd=True)
    try:
        parser.feed(data)
        root = parser.close()
    except DTDForbidden as error:
        raise FileRefused("it has a DOCTYPE, which isn't read.", PLAIN) from error
    except DefusedXmlException as error:
        raise FileRefused("it has entities or refers to another file.", PLAIN) from error
    except (ParseError, LookupError, UnicodeError) as error:
        raise FileRefused(f"it isn't whole XML ({error}).", PLAIN) from error
    if not isinstance(root, Element):
        raise FileRefused("it is empty.", PLAIN)
    return root


def _size(root: Element, unit: str | None) -> tuple[float, float, str]:
    """Millimetres in one user unit across and up, and where that comes from."""
    if unit is not None:
        return MM[unit], MM[unit], f"1 unit of the file is 1 {unit}, as told"
    width, height = (_millimetres(root.get(name)) for name in ("width", "height"))
    box = [float(found) for found in NUMBER.findall(root.get("viewBox", ""))]
    if len(box) == 4 and box[2] > 0 and box[3] > 0 and (width or height):
        across = width / box[2] if width else height / box[3]
        up = height / box[3] if height else across
        if not root.get("preserveAspectRatio", "").strip().startswith("none"):
            across = up = min(across, up)
        given = [root.get(name, "") for name in ("width", "height") if root.get(name)]
        pixels = _PIXELS if any(text.strip(" 0123456789.") in ("", "px") for text in given) else ""
        size = f"from its size {' by '.join(given)}{pixels}"
        return across, up, f"1 unit of the file is {across:.6g} mm, {size}"
    return MM["px"], MM["px"], f"the file states no size{_PIXELS}"


_PIXELS = " (1 px taken as 1/96 in; tell the unit if that is wrong)"


def _millimetres(text: str | None) -> float:
    """A width or height [mm]; 0 for none or a share of the page."""
    found = LENGTH.fullmatch(text or "")
    if not found or found[2] == "%":
        return 0.0
    return max(0.0, float(found[1])) * MM.get(found[2].lower() or "px", 0.0)


def _name(element: Element) -> str:
    """An element's name without its namespace."""
    return element.tag.rpartition("}")[2]


@dataclass(slots=True)
class _Walk:
    """A walk through the drawing that adds every shape it meets."""

    drawn: Drawn
    known: dict[str, Element]
    steps: int = 0

    def group(self, element: Element, place: Affine, depth: int = 0) -> None:
        """Everything in a group."""
        inner = place.after(transform(element))
        for child in element:
            self.element(child, inner, depth + 1)

    def element(self, element: Element, place: Affine, depth: int) -> None:
        """One element: a group, a shape, a reuse of another, or something left out."""
        self.steps += 1
        if self.steps > MOST_ELEMENTS or depth > DEEPEST:
            raise FileRefused("its reused parts multiply beyond measure.", PLAIN)
        name = _name(element)
        foreign = element.tag.startswith("{") and "svg" not in element.tag
        if name in UNDRAWN or not name or foreign:
            return
        if _hidden(element):
            self.drawn.left_out["hidden"] += 1
        elif name == "use":
            self.reuse(element, place, depth)
        elif name in GROUPS and not (name == "svg" and depth):
            self.group(element, place, depth)
        elif name in RUNS:
            self.shape(name, element, place.after(transform(element)))
        else:
            self.drawn.left_out[name] += 1

    def reuse(self, element: Element, place: Affine, depth: int) -> None:
        """What a `use` element points at, moved there."""
        to = next((element.get(link, "") for link in LINKS if element.get(link)), "")
        target = self.known.get(to[1:])
        if target is None or (_name(target) == "symbol" and target.get("viewBox")):
            self.drawn.left_out["use"] += 1
            return
        moved = Affine(e=number(element, "x"), f=number(element, "y"))
        there = place.after(transform(element)).after(moved)
        if _name(target) == "symbol":
            self.group(target, there, depth + 1)
        else:
            self.element(target, there, depth + 1)

    def shape(self, name: str, element: Element, place: Affine) -> None:
        """One shape's curves."""
        try:
            for curves, closed in RUNS[name](element, place):
                self.drawn.add(curves, closed)
        except FileRefused:
            raise
        except (ArithmeticError, LookupError, TypeError, ValueError, AttributeError) as error:
            raise FileRefused(f"its <{name}> can't be read.", PLAIN) from error


def _hidden(element: Element) -> bool:
    style = element.get("style", "").replace(" ", "")
    return (
        element.get("display") == "none"
        or element.get("visibility") in ("hidden", "collapse")
        or "display:none" in style
        or "visibility:hidden" in style
    )
