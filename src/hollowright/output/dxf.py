"""Writes a drawing as DXF (R2010, millimetres): arcs stay arcs, each kind of line has its layer.

Imported where it is used: the DXF library takes most of a second to load.
"""

from __future__ import annotations

import io
import math
import re
from collections.abc import Iterable, Sequence

import ezdxf
from ezdxf import units
from ezdxf.document import Drawing as Document
from ezdxf.enums import TextEntityAlignment
from ezdxf.layouts import Modelspace

from hollowright.output.dimensions import drawn
from hollowright.output.drawing import LINES, Drawing, Label, Path
from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Arc, Curve, EllipseArc, Line, Point

TEXT_LAYER = "text"
DIMENSION_LAYER = "dimension"
SAME = 1e-6  # how near two ends are one point [mm]
FLAT = 0.01  # how far a filled shape's edge may be off [mm]

_CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\ud800-\udfff]")
_ALIGNED = {
    "start": TextEntityAlignment.LEFT,
    "middle": TextEntityAlignment.CENTER,
    "end": TextEntityAlignment.RIGHT,
}


def dxf(drawing: Drawing) -> bytes:
    """The drawing as a DXF file; the same drawing always gives the same bytes."""
    ezdxf.options.write_fixed_meta_data_for_testing = True
    document = ezdxf.new("R2010", units=units.MM)
    document.header["$MEASUREMENT"] = 1
    _set_up(document, drawing)
    space = document.modelspace()
    for item in drawing.items:
        parts = (item,) if isinstance(item, Path | Label) else drawn(item)
        for part in parts:
            if isinstance(part, Label):
                _add_label(space, part)
            elif isinstance(part, Path):
                _add_path(space, part)
    document.set_modelspace_vport(drawing.height, (drawing.width / 2, drawing.height / 2))
    stream = io.StringIO(newline="\n")
    document.write(stream)
    return stream.getvalue().encode("utf-8")


def plain(text: str) -> str:
    """A text that a DXF reader shows as it was: no line breaks, no control codes.

    >>> plain("50%%u ^J") , plain("⌀38.05")
    ('50% %u ^ J', '%%c38.05')
    """
    safe = _CONTROL.sub(" ", text).replace("^", "^ ")
    while "%%" in safe:
        safe = safe.replace("%%", "% %")
    return safe.replace("⌀", "%%c")


def _set_up(document: Document, drawing: Drawing) -> None:
    """Line types and layers, with the weights of the drawing."""
    for role, style in LINES.items():
        dashes = drawing.dashes(role)
        name = "CONTINUOUS"
        if dashes:
            name = f"HOLLOWRIGHT_{role.upper()}"
            signed = [part if i % 2 == 0 else -part for i, part in enumerate(dashes)]
            document.linetypes.add(name, [sum(dashes), *signed])
        if style.layer not in document.layers:
            weight = round(drawing.weight(role) * 100)
            document.layers.add(style.layer, linetype=name, lineweight=_standard(weight))
    document.layers.add(TEXT_LAYER)


def _standard(hundredths: int) -> int:
    """The nearest line weight that the format knows [1/100 mm]."""
    return min((13, 18, 25, 35, 50, 70, 100), key=lambda weight: abs(weight - hundredths))


def _add_label(space: Modelspace, label: Label) -> None:
    layer = DIMENSION_LAYER if label.role == "dimension" else TEXT_LAYER
    entity = space.add_text(
        plain(label.text),
        height=label.height,
        rotation=math.degrees(label.angle),
        dxfattribs={"layer": layer},
    )
    entity.set_placement(label.at, align=_ALIGNED[label.anchor])


def _add_path(space: Modelspace, path: Path) -> None:
    attributes = {"layer": LINES[path.role].layer}
    if path.filled:
        _add_filled(space, path, attributes)
        return
    for chain in chains(path.curves):
        if all(isinstance(curve, Line | Arc) for curve in chain):
            _add_lines_and_arcs(space, chain, attributes)
        else:
            for curve in chain:
                _add_curve(space, curve, attributes)


def chains(curves: Sequence[Curve]) -> list[list[Curve]]:
    """Curves grouped into runs in which one begins where the one before ends."""
    found: list[list[Curve]] = []
    for curve in curves:
        if found and math.dist(found[-1][-1].end, curve.start) <= SAME and not _closed(found[-1]):
            found[-1].append(curve)
        else:
            found.append([curve])
    return found


def _closed(chain: Sequence[Curve]) -> bool:
    return math.dist(chain[0].start, chain[-1].end) <= SAME


def _add_lines_and_arcs(
    space: Modelspace, chain: Sequence[Curve], attributes: dict[str, str]
) -> None:
    """One curve as a line, arc or circle; several as one polyline whose arcs are bulges."""
    if len(chain) == 1:
        _add_curve(space, chain[0], attributes)
        return
    closed = _closed(chain)
    points = [(*curve.start, _bulge(curve)) for curve in chain]
    if not closed:
        points.append((*chain[-1].end, 0.0))
    space.add_lwpolyline(points, format="xyb", close=closed, dxfattribs=attributes)


def _bulge(curve: Curve) -> float:
    return math.tan(curve.sweep / 4) if isinstance(curve, Arc) else 0.0


def _add_curve(space: Modelspace, curve: Curve, attributes: dict[str, str]) -> None:
    if isinstance(curve, Line):
        space.add_line(curve.start, curve.end, dxfattribs=attributes)
    elif isinstance(curve, Arc):
        _add_arc(space, curve, attributes)
    elif isinstance(curve, EllipseArc):
        _add_ellipse(space, curve, attributes)
    elif isinstance(curve, Cubic):
        space.add_open_spline(curve.controls, degree=3, dxfattribs=attributes)
    else:
        space.add_lwpolyline(curve.points(FLAT), dxfattribs=attributes)


def _add_arc(space: Modelspace, arc: Arc, attributes: dict[str, str]) -> None:
    if arc.closed:
        space.add_circle(arc.centre, arc.radius, dxfattribs=attributes)
        return
    first, last = sorted((arc.start_angle, arc.start_angle + arc.sweep))
    degrees = (math.degrees(first), math.degrees(last))
    space.add_arc(arc.centre, arc.radius, *degrees, dxfattribs=attributes)


def _add_ellipse(space: Modelspace, arc: EllipseArc, attributes: dict[str, str]) -> None:
    """An ellipse: its longer half axis first, run anticlockwise, as the format wants it."""
    (a, b), start, sweep = (arc.major, arc.minor), arc.start_angle, arc.sweep
    if math.hypot(*b) > math.hypot(*a):
        a, b, start = b, (-a[0], -a[1]), start - math.pi / 2
    if a[0] * b[1] - a[1] * b[0] < 0:
        start, sweep = -start, -sweep
    first, last = sorted((start, start + sweep))
    space.add_ellipse(
        arc.centre,
        major_axis=(*a, 0.0),
        ratio=math.hypot(*b) / math.hypot(*a),
        start_param=0.0 if arc.closed else first,
        end_param=math.tau if arc.closed else last,
        dxfattribs=attributes,
    )


def _add_filled(space: Modelspace, path: Path, attributes: dict[str, str]) -> None:
    edge = _edge(path.curves)
    if len(edge) == 3:
        space.add_solid(edge, dxfattribs=attributes)
        return
    hatch = space.add_hatch(dxfattribs=attributes)
    hatch.paths.add_polyline_path(edge, is_closed=True)


def _edge(curves: Iterable[Curve]) -> list[Point]:
    return [point for curve in curves for point in curve.points(FLAT)[:-1]]
