"""Smithells Metals Reference Book, 8th edition, Table 22.7: annealed copper strip (seen).

Typical 0.2 % proof stress and modulus at room temperature, printed in whole MPa and GPa: exact.
"""

from hollowright.handbook.metals import metal


def test_annealed_tough_pitch_copper() -> None:
    assert metal("C11000").yield_annealed.value == 54
    assert metal("C11000").youngs_modulus.value == 117


def test_the_softer_oxygen_free_figure_is_told() -> None:
    assert "48" in metal("C11000").yield_annealed.note
