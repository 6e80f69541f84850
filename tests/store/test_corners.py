"""A sheet's outline told by its corners: both spellings, units, either way round, what is wrong."""

import pytest

from hollowright.errors import HollowrightError
from hollowright.store.items import NewItem
from hollowright.store.reading import read_changes, read_item

SHEET = {"form": "sheet", "metal": "C26000", "thickness": "0.8"}
NOTCHED = [(0, 0), (160, 0), (160, 50), (60, 50), (60, 90), (0, 90)]


def told(corners: object) -> NewItem:
    return read_item(SHEET | {"corners": corners})


@pytest.mark.parametrize(
    "corners",
    [
        "0,0 160,0 160,50 60,50 60,90 0,90",
        "0, 0; 160, 0; 160, 50; 60, 50; 60, 90; 0, 90",
        "0 0; 160 0; 160 50; 60 50; 60 90; 0 90",
        "0,90 60,90 60,50 160,50 160,0 0,0",  # the other way round
        "0,0 160,0 160,50 60,50 60,90 0,90 0,0",  # closed once more
        "10,5 170,5 170,55 70,55 70,95 10,95",  # from anywhere
        "0,0 16 cm,0 16 cm,50mm 60,50 60,90 0,90",
        [list(each) for each in NOTCHED],
    ],
)
def test_an_outline_by_its_corners(corners: object) -> None:
    """Its area by the surveyor's formula over the same corners."""
    pairs = zip(NOTCHED, [*NOTCHED[1:], NOTCHED[0]], strict=True)
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2
    item = told(corners)
    assert item.outline is not None
    assert item.outline.area == pytest.approx(area)
    assert item.outline.bounds == pytest.approx((0, 0, 160, 90))
    assert (item.length, item.width) == pytest.approx((160, 90))


def test_inches() -> None:
    assert told("0,0 6 in,0 6 in,3 in").area == pytest.approx(25.4**2 * 9)
    assert told('0,0 6",0 6",3"').area == pytest.approx(25.4**2 * 9)


@pytest.mark.parametrize(
    ("corners", "word"),
    [
        ("0,0 160,0", "three corners"),
        ("0,0 160,0 160", "isn't a corner"),
        ("0,0 160,0 160,50 lots,9", "isn't a corner"),
        ("0 0; 160 0; 160", "isn't a point"),
        ("0,0 100,100 100,0 0,100", "crosses itself"),
        ("0,0 50,0 100,0", "crosses itself"),
        ("0,0 50,0 50,0 0,50", "in one place"),
        ("-5,0 50,0 50,50", "is negative"),
        ("0,0 1e9,0 5,5", "isn't a corner"),
        (7, "isn't a list of points"),
    ],
)
def test_what_is_wrong_names_the_corners(corners: object, word: str) -> None:
    with pytest.raises(HollowrightError, match=word) as fault:
        told(corners)
    assert fault.value.field == "corners"


def test_beside_what_says_the_same() -> None:
    for other in ({"length": "100"}, {"size": "160 x 90"}, {"outline": "{}"}):
        with pytest.raises(HollowrightError):
            read_item(SHEET | {"corners": "0,0 160,0 160,50"} | other)
    old = told("0,0 160,0 160,50")
    assert read_changes(old, {"corners": ""}) == {}
    assert read_changes(old, {"corners": "0,0 10,0 10,10"})["outline"].area == pytest.approx(50)
