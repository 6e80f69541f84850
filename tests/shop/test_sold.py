"""The sold list: what it says is read, what is wrong in it is told with its line."""

import pytest

from hollowright.errors import InputError, Problems
from hollowright.handbook.metals import metal, metals
from hollowright.plan.buying import sold_bars, sold_sheets
from hollowright.shop.sold import COLUMNS, FORMS, default_sold, read_sold, sold_text

HEAD = ",".join(COLUMNS)


def test_every_metal_is_sold_as_sheet_tube_and_rod_in_any_size() -> None:
    sold = default_sold()
    for each in metals():
        assert sold_sheets(sold, each, 0.713, "hard", 0.03)
        assert sold_bars(sold, "tube", each, {"outside_diameter": 38.05, "wall": 1.01}, "", 0.03)
        assert sold_bars(sold, "rod", each, {"diameter": 1.63}, "annealed", 0.03)
    assert {row.form for row in sold.sizes} == set(FORMS)
    assert all(row.price is None for row in sold.sizes), "nobody can know a price"
    assert "common practice, no source" in sold_text()


def test_rows_are_read_in_the_units_of_the_bench() -> None:
    sold = read_sold(
        f"# mine\n{HEAD}\n"
        "sheet,brass or copper,Hard,20 ga,,,,6 in,12 in,18.50,Village Metals,rolled\n"
        "\n"
        "tube,C26000,,,1 1/2 in,18 bwg,,,1000,,,\n"
        "wire,sterling,,,,,1.6,,3000,9,,\n"
    )
    sheet, tube, wire = sold.sizes
    assert (sheet.metals, sheet.temper) == (("C26000", "C11000"), "hard")
    assert sheet.sizes["thickness"] == pytest.approx(0.8118, abs=1e-4)  # ASTM B258, 20
    assert [sheet.length, sheet.width, sheet.price] == pytest.approx([304.8, 152.4, 18.5])
    assert tube.sizes["outside_diameter"] == pytest.approx(38.1)
    assert tube.sizes["wall"] == pytest.approx(0.049 * 25.4)  # Birmingham gauge 18
    assert (wire.form, wire.sizes) == ("rod", {"diameter": 1.6})
    assert (sheet.line, tube.line) == (3, 5)


def test_columns_may_be_parted_by_semicolons_and_stand_in_any_order() -> None:
    (row,) = read_sold("length;width;form\n300;150;sheet\n").sizes
    assert (row.length, row.width, row.metals) == (300, 150, ())


def test_a_width_longer_than_the_length_is_the_length() -> None:
    (row,) = read_sold("form,width,length\nsheet,300,150\n").sizes
    assert (row.length, row.width) == (300, 150)


def test_all_faults_are_told_with_line_and_field() -> None:
    text = (
        f"{HEAD}\n"
        "sheet,bras,,0.7,,,,150,300,,,\n"
        "shet,brass,,,,,,150,300,,,\n"
        'sheet,brass,,,,,,"150,5",300,12 €,,\n'
        "tube,brass,,,,1,,,,,,\n"
        "rod,brass,,0.7,,,1,,300,,,\n"
    )
    with pytest.raises(Problems) as caught:
        read_sold(text)
    fields = [fault.field for fault in caught.value.each()]
    assert fields == [
        "sold, line 2, metal", "sold, line 3, form", "sold, line 4, width", "sold, line 4, price",
        "sold, line 5, length", "sold, line 5, outside_diameter", "sold, line 6, thickness",
    ]  # fmt: skip
    assert "Did you mean" in str(caught.value)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "empty"),
        ("form,length,colour\n", "colour"),
        ("form,metal\nsheet,brass\n", "no column 'length'"),
        ("form,length,length\n", "twice"),
        ('form,length\n"rod,300\n', "isn't CSV"),
        ("form,width,length\nsheet,150,300,\n,,,7\n", "form"),
        ("form,length\nrod,300,7\n", "3 fields"),
        ("form,length\nrod,0\n", "0 isn't possible"),
        ("form,length\nrod,nan\n", "isn't a length"),
    ],
)
def test_a_list_that_cant_be_read_says_why(text: str, said: str) -> None:
    with pytest.raises(InputError) as caught:
        read_sold(text)
    assert said in str(caught.value)


def test_what_is_sold_of_another_metal_thickness_or_temper_isnt_offered() -> None:
    sold = read_sold(
        f"{HEAD}\n"
        "sheet,brass,,0.71,,,,150,300,5,A,\n"
        "sheet,brass,,0.71,,,,150,300,4,B,\n"
        "sheet,brass,hard,0.70,,,,300,600,,,\n"
        "sheet,copper,,0.71,,,,300,300,,,\n"
        "sheet,brass,,0.9,,,,300,300,,,\n"
    )
    found = sold_sheets(sold, metal("brass"), 0.72, "annealed", 0.03)
    assert [each.id for each in found] == ["buy-300x150"]
    (sheet,) = found
    assert (sheet.cost, sheet.supply, sheet.origin) == (4.0, None, "to buy")
    assert sheet.label == "sheet 300 x 150 mm, B"
    assert len(sold_sheets(sold, metal("brass"), 0.72, "", 0.03)) == 2


def test_bars_are_offered_by_their_section() -> None:
    sold = read_sold(
        f"{HEAD}\n"
        "tube,brass,,,38.1,1.02,,,500,,,\n"
        "tube,brass,,,38.1,,,,1000,,,\n"
        "tube,brass,,,40,1.02,,,2000,,,\n"
    )
    section = {"outside_diameter": 38.08, "wall": 1.01}
    found = sold_bars(sold, "tube", metal("brass"), section, "", 0.03)
    assert [each.length for each in found] == [500, 1000]
    assert (found[0].square_ends, found[0].supply) == (2, None)
    assert sold_bars(sold, "rod", metal("brass"), {"diameter": 3.0}, "", 0.03) == ()
