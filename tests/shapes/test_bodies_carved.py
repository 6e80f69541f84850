"""Bodies less others: what was taken out against numerical quadrature; lines where they meet."""

import dataclasses
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from hollowright.shapes.carved import Carved
from hollowright.shapes.extruded import Extruded
from hollowright.shapes.meshes import creases
from hollowright.shapes.outline import rectangle
from hollowright.shapes.solids import Turned, disc, ring, tube
from tests.shapes.random_bodies import read

MAIN = tube("main", 40, 1.2, 90)


def bore(radius, angle=math.pi / 2, offset=0.0):
    """A round hole to x > 0 through the middle of the main's length, its axis at an angle to it."""
    way = (math.sin(angle), 0.0, math.cos(angle))
    profile = ((0, 0), (radius, 0), (radius, 70), (0, 70))
    return Turned("bore", profile, (0.0, offset, 45.0), way)


def taken(radius, angle, offset, outer=20.0, wall=1.2):
    """Volume that a round bore takes out of one side of a tube [mm3], slice by slice along y.

    In the plane y the bore is a strip 2 sqrt(r2 - (y - offset)2) / sin(angle) long on the main's
    axis, and the metal is sqrt(R2 - y2) - sqrt((R - wall)2 - y2) thick.
    """

    def across(t):
        y = offset + radius * math.sin(t)
        strip = 2 * radius * math.cos(t) / math.sin(angle)
        metal = math.sqrt(outer**2 - y * y) - math.sqrt((outer - wall) ** 2 - y * y)
        return strip * metal * radius * math.cos(t)

    return quad(across, -math.pi / 2, math.pi / 2)[0]


@given(st.floats(2, 11), st.floats(0.9, math.pi - 0.9), st.floats(-6, 6))
@settings(max_examples=25, deadline=None)
def test_what_a_bore_takes_out_of_a_tube(radius, angle, offset):
    """Both circles are polygons within 0.005 mm: some 0.0012 of the hole's size at most here."""
    body = Carved("main", MAIN, (bore(radius, angle, offset),))
    out = taken(radius, angle, offset)
    assert MAIN.volume - body.volume == pytest.approx(out, rel=0.004)
    assert body.volume == pytest.approx(MAIN.volume - out, rel=3e-4)
    read(body.mesh())


def test_the_mesh_tends_to_the_quadrature():
    body = Carved("main", MAIN, (bore(7, 1.1, 3),))
    exact = MAIN.volume - taken(7, 1.1, 3)
    errors = [exact - body.mesh(tolerance).volume for tolerance in (0.016, 0.004, 0.001)]
    assert errors[0] / errors[1] == pytest.approx(4, abs=0.4)
    assert errors[1] / errors[2] == pytest.approx(4, abs=0.4)


def test_the_surface_loses_two_openings_and_gains_the_edge():
    """A bore of radius b square through the wall: quadrature of all three."""
    b, outer, inner = 7.0, 20.0, 18.8

    def opening(radius):
        def strip(y):
            return 2 * math.sqrt(b * b - y * y) * radius / math.sqrt(radius**2 - y * y)

        return quad(strip, -b, b)[0]

    def depth(t):
        y = b * math.sin(t)
        return b * (math.sqrt(outer**2 - y * y) - math.sqrt(inner**2 - y * y))

    change = quad(depth, 0, math.tau)[0] - opening(outer) - opening(inner)
    body = Carved("main", MAIN, (bore(b),))
    assert body.surface - MAIN.surface == pytest.approx(change, rel=0.003)


def test_two_holes_take_out_twice_as_much_and_a_stated_volume_is_said():
    other = dataclasses.replace(bore(5), direction=(-1.0, 0.0, 0.0))
    both = Carved("main", MAIN, (bore(5), other))
    one = Carved("main", MAIN, (bore(5),))
    assert MAIN.volume - both.volume == pytest.approx(2 * (MAIN.volume - one.volume), rel=1e-3)
    stated = Carved("main", MAIN, (bore(5),), 1234.5, 678.9)
    assert (stated.volume, stated.surface) == (1234.5, 678.9)
    assert stated.moved((1, 2, 3)).volume == 1234.5


def test_a_notch_with_flat_sides_is_exact():
    plate = Extruded("plate", rectangle(30, 20), 2)
    notch = Extruded("notch", rectangle(5, 6), 9, (-1, 4, -3))
    body = Carved("plate", plate, (notch,))
    assert body.volume == pytest.approx(1200 - 4 * 6 * 2, rel=1e-12)
    assert body.surface == pytest.approx(plate.surface - 2 * 24 + 2 * 2 * 4, rel=1e-12)
    mesh = body.mesh()
    drawn = sum(edge_length(mesh, line) for line in mesh.lines)
    assert drawn == pytest.approx(2 * (100 + 2 * 4) + 8 * 2)  # round both ends, and eight uprights


def edge_length(mesh, line):
    return math.dist(mesh.vertices[line[0]], mesh.vertices[line[1]])


def test_both_edges_of_a_hole_are_drawn_and_nothing_of_the_skin():
    plain, body = MAIN.mesh(0.01), Carved("main", MAIN, (bore(7),)).mesh(0.01)
    rims = sum(edge_length(plain, line) for line in plain.lines)
    drawn = sum(edge_length(body, line) for line in body.lines)

    def edge(radius):
        def speed(t):
            y, slope = 7 * math.sin(t), 7 * math.cos(t)
            return math.hypot(7, y * slope / math.sqrt(radius**2 - y * y))

        return quad(speed, 0, math.tau)[0]

    assert drawn - rims == pytest.approx(edge(20) + edge(18.8), rel=2e-3)
    assert set(creases(body)) <= set(body.lines)


def test_a_seam_is_left_where_metal_is_left():
    bent = ring("ring", 40, 1.2, 90, seam=0.0)
    body = Carved("ring", bent, (bore(7),))
    bare = Carved("ring", dataclasses.replace(bent, seams=()), (bore(7),))
    whole, less = (
        sum(edge_length(m, line) for line in m.lines) for m in (body.mesh(), bare.mesh())
    )
    assert whole - less == pytest.approx(2 * (90 - 14) + 2 * 1.2, rel=1e-3)


def test_a_carved_body_can_be_carved():
    once = Carved("main", MAIN, (bore(5),))
    twice = Carved("main", once, (dataclasses.replace(bore(5), direction=(-1.0, 0.0, 0.0)),))
    both = Carved("main", MAIN, (bore(5), dataclasses.replace(bore(5), direction=(-1.0, 0.0, 0.0))))
    assert twice.volume == pytest.approx(both.volume, rel=1e-6)
    assert len(twice.mesh().lines) == len(both.mesh().lines)
    read(twice.mesh())


def test_nothing_left_is_refused():
    with pytest.raises(ValueError, match="nothing is left"):
        Carved("pin", disc("pin", 3, 2), (disc("all", 9, 9).moved((0, 0, -3)),)).mesh()
